import type { BenchCut, Run } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { capital, saysOf } from '../words.ts'
import { calledTogether, sayCalled, stepsOf } from './say.ts'

/** Load, clean up, turn, push, cut, lay aside: what the hands do around one cut, in order. */
export function Steps({
  stroke,
  cuts,
  run,
  shop,
}: {
  /** The cut at hand with those that the same stroke makes. */
  stroke: readonly [BenchCut, ...BenchCut[]]
  cuts: readonly BenchCut[]
  run: Run
  shop: Shop
}) {
  const says = saysOf(shop)
  const { stick, sticks, drop } = says
  const lengths = { say: (mm: number) => say(mm, shop.reading), stick, sticks, drop }
  const [cut] = stroke
  const last = stroke.at(-1)!
  const { before, after } = stepsOf(
    stroke,
    run.products,
    lengths,
    cuts.find((one) => one.index > last.index && one.lost === undefined),
  )
  const called = sayCalled(calledTogether(stroke, run.products))
  return (
    <ol className="bench-steps">
      {before.map((step) => (
        <li key={step.kind + step.text} data-step={step.kind}>
          {step.text}
        </li>
      ))}
      <li data-step="cut">
        <b>
          {cut.splits
            ? `${capital(called)} came off with the cut before: only check it off.`
            : `Cut ${called}${stroke.length > 1 ? ' in one stroke' : ''}.`}
        </b>
      </li>
      {after.map((step) => (
        <li key={step.kind + step.text} data-step={step.kind}>
          {step.text}
        </li>
      ))}
    </ol>
  )
}
