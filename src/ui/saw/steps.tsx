import type { BenchCut, Run } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { capital, saysOf } from '../words.ts'
import { calledOf, sayCalled, stepsOf } from './say.ts'

/** Load, clean up, turn, push, cut, lay aside: what the hands do around one cut, in order. */
export function Steps({
  cut,
  cuts,
  run,
  shop,
}: {
  cut: BenchCut
  cuts: readonly BenchCut[]
  run: Run
  shop: Shop
}) {
  const says = saysOf(shop)
  const lengths = { say: (mm: number) => say(mm, shop.reading), stick: says.stick, drop: says.drop }
  const { before, after } = stepsOf(
    cut,
    run.products,
    lengths,
    cuts.find((one) => one.index > cut.index && one.lost === undefined),
  )
  const called = sayCalled(calledOf(cut.product, run.products))
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
            : `Cut ${called}.`}
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
