import type { JobView } from '../../app/state.ts'
import { type Nest, piecesIn } from '../../core/nest.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { hrefOf } from '../shell/route.ts'
import { OneStick, Wanted } from './one-stick.tsx'

/** A part by its job and mark. */
export interface PartName {
  readonly job: string
  readonly mark: string
}

export const isPart = (one: PartName | undefined, { job, mark }: PartName): boolean =>
  one?.job === job && one.mark === mark

/** The parts of the job as keys: the one that is chosen is told, stick by stick, and shows in the picture. */
export function WhereUsed(props: {
  readonly view: JobView
  readonly plan: Plan
  readonly nest: Nest
  readonly shop: Shop
  readonly chosen: PartName | undefined
  /** The layout stays as it is: nothing is wished of it any more. */
  readonly fixed: boolean
  readonly onChoose: (part: PartName | undefined) => void
}) {
  const { view, plan, nest, shop, chosen } = props
  const parts = partsIn(nest, view.id, plan)
  const part = parts.find(({ mark }) => isPart(chosen, { job: view.id, mark }))
  return (
    <section className="where-used" aria-labelledby="where-head">
      <h3 id="where-head">Where each part is cut</h3>
      <div className="part-keys">
        {parts.map(({ mark, count }) => {
          const pressed = isPart(chosen, { job: view.id, mark })
          return (
            <button
              key={mark}
              type="button"
              aria-pressed={pressed}
              className={pressed ? 'part-key chosen' : 'part-key'}
              onClick={() => props.onChoose(pressed ? undefined : { job: view.id, mark })}
            >
              <b>{mark}</b> × {count * plan.quantity}
            </button>
          )
        })}
      </div>
      <p role="status">
        {part && (
          <>
            <b>{part.mark}</b> {part.name}, {say(part.printed.length.mm, shop.reading)}:{' '}
            {sayWhere(nest, { job: view.id, mark: part.mark })}.
          </>
        )}
      </p>
      {part && <OneStick view={view} part={part} parts={parts} fixed={props.fixed} />}
      <Wanted parts={parts} quantity={plan.quantity} />
      {part && (
        <p>
          <a className="button" href={hrefOf({ station: 'sizes', job: view.id })}>
            {part.mark} in Sizes
          </a>
        </p>
      )}
    </section>
  )
}

/** The job's parts, called as the nest calls them: 1A where several jobs are bought together. */
const partsIn = (nest: Nest, job: string, { parts }: Plan): Plan['parts'] => {
  const demand = nest.sections.flatMap((section) => section.demand).filter((one) => one.job === job)
  return parts.map((part) => ({
    ...part,
    mark: demand.find(({ key }) => key === part.key)?.mark ?? part.mark,
  }))
}

/** `S1 × 5, S3 × 2`: sticks that give this part, in their order. */
export function sayWhere(nest: Nest, part: PartName): string {
  const sticks = nest.sections
    .flatMap((section) => section.sticks)
    .map(({ id, pieces }) => ({
      id,
      count: pieces.flatMap(piecesIn).filter((piece) => isPart(part, piece)).length,
    }))
    .filter(({ count }) => count > 0)
  return sticks.map(({ id, count }) => (count > 1 ? `${id} × ${count}` : id)).join(', ')
}
