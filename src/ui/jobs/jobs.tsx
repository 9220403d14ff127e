import './jobs.css'
import { useState } from 'react'
import type { CarriedAll as All } from '../../app/state.ts'
import type { Job } from '../../core/job.ts'
import { useActions, useApp } from '../app.ts'
import { textOf } from '../fields/files.ts'
import { OpenFile } from '../fields/open-file.tsx'
import { useFilesGiven } from '../shell/given.ts'
import { go } from '../shell/route.ts'
import { JobCard } from './card.tsx'
import { CarriedAll } from './carried-all.tsx'
import { NewJob } from './new-job.tsx'
import { Receive } from './receive.tsx'
import { Remind } from './remind.tsx'
import { Rivals } from './rivals.tsx'
import { Samples } from './samples.tsx'
import { Unread } from './unread.tsx'

/** A job that was taken from the list, with its file: Undo opens it again. */
interface Removed {
  readonly name: string
  readonly text: string
}

// Kept while the page is open, so that Undo is still there after a look at another station.
let lastRemoved: Removed | null = null

/** Which one? All jobs, a new one, one from a file. */
export function Jobs() {
  const jobs = useApp((state) => state.jobs)
  const samples = useApp((state) => state.samples)
  const actions = useActions()
  const [removed, setRemoved] = useState<Removed | null>(lastRemoved)
  const [receiving, setReceiving] = useState(false)
  const [faults, setFaults] = useState<readonly string[]>([])
  const [backup, setBackup] = useState<{ readonly name: string; readonly all: All } | null>(null)

  const remember = (what: Removed | null) => {
    lastRemoved = what
    setRemoved(what)
  }
  const remove = async (job: Job) => {
    const text = actions.fileOf(job.id)
    await actions.removeJob(job.id)
    remember({ name: job.name, text })
  }
  const open = async (text: string, name: string) => {
    const { job, rival, problems } = await actions.openFile(text)
    if (problems[0]?.code === 'is-backup') {
      const looked = await actions.lookAtGiven(text)
      if (looked.ok && 'all' in looked.value) return setBackup({ name, all: looked.value.all })
    }
    setFaults((old) => [...old, ...problems.map((problem) => `${name}: ${problem.text}`)])
    // A second version waits here to be chosen from.
    if (job !== undefined && !rival && problems.length === 0) go({ station: 'sizes', job })
  }
  const undo = async () => {
    if (!removed) return
    const { problems } = await actions.openFile(removed.text)
    setFaults(problems.map(({ text }) => text))
    if (problems.length === 0) remember(null)
  }
  const start = async (kind: string) => go({ station: 'sizes', job: await actions.newJob(kind) })

  const openAll = async (files: readonly File[]) => {
    setFaults([])
    for (const file of files) {
      const text = await textOf(file)
      if (text.ok) await open(text.value, file.name)
      else setFaults((old) => [...old, ...text.problems.map((problem) => problem.text)])
    }
  }
  useFilesGiven((files) => void openAll(files))

  return (
    <div className="jobs">
      <header className="jobs-head">
        <h1>{jobs.length > 0 ? 'Jobs' : 'No job yet'}</h1>
        <OpenFile
          label="Open a file"
          onText={(text, name) => {
            setFaults([])
            return open(text, name)
          }}
        />
        <button type="button" aria-expanded={receiving} onClick={() => setReceiving(!receiving)}>
          Read codes
        </button>
      </header>
      {receiving && <Receive onDone={() => setReceiving(false)} />}
      {backup && <CarriedAll {...backup} onDone={() => setBackup(null)} />}
      {faults.length > 0 && (
        <div className="problem" role="alert">
          {faults.map((text) => (
            <p key={text}>{text}</p>
          ))}
          <p className="dim">Nothing was changed.</p>
        </div>
      )}
      {removed && (
        <div className="banner" role="status">
          <p>{removed.name} is off the list. What was cut for it stays in the log.</p>
          <button type="button" onClick={() => void undo()}>
            Undo: bring {removed.name} back
          </button>
        </div>
      )}
      <Remind />
      <Unread />
      <Rivals />
      {jobs.length === 0 && samples.length > 0 && <Samples samples={samples} first />}
      {jobs.length > 0 && (
        <ul className="job-cards">
          {jobs.map((job) => (
            <JobCard key={job.id} job={job} onRemove={() => void remove(job)} />
          ))}
        </ul>
      )}
      <NewJob onStart={(kind) => void start(kind)} />
      {jobs.length > 0 && samples.length > 0 && <Samples samples={samples} />}
    </div>
  )
}
