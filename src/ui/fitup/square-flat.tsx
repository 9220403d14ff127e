import { useState } from 'react'
import { builtCorners } from '../../core/fitup/built.ts'
import { flatness, heightName } from '../../core/fitup/flat.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { listed } from '../../core/fitup/named.ts'
import {
  angleBetween,
  cornerAngles,
  diagonalName,
  diagonalsOf,
  squareOf,
  thirdSide,
} from '../../core/fitup/square.ts'
import { angleMay, flatMay, lengthMay, sayOff, tapesOf } from '../../core/fitup/tapes.ts'
import { showLength } from '../../core/reading/show.ts'
import { Pick } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { hrefOf } from '../shell/route.ts'
import { degrees, fine, unseen } from './closing-words.ts'
import { tapesOut } from './tables-out.ts'
import type { Bench } from './will-it-close.tsx'

/** Within or beyond, in a mark and a word. */
function Verdict({ within, text }: { readonly within: boolean; readonly text: string }) {
  return <p className={within ? 'state cut' : 'state now'}>{within ? text : `Beyond: ${text}`}</p>
}

/** Is it square? What the tape must read, beside what it does, and which corners to pull. */
export function SquareUp({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop, measured, onGauge } = bench
  const { reading, general } = shop
  const tapes = tapesOf(loop, plan.parts)
  return (
    <section className="fit-part" aria-labelledby="fit-square">
      <h2 id="fit-square">Is it square?</h2>
      <p className="dim">
        {loop.ring
          ? 'Outside, corner to corner at the points'
          : 'In the clear, inside corner to inside corner'}
        {tapes.some(({ kind }) => kind === 'flats') ? ', and across the flats at both ends' : ''}. Corners are
        numbered as the joints.{' '}
        <a href={hrefOf({ station: 'shop' })}>
          {general?.linear || general?.flat
            ? `Held to ISO 13920 ${[general.linear, general.flat].filter(Boolean).join(' and ')}`
            : 'Held to the shop’s own tolerance'}
        </a>
      </p>
      <div className="fit-fields">
        {tapes.map(({ name, label, expected }) => {
          const got = measured(name)
          return (
            <div key={name} className="fit-tape">
              <MmField
                label={label}
                optional
                value={got}
                reading={reading}
                hint={
                  <>
                    Must be <LengthText of={showLength(expected, reading)} />
                  </>
                }
                possible={{ over: 0 }}
                onChange={(mm) => onGauge(name, mm)}
              />
              {got !== undefined && (
                <Verdict {...sayOff(got, expected, lengthMay(shop, expected), reading)} />
              )}
            </div>
          )
        })}
      </div>
      {tapes.length > 0 && (
        <TakeTable name={plan.name} what="tape lengths" table={() => tapesOut(tapes, shop, measured)} />
      )}
      <SquareWords loop={loop} bench={bench} />
      <Triangle loop={loop} bench={bench} />
    </section>
  )
}

const pulling =
  'Tack first where it is right; then press the open side and tack it: a tack pulls toward itself as it cools. Check the good side again.'
// Common practice.

function SquareWords({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop, measured } = bench
  const { reading } = shop
  const corners = builtCorners(loop, plan.parts)
  const diagonals = diagonalsOf(corners)
  const known = diagonals.flatMap((one) => {
    const mm = measured(diagonalName(loop.id, one.id))
    return mm === undefined ? [] : [{ ...one, mm }]
  })
  if (known.length < 2)
    return (
      <p>
        Measure {diagonals.length === 2 ? 'both diagonals' : 'at least two from corner to corner'} to know.
      </p>
    )
  const side = (a: number, b: number) =>
    Math.hypot(corners[a]![0] - corners[b]![0], corners[a]![1] - corners[b]![1])
  const four = corners.length === 4 && Math.abs(known[0]!.expected - known[1]!.expected) < 0.01
  if (four) {
    const { off, pull, by } = squareOf(known[0]!.mm, known[1]!.mm, side(0, 1), side(1, 2))
    if (!pull || by < unseen(reading)) return <p className="fit-says state cut">It is square.</p>
    const may = angleMay(shop, Math.min(side(0, 1), side(1, 2)))
    return (
      <>
        <p className="fit-says state now" role="status">
          Out of square by {degrees(off)}. Pull corners {pull[0]} and {pull[1]} together by{' '}
          {fine(by, reading)}, until both diagonals read the same.
        </p>
        {may && (
          <p>
            {off <= may.most ? `That is within ${may.by}` : `Beyond ${may.by}`}: {degrees(may.most)} allowed.
          </p>
        )}
        <p>{pulling}</p>
      </>
    )
  }
  const worst = known.reduce((most, one) => (one.mm - one.expected > most.mm - most.expected ? one : most))
  const least = known.reduce((most, one) => (one.mm - one.expected < most.mm - most.expected ? one : most))
  const uneven = worst.mm - worst.expected - (least.mm - least.expected)
  if (uneven < 2 * unseen(reading)) return <p className="fit-says state cut">They agree with each other.</p>
  return (
    <>
      <p className="fit-says state now" role="status">
        {worst.from} to {worst.to} is {fine(uneven, reading)} too long beside {least.from} to {least.to}. Pull
        corners {worst.from} and {worst.to} together by half of it.
      </p>
      <p>{pulling}</p>
    </>
  )
}

/** Where no diagonal can be reached: three sides of a triangle at one corner. */
function Triangle({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop } = bench
  const { reading } = shop
  const [corner, setCorner] = useState(0)
  const [sides, setSides] = useState<readonly (number | undefined)[]>([undefined, undefined, undefined])
  const labels = ['Along one side', 'Along the other', 'Between the two marks'] as const
  const planned = cornerAngles(builtCorners(loop, plan.parts))
  const want = planned[corner]!
  const [a, b, third] = sides
  const angle = a && b && third ? angleBetween(a, b, third) : undefined
  // The tape goes the short way round: at a corner that turns in, the angle outside.
  const reached = want > 180 ? 360 - want : want
  const must = a && b ? thirdSide(a, b, reached) : undefined
  const off = angle === undefined ? 0 : angle - reached
  const may = a && b ? angleMay(shop, Math.min(a, b)) : undefined
  const right = must !== undefined && third !== undefined && Math.abs(third - must) < unseen(reading)
  return (
    <details className="fit-fold">
      <summary>
        <span>A corner by three lengths</span>
        <span className="dim">
          {angle === undefined ? 'where no diagonal can be reached' : degrees(angle)}
        </span>
      </summary>
      <div className="fit-fields">
        <Pick
          label="Corner"
          value={String(corner)}
          options={planned.map((each, at) => ({
            value: String(at),
            label: `Corner ${at + 1}: must be ${degrees(each > 180 ? 360 - each : each)}`,
          }))}
          onChange={(value) => setCorner(Number(value))}
        />
        {labels.map((label, at) => (
          <MmField
            key={label}
            label={label}
            value={sides[at]}
            reading={reading}
            hint={
              at === 2 && must !== undefined ? (
                <>
                  Must be <LengthText of={showLength(must, reading)} />
                </>
              ) : undefined
            }
            possible={{ over: 0 }}
            onChange={(mm) => setSides(sides.map((one, k) => (k === at ? mm : one)))}
          />
        ))}
        {!(a && b && third) ? (
          <p role="status">Mark any distance from the corner on both sides, and measure across.</p>
        ) : angle === undefined ? (
          <p role="status">These three close no triangle: one is longer than the other two together.</p>
        ) : right ? (
          <p role="status" className="fit-says state cut">
            The corner is right: {degrees(angle)}.
          </p>
        ) : (
          <p role="status" className="fit-says state now">
            The corner is {degrees(angle)}, {degrees(off)} too {off > 0 ? 'wide' : 'narrow'}:{' '}
            {off > 0 ? 'pull the two marks together' : 'push the two marks apart'} by{' '}
            {fine(Math.abs(third - must!), reading)}.
          </p>
        )}
        {angle !== undefined && !right && may && (
          <p>
            {Math.abs(off) <= may.most ? `That is within ${may.by}` : `Beyond ${may.by}`}: {degrees(may.most)}{' '}
            allowed.
          </p>
        )}
      </div>
    </details>
  )
}

/** Is it flat? Heights of the corners over the table. */
export function LieFlat({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop, measured, onGauge } = bench
  const { reading } = shop
  const corners = builtCorners(loop, plan.parts)
  const heights = corners.map((_, at) => measured(heightName(loop.id, at + 1)))
  const known = heights.filter((mm) => mm !== undefined)
  const flat = known.length === corners.length ? flatness(corners, known) : undefined
  const say = (of: readonly number[]) => `corner${of.length === 1 ? '' : 's'} ${listed(of)}`
  const longest = Math.max(
    ...corners.map(([x, y], at) => {
      const [u, v] = corners[(at + 1) % corners.length]!
      return Math.hypot(x - u, y - v)
    }),
  )
  const may = flatMay(shop, longest)
  return (
    <section className="fit-part" aria-labelledby="fit-flat">
      <h2 id="fit-flat">Is it flat?</h2>
      <p className="dim">Height of each corner over the table, from one edge of the tube.</p>
      <div className="fit-fields">
        {corners.map((corner, at) => (
          <MmField
            key={`${corner[0]} ${corner[1]}`}
            label={`Corner ${at + 1}`}
            optional
            value={heights[at]}
            reading={reading}
            onChange={(mm) => onGauge(heightName(loop.id, at + 1), mm)}
          />
        ))}
      </div>
      {!flat ? (
        <p>Measure all {corners.length} to know.</p>
      ) : flat.spread < unseen(reading) ? (
        <p className="fit-says state cut">It is flat.</p>
      ) : (
        <>
          <p className="fit-says state now" role="status">
            {flat.twist === undefined
              ? `Out of flat by ${fine(flat.spread, reading)} from lowest to highest.`
              : `Twisted by ${fine(flat.twist, reading)}: so far one corner stands off the other three.`}{' '}
            Lift {say(flat.lift)}, press down {say(flat.press)}.
          </p>
          {may && (
            <p>
              {flat.spread <= may.most ? `That is within ${may.by}` : `Beyond ${may.by}`}:{' '}
              {fine(may.most, reading)} allowed from lowest to highest.
            </p>
          )}
          <p>{pulling}</p>
        </>
      )}
    </section>
  )
}
