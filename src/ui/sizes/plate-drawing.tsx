import type { Point } from '../../core/geometry/polygon.ts'
import { type Ring, type SheetDrawing, spanOf } from '../../core/plates/sheet-drawing.ts'

/** More corners than this are told by the list alone. */
const mostNumbers = 40

/** A plate as it lies on the sheet, its factory edges at the left and below, corners numbered. */
export function PlateDrawing({ drawing }: { readonly drawing: SheetDrawing }) {
  const { marking, part, cut, guides, holes, slots } = drawing
  const [low, high] = spanOf(drawing)
  const size = Math.max(high[0] - low[0], high[1] - low[1])
  const room = size * 0.06
  const text = size * 0.035
  const left = Math.min(low[0], 0) - room
  const top = Math.max(high[1], marking.height) + room
  const box = `${left} 0 ${high[0] - left + room} ${top - Math.min(low[1], 0) + room}`
  const place = ([x, y]: Point) => `${x} ${top - y}`
  const ring = (of: Ring, kind: string) =>
    'polygon' in of ? (
      <path className={kind} d={`M${of.polygon.map(place).join('L')}Z`} />
    ) : (
      <circle className={kind} cx={of.at[0]} cy={top - of.at[1]} r={of.radius} />
    )
  const [middleX, middleY] = [marking.width / 2, marking.height / 2]
  return (
    <svg
      className="plate-drawing"
      viewBox={box}
      role="img"
      aria-label={`${drawing.name} as it is marked out`}
    >
      <path
        className="factory-edge"
        d={`M${left} ${top}H${high[0] + room / 2}M0 ${top + room}V${top - high[1] - room / 2}`}
      />
      {ring(part, 'part-edge')}
      {cut && ring(cut, 'cut-line')}
      {guides.map(({ side, from, to }) => (
        <path key={side} className="guide-line" d={`M${place(from)}L${place(to)}`} />
      ))}
      {holes.map(({ at, diameter }) => (
        <circle key={at.join()} className="part-edge" cx={at[0]} cy={top - at[1]} r={diameter / 2} />
      ))}
      {slots.map(({ ends, width }) => (
        <SlotShape key={ends.join()} ends={ends} width={width} top={top} />
      ))}
      {marking.corners.length <= mostNumbers &&
        marking.corners.map(([x, y], at) => {
          const away = Math.hypot(x - middleX, y - middleY) || 1
          // Numbers stand inside the part, drawn in from their corners toward the middle.
          const [u, v] = [x - ((x - middleX) / away) * text * 1.6, y - ((y - middleY) / away) * text * 1.6]
          return (
            <text key={`${x} ${y}`} x={u} y={top - v} fontSize={text} textAnchor="middle" dy="0.35em">
              {at + 1}
            </text>
          )
        })}
    </svg>
  )
}

function SlotShape(props: {
  readonly ends: readonly [Point, Point]
  readonly width: number
  readonly top: number
}) {
  const [[ax, ay], [bx, by]] = props.ends
  const turn = (Math.atan2(ay - by, bx - ax) * 180) / Math.PI
  const long = Math.hypot(bx - ax, by - ay) + props.width
  const [x, y] = [(ax + bx) / 2, props.top - (ay + by) / 2]
  return (
    <rect
      className="part-edge"
      x={x - long / 2}
      y={y - props.width / 2}
      width={long}
      height={props.width}
      rx={props.width / 2}
      transform={`rotate(${turn} ${x} ${y})`}
    />
  )
}
