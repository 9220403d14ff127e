import { useState } from 'react'
import { sayTime } from '../../app/said-time.ts'
import type { LastTime } from '../../core/finish/last-time.ts'
import { buildRecord, type RecordSection, recordText } from '../../core/finish/record.ts'
import { minutesName, type Stage, stages } from '../../core/finish/times.ts'
import { useApp, useShop } from '../app.ts'
import { NumberField } from '../fields/number-field.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { hrefOf } from '../shell/route.ts'
import { Note } from '../weld/note.tsx'
import { capital } from '../words.ts'
import type { Copy } from './finish.tsx'
import { recordOut } from './tables-out.ts'

/** The build record of the copy on the bench: what the person adds to it, and all of it, to look at, print or send. */
export function BuildRecord({ of, last }: { readonly of: Copy; readonly last: LastTime | undefined }) {
  const { plan, view, copy } = of
  const shop = useShop()
  const progress = useApp((state) => state.progress)
  const facts = useApp((state) => state.facts)
  const recorded = { plan, job: view.job, shop, progress, facts, copy, sayTime }
  return (
    <section aria-labelledby="finish-record">
      <h2 id="finish-record">Build record</h2>
      <p className="dim">
        Everything that is known of {plan.quantity > 1 ? `copy ${copy}` : 'this job'}. A copy of the job
        begins with it.
      </p>
      <div className="finish-fields">
        {stages.map((stage) => (
          <Minutes key={stage} of={of} stage={stage} last={last} />
        ))}
      </div>
      <Note
        key={copy}
        job={view.id}
        copy={copy}
        of="job"
        label="Note for the next one"
        before={last?.notes.job}
      />
      <details className="record">
        <summary>Look at the whole record</summary>
        {buildRecord(recorded).map((section) => (
          <Rows key={section.title} section={section} />
        ))}
      </details>
      <Take text={() => recordText(recorded)} job={view.id} />
      <TakeTable name={plan.name} what="build record" table={() => recordOut(buildRecord(recorded))} />
    </section>
  )
}

/** Minutes that a station took, as the person says. */
function Minutes(props: { readonly of: Copy; readonly stage: Stage; readonly last: LastTime | undefined }) {
  const { of, stage, last } = props
  const name = minutesName(stage)
  const before = last?.minutes[stage]
  const all = stage === 'saw' && of.plan.quantity > 1 ? ', all copies' : ''
  return (
    <NumberField
      label={`Minutes, ${stage}${all}`}
      optional
      least={0}
      most={100_000}
      unit=" min"
      value={of.measured(name)}
      hint={before === undefined ? undefined : `Last time about ${Math.round(before)} min`}
      onChange={(minutes) => of.onGauge(name, minutes)}
    />
  )
}

function Rows({ section: { title, columns, rows } }: { readonly section: RecordSection }) {
  return (
    <div className="scroll-x">
      <table>
        <caption>{title}</caption>
        {columns && (
          <thead>
            <tr>
              <td />
              {columns.map((column, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never move
                <th key={at} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
        )}
        <tbody>
          {rows.map(([name = '', ...cells], row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name than their place
            <tr key={row}>
              <th scope="row">{capital(name)}</th>
              {cells.map((cell, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: cells never move
                <td key={at}>{cell === '' ? '–' : cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** Text to paste, or the sheet of paper. Where the browser gives no clipboard, the text stands there to be marked. */
function Take({ text, job }: { readonly text: () => string; readonly job: string }) {
  const [said, setSaid] = useState('')
  const [shown, setShown] = useState<string | null>(null)
  const copy = async () => {
    const plain = text()
    try {
      await navigator.clipboard.writeText(plain)
      setSaid('Copied.')
    } catch {
      setShown(plain)
      setSaid('The browser did not allow it: mark the text below and copy it.')
    }
  }
  return (
    <>
      <p className="record-keys">
        <button type="button" onClick={() => void copy()}>
          Copy the record as text
        </button>
        <a className="button" href={hrefOf({ station: 'paper', job, at: 'record' })}>
          Print the record
        </a>
      </p>
      <p role="status">{said}</p>
      {shown !== null && <textarea readOnly rows={12} value={shown} aria-label="Build record as text" />}
    </>
  )
}
