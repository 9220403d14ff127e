import { useState } from 'react'
import { flatness, heightName } from '../../core/fitup/flat.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import {
  angleBetween,
  diagonalName,
  diagonalsOf,
  measuredCorners,
  squareOf,
} from '../../core/fitup/square.ts'
import { showLength } from '../../core/reading/show.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'
import { degrees, fine, unseen } from './closing-words.ts'
import type { Bench } from './will-it-close.tsx'

/** Is it square? Diagonals beside what they must be, and which corners to pull. */
export function SquareUp({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { shop, measured, onGauge } = bench
  const { reading } = shop
  const diagonals = diagonalsOf(loop)
  const read = diagonals.map((one) => measured(diagonalName(loop.id, one.id)))
  return (
    <section className="fit-part" aria-labelledby="fit-square">
      <h2 id="fit-square">Is it square?</h2>
      <p className="dim">
        Corner to corner, {loop.ring ? 'outside, at the points' : 'in the clear'}. Corners are numbered as the
        joints.
      </p>
      <div className="fit-fields">
        {diagonals.map((one, at) => (
          <MmField
            key={one.id}
            label={`Corner ${one.from} to ${one.to}`}
            optional
            value={read[at]}
            reading={reading}
            hint={
              <>
                Must be <LengthText of={showLength(one.expected, reading)} />
              </>
            }
            onChange={(mm) => onGauge(diagonalName(loop.id, one.id), mm)}
          />
        ))}
      </div>
      <SquareWords loop={loop} bench={bench} />
      <Triangle bench={bench} />
    </section>
  )
}

const pulling =
  'Tack first where it is right; then press the open side and tack it: a tack pulls toward itself as it cools. Check the good side again.'
// Common practice.

function SquareWords({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { shop, measured } = bench
  const { reading } = shop
  const diagonals = diagonalsOf(loop)
  const known = diagonals.flatMap((one) => {
    const mm = measured(diagonalName(loop.id, one.id))
    return mm === undefined ? [] : [{ ...one, mm }]
  })
  if (known.length < 2) return <p>Measure {diagonals.length === 2 ? 'both' : 'at least two'} to know.</p>
  const corners = measuredCorners(loop)
  const four = corners.length === 4 && Math.abs(known[0]!.expected - known[1]!.expected) < 0.01
  if (four) {
    const side = (a: number, b: number) =>
      Math.hypot(corners[a]![0] - corners[b]![0], corners[a]![1] - corners[b]![1])
    const { off, pull, by } = squareOf(known[0]!.mm, known[1]!.mm, side(0, 1), side(1, 2))
    if (!pull || by < unseen(reading)) return <p className="fit-says state cut">It is square.</p>
    return (
      <>
        <p className="fit-says state now" role="status">
          Out of square by {degrees(off)}. Pull corners {pull[0]} and {pull[1]} together by{' '}
          {fine(by, reading)}, until both diagonals read the same.
        </p>
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
function Triangle({ bench }: { readonly bench: Bench }) {
  const [sides, setSides] = useState<readonly (number | undefined)[]>([undefined, undefined, undefined])
  const labels = ['Along one side', 'Along the other', 'Between the two marks'] as const
  const [a, b, third] = sides
  const angle = a && b && third ? angleBetween(a, b, third) : undefined
  return (
    <details className="fit-fold">
      <summary>
        <span>A corner by three lengths</span>
        <span className="dim">
          {angle === undefined ? 'where no diagonal can be reached' : degrees(angle)}
        </span>
      </summary>
      <div className="fit-fields">
        {labels.map((label, at) => (
          <MmField
            key={label}
            label={label}
            value={sides[at]}
            reading={bench.shop.reading}
            onChange={(mm) => setSides(sides.map((one, k) => (k === at ? mm : one)))}
          />
        ))}
        <p role="status">
          {a && b && third
            ? angle === undefined
              ? 'These three close no triangle: one is longer than the other two together.'
              : `The corner is ${degrees(angle)}.`
            : 'Mark any distance from the corner on both sides, and measure across.'}
        </p>
      </div>
    </details>
  )
}

/** Is it flat? Heights of the corners over the table. */
export function LieFlat({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { shop, measured, onGauge } = bench
  const corners = measuredCorners(loop)
  const heights = corners.map((_, at) => measured(heightName(loop.id, at + 1)))
  const known = heights.filter((mm) => mm !== undefined)
  const flat = known.length === corners.length ? flatness(corners, known) : undefined
  const say = (of: readonly number[]) =>
    of.length === 1 ? `corner ${of[0]}` : `corners ${of.slice(0, -1).join(', ')} and ${of.at(-1)}`
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
            reading={shop.reading}
            onChange={(mm) => onGauge(heightName(loop.id, at + 1), mm)}
          />
        ))}
      </div>
      {!flat ? (
        <p>Measure all {corners.length} to know.</p>
      ) : flat.spread < unseen(shop.reading) ? (
        <p className="fit-says state cut">It is flat.</p>
      ) : (
        <>
          <p className="fit-says state now" role="status">
            {flat.twist === undefined
              ? `Out of flat by ${fine(flat.spread, shop.reading)} from lowest to highest.`
              : `Twisted by ${fine(flat.twist, shop.reading)}: so far one corner stands off the other three.`}{' '}
            Lift {say(flat.lift)}, press down {say(flat.press)}.
          </p>
          <p>{pulling}</p>
        </>
      )}
    </section>
  )
}
