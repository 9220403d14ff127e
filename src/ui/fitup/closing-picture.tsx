import { type Closing, closingAt, entryOf, exitOf, laid, type Off } from '../../core/fitup/closing.ts'
import type { Loop, LoopPiece } from '../../core/fitup/loops.ts'
import { type Move, moved } from '../../core/fitup/move.ts'
import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { fitIn, pathOf, toScreen } from '../drawing/sheet.ts'
import { extentOf } from '../drawing/view.ts'
import { useWidth } from '../drawing/width.ts'

/** How many times too large errors are drawn, so that the gap at the last joint can be seen; 1: as it is. */
export function exaggeration(size: number, closing: Closing): number {
  if (closing.worst < size * 1e-5) return 1
  const wanted = (size * 0.07) / closing.worst
  return [200, 100, 50, 20, 10, 5, 2].find((times) => times <= wanted) ?? 1
}

/** A piece with its real ends, in its own plan. */
const shapeOf = (piece: LoopPiece, off: Off): Polygon => {
  if (piece.entry.end === 'side' || piece.exit.end === 'side') return piece.outline
  const [first, last] = [entryOf(piece, off), exitOf(piece, off)]
  return [
    moved(first, piece.entry.outer),
    moved(last, piece.exit.outer),
    moved(last, piece.exit.inner),
    moved(first, piece.entry.inner),
  ]
}

const all = (place: Move, polygon: Polygon): Polygon => polygon.map((point) => moved(place, point))
const middle = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
]

/** The ring from its real pieces, all joints closed but the last; errors drawn larger than they are, and said so. */
export function ClosingPicture({
  loop,
  offs,
  marks,
  last,
}: {
  readonly loop: Loop
  readonly offs: readonly Off[]
  readonly marks: readonly string[]
  readonly last: number
}) {
  const [box, width] = useWidth<HTMLDivElement>(560)
  const { pieces } = loop
  const n = pieces.length
  const planned = extentOf(pieces.flatMap(({ outline }) => outline))
  const size = Math.max(planned.right - planned.left, planned.top - planned.bottom)
  const times = exaggeration(size, closingAt(pieces, offs, last))
  const drawn = offs.map((off) => ({
    length: off.length * times,
    entry: off.entry * times,
    exit: off.exit * times,
  }))
  const places = laid(pieces, drawn, last)
  const shapes = places.map((place, k) => {
    const at = (last + k) % n
    return { at, polygon: all(place, shapeOf(pieces[at]!, drawn[at]!)) }
  })
  const height = Math.round(Math.min(460, Math.max(260, width * 0.75)))
  const place = fitIn(extentOf(shapes.flatMap(({ polygon }) => polygon)), {
    x: 46,
    y: 46,
    width: width - 92,
    height: height - 92,
  })
  const center = middle(shapes.flatMap(({ polygon }) => polygon))
  const label =
    times === 1
      ? 'Drawn as it is.'
      : `The errors are drawn ${times} times too large; the pieces are to scale.`
  return (
    <figure className="closing-picture">
      <div ref={box}>
        <svg
          width={width}
          height={height}
          viewBox={`0 0 ${width} ${height}`}
          role="img"
          aria-label={`${loop.name} from its real pieces, joint ${last + 1} left for last. ${label}`}
        >
          {shapes.map(({ at, polygon }) => (
            <path key={pieces[at]!.member} className="piece" d={pathOf(place, polygon)} />
          ))}
          {shapes.map(({ at, polygon }) => {
            const [x, y] = toScreen(place, middle(polygon))
            return (
              <text key={pieces[at]!.member} className="piece-mark" x={x} y={y + 6} textAnchor="middle">
                {marks[at]}
              </text>
            )
          })}
          {shapes.map(({ at, polygon }) => {
            const [x, y] = outward(toScreen(place, polygon[0]!), toScreen(place, center), 26)
            return (
              <g key={pieces[at]!.member} transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
                {at === last ? (
                  <path className="joint-last" d="M0 -18L18 0L0 18L-18 0Z" />
                ) : (
                  <circle className="joint-spot" r="15" />
                )}
                <text className={at === last ? 'last' : ''} y="6" textAnchor="middle">
                  {at + 1}
                </text>
              </g>
            )
          })}
        </svg>
      </div>
      <figcaption className="dim">{label} The square on its point is the joint left for last.</figcaption>
    </figure>
  )
}

/** A point moved away from another by so many px. */
function outward([x, y]: Point, [cx, cy]: Point, by: number): Point {
  const far = Math.hypot(x - cx, y - cy) || 1
  return [x + ((x - cx) / far) * by, y + ((y - cy) / far) * by]
}
