import { useMemo, useState } from 'react'
import { closingAt } from '../../core/fitup/closing.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { type Measured, offsOf, testName } from '../../core/fitup/real.ts'
import { angleOfGap, endsInTest, errorOfEach, type ScrapTest } from '../../core/fitup/scraps.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { parseAngle } from '../../core/reading/parse.ts'
import type { Shop } from '../../core/shop.ts'
import { Choice } from '../fields/choice.tsx'
import { AngleField, MmField } from '../fields/length-field.tsx'
import { ClosingPicture } from './closing-picture.tsx'
import { adviceOf, degrees, sayGap, sayLeft, unseen } from './closing-words.ts'
import { Pieces } from './pieces.tsx'

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
            <legend>Joint left for last</legend>
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
        <ClosingPicture loop={loop} offs={offs} marks={marks} last={last} />
      </div>
      <Scraps loop={loop} bench={bench} />
      <Pieces loop={loop} marks={marks} bench={bench} />
    </section>
  )
}

/** The test on scraps: the error of every end from what two or half a ring of them show. */
function Scraps({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { shop, measured, onGauge } = bench
  const [test, setTest] = useState<ScrapTest>('pair')
  const [way, setWay] = useState<'angle' | 'gap'>('angle')
  const [sharp, setSharp] = useState<'sharp' | 'blunt'>('sharp')
  const [reach, setReach] = useState<number | undefined>(undefined)
  const [shown, setShown] = useState<string | number | undefined>(undefined)
  const n = loop.pieces.length
  const each = measured(testName(loop.id))
  const keep = (deg: number | undefined, side = sharp, how = test) =>
    onGauge(
      testName(loop.id),
      deg === undefined ? undefined : errorOfEach(how, n, side === 'sharp' ? deg : -deg),
    )
  if (!loop.ring) return null
  return (
    <details className="fit-fold">
      <summary>
        <span>A test on scraps</span>
        <span className="dim">
          {each === undefined
            ? 'not made'
            : `each end ${degrees(each)} ${each >= 0 ? 'too far from' : 'too near'} square`}
        </span>
      </summary>
      <div className="fit-fields">
        <Choice
          label="What is put together"
          value={test}
          options={[
            { value: 'pair', label: 'Two scraps of one setting' },
            ...(n % 2 === 0
              ? [{ value: 'row' as const, label: `${n / 2} scraps against a straightedge` }]
              : []),
          ]}
          onChange={(next) => setTest(next)}
          hint={`It shows the error of one end ${endsInTest(test, n)} times over.`}
        />
        <Choice
          label="The corner comes out"
          value={sharp}
          options={[
            { value: 'sharp', label: 'too sharp, gap inside' },
            { value: 'blunt', label: 'too blunt, gap outside' },
          ]}
          onChange={setSharp}
        />
        <Choice
          label="Measured as"
          value={way}
          options={[
            { value: 'angle', label: 'an angle' },
            { value: 'gap', label: 'a gap' },
          ]}
          onChange={setWay}
        />
        {way === 'angle' ? (
          <AngleField
            label="Error that it shows"
            optional
            value={shown}
            onChange={(text) => {
              setShown(text)
              const angle = parseAngle(text)
              keep(text.trim() === '' || !angle.ok ? undefined : angle.value)
            }}
          />
        ) : (
          <>
            <MmField
              label="From where they touch to the gap"
              value={reach}
              reading={shop.reading}
              onChange={setReach}
            />
            <MmField
              label="Gap"
              optional
              value={undefined}
              reading={shop.reading}
              onChange={(gap) => keep(gap === undefined || !reach ? undefined : angleOfGap(gap, reach))}
            />
          </>
        )}
        {each !== undefined && (
          <p>
            Each end is {degrees(each)} off. Set the head {degrees(each)}{' '}
            {each >= 0 ? 'nearer to' : 'further from'} square; {2 * n} ends would leave{' '}
            {degrees(2 * n * each)}.{' '}
            <button type="button" onClick={() => onGauge(testName(loop.id), undefined)}>
              Take the test back
            </button>
          </p>
        )}
      </div>
    </details>
  )
}
