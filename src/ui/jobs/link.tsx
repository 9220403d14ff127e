import './jobs.css'
import { useEffect, useState } from 'react'
import type { Carried } from '../../app/state.ts'
import type { Result } from '../../core/result.ts'
import { useActions } from '../app.ts'
import { go } from '../shell/route.ts'
import { CarriedJob } from './carried-job.tsx'

/** A job that a link carries: looked at here, opened only when the person says so. */
export function Link({ link }: { readonly link: string }) {
  const { lookAtLink } = useActions()
  const [looked, setLooked] = useState<Result<Carried> | null>(null)
  useEffect(() => {
    let gone = false
    setLooked(null)
    void lookAtLink(link).then((result) => {
      if (!gone) setLooked(result)
    })
    return () => {
      gone = true
    }
  }, [link, lookAtLink])
  if (!looked)
    return (
      <p className="plain-page dim" role="status">
        Loading …
      </p>
    )
  return (
    <div className="plain-page">
      <h1>{looked.ok ? 'A job came by link' : 'This link cannot be opened'}</h1>
      {looked.ok ? (
        <CarriedJob carried={looked.value} onDone={go} />
      ) : (
        <>
          {looked.problems.map(({ text }) => (
            <p key={text} role="alert">
              {text}
            </p>
          ))}
          <p>
            <a className="button" href="#/">
              All jobs
            </a>
          </p>
        </>
      )}
    </div>
  )
}
