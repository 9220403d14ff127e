import { type ReactNode, useId } from 'react'
import type { SetUp } from '../../core/plan-shapes.ts'
import { type AtCut, edgeXs } from '../drawing/lying.ts'
import { useWidth } from '../drawing/width.ts'
import { layOut, type Sheet, viseAt } from './picture-layout.ts'

interface PictureProps {
  readonly at: AtCut
  readonly setUp: SetUp
  /** What stands on the piece: its name. */
  readonly name: string
  /** What stands on each of the equal tubes that lie side by side, the one at the fence first; absent: one, by `name`. */
  readonly abreast?: readonly string[]
  /** The stop distance with its unit, as set. */
  readonly stop: string
  /** The workpiece is a whole stick: it runs out of the picture. */
  readonly long: boolean
  /** What a screen reader says of the picture. */
  readonly says: string
}

const points = (list: readonly (readonly [number, number])[]) =>
  list.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ')

/** Fence, blade, stop plate, vise and the piece from above, as the person at the saw sees them. */
export function BenchPicture(props: PictureProps) {
  const [box, width] = useWidth<HTMLDivElement>(820)
  return (
    <div className="saw-picture" ref={box}>
      <Picture {...props} at={deepened(props.at, props.abreast?.length)} width={width} />
    </div>
  )
}

/** Tubes side by side as one, so much deeper. */
const deepened = (at: AtCut, count = 1): AtCut => ({
  ...at,
  keep: { ...at.keep, depth: at.keep.depth * count },
  rest: { ...at.rest, depth: at.rest.depth * count },
})

function Picture(props: PictureProps & { width: number }) {
  const { at, setUp, name, stop, long, says, width } = props
  const { abreast = [name] } = props
  const rowHigh = 1 / abreast.length
  const hatch = useId()
  const sheet = layOut(at, setUp.stopSide, width)
  const { px, py, fence, w, height } = sheet
  const keepLead = edgeXs(at.keep.lead, at.keep.depth)
  const blade = edgeXs(at.keep.trail, at.keep.depth)
  const rest = edgeXs(at.rest.lead, at.rest.depth)
  const keep = points([
    [px(blade[0]), fence],
    [px(keepLead[0]), fence],
    [px(keepLead[1]), py(1)],
    [px(blade[1]), py(1)],
  ])
  const plate = px(at.stop)
  const out = sheet.stopLeft ? -1 : 1
  const low = py(1) + 64
  const lean = blade[1] - blade[0]
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={says}>
      <defs>
        <pattern
          id={hatch}
          width="10"
          height="10"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V10" className="thin dim" />
        </pattern>
      </defs>
      <rect x="0" y={fence - 18} width={width} height="16" fill={`url(#${hatch})`} />
      <path d={`M0 ${fence - 1.5}H${width}`} className="heavy" />
      <text
        x={sheet.stopLeft ? width - 6 : 6}
        y={fence - 26}
        textAnchor={sheet.stopLeft ? 'end' : 'start'}
        className="dim"
      >
        fence
      </text>

      <Rest at={at} sheet={sheet} rest={rest} long={long} />
      <polygon points={keep} className="steel" />
      {abreast.slice(1).map((one, row) => (
        <path key={one} d={`M${px(keepLead[0])} ${py((row + 1) * rowHigh)}H${px(0)}`} className="thin" />
      ))}
      {sheet.broken && <Break x={(px(0) + plate) / 2} top={fence} bottom={py(1)} />}

      <rect x={sheet.stopLeft ? plate - 16 : plate} y={fence} width="16" height={w + 34} className="plate" />
      <text x={plate + out * 8} y={fence + w + 56} textAnchor="middle">
        stop
      </text>

      <path
        d={`M${px(blade[0] - (lean * 16) / w)} ${fence - 16}L${px(blade[1] + (lean * 40) / w)} ${py(1) + 40}`}
        className="blade"
        strokeWidth={Math.max(5, at.kerf * sheet.scale)}
      />
      {/* Over the fence, toward the stop: there the words meet neither those of the vise nor those of the fence. */}
      <text
        x={px(blade[0] - (lean * 16) / w) + out * 10}
        y={fence - 26}
        textAnchor={sheet.stopLeft ? 'end' : 'start'}
        className="blade-word"
      >
        {setUp.swing === 0 ? 'blade, square' : `blade, ${setUp.printed.miter.text}`}
      </text>

      <Vise sheet={sheet} x={viseAt(sheet, setUp.hold, at)} />
      {abreast.map((one, row) => {
        const size = abreast.length > 1 ? Math.min(sheet.nameSize, w * rowHigh * 0.7) : sheet.nameSize
        return (
          <text
            key={one}
            x={sheet.nameAt}
            y={py((row + 0.5) * rowHigh) + size * 0.36}
            textAnchor="middle"
            fontSize={size}
            className="name"
          >
            {one}
          </text>
        )
      })}

      <Measure from={px(0)} to={plate} top={low} y={sheet.measureY} says={stop} fence={fence} />
      <Stand x={Math.max(66, Math.min(width - 66, px(0) - out * 70))} y={sheet.measureY - 8} />
    </svg>
  )
}

/** What is behind the blade: the stick running out of the picture, or the short end that falls off. */
function Rest({
  at,
  sheet,
  rest,
  long,
}: {
  at: AtCut
  sheet: Sheet
  rest: readonly [number, number]
  long: boolean
}) {
  const { px, py, fence } = sheet
  const trail = edgeXs(at.rest.trail, at.rest.depth)
  const edge = sheet.stopLeft ? sheet.width : 0
  const inside = (x: number) => (sheet.stopLeft ? Math.min(x, edge) : Math.max(x, edge))
  const ends = [inside(px(trail[0])), inside(px(trail[1]))] as const
  const runsOut = long && ends[0] === edge && ends[1] === edge
  const gone = at.rest.lead.x <= at.rest.trail.x
  if (gone && !long) return null
  return (
    <g className={long ? 'rest' : 'rest scrap'}>
      <path d={`M${px(rest[0])} ${fence + 1}L${ends[0]} ${fence + 1}`} />
      <path d={`M${px(rest[1])} ${py(1)}L${ends[1]} ${py(1)}`} />
      {!runsOut && <path d={`M${ends[0]} ${fence + 1}L${ends[1]} ${py(1)}`} />}
    </g>
  )
}

/** The pair of lines that says: more of the same between. */
function Break({ x, top, bottom }: { x: number; top: number; bottom: number }) {
  const line = (at: number) => {
    const half = (top + bottom) / 2
    return `M${at} ${top - 8}V${half - 12}L${at - 8} ${half - 4}L${at + 8} ${half + 4}L${at} ${half + 12}V${bottom + 8}`
  }
  return (
    <g>
      <rect x={x - 6} y={top - 8} width="12" height={bottom - top + 16} className="gap" />
      <path d={line(x - 6)} className="thin" />
      <path d={line(x + 6)} className="thin" />
    </g>
  )
}

function Vise({ sheet, x: middle }: { sheet: Sheet; x: number }) {
  const { py } = sheet
  return (
    <g>
      <path d={`M${middle - 34} ${py(1) + 3}h68v14h-24v22h-20v-22h-24z`} className="vise" />
      <text x={middle} y={py(1) + 60} textAnchor="middle" className="dim">
        vise
      </text>
    </g>
  )
}

/** The stop distance, measured along the fence from the teeth. */
function Measure(props: {
  from: number
  to: number
  top: number
  y: number
  says: ReactNode
  fence: number
}) {
  const { from, to, y } = props
  return (
    <g>
      <path d={`M${from} ${props.fence}V${y + 10}`} className="thin dashed" />
      <path d={`M${to} ${props.top}V${y + 10}`} className="thin dashed" />
      <path d={`M${from} ${y}H${to}`} className="thin" />
      <path d={`M${from - 6} ${y + 6}l12 -12M${to - 6} ${y + 6}l12 -12`} className="thin" />
      <text x={(from + to) / 2} y={y - 9} textAnchor="middle" className="measure">
        {props.says}
      </text>
    </g>
  )
}

/** Two soles beside the blade: the fence is in front of the person, so left and right are their own. */
function Stand({ x, y }: { x: number; y: number }) {
  return (
    <g className="stand" transform={`translate(${x.toFixed(1)} ${y})`}>
      <path d="M-20 12V-4q0 -10 7 -10t7 10v16zM6 12V-4q0 -10 7 -10t7 10v16z" />
      <text y="34" textAnchor="middle">
        you stand here
      </text>
    </g>
  )
}
