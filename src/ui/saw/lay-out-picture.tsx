import type { Part } from '../../core/plan-shapes.ts'
import type { LayOut } from '../../core/saw/lay-out.ts'

const wide = 560
const margin = 46

/**
 * The tube unrolled: its four faces one above the other, the first edge again at the end, with both cut lines. The ends are
 * to scale, what is between them is left out.
 */
export function LayOutPicture({ part, out }: { part: Part; out: LayOut }) {
  const { width, height } = part.section
  const faces = out.round
    ? [0, 1, 2, 3].map(() => (Math.PI * width) / 4)
    : [0, 1, 2, 3].map((at) => ((at % 2 === 0) === width >= height ? width : height))
  const around = faces.reduce((sum, face) => sum + face, 0)
  const ends = out.lines.map(({ start, run }) => start + run)
  const [tip, tail] = [Math.max(...out.lines.map(({ start }) => start)), Math.max(...ends)]
  const back = tail - Math.min(...ends)
  const scale = Math.min(220 / around, 190 / Math.max(tip, back, 1))
  const places = [0, 1, 2, 3, 4].map((at) => faces.slice(0, at).reduce((sum, face) => sum + face, 0))
  const rows = places.map((place) => place * scale)
  const high = around * scale
  const left = (start: number) => margin + start * scale
  const right = (end: number) => wide - margin - (tail - end) * scale
  const line = (at: (row: number) => number) =>
    samples(out).map((row) => {
      const low = Math.min(3, Math.floor(row))
      const place = rows[low]! + (rows[low + 1]! - rows[low]!) * (row - low)
      return `${at(row).toFixed(1)},${(16 + place).toFixed(1)}`
    })
  const value = (of: readonly number[]) => (row: number) => between(of, row, out.round)
  const starts = line((row) => left(value(out.lines.map(({ start }) => start))(row)))
  const stops = line((row) => right(value(ends)(row)))
  return (
    <svg
      className="lay-out"
      viewBox={`0 0 ${wide} ${high + 32}`}
      role="img"
      aria-label={`${part.mark} unrolled: its cut lines over the four faces`}
    >
      {rows.map((row, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: edges have no other name than their number
        <g key={at}>
          <path d={`M${margin} ${16 + row}H${wide - margin}`} className="edge-line" />
          <text x={margin - 14} y={16 + row + 7} textAnchor="middle">
            {(at % 4) + 1}
          </text>
          <text x={wide - margin + 14} y={16 + row + 7} textAnchor="middle">
            {(at % 4) + 1}
          </text>
        </g>
      ))}
      <path d={`M${margin} 16V${16 + high}`} className="edge-line" />
      <polyline points={starts.join(' ')} className="cut-line" />
      <polyline points={stops.join(' ')} className="cut-line" />
    </svg>
  )
}

/** Places from the first line round to it again, 0 to 4. */
function samples({ round, lines }: LayOut): readonly number[] {
  const steps = round ? 8 : 1
  return Array.from({ length: lines.length * steps + 1 }, (_, at) => at / steps)
}

/** Straight over a flat face; round a round tube as the plane crosses it. */
function between(of: readonly number[], row: number, round: boolean): number {
  const at = (place: number) => of[((place % 4) + 4) % 4]!
  if (!round) {
    const low = Math.floor(row)
    return at(low) + (at(low + 1) - at(low)) * (row - low)
  }
  const angle = (row * Math.PI) / 2
  const middle = (at(0) + at(2)) / 2
  return middle + (at(0) - middle) * Math.cos(angle) + (at(1) - middle) * Math.sin(angle)
}
