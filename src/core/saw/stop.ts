import type { Slope } from '../nest.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { fenceLength, type Lying, squareEnd } from './lying.ts'

/** The end that is pushed to the stop plate, and the section behind it. */
export interface Touching {
  /** Length along the fence at the table, from the blade's zero to the leading end, mm. */
  readonly fence: Mm
  readonly lead: Slope
  /** Size off the fence and above the table, mm. */
  readonly depth: Mm
  readonly height: Mm
  /** Outside corner radius, mm; it matters only for a compound end. */
  readonly cornerRadius?: Mm
}

/**
 * How far the steel of a compound end stays behind the point of the sharp box, mm: R(|p| + |q| − √(p² + q²)). Nothing
 * for an end in one plane, where the tip is a whole line of the flat face.
 */
export const cornerLoss = ({ p, q }: Slope, cornerRadius: Mm): Mm =>
  cornerRadius * (Math.abs(p) + Math.abs(q) - Math.hypot(p, q))

/**
 * Distance of the stop plate, mm, from the keep-side teeth where they cross the fence at the table, read with the head
 * swung: S = F + max(0, m·w), with a second slope the greatest x over the section's corners, less the corner loss.
 * On a wedge block the same rule holds along the block's face.
 */
export const stopFor = ({ fence, lead, depth, height, cornerRadius = 0 }: Touching): Mm =>
  fence + Math.max(0, lead.p * depth) + Math.max(0, lead.q * height) - cornerLoss(lead, cornerRadius)

/** Stop for the cut that gives a piece its trailing end while its leading end touches the plate. */
export const stopOf = (piece: Lying, cornerRadius: Mm = 0): Mm =>
  stopFor({ ...piece, fence: fenceLength(piece), cornerRadius })

/**
 * The piece while its leading end is still square: its trailing end is final, and its leading end is `spare` beyond
 * the final one's point, so that the second cut takes the whole end off.
 */
export function beforeLead(piece: Lying, spare: Mm): Lying {
  const stop = stopOf(piece) + spare
  const { trail, depth, height } = piece
  return { ...piece, lead: squareEnd, mid: stop - (trail.p * depth + trail.q * height) / 2 }
}

/**
 * Which side of a piece lies at the fence: its longer one; where both are equal, as with parallel ends, that of the
 * point that touches the plate.
 */
export function longSideOf({ lead, trail, depth }: Lying): 'fence' | 'outward' {
  const longer = (trail.p - lead.p) * depth
  return (Math.abs(longer) > sameLength ? longer : -lead.p) >= 0 ? 'fence' : 'outward'
}

/**
 * Where the point that touches the plate lies: at the fence it is safe, outward it can slip past a short or thin plate.
 * With a square leading end, where the longer side lies.
 */
export const pointOf = ({ lead, trail }: Lying): 'fence' | 'outward' =>
  (Math.abs(lead.p) > sameSlope ? -lead.p : trail.p) >= 0 ? 'fence' : 'outward'
