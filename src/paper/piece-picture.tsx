import type { Part } from '../core/plan-shapes.ts'
import { sameSlope } from '../core/tolerance.ts'
import type { Mm } from '../core/units.ts'
import { breakAt, points, scaled } from './scaled.ts'

// A finished piece, to scale: from above, its long side at the top as at the fence, and from the side where it leans there.

export const pieceHigh: Mm = 30
const pieceWide: Mm = 150

interface View {
  readonly from: 'above' | 'the side'
  /** Along the upper edge of the picture and the lower one, from its trailing end to its leading one. */
  readonly upper: readonly [Mm, Mm]
  readonly lower: readonly [Mm, Mm]
  readonly depth: Mm
}

/** From above; and from the side, where an end leans up or down too. */
export function viewsOf({ slopes: [lead, trail], mid, section }: Part): readonly View[] {
  const [depth, height] = [Math.max(section.width, section.height), Math.min(section.width, section.height)]
  // From the side the upper edge is the top of the piece, z = +height / 2.
  const view = (from: View['from'], a: number, b: number, half: Mm): View => ({
    from,
    upper: [b * half, mid + a * half],
    lower: [-b * half, mid - a * half],
    depth: 2 * Math.abs(half),
  })
  const leans = Math.abs(lead.q) > sameSlope || Math.abs(trail.q) > sameSlope
  return [
    view('above', lead.p, trail.p, -depth / 2),
    ...(leans ? [view('the side', lead.q, trail.q, height / 2)] : []),
  ]
}

/** The piece with its mark, its length over the edge or point that is measured, and the angle at each end. */
export function PiecePicture({ part, wide = pieceWide }: { readonly part: Part; readonly wide?: Mm }) {
  const views = viewsOf(part)
  const room = wide / views.length
  return (
    <svg
      className="bench-drawn"
      role="img"
      aria-label={`${part.mark}: ${part.shape}, ${part.printed.length.text} ${part.printed.length.unit}`}
      viewBox={`0 0 ${wide} ${pieceHigh}`}
      style={{ width: `${wide}mm`, height: `${pieceHigh}mm` }}
    >
      {views.map((view, at) => (
        <g key={view.from} transform={`translate(${at * room} 0)`}>
          <Drawn part={part} view={view} room={room} alone={views.length === 1} />
        </g>
      ))}
    </svg>
  )
}

/** Room at each end for its angle, mm. */
const beside: Mm = 17
const top: Mm = 9

function Drawn(props: {
  readonly part: Part
  readonly view: View
  readonly room: Mm
  readonly alone: boolean
}) {
  const { part, view, room } = props
  const { upper, lower } = view
  const ends = [Math.min(upper[0], lower[0]), Math.max(upper[1], lower[1])] as const
  const laid = scaled(ends, view.depth, room - 2 * beside, { least: 8, most: 15 })
  // The leading end lies at the left, as in the pictures of sticks.
  const x = (mm: Mm) => room - beside - laid.at(mm)
  const foot = top + view.depth * laid.scale
  const cut = breakAt(room - beside - laid.middle, top, foot)
  const edge = part.printed.primary === 'edge'
  const [from, to] = edge ? upper : ends
  const angle = (across: number) => `${+((Math.abs(Math.atan(across)) * 180) / Math.PI).toFixed(1)}°`
  const [lead, trail] =
    view.from === 'above' ? [part.slopes[0].p, part.slopes[1].p] : [part.slopes[0].q, part.slopes[1].q]
  return (
    <>
      <polygon
        className="bench-steel"
        points={points([
          [x(upper[0]), top],
          [x(upper[1]), top],
          [x(lower[1]), foot],
          [x(lower[0]), foot],
        ])}
      />
      {laid.broken && (
        <>
          <path className="bench-gap" d={cut.gap} />
          <path className="bench-thin" d={cut.edges} />
        </>
      )}
      <path
        className="bench-thin"
        d={`M${x(from)} ${top - 1}V2M${x(to)} ${top - 1}V2M${x(from)} 3.5H${x(to)}M${x(from) - 1} 4.5l2 -2M${x(to) - 1} 4.5l2 -2`}
      />
      <text x={room - beside - laid.middle} y={top - 1.5} textAnchor="middle">
        {part.printed.length.text} {part.printed.length.unit}
        {edge ? ', edge' : ''}
      </text>
      <text x={x(ends[1]) - 1.5} y={foot} textAnchor="end">
        {angle(lead)}
      </text>
      <text x={x(ends[0]) + 1.5} y={foot}>
        {angle(trail)}
      </text>
      <text x={room / 2} y={foot + 5} textAnchor="middle">
        from {view.from}
      </text>
    </>
  )
}
