import { useState } from 'react'
import { useActions, useApp } from '../app.ts'
import { saveFile } from '../fields/files.ts'
import { OpenFile } from '../fields/open-file.tsx'
import { count } from '../words.ts'

/** Everything on this device in one file, and back. */
export function Backup() {
  const jobs = useApp((state) => state.jobs)
  const { backup, openBackup } = useActions()
  const [said, setSaid] = useState<readonly string[]>([])
  const save = () => saveFile('shop-and-all-jobs.tube-backup.json', backup())
  const open = async (text: string, name: string) => {
    const { jobs: opened, ownShop, problems } = await openBackup(text)
    if (problems.length > 0) return setSaid(problems.map((problem) => `${name}: ${problem.text}`))
    setSaid([
      `${count(opened.length, 'job')} opened from ${name}.`,
      ...(ownShop ? ['The shop in it is another one; the shop on this device stays as it is.'] : []),
    ])
  }
  return (
    <section className="shop-part" aria-labelledby="backup-head">
      <h2 id="backup-head">Backup</h2>
      <p className="dim">
        Everything is kept on this device only. A browser may throw away what a device keeps, and a device may
        fall off the bench: save a file now and then, and keep it somewhere else. The rack and all that was
        checked off go along.
      </p>
      <p className="keys-row">
        <button type="button" onClick={save}>
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
    </section>
  )
}
