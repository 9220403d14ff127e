import { useState } from 'react'
import type { CarriedAll as All } from '../../app/state.ts'
import { useActions } from '../app.ts'
import { count } from '../words.ts'
import { backupWords } from './backup-words.ts'

/** A backup that was given where a job was looked for: what it holds, before anything of it is taken. */
export function CarriedAll(props: { readonly all: All; readonly name: string; readonly onDone: () => void }) {
  const { all, name, onDone } = props
  const { openBackup } = useActions()
  const [said, setSaid] = useState<readonly string[] | null>(null)
  return (
    <div className="carried">
      <p>
        <strong>{name}</strong>
      </p>
      <p>
        A backup of {all.shop ?? 'a shop'}: {count(all.jobs, 'job')} and{' '}
        {count(all.facts, 'cut or entry', 'cuts and entries')} of the log
        {all.left > 0 && `; ${count(all.left, 'row')} of it cannot be read`}. What is on this device stays;
        where both differ, you choose.
      </p>
      {said ? (
        <div className="warning" role="status">
          {said.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <button type="button" onClick={onDone}>
            Good
          </button>
        </div>
      ) : (
        <p className="keys-row">
          <button
            type="button"
            className="button go"
            onClick={async () => setSaid(backupWords(name, await openBackup(all.text)))}
          >
            Open this backup
          </button>
          <button type="button" onClick={onDone}>
            Leave it
          </button>
        </p>
      )}
    </div>
  )
}
