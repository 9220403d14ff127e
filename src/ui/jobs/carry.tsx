import { useEffect, useMemo, useState } from 'react'
import type { Job } from '../../core/job.ts'
import { useActions } from '../app.ts'
import { Choice } from '../fields/choice.tsx'
import { fileName } from '../fields/files.ts'
import { CodeRow } from './code-row.tsx'

type Made = {
  readonly link: string | null
  readonly codes: readonly string[] | null
  readonly said: readonly string[]
}

const nothing: Made = { link: null, codes: null, said: [] }

/** The file as this browser lets it go to other programs of the device: many share text, and nothing named .json. */
function shareable(text: string, name: string): File | undefined {
  if (typeof navigator.canShare !== 'function') return undefined
  return [
    new File([text], fileName(name, 'tube-job.json'), { type: 'application/json' }),
    new File([text], fileName(name, 'tube-job.txt'), { type: 'text/plain' }),
  ].find((file) => navigator.canShare({ files: [file] }))
}

/** A job to another device with no network between: codes for its camera, a link, or the device's own sharing. */
export function Carry({ job }: { readonly job: Job }) {
  const { linkOf, codesOf, fileOf } = useActions()
  const [what, setWhat] = useState<'job' | 'whole'>('job')
  const [made, setMade] = useState<Made>(nothing)
  const [copied, setCopied] = useState('')
  useEffect(() => {
    let gone = false
    setCopied('')
    const whole = what === 'whole'
    void Promise.all([linkOf(job.id, whole), codesOf(job.id, whole)]).then(([link, codes]) => {
      if (gone) return
      const problems = [link, codes].flatMap((result) => (result.ok ? [] : result.problems))
      setMade({
        link: link.ok ? `${location.href.split('#')[0]}#/open/${link.value}` : null,
        codes: codes.ok ? codes.value : null,
        said: problems.map(({ text }) => text),
      })
    })
    return () => {
      gone = true
    }
  }, [job, what, linkOf, codesOf])

  const copy = async (link: string) => {
    try {
      await navigator.clipboard.writeText(link)
      setCopied('The link is copied.')
    } catch {
      setCopied('This browser does not let the page copy. Select the link below and copy it.')
    }
  }
  const file = useMemo(() => shareable(fileOf(job.id), job.name), [job, fileOf])
  return (
    <section className="carry" aria-label={`${job.name} to another device`}>
      <Choice
        label="What goes along"
        options={[
          { value: 'job', label: 'the job alone' },
          { value: 'whole', label: 'with all that was cut' },
        ]}
        value={what}
        onChange={setWhat}
      />
      {made.said.map((text) => (
        <p key={text} className="warning">
          {text}
        </p>
      ))}
      {made.codes && (
        <>
          <p>
            On the other device: Jobs, Read codes, and hold its camera at this picture. No network is used.
          </p>
          <CodeRow codes={made.codes} name={job.name} />
        </>
      )}
      {made.link !== null && (
        <>
          <p className="dim">
            A link carries the job in its address, behind the #, which no browser sends to a server.
          </p>
          <p className="keys-row">
            <button type="button" onClick={() => void copy(made.link ?? '')}>
              Copy the link
            </button>
            {file && (
              <button
                type="button"
                onClick={() => void navigator.share({ files: [file] }).catch(() => undefined)}
              >
                Share the file
              </button>
            )}
          </p>
          {copied !== '' && <p role="status">{copied}</p>}
          <textarea className="link-text" readOnly rows={3} aria-label="The link" value={made.link} />
        </>
      )}
    </section>
  )
}
