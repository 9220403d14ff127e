import type { Part, Plan } from '../../core/plan-shapes.ts'
import { LengthText } from '../fields/length-text.tsx'
import { DimensionLine } from './dimension-line.tsx'
import { see } from './shapes.ts'
import { pathOf, toScreen } from './sheet.ts'
import { memberSolid } from './solid.ts'
import { useWidth } from './width.ts'

const rowGap = 64
const edge = 20

/** Pieces that are joined to nothing: each part once, all to one scale, on the side that shows its angles. */
export function ListDrawing(props: {
  readonly plan: Plan
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
}) {
  const { plan } = props
  const [box, width] = useWidth<HTMLDivElement>(760)
  const seen = plan.parts.flatMap((part) => {
    const member = plan.frame.members.find(({ id }) => id === part.members[0])
    return member ? [{ part, seen: see(memberSolid(member), viewOf(part, member.pose)) }] : []
  })
  const longest = Math.max(...plan.parts.map(({ longPoint }) => longPoint), 1)
  const scale = (width - 2 * edge - 60) / longest
  let top = 8
  const rows = seen.map((row) => {
    const { extent } = row.seen
    const high = (extent.top - extent.bottom) * scale
    const place = { scale, x: edge + 60 - extent.left * scale, y: top + 34 + extent.top * scale }
    top += high + rowGap
    return { ...row, place, high }
  })
  return (
    <div className="drawing-box" ref={box}>
      <svg
        className="drawing"
        width={width}
        height={top}
        viewBox={`0 0 ${width} ${top}`}
        role="img"
        aria-label={`The pieces of ${plan.name}, to scale`}
      >
        {rows.map(({ part, seen: { outline, extent }, place, high }) => {
          const from = toScreen(place, [extent.left, extent.top])
          const to = toScreen(place, [extent.right, extent.top])
          const chosen = part.mark === props.chosen
          return (
            // biome-ignore lint/a11y/noStaticElementInteractions: the parts table beside it has a button for each part
            <g
              key={part.mark}
              className={chosen ? 'shape list-shape member chosen' : 'shape list-shape member'}
              onClick={() => props.onChoose(part.mark)}
            >
              <path className="fill" d={pathOf(place, outline)} />
              <path className="outline" d={pathOf(place, outline)} />
              <text className="mark-text" x={edge + 16} y={from[1] + high / 2} dominantBaseline="central">
                {part.mark}
              </text>
              <DimensionLine
                className={chosen ? 'of-chosen' : ''}
                from={[from[0], from[1] - 16]}
                to={[to[0], from[1] - 16]}
              />
            </g>
          )
        })}
      </svg>
      {rows.map(({ part, seen: { extent }, place }) => {
        const [x, y] = toScreen(place, [(extent.left + extent.right) / 2, extent.top])
        return (
          <span key={part.mark} className="dimension-label" style={{ left: `${x}px`, top: `${y - 16}px` }}>
            <LengthText of={part.printed.longPoint} /> <span className="dim">× {part.count}</span>
          </span>
        )
      })}
    </div>
  )
}

/** Looking along the part so that its miters show: across its width, or across its height. */
function viewOf(part: Part, pose: readonly number[]) {
  const column = (at: number) => [pose[at * 4]!, pose[at * 4 + 1]!, pose[at * 4 + 2]!] as const
  const slopes = part.slopes
  const inWidth =
    Math.max(...slopes.map(({ p }) => Math.abs(p))) >= Math.max(...slopes.map(({ q }) => Math.abs(q)))
  return { right: column(0), up: column(inWidth ? 1 : 2), toward: column(inWidth ? 2 : 1) }
}
