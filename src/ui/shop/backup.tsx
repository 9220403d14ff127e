import { useState } from 'react'
import { usualBackupDays } from '../../app/remind.ts'
import { useActions, useApp } from '../app.ts'
import { Pick } from '../fields/choice.tsx'
import { OpenFile } from '../fields/open-file.tsx'
import { backupWords } from '../jobs/backup-words.ts'
import { Rescue } from '../shell/rescue.tsx'
import { count } from '../words.ts'
import { Room } from './room.tsx'
import { useSaveAll } from './save-all.ts'
import type { ShopPart } from './shop.tsx'

const choices = [1, 7, 14, 30, 90, 0]

const everyWords = (days: number): string =>
  days === 0 ? 'never' : days === 1 ? 'after a day' : `after ${days} days`

/** Everything on this device in one file, and back; how safe it lies here. */
export function Backup({ shop, change }: ShopPart) {
  const jobs = useApp((state) => state.jobs)
  const backup = useApp((state) => state.backup)
  const { openBackup } = useActions()
  const [said, setSaid] = useState<readonly string[]>([])
  const saveAll = useSaveAll()
  const open = async (text: string, name: string) => {
    setSaid(backupWords(name, await openBackup(text)))
  }
  const every = shop.backupDays ?? usualBackupDays
  return (
    <section className="shop-part" aria-labelledby="backup-head">
      <h2 id="backup-head">Backup</h2>
      <p className="dim">
        Everything is kept on this device only. A browser may throw away what a device keeps, and a device may
        fall off the bench: save a file now and then, and keep it somewhere else. The rack and all that was
        checked off go along.
      </p>
      <p>
        {backup?.saved
          ? `Last saved on ${backup.at.slice(0, 10)}, by this device’s clock.`
          : 'Nothing was saved from this device yet.'}
      </p>
      <p className="keys-row">
        <button type="button" onClick={() => void saveAll()}>
          Save everything to a file ({count(jobs.length, 'job')})
        </button>
        <OpenFile label="Open a backup or a job" onText={open} />
      </p>
      {said.length > 0 && (
        <div className="warning" role="status">
          {said.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      )}
      <div className="shop-fields">
        <Pick
          label="Remind of a backup"
          hint="Under Jobs, when something has changed since. Sooner where the browser does not promise to keep it."
          options={[...new Set([...choices, every])].map((days) => ({
            value: String(days),
            label: everyWords(days),
          }))}
          value={String(every)}
          onChange={(days) => change({ backupDays: Number(days) })}
        />
      </div>
      <Room />
      <details className="shop-item">
        <summary>When something is broken</summary>
        <p>
          A rescue file holds every row as it lies on this device, also what cannot be read. “Open a backup or
          a job” takes of it what can be read. Should the app itself not start, the page rescue.html beside it
          saves the same file.
        </p>
        <Rescue />
        <p>
          <a className="button" href="./rescue.html">
            Open rescue.html
          </a>
        </p>
      </details>
    </section>
  )
}
