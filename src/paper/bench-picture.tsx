import type { SetUp } from '../core/plan-shapes.ts'
import type { Mm } from '../core/units.ts'
import { type AtCut, edgeXs } from '../ui/drawing/lying.ts'
import { breakAt, points, scaled } from './scaled.ts'

// One cut from above, as it lies on the saw: fence, blade, stop plate and the piece, to scale, black on white.

export const pictureWide: Mm = 80
export const pictureHigh: Mm = 36

/** Room behind the blade, and beside the stop for its plate, mm. */
const [behind, beside] = [17, 5] as const
const fence: Mm = 8
const plate: Mm = 3

export function BenchPicture(props: {
  readonly at: AtCut
  readonly setUp: SetUp
  readonly name: string
  /** The workpiece is a whole stick: it runs out of the picture. */
  readonly long: boolean
}) {
  const { at, setUp, name } = props
  const { depth, lead, trail } = at.keep
  const blade = edgeXs(trail, depth)
  const leading = edgeXs(lead, depth)
  const room = pictureWide - behind - beside
  const laid = scaled([Math.min(0, ...blade), at.stop], depth, room, { least: 12, most: 15 })
  const left = setUp.stopSide === 'left'
  const fromBlade = (x: Mm) => (left ? pictureWide - x : x)
  const px = (x: Mm) => fromBlade(behind + laid.at(x))
  const far = fence + depth * laid.scale
  const out = left ? -1 : 1
  const stop = px(at.stop)
  const lean = px(blade[1]) - px(blade[0])
  const middle = laid.broken
    ? fromBlade(behind + room * 0.27)
    : (px(leading[0]) + px(leading[1]) + px(blade[0]) + px(blade[1])) / 4
  const cut = breakAt(fromBlade(behind + laid.middle), fence, far)
  const dimension = far + 11
  // Clear of the blade where it leans toward the stop.
  const figureAt =
    (left ? Math.min(px(0), px(blade[1]) - 2) : Math.max(px(0), px(blade[1]) + 2)) / 2 + stop / 2
  return (
    <svg
      className="bench-drawn"
      role="img"
      aria-label={`${name} at the fence from above, stop on the ${setUp.stopSide}, ${setUp.printed.longSide}`}
      viewBox={`0 0 ${pictureWide} ${pictureHigh}`}
      style={{ width: `${pictureWide}mm`, height: `${pictureHigh}mm` }}
    >
      <path className="bench-hatch" d={hatch(fence)} />
      <path className="bench-heavy" d={`M0 ${fence - 0.25}H${pictureWide}`} />
      <text x={left ? 1 : pictureWide - 1} y={fence - 4} textAnchor={left ? 'start' : 'end'}>
        fence
      </text>
      <Rest {...props} px={px} far={far} />
      <polygon
        className="bench-steel"
        points={points([
          [px(blade[0]), fence],
          [px(leading[0]), fence],
          [px(leading[1]), far],
          [px(blade[1]), far],
        ])}
      />
      {laid.broken && (
        <>
          <path className="bench-gap" d={cut.gap} />
          <path className="bench-thin" d={cut.edges} />
        </>
      )}
      <rect
        className="bench-plate"
        x={left ? stop - plate : stop}
        y={fence}
        width={plate}
        height={far - fence + 4}
      />
      <path
        className="bench-blade"
        d={`M${px(blade[0]) - (lean * 4) / (far - fence)} ${fence - 4}L${px(blade[1]) + (lean * 3.5) / (far - fence)} ${far + 3.5}`}
      />
      <text
        x={Math.max(7, Math.min(pictureWide - 7, px(blade[0]) - (lean * 4) / (far - fence) - out * 8))}
        y={fence - 4}
        textAnchor="middle"
      >
        blade
      </text>
      <text className="bench-name" x={middle} y={(fence + far) / 2 + 2.8} textAnchor="middle">
        {name}
      </text>
      <path
        className="bench-thin"
        d={`M${px(0)} ${far}V${dimension + 1}M${stop} ${far + 4}V${dimension + 1}M${px(0)} ${dimension}H${stop}M${px(0) - 1} ${dimension + 1}l2 -2M${stop - 1} ${dimension + 1}l2 -2`}
      />
      <text className="bench-figure" x={figureAt} y={dimension - 1.2} textAnchor="middle">
        {setUp.printed.stop.text} {setUp.printed.stop.unit}
      </text>
      <text x={left ? pictureWide : 0} y={dimension} textAnchor={left ? 'end' : 'start'}>
        ▲ you
      </text>
    </svg>
  )
}

/** Short slanted lines over the fence: what is hatched is fixed. */
const hatch = (foot: Mm): string =>
  Array.from({ length: Math.floor(pictureWide / 3) }, (_, k) => `M${k * 3} ${foot - 0.5}l2 -2`).join('')

/** What is behind the blade: the stick running out of the picture, or the short end that falls off. */
function Rest(props: {
  readonly at: AtCut
  readonly setUp: SetUp
  readonly long: boolean
  readonly px: (x: Mm) => Mm
  readonly far: Mm
}) {
  const { at, long, px, far } = props
  const { depth, lead, trail } = at.rest
  if (!long && lead.x <= trail.x) return null
  const edge = props.setUp.stopSide === 'left' ? pictureWide : 0
  const inside = (x: Mm) => (edge === 0 ? Math.max(x, 0) : Math.min(x, edge))
  const near = edgeXs(lead, depth)
  const end = edgeXs(trail, depth)
  const ends = [inside(px(end[0])), inside(px(end[1]))] as const
  const runsOut = ends[0] === edge && ends[1] === edge
  return (
    <path
      className={long ? 'bench-rest' : 'bench-rest bench-scrap'}
      d={`M${px(near[0])} ${fence}H${ends[0]}M${px(near[1])} ${far}H${ends[1]}${runsOut ? '' : `M${ends[0]} ${fence}L${ends[1]} ${far}`}`}
    />
  )
}
