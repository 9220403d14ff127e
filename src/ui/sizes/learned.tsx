import { useMemo } from 'react'
import type { JobView } from '../../app/state.ts'
import { tickName } from '../../core/facts/fold.ts'
import { sayDrawn, sayKind } from '../../core/finish/record.ts'
import type { Shrinkage } from '../../core/job.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Reading } from '../../core/shop.ts'
import { crossedBy, drawnKinds, type Learned, learnedFrom } from '../../core/weld/shrinkage.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { useLastTime } from '../finish/last-time.ts'
import { count, sayFine } from '../words.ts'

/**
 * What earlier work teaches this job: how much the welds draw in, and what was written, measured and timed when the job
 * it was copied from was made. Nothing of it is used without a tap, and all of it is refused with one.
 */
export function LearnedHere({ view, plan }: { readonly view: JobView; readonly plan: Plan }) {
  return (
    <>
      <DrawnIn view={view} plan={plan} />
      <Before view={view} />
    </>
  )
}

/** From the measured sizes of every job on the list. */
function useLearned(): readonly Learned[] {
  const views = useApp((state) => state.views)
  const gauged = useApp((state) => state.progress.gauged)
  return useMemo(() => {
    const plans = Object.values(views).flatMap(({ plan, stale }) => (plan && !stale ? [plan] : []))
    return learnedFrom(plans, (job, copy, size) => gauged[tickName(job, copy, `size:${size}`)]?.value)
  }, [views, gauged])
}

/** `the middle of 5 copies of 3 jobs, from 0.20 mm to 0.60 mm`. */
function from({ samples, least, most }: Learned, reading: Reading): string {
  if (samples.length === 1) return 'one copy measured so far'
  const jobs = new Set(samples.map(({ job }) => job)).size
  return `the middle of ${count(samples.length, 'copy', 'copies')} of ${count(jobs, 'job')}, from ${sayDrawn(least, reading)} to ${sayDrawn(most, reading)}`
}

function DrawnIn({ view, plan }: { readonly view: JobView; readonly plan: Plan }) {
  const { reading } = useShop()
  const { editJob } = useActions()
  const learned = useLearned()
  const { job } = view
  const used = job.shrinkage ?? {}
  const set = (shrinkage: Shrinkage) =>
    void editJob(job.id, { shrinkage: Object.keys(shrinkage).length > 0 ? shrinkage : undefined })
  const crossed = new Set(
    plan.frame.measures
      .filter(({ asked, param }) => asked && param !== undefined)
      .flatMap((measure) => Object.keys(crossedBy(plan.frame, measure))),
  )
  const offers = learned.filter(
    ({ kind, median, samples }) =>
      samples.length > 0 && median > 0 && crossed.has(kind) && used[kind] === undefined,
  )
  const inUse = drawnKinds.filter((kind) => used[kind] !== undefined)
  if (offers.length === 0 && inUse.length === 0) return null
  return (
    <section className="figures learned" aria-labelledby="drawn-head">
      <h2 id="drawn-head">What the welds draw in</h2>
      {inUse.map((kind) => {
        const { [kind]: mm = 0, ...others } = used
        const sizes = plan.sizes.filter(({ asked, tacked }) => asked && tacked !== undefined)
        return (
          <div key={kind} className="learned-line">
            <p>
              <strong>In use:</strong> {sayDrawn(mm, reading)} at each {sayKind[kind]} joint.
              {sizes.map(({ name, built, tacked }) => (
                <span key={name}>
                  {' '}
                  {name}: tacked {sayFine(tacked ?? built, reading)}, welded about {sayFine(built, reading)}.
                </span>
              ))}
            </p>
            <button type="button" onClick={() => set(others)}>
              Plan without it
            </button>
          </div>
        )
      })}
      {offers.map((one) => (
        <div key={one.kind} className="learned-line">
          <p>
            In this shop a {sayKind[one.kind]} joint drew in about{' '}
            <strong>{sayDrawn(one.median, reading)}</strong> ({from(one, reading)}). Not used here.
            {one.left.length > 0 &&
              ` ${count(one.left.length, 'figure')} left out: no weld draws in so much (${[...new Set(one.left.map(({ name }) => name))].join(', ')}).`}
          </p>
          <button type="button" onClick={() => set({ ...used, [one.kind]: +one.median.toFixed(3) })}>
            Plan this job larger by it
          </button>
        </div>
      ))}
    </section>
  )
}

/** The job that this one was copied from, as it went. */
function Before({ view }: { readonly view: JobView }) {
  const { reading } = useShop()
  const { editJob } = useActions()
  const last = useLastTime(view.job)
  if (!last) return null
  const minutes = Object.entries(last.minutes)
  const sizes = Object.entries(last.measured).filter(([of]) => of.startsWith('size:'))
  const notes = Object.values(last.notes).flat()
  return (
    <section className="figures learned" aria-labelledby="before-head">
      <h2 id="before-head">Last time{last.name === undefined ? '' : `: ${last.name}`}</h2>
      <ul className="plain-list">
        {minutes.length > 0 && (
          <li>Time: {minutes.map(([stage, one]) => `${stage} about ${Math.round(one)} min`).join(', ')}.</li>
        )}
        {sizes.map(([of, all]) => (
          <li key={of}>
            Measured {of.slice('size:'.length)}: {all.map((mm) => sayFine(mm, reading)).join(', ')}.
          </li>
        ))}
        {last.miscuts.map(({ label, why }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: what happened then does not change
          <li key={at}>
            Miscut {label}: {why}.
          </li>
        ))}
        {notes.map((note, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: what was written then does not change
          <li key={at}>Note: {note}</li>
        ))}
      </ul>
      <p className="dim">Notes and measures come up again at their step in Weld and Finish.</p>
      <button type="button" onClick={() => void editJob(view.id, { from: undefined })}>
        Do not show it in this job
      </button>
    </section>
  )
}
