import './jobs.css'
import { useEffect, useState } from 'react'
import type { Looked } from '../../app/state.ts'
import type { Result } from '../../core/result.ts'
import { useActions } from '../app.ts'
import { textOf } from '../fields/files.ts'
import { go, hrefOf, type Place } from '../shell/route.ts'
import { CarriedAll } from './carried-all.tsx'
import { CarriedJob } from './carried-job.tsx'

interface One {
  readonly key: string
  readonly name: string
  readonly looked: Result<Looked>
}

const jobs: Place = { station: 'jobs' }

/** What another program of this device shared: looked at here, opened only when the person says so. */
export function Shared() {
  const { sharedFiles, forgetShared, lookAtGiven } = useActions()
  const [open, setOpen] = useState<readonly One[] | null>(null)
  useEffect(() => {
    let gone = false
    const look = async (file: File, at: number): Promise<One> => {
      const text = await textOf(file)
      return { key: `${at}`, name: file.name, looked: text.ok ? await lookAtGiven(text.value) : text }
    }
    void sharedFiles()
      .then((files) => Promise.all(files.map(look)))
      .catch(() => [])
      .then((all) => {
        if (!gone) setOpen(all)
      })
    return () => {
      gone = true
    }
  }, [sharedFiles, lookAtGiven])

  if (open === null)
    return (
      <p className="plain-page dim" role="status">
        Loading …
      </p>
    )
  const done = async (one: One, where: Place) => {
    const rest = open.filter((other) => other !== one)
    setOpen(rest)
    if (rest.some(({ looked }) => looked.ok)) return
    await forgetShared().catch(() => undefined)
    go(where)
  }
  return (
    <div className="plain-page">
      <h1>Shared with Longpoint</h1>
      {open.length === 0 && (
        <p role="alert">
          Nothing came with it, or this device had no room for it. Save it as a file, and choose “Open a file”
          under Jobs.
        </p>
      )}
      {open.map((one) => (
        <Given key={one.key} one={one} onDone={(where) => void done(one, where)} />
      ))}
      <p>
        <a className="button" href={hrefOf(jobs)}>
          All jobs
        </a>
      </p>
    </div>
  )
}

function Given({ one, onDone }: { readonly one: One; readonly onDone: (where: Place) => void }) {
  const { name, looked } = one
  if (!looked.ok)
    return (
      <p className="problem" role="alert">
        {name}: {looked.problems.map(({ text }) => text).join(' ')}
      </p>
    )
  if ('job' in looked.value) return <CarriedJob carried={looked.value.job} onDone={onDone} />
  return <CarriedAll all={looked.value.all} name={name} onDone={() => onDone(jobs)} />
}
