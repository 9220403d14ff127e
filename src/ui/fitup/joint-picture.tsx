import { type Closing, faceOf } from '../../core/fitup/closing.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { leanOf } from '../../core/fitup/recut.ts'
import type { Point } from '../../core/geometry/polygon.ts'
import type { Reading } from '../../core/shop.ts'
import { tanDeg } from '../../core/units.ts'
import { saySide, unseen } from './closing-words.ts'

/** Drawing of one joint, px: its face is so long, and so much of the pieces is seen to each side and above. */
const [face, reach, room] = [150, 190, 24] as const
/** A piece that leans far from its joint runs out of the picture below. */
const mostDrop = 120

/** How many times too large the gap is drawn: a quarter of the face, in round steps; never smaller than it is. */
export function gapTimes(closing: Closing, along: number): number {
  const wanted = (along * 0.25) / closing.worst
  return [500, 200, 100, 50, 20, 10, 5, 2].find((times) => times <= wanted) ?? 1
}

/** The joint left for last, large, seen from above: outside at the top, the gap drawn larger than it is and said so. */
export function JointPicture(props: {
  readonly loop: Loop
  readonly closing: Closing
  readonly reading: Reading
}) {
  const { loop, closing, reading } = props
  const { last } = closing
  const along = faceOf(loop, last)
  if (closing.worst < unseen(reading) || along === 0) return null
  const times = gapTimes(closing, along)
  const scale = face / along
  const n = loop.pieces.length
  const lean = (at: number, which: 'entry' | 'exit') =>
    loop.pieces[at]![which].end === 'side' ? 0 : leanOf(loop.pieces[at]!, which)
  const [before, after] = [lean((last + n - 1) % n, 'exit'), lean(last, 'entry')]
  // x ahead, y from outside to inside; the face of the piece before stands in the middle.
  const x0 = reach
  // The piece that stands out further begins at the top.
  const y0 = room + Math.max(0, -closing.step * times * scale)
  const spot = (ahead: number, across: number): Point => [
    x0 + ahead * times * scale,
    y0 + across * times * scale,
  ]
  const [outer, inner] = [spot(closing.outside, closing.step), spot(closing.inside, closing.step)]
  const innerAt: Point = [inner[0], inner[1] + face]
  const wide = 2 * reach
  const drops = [before, after].map((angle) => Math.min(mostDrop, Math.max(0, reach * tanDeg(angle))))
  const high = face + 2 * room + Math.max(...drops) + Math.abs(closing.step) * times * scale
  const body = (a: Point, b: Point, angle: number, way: 1 | -1): string => {
    // Past the edge of the picture, where it is cut off.
    const far = ([x, y]: Point): Point => [x + way * reach * 2, y + reach * 2 * tanDeg(angle)]
    return `M${[a, far(a), far(b), b].map((point) => point.map((value) => value.toFixed(1)).join(' ')).join('L')}Z`
  }
  const label = `Joint ${last + 1} from above, ${
    times === 1 ? 'drawn as it is' : `the gap drawn ${times} times too large`
  }.`
  return (
    <figure className="joint-picture">
      <svg viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={label}>
        <path className="piece" d={body([x0, y0], [x0, y0 + face], before, -1)} />
        <path className="piece over" d={body(outer, innerAt, after, 1)} />
      </svg>
      <figcaption className="dim">
        {label} Outside, at the top: {saySide(closing.outside, reading)}. Inside, at the bottom:{' '}
        {saySide(closing.inside, reading)}.
      </figcaption>
    </figure>
  )
}
