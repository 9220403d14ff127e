import type { NestStick } from '../../core/nest.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { capital, saysOf } from '../words.ts'
import type { Painted } from './painted.ts'

/** What is left of a stick that is done with: to be kept on the rack, or scrap. */
export function LeftOver(props: {
  readonly stick: NestStick
  readonly shop: Shop
  /** What is painted on it when it is kept. */
  readonly mark: string
  readonly onKeep: () => void
  readonly onScrap: () => void
  /** All that wait and are worth keeping. */
  readonly all: readonly NestStick[]
  readonly onKeepAll: (all: readonly NestStick[]) => void
}) {
  const { stick, shop, all } = props
  const says = saysOf(shop)
  const left = showLength(stick.drop, shop.reading)
  const keeps = stick.drop >= shop.leastDrop
  return (
    <section className="left-over" aria-label={`What is left of ${says.stick} ${stick.id}`}>
      <p>
        {capital(says.stick)} <b>{stick.id}</b> is done. Left of it: <LengthText of={left} />
        {!keeps && `, less than the shortest ${says.drop} kept here`}.
      </p>
      <div className="left-over-keys">
        <button type="button" onClick={props.onKeep}>
          Keep the {says.drop}, paint {props.mark}
        </button>
        {all.length > 1 && (
          <button type="button" onClick={() => props.onKeepAll(all)}>
            Keep all {all.length} {says.drops}
          </button>
        )}
        <button type="button" onClick={props.onScrap}>
          It is scrap
        </button>
      </div>
    </section>
  )
}

/** What is to be painted on the drops that were kept, so that they are found again. */
export function Paint({ painted, shop }: { painted: readonly Painted[]; shop: Shop }) {
  if (painted.length === 0) return null
  const says = saysOf(shop)
  return (
    <ul className="paint">
      {painted.map(({ stick, mark, length }) => (
        <li key={mark}>
          Paint <b className="mark">{mark}</b> on the {says.drop} of {stick},{' '}
          <LengthText of={showLength(length, shop.reading)} />.
        </li>
      ))}
    </ul>
  )
}

/** Sticks that are cut to the end and whose drop is neither on the rack nor called scrap, the last one first. */
export function leftOvers(
  sticks: readonly NestStick[],
  finished: (stick: string) => boolean,
  settled: (stick: string) => boolean,
): readonly NestStick[] {
  return sticks.filter((stick) => stick.drop > 0 && finished(stick.id) && !settled(stick.id)).reverse()
}
