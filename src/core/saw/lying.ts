import type { Slope } from '../nest.ts'
import type { Turn } from '../plan-shapes.ts'
import { sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, toRad } from '../units.ts'

/**
 * A piece as it lies at the fence, in the saw's frame: x toward the stop, y off the fence, z up. `lead` is the end at
 * the stop, `trail` the one at the blade; `mid` its length on the center line, `depth` its size off the fence, `height`
 * its size above the table, mm.
 */
export interface Lying {
  readonly lead: Slope
  readonly trail: Slope
  readonly mid: Mm
  readonly depth: Mm
  readonly height: Mm
  /** The section is a circle of that depth, and tips are those of the circle. */
  readonly round?: true
}

export const squareEnd: Slope = { p: 0, q: 0 }

export const isSquare = ({ p, q }: Slope): boolean => Math.abs(p) <= sameSlope && Math.abs(q) <= sameSlope

/** A saw that only swings can cut this end as it lies. */
export const isPlain = ({ q }: Slope): boolean => Math.abs(q) <= sameSlope

/** Zero without a sign. */
const slope = (p: number, q: number): Slope => ({ p: p || 0, q: q || 0 })

/** The piece after one turning. All are proper: none gives a mirror image. */
export function turned(piece: Lying, turn: Turn): Lying {
  const { lead, trail, depth, height } = piece
  const ends = (change: (end: Slope) => Slope) => ({ lead: change(lead), trail: change(trail) })
  const swapped = (change: (end: Slope) => Slope) => ({ lead: change(trail), trail: change(lead) })
  const rolled = { depth: height, height: depth }
  switch (turn) {
    case 'over':
      return { ...piece, ...ends(({ p, q }) => slope(-p, -q)) }
    case 'end':
      return { ...piece, ...swapped(({ p, q }) => slope(p, -q)) }
    case 'flip':
      return { ...piece, ...swapped(({ p, q }) => slope(-p, q)) }
    case 'quarter+':
      return { ...piece, ...rolled, ...ends(({ p, q }) => slope(-q, p)) }
    case 'quarter-':
      return { ...piece, ...rolled, ...ends(({ p, q }) => slope(q, -p)) }
  }
}

export const turnedBy = (piece: Lying, turns: readonly Turn[]): Lying => turns.reduce(turned, piece)

/** The mirror image in x: what is planned for a stop on the right, whose frame is mirrored. */
export const mirrored = (piece: Lying): Lying => ({
  ...piece,
  lead: slope(-piece.trail.p, -piece.trail.q),
  trail: slope(-piece.lead.p, -piece.lead.q),
})

/** Slopes of an end after the piece was rolled by an angle, right-hand about +x. */
export function rolledBy({ p, q }: Slope, roll: Deg): Slope {
  const [sine, cosine] = [Math.sin(toRad(roll)), Math.cos(toRad(roll))]
  return slope(p * cosine - q * sine, p * sine + q * cosine)
}

/** How far the tip of an end, of the sharp box or the circle, lies beyond the end's place on the center line. */
export const tipOf = (
  { p, q }: Slope,
  { depth, height, round }: Pick<Lying, 'depth' | 'height' | 'round'>,
): Mm => (round ? Math.hypot(p, q) * depth : Math.abs(p) * depth + Math.abs(q) * height) / 2

/** How much longer than on the center line a piece is from tip to tip. */
export const tips = (piece: Omit<Lying, 'mid'>): Mm => tipOf(piece.lead, piece) + tipOf(piece.trail, piece)

/** Greatest extent along the fence, tip to tip. */
export const extentOf = (piece: Lying): Mm => piece.mid + tips(piece)

/** Length along the fence at the table: y = 0, z = 0. */
export const fenceLength = ({ lead, trail, mid, depth, height }: Lying): Mm =>
  mid + ((trail.p - lead.p) * depth + (trail.q - lead.q) * height) / 2

/** Least length of the outside: what a vise is sure to have between its jaws. */
export const shortestEdge = (piece: Lying): Mm => {
  const { lead, trail, mid } = piece
  return mid - tipOf({ p: trail.p - lead.p, q: trail.q - lead.q }, piece)
}

/** Where a side of the piece looks on the saw. */
export type Side = 'up' | 'down' | 'fence' | 'outward'

/** Where a turning brings what looked up, down, to the fence, outward. */
const brings: Readonly<Record<Turn, Readonly<Record<Side, Side>>>> = {
  over: { up: 'down', down: 'up', fence: 'outward', outward: 'fence' },
  end: { up: 'up', down: 'down', fence: 'outward', outward: 'fence' },
  flip: { up: 'down', down: 'up', fence: 'fence', outward: 'outward' },
  'quarter+': { up: 'fence', fence: 'down', down: 'outward', outward: 'up' },
  'quarter-': { up: 'outward', outward: 'down', down: 'fence', fence: 'up' },
}

export const sideAfter = (side: Side, turns: readonly Turn[]): Side =>
  turns.reduce((at, turn) => brings[turn][at], side)
