import type { PointerEvent, ReactNode } from 'react'
import type { Point } from '../../core/geometry/polygon.ts'
import { DimensionLine, WitnessLine } from './dimension-line.tsx'
import type { Dimension } from './dimensions.ts'
import { type Layout, rowHigh, rowsOf } from './layout.ts'
import { toScreen } from './sheet.ts'

/** Screen ends of a dimension line. */
function endsOf(
  one: Dimension,
  among: readonly Dimension[],
  layout: Layout,
): { from: Point; to: Point; edge: number } {
  const { place, box } = layout[one.view]
  const row = rowsOf(among, one.view, one.side).indexOf(one)
  if (one.side === 'bottom') {
    const y = box.bottom + row * rowHigh + rowHigh / 2 + 4
    const [x0] = toScreen(place, [one.from, 0])
    const [x1] = toScreen(place, [one.to, 0])
    return { from: [x0, y], to: [x1, y], edge: box.bottom + 4 }
  }
  // A mark on the outermost member stands out of the picture a little.
  const away = layout[one.view].rows[one.side][row]! + 8
  const x = one.side === 'left' ? box.left - away : box.right + away
  const y0 = toScreen(place, [0, one.from])[1]
  const y1 = toScreen(place, [0, one.to])[1]
  return { from: [x, y0], to: [x, y1], edge: one.side === 'left' ? box.left - 4 : box.right + 4 }
}

/** A dimension line with its two witness lines. */
export function Line({ of, among, layout }: { of: Dimension; among: readonly Dimension[]; layout: Layout }) {
  const { from, to, edge } = endsOf(of, among, layout)
  const witness = ([x, y]: Point): [Point, Point] =>
    of.side === 'bottom'
      ? [
          [x, edge],
          [x, y + 8],
        ]
      : [
          [edge, y],
          [x + (of.side === 'left' ? -8 : 8), y],
        ]
  const [a, b] = [witness(from), witness(to)]
  return (
    <g>
      <WitnessLine from={a[0]} to={a[1]} />
      <WitnessLine from={b[0]} to={b[1]} />
      <DimensionLine className={of.field ? 'asked' : ''} from={from} to={to} />
    </g>
  )
}

/** Room that the text of a dimension takes, px. */
const textHigh = 36

/** Where its number stands, `wide` px of it: in the middle of the line, but beside one that it would cover. */
export function labelAt(one: Dimension, among: readonly Dimension[], layout: Layout, wide: number): Point {
  const { from, to } = endsOf(one, among, layout)
  if (one.side !== 'bottom' && from[1] - to[1] < textHigh) return [to[0], to[1] - textHigh / 2]
  // A number that is asked for is a key as high as its row, which would lie on that of the next one.
  if (one.side === 'bottom' && one.field === undefined && to[0] - from[0] < wide)
    return [(from[0] + to[0]) / 2, to[1] + textHigh / 2]
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
}

/** The number on a dimension line. It is a button, and can be dragged, where the number is the person's own. */
export function Label(props: {
  readonly x: number
  readonly y: number
  readonly name: string
  readonly field?: string | undefined
  readonly onField: (name: string) => void
  readonly onGrab?: ((event: PointerEvent) => void) | undefined
  readonly children: ReactNode
}) {
  const { field } = props
  const style = { left: `${props.x}px`, top: `${props.y}px` }
  if (field === undefined)
    return (
      <span className="dimension-label" style={style} title={props.name}>
        <span className="on-line">{props.children}</span>
        <span className="heard"> {props.name}</span>
      </span>
    )
  return (
    <button
      type="button"
      className="dimension-label asked"
      style={style}
      title={props.name}
      onClick={() => props.onField(field)}
      onPointerDown={props.onGrab}
    >
      <span className="on-line">{props.children}</span>
      <span className="heard"> {props.name}, change it</span>
    </button>
  )
}
