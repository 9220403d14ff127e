import type { JobView, Nesting } from '../../app/state.ts'
import type { Problem } from '../../core/result.ts'
import type { Shop } from '../../core/shop.ts'
import { count, saysOf } from '../words.ts'

// What stands at the saw while there is nothing to cut, each with the way on.

export function NoPlan({ problems, sizesHref }: { problems: readonly Problem[]; sizesHref: string }) {
  return (
    <section className="station-state">
      <h1>Nothing to cut yet</h1>
      <p>The sizes of this job do not give a frame:</p>
      <ul>
        {problems.map((problem) => (
          <li key={problem.code + problem.text}>{problem.text}</li>
        ))}
      </ul>
      <a className="button go" href={sizesHref}>
        Go to Sizes
      </a>
    </section>
  )
}

/** A judge that shares no code with the planner found faults: none of it is shown, so none of it is cut. */
export function Refused({ faults, sizesHref }: { faults: readonly string[]; sizesHref: string }) {
  return (
    <section className="station-state" role="alert">
      <h1>This plan failed its check</h1>
      <p>
        Every plan is checked a second time before it is shown. This one has {count(faults.length, 'fault')},
        so there is nothing to cut:
      </p>
      <ul className="faults">
        {faults.map((fault) => (
          <li key={fault}>{fault}</li>
        ))}
      </ul>
      <p>Do not cut by a printed sheet of this plan either. A change of size or section makes a new plan.</p>
      <a className="button go" href={sizesHref}>
        Go to Sizes
      </a>
    </section>
  )
}

export function NoNest(props: {
  nesting: Nesting
  onStop: () => void
  onAgain: () => void
  stockHref?: string
}) {
  const { nesting } = props
  if (nesting.state === 'working') return <NestWork nesting={nesting} usable={false} onStop={props.onStop} />
  return (
    <section className="station-state">
      <h1>
        {nesting.state === 'failed'
          ? 'No way was found to cut this from the stock'
          : 'Not yet laid out on stock'}
      </h1>
      <p>{nesting.text ?? 'Which piece comes from which stick is worked out first.'}</p>
      <div className="state-keys">
        <button type="button" className="go" onClick={props.onAgain}>
          Work it out
        </button>
        {props.stockHref && (
          <a className="button" href={props.stockHref}>
            Go to Stock
          </a>
        )}
      </div>
    </section>
  )
}

/** The nest is there, but no saw of the shop makes every cut of it: a run with a hole in it is not shown. */
export function NoRun(props: { problems: readonly Problem[]; sizesHref: string; shopHref: string }) {
  return (
    <section className="station-state">
      <h1>The saw cannot make every cut of this job</h1>
      <p>The sticks are worked out, but the saw as it stands in Shop cannot do this:</p>
      <ul>
        {props.problems.map((problem) => (
          <li key={problem.code + problem.text}>{problem.text}</li>
        ))}
      </ul>
      <p>No set-up is shown until each cut can be made. A change of size, or of the saw, plans it again.</p>
      <div className="state-keys">
        <a className="button go" href={props.sizesHref}>
          Go to Sizes
        </a>
        <a className="button" href={props.shopHref}>
          Go to Shop
        </a>
      </div>
    </section>
  )
}

/** The best so far against the least that is possible, in words. */
export function sayProgress(nesting: Nesting): string {
  const { cost, bound, text } = nesting
  if (cost === undefined) return 'Nothing usable found yet.'
  return `Best so far: ${farFrom(cost, bound, nesting.proved === true)}.${text ? ` ${text}` : ''}`
}

/** `proved least`, `at most 2 % from the least possible`. The percentage is rounded up: it is a promise. */
export function farFrom(cost: number, bound: number | undefined, proved: boolean): string {
  if (proved) return 'proved least'
  if (bound === undefined || bound <= 0) return 'how far from the least possible is not known'
  const percent = ((cost - bound) / bound) * 100
  if (percent <= 0) return 'as low as the least possible, not proved'
  const said = percent < 1 ? Math.ceil(percent * 10) / 10 : Math.ceil(percent)
  return `at most ${said} % from the least possible`
}

/** A nest in the making: how far it is, and a button that takes what there is. */
export function NestWork(props: { nesting: Nesting; usable: boolean; onStop: () => void }) {
  const { nesting } = props
  const { cost, bound } = nesting
  return (
    <section className="nest-work" aria-label="Laying out the pieces on the stock">
      <p role="status">
        <b>Working out which piece comes from which stick.</b> {sayProgress(nesting)}
      </p>
      {cost !== undefined && bound !== undefined && bound > 0 ? (
        <progress
          max={cost}
          value={Math.min(bound, cost)}
          aria-label="How near the best so far is to the least possible"
        />
      ) : (
        <progress aria-label="Looking for a first way" />
      )}
      <button type="button" onClick={props.onStop}>
        {props.usable ? 'Stop and use the best so far' : 'Stop'}
      </button>
    </section>
  )
}

/** Pieces that lie there and that nothing in the job asks for. */
export function Spares({ spares, shop }: { spares: readonly string[]; shop: Shop }) {
  if (spares.length === 0) return null
  const says = saysOf(shop)
  return (
    <p className="spares">
      <b>{count(spares.length, 'spare piece')}:</b> {spares.join(', ')}. Cut and not needed by this job: good
      for something shorter, before a new {says.stick} is begun.
    </p>
  )
}

/** The sizes as typed give no frame; what stands below is the plan before them. */
export function Stale({ view, sizesHref }: { view: JobView; sizesHref: string }) {
  if (!view.stale) return null
  return (
    <section className="changed" role="alert">
      <p>
        <b>The sizes as they stand now do not work.</b> What is shown here is the plan before them.{' '}
        {view.problems[0]?.text}
      </p>
      <a className="button" href={sizesHref}>
        Go to Sizes
      </a>
    </section>
  )
}
