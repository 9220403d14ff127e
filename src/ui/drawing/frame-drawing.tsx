import { useMemo } from 'react'
import type { Draft } from '../../core/draft.ts'
import type { Point } from '../../core/geometry/polygon.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import { LengthText } from '../fields/length-text.tsx'
import { bothViews } from './both-views.ts'
import { ChosenLabel, ChosenLine } from './chosen-line.tsx'
import { Label, Line, labelAt } from './dimension-label.tsx'
import { DimensionLine } from './dimension-line.tsx'
import type { Dimension } from './dimensions.ts'
import { type Resize, useDrag } from './drag.ts'
import type { TypedLength } from './fields.ts'
import type { LandedLines } from './landed.ts'
import { type Laid, layOut, numberWide } from './layout.ts'
import { marksById, marksOf } from './marks.ts'
import { LandedMarks, Marks, Shapes } from './shape.tsx'
import type { Seen } from './shapes.ts'
import { toScreen } from './sheet.ts'
import { type Extent, together } from './view.ts'
import { useWidth } from './width.ts'

interface Props {
  readonly plan: Draft
  readonly reading: Reading
  readonly typed: readonly TypedLength[]
  /** Mark of the chosen part. */
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  readonly onField: (name: string) => void
  /** Absent: sizes cannot be dragged. */
  readonly resize?: Resize
  /** Most height of the drawing, px. */
  readonly high?: number
}

const whole = (seen: readonly Seen[]): Extent => together(seen.map(({ extent }) => extent))

/**
 * Plan and elevation, to one scale, from the frame itself. A dimension that the person gave is a button that leads
 * to its field and can be dragged; a member is chosen by a tap, and the chosen part shows its length.
 */
export function FrameDrawing(props: Props) {
  const { chosen } = props
  const drag = useDrag(props.resize)
  const { field, good, problem } = drag.held ?? {}
  const moving = drag.held !== null
  const plan = good?.draft ?? props.plan
  const typed = useMemo(
    () => props.typed.map((one) => (good && one.name === field ? { ...one, mm: good.mm } : one)),
    [props.typed, field, good],
  )
  const [box, width] = useWidth<HTMLDivElement>(760)
  const drawn = useMemo(() => bothViews(plan, typed, moving), [plan, typed, moving])
  if (drawn.plan.length === 0) return null
  const front = whole(drawn.front)
  const floor = Math.min(plan.frame.floor, front.bottom, 0)
  const numberOf = (one: Dimension) => numberWide(showLength(one.to - one.from, props.reading))
  const layout = layOut(
    whole(drawn.plan),
    { ...front, bottom: floor },
    drawn.dimensions,
    width,
    props.high ?? 460,
    numberOf,
  )
  const markOf = marksById(plan)
  const part = plan.parts.find(({ mark }) => mark === chosen)
  const circle = drawn.circle
  const radius = circle ? (circle.diameter / 2) * layout.plan.place.scale : 0
  const middle: Point = circle ? toScreen(layout.plan.place, circle.center) : [0, 0]
  const floorAt = toScreen(layout.front.place, [0, floor])[1]
  const grab = (name: string | undefined, upright: boolean) => {
    const given = typed.find((one) => one.name === name)
    return given && drag.grabbed(given.name, given.mm, layout.plan.place.scale, upright)
  }
  return (
    <div
      className={moving ? 'drawing-box dragged' : 'drawing-box'}
      style={{ minHeight: drag.held?.high }}
      ref={box}
      {...drag.box}
    >
      <svg
        className="drawing"
        width={layout.width}
        height={layout.height}
        viewBox={`0 0 ${layout.width} ${layout.height}`}
        role="img"
        aria-label={`Plan and elevation of ${plan.name}, to scale`}
      >
        <Members
          {...props}
          plan={plan}
          markOf={markOf}
          moving={moving}
          seen={drawn.plan}
          open={drawn.onTop}
          landed={drawn.landed.plan}
          laid={layout.plan}
        />
        <Members
          {...props}
          plan={plan}
          markOf={markOf}
          moving={moving}
          seen={drawn.front}
          landed={drawn.landed.front}
          laid={layout.front}
        />
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
        const [x, y] = labelAt(one, drawn.dimensions, layout, numberOf(one))
        return (
          <Label
            key={keyOf(one)}
            x={x}
            y={y}
            name={one.name}
            field={one.field}
            onField={props.onField}
            onGrab={grab(one.field, one.side !== 'bottom')}
          >
            <LengthText of={showLength(one.to - one.from, props.reading)} />
          </Label>
        )
      })}
      {circle && (
        <Label
          x={middle[0]}
          y={middle[1]}
          name={circle.name}
          field={circle.field}
          onField={props.onField}
          onGrab={grab(circle.field, false)}
        >
          ⌀ <LengthText of={showLength(circle.diameter, props.reading)} />
        </Label>
      )}
      {part && <ChosenLabel part={part} seen={drawn} layout={layout} />}
      {problem && (
        <p className="problem" role="status">
          {problem}
        </p>
      )}
    </div>
  )
}

// One that is dragged stays the same button while it grows.
const keyOf = ({ view, side, from, to, field, name }: Dimension) =>
  `${view} ${side} ${field === undefined ? `${from} ${to}` : `${field} ${name}`}`

function Members({
  plan,
  chosen,
  onChoose,
  seen,
  landed,
  laid,
  moving,
  open,
  markOf,
}: Props & {
  readonly markOf: ReadonlyMap<string, string>
  readonly seen: readonly Seen[]
  readonly landed: readonly LandedLines[]
  readonly laid: Laid
  readonly moving: boolean
  /** Plates on top, drawn as a line alone. */
  readonly open?: ReadonlySet<string>
}) {
  const marks = marksOf(plan, seen, laid.place)
  return (
    <g>
      <Shapes
        seen={seen}
        place={laid.place}
        open={({ id }) => open?.has(id) === true}
        moving={moving}
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
      <Marks marks={marks} chosen={chosen} onChoose={onChoose} />
    </g>
  )
}

/** Leveling feet: a pad on the floor and a stud up to the cap. */
function Levelers({ plan, laid, floor }: { plan: Draft; laid: Laid; floor: number }) {
  return plan.frame.hardware
    .filter(({ kind, at }) => kind === 'leveler' && at[2] > floor)
    .map(({ id, at }) => {
      const [x, top] = toScreen(laid.place, [at[0], at[2]])
      const down = toScreen(laid.place, [at[0], floor])[1]
      return <path key={id} className="leveler" d={`M${x} ${top}V${down}M${x - 7} ${down - 1}H${x + 7}`} />
    })
}
