import { type ReactNode, useMemo } from 'react'
import type { Point } from '../../core/geometry/polygon.ts'
import type { Part, Plan } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { DimensionLine, WitnessLine } from './dimension-line.tsx'
import { circleOf, type Dimension, dimensionsOf } from './dimensions.ts'
import type { TypedLength } from './fields.ts'
import { type LandedLines, landedIn, landedLines } from './landed.ts'
import { type Laid, layOut, rowHigh, rowsOf, rowWideAt } from './layout.ts'
import { marksOf, partLine } from './marks.ts'
import { platesOnTop } from './on-top.ts'
import { LandedMarks, Shapes } from './shape.tsx'
import { backToFront, type Seen } from './shapes.ts'
import { toScreen } from './sheet.ts'
import { solidsOf } from './solid.ts'
import { type Extent, fromAbove, fromFront } from './view.ts'
import { useWidth } from './width.ts'

interface Props {
  readonly plan: Plan
  readonly reading: Reading
  readonly typed: readonly TypedLength[]
  /** Mark of the chosen part. */
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  readonly onField: (name: string) => void
  /** Most height of the drawing, px. */
  readonly high?: number
}

const whole = (seen: readonly Seen[]): Extent => ({
  left: Math.min(...seen.map(({ extent }) => extent.left)),
  right: Math.max(...seen.map(({ extent }) => extent.right)),
  bottom: Math.min(...seen.map(({ extent }) => extent.bottom)),
  top: Math.max(...seen.map(({ extent }) => extent.top)),
})

/**
 * Plan and elevation, to one scale, from the frame itself. A dimension that the person gave is a button that leads
 * to its field; a member is chosen by a tap, and the chosen part shows its length.
 */
export function FrameDrawing(props: Props) {
  const { plan, typed, chosen } = props
  const [box, width] = useWidth<HTMLDivElement>(760)
  const drawn = useMemo(() => {
    const solids = solidsOf(plan.frame)
    // From above, what lies on top would hide the frame: it is drawn as a line alone.
    const onTop = platesOnTop(plan)
    const dimensions = dimensionsOf(plan, typed)
    const above = backToFront(solids, fromAbove, ({ id }) => onTop.has(id))
    const front = backToFront(solids, fromFront)
    const landed = landedIn(plan.frame)
    return {
      plan: above,
      front,
      landed: {
        plan: landedLines(landed, above, fromAbove),
        front: landedLines(landed, front, fromFront),
      },
      dimensions,
      circle: circleOf(plan, typed, dimensions),
    }
  }, [plan, typed])
  if (drawn.plan.length === 0) return null
  const front = whole(drawn.front)
  const floor = Math.min(plan.frame.floor, front.bottom, 0)
  const layout = layOut(
    whole(drawn.plan),
    { ...front, bottom: floor },
    drawn.dimensions,
    width,
    props.high ?? 460,
  )
  const part = plan.parts.find(({ mark }) => mark === chosen)
  const circle = drawn.circle
  const radius = circle ? (circle.diameter / 2) * layout.plan.place.scale : 0
  const middle: Point = circle ? toScreen(layout.plan.place, circle.center) : [0, 0]
  const floorAt = toScreen(layout.front.place, [0, floor])[1]
  return (
    <div className="drawing-box" ref={box}>
      <svg
        className="drawing"
        width={layout.width}
        height={layout.height}
        viewBox={`0 0 ${layout.width} ${layout.height}`}
        role="img"
        aria-label={`Plan and elevation of ${plan.name}, to scale`}
      >
        <Members {...props} seen={drawn.plan} landed={drawn.landed.plan} laid={layout.plan} isPlan />
        <Members {...props} seen={drawn.front} landed={drawn.landed.front} laid={layout.front} />
        <path
          className="floor-line"
          d={`M${layout.front.box.left - 12} ${floorAt}H${layout.front.box.right + 12}`}
        />
        <Levelers plan={plan} laid={layout.front} floor={floor} />
        {drawn.dimensions.map((one) => (
          <Line key={keyOf(one)} of={one} among={drawn.dimensions} layout={layout} />
        ))}
        {circle && (
          <>
            <circle className="size-circle" cx={middle[0]} cy={middle[1]} r={radius} />
            <DimensionLine
              className="asked"
              from={[middle[0] - radius, middle[1]]}
              to={[middle[0] + radius, middle[1]]}
            />
          </>
        )}
        {part && <ChosenLine part={part} seen={drawn} layout={layout} />}
      </svg>
      {drawn.dimensions.map((one) => {
        const [x, y] = labelAt(one, drawn.dimensions, layout)
        return (
          <Label key={keyOf(one)} x={x} y={y} name={one.name} field={one.field} onField={props.onField}>
            <LengthText of={showLength(one.to - one.from, props.reading)} />
          </Label>
        )
      })}
      {circle && (
        <Label x={middle[0]} y={middle[1]} name={circle.name} field={circle.field} onField={props.onField}>
          ⌀ <LengthText of={showLength(circle.diameter, props.reading)} />
        </Label>
      )}
      {part && <ChosenLabel part={part} seen={drawn} layout={layout} />}
    </div>
  )
}

const keyOf = ({ view, side, from, to }: Dimension) => `${view} ${side} ${from} ${to}`

type Drawn = { readonly plan: readonly Seen[]; readonly front: readonly Seen[] }
type Sheet = ReturnType<typeof layOut>

function Members({
  plan,
  chosen,
  onChoose,
  seen,
  landed,
  laid,
  isPlan = false,
}: Props & {
  readonly seen: readonly Seen[]
  readonly landed: readonly LandedLines[]
  readonly laid: Laid
  readonly isPlan?: boolean
}) {
  const markOf = new Map(plan.parts.flatMap(({ mark, members }) => members.map((id) => [id, mark] as const)))
  const onTop = platesOnTop(plan)
  const open = (one: Seen) => isPlan && onTop.has(one.id)
  const marks = marksOf(plan, seen, laid.place, open)
  return (
    <g>
      <Shapes
        seen={seen}
        place={laid.place}
        open={open}
        chosen={({ id }) => markOf.get(id) !== undefined && markOf.get(id) === chosen}
        onChoose={({ id }) => {
          const mark = markOf.get(id)
          return mark === undefined ? undefined : () => onChoose(mark)
        }}
      />
      <LandedMarks
        landed={landed}
        place={laid.place}
        chosen={(id) => markOf.get(id) !== undefined && markOf.get(id) === chosen}
      />
      {marks.map(({ id, mark, at }) => (
        <text
          key={id}
          className={mark === chosen ? 'mark-text chosen' : 'mark-text'}
          x={at[0]}
          y={at[1]}
          dominantBaseline="central"
        >
          {mark}
        </text>
      ))}
    </g>
  )
}

/** Leveling feet: a pad on the floor and a stud up to the cap. */
function Levelers({ plan, laid, floor }: { plan: Plan; laid: Laid; floor: number }) {
  return plan.frame.hardware
    .filter(({ kind, at }) => kind === 'leveler' && at[2] > floor)
    .map(({ id, at }) => {
      const [x, top] = toScreen(laid.place, [at[0], at[2]])
      const down = toScreen(laid.place, [at[0], floor])[1]
      return <path key={id} className="leveler" d={`M${x} ${top}V${down}M${x - 7} ${down - 1}H${x + 7}`} />
    })
}

/** Screen ends of a dimension line. */
function endsOf(
  one: Dimension,
  among: readonly Dimension[],
  layout: Sheet,
): { from: Point; to: Point; edge: number } {
  const { place, box } = layout[one.view]
  const row = rowsOf(among, one.view, one.side).indexOf(one)
  if (one.side === 'bottom') {
    const y = box.bottom + row * rowHigh + rowHigh / 2 + 4
    const [x0] = toScreen(place, [one.from, 0])
    const [x1] = toScreen(place, [one.to, 0])
    return { from: [x0, y], to: [x1, y], edge: box.bottom + 4 }
  }
  const rowWide = rowWideAt(layout.width)
  const away = row * rowWide + rowWide / 2
  const x = one.side === 'left' ? box.left - away : box.right + away
  const y0 = toScreen(place, [0, one.from])[1]
  const y1 = toScreen(place, [0, one.to])[1]
  return { from: [x, y0], to: [x, y1], edge: one.side === 'left' ? box.left - 4 : box.right + 4 }
}

function Line({ of, among, layout }: { of: Dimension; among: readonly Dimension[]; layout: Sheet }) {
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

function labelAt(one: Dimension, among: readonly Dimension[], layout: Sheet): Point {
  const { from, to } = endsOf(one, among, layout)
  // A number that would cover its own short line stands above it.
  if (one.side !== 'bottom' && from[1] - to[1] < textHigh) return [to[0], to[1] - textHigh / 2]
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
}

/** The number on a dimension line. It is a button where the number is the person's own. */
function Label(props: {
  readonly x: number
  readonly y: number
  readonly name: string
  readonly field?: string | undefined
  readonly onField: (name: string) => void
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
    >
      <span className="on-line">{props.children}</span>
      <span className="heard"> {props.name}, change it</span>
    </button>
  )
}

function chosenLine(part: Part, seen: Drawn, layout: Sheet) {
  return partLine(part, seen.plan, layout.plan) ?? partLine(part, seen.front, layout.front)
}

function ChosenLine(props: { part: Part; seen: Drawn; layout: Sheet }) {
  const line = chosenLine(props.part, props.seen, props.layout)
  return line && <DimensionLine className="of-chosen" from={line.from} to={line.to} />
}

function ChosenLabel({ part, seen, layout }: { part: Part; seen: Drawn; layout: Sheet }) {
  const line = chosenLine(part, seen, layout)
  if (!line) return null
  const { length } = part.printed
  return (
    <span
      className="dimension-label of-chosen"
      style={{ left: `${(line.from[0] + line.to[0]) / 2}px`, top: `${(line.from[1] + line.to[1]) / 2}px` }}
    >
      <span className="mark">{part.mark}</span> <LengthText of={length} />
    </span>
  )
}
