import type { NestStick } from '../../core/nest.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { capital, saysOf } from '../words.ts'

/** What is left of a stick that is done with: to be kept on the rack, or scrap. */
export function LeftOver(props: {
  readonly stick: NestStick
  readonly shop: Shop
  readonly onKeep: () => void
  readonly onScrap: () => void
}) {
  const { stick, shop } = props
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
          Keep the {says.drop}
        </button>
        <button type="button" onClick={props.onScrap}>
          It is scrap
        </button>
      </div>
    </section>
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
