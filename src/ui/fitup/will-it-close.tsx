import { useMemo, useState } from 'react'
import { bestLast, closingAt } from '../../core/fitup/closing.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { type Measured, offsOf } from '../../core/fitup/real.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import type { Shop } from '../../core/shop.ts'
import { ClosingPicture } from './closing-picture.tsx'
import { adviceOf, sayGap, sayLeft, unseen } from './closing-words.ts'
import { JointPicture } from './joint-picture.tsx'
import { Pieces } from './pieces.tsx'
import { Scraps } from './scraps.tsx'

export interface Bench {
  readonly plan: Plan
  readonly shop: Shop
  readonly measured: Measured
  readonly onGauge: (of: string, value: number | undefined) => void
}

/** Will it close? The ring walked round from its real pieces, the gap at the joint left for last, and what to do. */
export function WillItClose({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop, measured } = bench
  const { reading } = shop
  const [last, setLast] = useState(loop.pieces.length - 1)
  const offs = useMemo(() => offsOf(loop, plan.parts, measured), [loop, plan.parts, measured])
  const closing = useMemo(() => closingAt(loop.pieces, offs, last), [loop, offs, last])
  const advice = useMemo(
    () => adviceOf({ loop, parts: plan.parts, offs, closing, reading }),
    [loop, plan.parts, offs, closing, reading],
  )
  const marks = useMemo(() => {
    const markOf = new Map(plan.parts.flatMap((part) => part.members.map((id) => [id, part.mark] as const)))
    return loop.pieces.map(({ member }) => markOf.get(member) ?? '')
  }, [plan.parts, loop])
  const closes = closing.worst < unseen(reading)
  const best = useMemo(() => bestLast(loop.pieces, offs), [loop, offs])
  return (
    <section className="fit-part" aria-labelledby="fit-close">
      <h2 id="fit-close">Will it close?</h2>
      <div className="fit-close">
        <div className="fit-words">
          <p className={closes ? 'fit-says state cut' : 'fit-says state now'} role="status">
            {closes ? `It closes at joint ${last + 1}.` : `Joint ${last + 1}: ${sayGap(closing, reading)}.`}
          </p>
          <p>{sayLeft(closing.left)}</p>
          <fieldset className="joint-keys">
            <legend>Joint left for last{closes ? '' : `; the least shows at joint ${best.last + 1}`}</legend>
            {loop.joints.map((id, at) => (
              <button key={id} type="button" aria-pressed={at === last} onClick={() => setLast(at)}>
                {at + 1}
              </button>
            ))}
          </fieldset>
          <ul className="advice">
            {advice.map(({ id, title, text, list }) => (
              <li key={id} data-advice={id}>
                <b>{title}.</b> {text}
                {list && (
                  <ul>
                    {list.map((line) => (
                      <li key={line}>{line}</li>
                    ))}
                  </ul>
                )}
              </li>
            ))}
          </ul>
        </div>
        <div className="fit-pictures">
          <ClosingPicture loop={loop} offs={offs} marks={marks} last={last} />
          <JointPicture loop={loop} closing={closing} reading={reading} />
        </div>
      </div>
      <Scraps loop={loop} bench={bench} />
      <Pieces loop={loop} marks={marks} bench={bench} />
    </section>
  )
}
