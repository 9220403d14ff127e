import type { Slope } from '../nest.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, tanDeg, toRad } from '../units.ts'
import { fenceLength, type Lying, rolledBy, squareEnd, tipOf } from './lying.ts'
import type { Setting } from './setting.ts'

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

/** How far the section reaches from its center in a direction (p, q), or an end of these slopes along x, mm. */
const reach = ({ depth, height }: Lying, { p, q }: Slope, cornerRadius: Mm): Mm =>
  (Math.abs(p) * depth + Math.abs(q) * height) / 2 - cornerLoss({ p, q }, cornerRadius)

/**
 * The same for any setting. In a cradle or on a wedge the blade still stands upright, and the rule is read along the
 * center line: from there to the greatest x of the leading end, and back to where the blade crosses the fence, which
 * the rolled section touches at h = (w/2 − R)(|cos ρ| + |sin ρ|) + R from its center.
 */
export function stopAt(piece: Lying, setting: Setting, cornerRadius: Mm): Mm {
  const { swing, roll, ramp } = setting
  if (roll === 0 && ramp === 0) return stopOf(piece, cornerRadius)
  const { lead, mid } = piece
  const [sine, cosine] = [Math.sin(toRad(ramp)), Math.cos(toRad(ramp))]
  const tip = mid * cosine + reach(piece, { p: lead.p * cosine, q: lead.q * cosine + sine }, cornerRadius)
  const fence = reach(piece, { p: Math.cos(toRad(roll)), q: Math.sin(toRad(roll)) }, cornerRadius)
  return tip - fence * tanDeg(swing)
}

/**
 * The piece while its leading end is still square: its trailing end is final, and its leading end is `spare` beyond
 * the final one's point, so that the second cut takes the whole end off.
 */
export function beforeLead(piece: Lying, spare: Mm): Lying {
  const { trail, depth, height } = piece
  const half = { ...piece, lead: squareEnd, tipOf }
  if (piece.round) return { ...half, mid: piece.mid + tipOf(piece.lead, piece) + spare }
  const stop = stopOf(piece) + spare
  return { ...half, mid: stop - (trail.p * depth + trail.q * height) / 2 }
}

/**
 * Which side of a piece lies at the fence, rolled as it is in a cradle: its longer one; where both are equal, as with
 * parallel ends, that of the point that touches the plate.
 */
export function longSideOf(piece: Lying, roll: Deg = 0): 'fence' | 'outward' {
  const [lead, trail] = [rolledBy(piece.lead, roll), rolledBy(piece.trail, roll)]
  const longer = (trail.p - lead.p) * piece.depth
  return (Math.abs(longer) > sameLength ? longer : -lead.p) >= 0 ? 'fence' : 'outward'
}

/**
 * Where the point that touches the plate lies: at the fence it is safe, outward it can slip past a short or thin plate.
 * With a square leading end, where the longer side lies.
 */
export function pointOf(piece: Lying, roll: Deg = 0): 'fence' | 'outward' {
  const [lead, trail] = [rolledBy(piece.lead, roll), rolledBy(piece.trail, roll)]
  return (Math.abs(lead.p) > sameSlope ? -lead.p : trail.p) >= 0 ? 'fence' : 'outward'
}
