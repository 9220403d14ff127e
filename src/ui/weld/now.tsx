import type { JobView } from '../../app/state.ts'
import type { Plan, WeldStep } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import { wallName } from '../../core/section/name.ts'
import { useApp, useShop } from '../app.ts'
import { useLastTime } from '../finish/last-time.ts'
import { cautionsFor } from './caution.ts'
import { CheckValue } from './check-value.tsx'
import { seamWords, tickKey } from './list.ts'
import { Note } from './note.tsx'
import { Settings } from './settings.tsx'

/** Longer texts are set smaller, and not said again on the key, letters. */
export const shortText = 48

/** The step at hand, large, with why it stands here and what to beware of. */
export function Now(props: {
  step: WeldStep
  plan: Plan
  view: JobView
  copy: number
  number: number | undefined
  measured: (of: string) => number | undefined
  onGauge: (of: string, value: number | undefined) => void
}) {
  const { step, plan, number, view, copy } = props
  const last = useLastTime(view.job)
  const shop = useShop()
  const cautions = cautionsFor(step, plan, shop.mass)
  const seam = plan.weld.seams.find(({ id }) => id === step.seam)
  return (
    <section className="weld-step-now" aria-labelledby="weld-now-head">
      <h1 id="weld-now-head" className={step.text.length > shortText ? 'long' : undefined}>
        {number !== undefined && (
          <span className="joint-number">
            <span className="heard">joint</span> {number}
          </span>
        )}{' '}
        {step.text}
      </h1>
      <p className="dim">{step.why}</p>
      {step.under && (
        <ul className="weld-under">
          {step.under.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {step.kind === 'pass' && seam && (
        <p>
          {seamWords[seam.class]}, {say(seam.length, shop.reading)} long, on a wall of{' '}
          {wallName(seam.size, shop.reading)}.
        </p>
      )}
      {cautions.map((caution) => (
        <p key={caution} className="warning">
          {caution}
        </p>
      ))}
      {step.kind === 'check' && <CheckValue {...props} key={step.id} shop={shop} />}
      {(step.kind === 'pass' || step.kind === 'tack') && seam && (
        <Settings key={`${copy} ${seam.class}`} seam={seam} job={view.id} copy={copy} />
      )}
      <StepNote
        key={`${copy} ${step.id}`}
        step={step}
        job={view.id}
        copy={copy}
        before={last?.notes[step.id]}
      />
    </section>
  )
}

/** A note to this step: closed until there is one, from this time or the last. */
function StepNote(props: {
  step: WeldStep
  job: string
  copy: number
  before: readonly string[] | undefined
}) {
  const { step, job, copy, before } = props
  const kept = useApp((state) => state.progress.notes[tickKey(job, copy, step.id)]?.text)
  return (
    <details className="weld-note" open={before !== undefined}>
      <summary>
        <span>Note</span>
        {kept !== undefined && <span className="dim">{kept}</span>}
      </summary>
      <Note job={job} copy={copy} of={step.id} label="Note to this step" before={before} />
    </details>
  )
}
