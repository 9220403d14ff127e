import { blockMiddle, type TableLayout } from '../../core/fitup/table.ts'
import type { Point } from '../../core/geometry/polygon.ts'
import type { Mm } from '../../core/units.ts'
import './table-plan.css'

/**
 * The table seen from above: its left and front edge, the steel, the lines to scribe, the blocks. Drawn into at most
 * `wide` by `high` units, text `size` high; the sheet of style says how it looks.
 */
export function TablePlan(props: {
  readonly layout: TableLayout
  readonly clear: Mm
  readonly wide: number
  readonly high: number
  readonly size: number
  readonly label: string
  /** On paper a unit is a millimeter; on the screen the picture is as wide as its room. */
  readonly onPaper?: true
}) {
  const { layout, clear, size } = props
  const [w, d] = [layout.width + 2 * clear, layout.depth + 2 * clear]
  const scale = Math.min((props.wide - size) / w, (props.high - size) / d)
  // Text as high as `size` stands beside both edges; the box is as large as it must be.
  const [wide, high] = [w * scale + size, d * scale + size]
  const at = ([x, y]: Point): Point => [size + x * scale, high - size - y * scale]
  const path = (points: readonly Point[]) =>
    `M${points
      .map((point) =>
        at(point)
          .map((value) => value.toFixed(2))
          .join(' '),
      )
      .join('L')}`
  const middle: Point = [clear + layout.width / 2, clear + layout.depth / 2]
  const block = size * 0.55
  return (
    <svg
      className="table-plan"
      viewBox={`0 0 ${wide} ${high}`}
      role="img"
      aria-label={props.label}
      style={props.onPaper ? { width: `${wide}mm`, height: `${high}mm` } : { maxWidth: `${wide}px` }}
    >
      <path
        className="table-edge"
        d={path([
          [0, d],
          [0, 0],
          [w, 0],
        ])}
      />
      {layout.outlines.map(({ member, outline }) => (
        <path key={member} className="table-steel" d={`${path(outline)}Z`} />
      ))}
      {layout.lines.map((line) => (
        <path key={line.member} className="table-line" d={path([line.from, line.to])} />
      ))}
      {layout.lines.flatMap((line) =>
        line.blocks.map((spot) => {
          const [x, y] = at(blockMiddle(line, spot, middle, block / scale))
          const turn = (Math.atan2(line.from[1] - line.to[1], line.to[0] - line.from[0]) * 180) / Math.PI
          return (
            <rect
              key={`${line.member} ${spot.join(' ')}`}
              className="table-block"
              x={-block / 2}
              y={-block / 2}
              width={block}
              height={block}
              transform={`translate(${x.toFixed(2)} ${y.toFixed(2)}) rotate(${turn.toFixed(2)})`}
            />
          )
        }),
      )}
      {layout.corners.map((corner, k) => {
        const [x, y] = at(inward(corner, middle, (2.2 * size) / scale))
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: corners are their numbers
          <text key={k} x={x} y={y + size * 0.35} fontSize={size} textAnchor="middle">
            {k + 1}
          </text>
        )
      })}
      <text x={0} y={size} fontSize={size}>
        y
      </text>
      <text x={wide - size} y={high - size * 0.3} fontSize={size}>
        x
      </text>
    </svg>
  )
}

const inward = ([x, y]: Point, [mx, my]: Point, by: Mm): Point => {
  const far = Math.hypot(mx - x, my - y) || 1
  return [x + ((mx - x) / far) * by, y + ((my - y) / far) * by]
}
