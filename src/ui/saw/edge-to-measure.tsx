import type { Slope } from '../../core/nest.ts'
import { sameSlope } from '../../core/tolerance.ts'
import type { AtCut } from '../drawing/lying.ts'

export type Along = 'fence' | 'outward'

const [wide, high, deep] = [420, 130, 70]
const middle = wide / 2

/** What an edge ends in: a tape hooks on a square end and on an inner corner, and slips off a point. */
type EndAt = 'the square end' | 'the point' | 'the inner corner'

const endAt = ({ p }: Slope, along: Along, end: 'lead' | 'trail'): EndAt => {
  if (Math.abs(p) <= sameSlope) return 'the square end'
  const longer = (end === 'lead' ? p < 0 : p > 0) === (along === 'fence')
  return longer ? 'the point' : 'the inner corner'
}

/** The edge that the length is read on: the longer of the two that are seen from above; the one at the fence of equal ones. */
export const edgeOf = ({ keep: { lead, trail } }: AtCut): Along =>
  lead.p - trail.p > sameSlope ? 'outward' : 'fence'

/** From where to where, and how the tape is held there. */
export function sayEdge({ keep }: AtCut, along: Along, inches: boolean): string {
  const ends = [endAt(keep.lead, along, 'lead'), endAt(keep.trail, along, 'trail')] as const
  const where = along === 'fence' ? 'the edge that lay at the fence' : 'the edge away from the fence'
  const from =
    ends[0] === ends[1]
      ? `${ends[0].replace('the ', '')} to ${ends[1].replace('the ', '')}`
      : ends.join(' to ')
  const mark = inches ? 'its 1 in mark and take 1 in off' : 'its 100 mm mark and take 100 mm off'
  const hook = ends.includes('the point') ? ` A hook slips off a point: hold the tape at ${mark}.` : ''
  return `Along ${where}, from ${from}.${hook}`
}

/** The piece from above as it lay on the saw, the edge to measure in heavy line with a tick at each end. Not to scale in length. */
export function EdgeToMeasure(props: {
  readonly at: AtCut
  readonly along: Along
  readonly stopSide: 'left' | 'right'
  readonly name: string
  readonly length: string
  readonly says: string
}) {
  const { at, along, stopSide } = props
  const { lead, trail, depth } = at.keep
  const toStop = stopSide === 'left' ? -1 : 1
  const slant = (p: number) => Math.max(-90, Math.min(90, p * deep))
  const reach = 100
  // x of an end at the fence (row 0) and outward (row 1), as seen; its middle stands fixed.
  const x = (end: 'lead' | 'trail', row: 0 | 1) => {
    const { p } = end === 'lead' ? lead : trail
    return middle + toStop * ((end === 'lead' ? reach : -reach) + slant(p) * (row - 0.5))
  }
  const y = (row: 0 | 1) => 34 + row * deep
  const row = along === 'fence' ? 0 : 1
  const [a, b] = [x('trail', row), x('lead', row)]
  const out = row === 0 ? -1 : 1
  return (
    <svg className="edge-to-measure" viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={props.says}>
      <polygon
        className="steel"
        points={[
          [x('trail', 0), y(0)],
          [x('lead', 0), y(0)],
          [x('lead', 1), y(1)],
          [x('trail', 1), y(1)],
        ]
          .map((point) => point.join(','))
          .join(' ')}
        data-depth={depth}
      />
      <text x={middle} y={y(0) + deep / 2 + 8} textAnchor="middle" className="name">
        {props.name}
      </text>
      <path className="measured-edge" d={`M${a} ${y(row)}H${b}`} />
      <path className="measured-end" d={`M${a} ${y(row) - 14}v28M${b} ${y(row) - 14}v28`} />
      <text x={middle} y={row === 0 ? y(0) + out * 12 : y(1) + 24} textAnchor="middle" className="measure">
        {props.length}
      </text>
    </svg>
  )
}
