import type { ReactNode } from 'react'
import type { Point } from '../../core/geometry/polygon.ts'
import type { MarkingOut } from '../../core/plates/marking-out.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import type { Mm } from '../../core/units.ts'
import { LengthText } from '../fields/length-text.tsx'

/** Every corner and hole from two factory edges, and the diagonals that tell whether it was marked right. */
export function MarkingList({
  marking,
  reading,
}: {
  readonly marking: MarkingOut
  readonly reading: Reading
}) {
  const length = (mm: Mm) => <LengthText of={showLength(mm, reading)} lies />
  const row = (name: string, [x, y]: Point, what?: ReactNode) => (
    <tr key={`${name} ${x} ${y}`}>
      <th scope="row">{name}</th>
      <td className="number">{length(x)}</td>
      <td className="number">{length(y)}</td>
      <td>{what}</td>
    </tr>
  )
  const { circle, corners, holes, slots, diagonals } = marking
  return (
    <>
      <p>
        Out of {length(marking.width)} × {length(marking.height)}, two edges of the sheet square to each
        other: one at the left, one below.
      </p>
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th scope="col">point</th>
              <th scope="col">from the left edge</th>
              <th scope="col">from the lower edge</th>
              <th scope="col" />
            </tr>
          </thead>
          <tbody>
            {circle && row('middle', circle.at, <>radius {length(circle.radius)}</>)}
            {corners.map((corner, at) => row(`corner ${at + 1}`, corner))}
            {holes.map(({ at: middle, diameter }, at) =>
              row(`hole ${at + 1}`, middle, <>drill ⌀ {length(diameter)}</>),
            )}
            {slots.flatMap(({ ends, width }, at) =>
              ends.map((end, k) =>
                row(`slot ${at + 1}, end ${k + 1}`, end, <>drill ⌀ {length(width)}, then join the two</>),
              ),
            )}
          </tbody>
        </table>
      </div>
      {diagonals.length > 0 && (
        <p>
          Check before cutting:{' '}
          {diagonals.map(({ from, to, length: mm }, at) => (
            <span key={`${from} ${to}`}>
              {at > 0 && ', '}
              {from + 1} to {to + 1} is {length(mm)}
            </span>
          ))}
          .
        </p>
      )}
    </>
  )
}
