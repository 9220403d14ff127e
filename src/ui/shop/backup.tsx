import { useState } from 'react'
import { useActions, useApp } from '../app.ts'
import { saveFile } from '../fields/files.ts'
import { OpenFile } from '../fields/open-file.tsx'
import { count } from '../words.ts'
import { readBackup, writeBackup } from './backup-file.ts'

/** Everything on this device in one file, and back. */
export function Backup() {
  const jobs = useApp((state) => state.jobs)
  const { fileOf, openFile } = useActions()
  const [said, setSaid] = useState<readonly string[]>([])
  const save = () =>
    saveFile('shop-and-all-jobs.tube-backup.json', writeBackup(jobs.map(({ id }) => fileOf(id))))
  const open = async (text: string, name: string) => {
    const files = readBackup(text)
    if (!files.ok) return setSaid(files.problems.map((problem) => `${name}: ${problem.text}`))
    const lines: string[] = []
    let opened = 0
    for (const file of files.value) {
      const { problems } = await openFile(file)
      if (problems.length === 0) opened += 1
      lines.push(...problems.map((problem) => `${name}: ${problem.text}`))
    }
    setSaid([`${count(opened, 'job')} opened from ${name}.`, ...lines])
  }
  return (
    <section className="shop-part" aria-labelledby="backup-head">
      <h2 id="backup-head">Backup</h2>
      <p className="dim">
        Everything is kept on this device only. A browser may throw away what a device keeps, and a device may
        fall off the bench: save a file now and then, and keep it somewhere else.
      </p>
      <p className="keys-row">
        <button type="button" disabled={jobs.length === 0} onClick={save}>
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
