import type { Slope } from '../nest.ts'
import type { Turn } from '../plan-shapes.ts'
import { sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'

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
}

export const squareEnd: Slope = { p: 0, q: 0 }

export const isSquare = ({ p, q }: Slope): boolean => Math.abs(p) <= sameSlope && Math.abs(q) <= sameSlope

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

/** How much longer than on the center line a piece is from tip to tip. */
export const tips = ({ lead, trail, depth, height }: Omit<Lying, 'mid'>): Mm =>
  ((Math.abs(lead.p) + Math.abs(trail.p)) * depth + (Math.abs(lead.q) + Math.abs(trail.q)) * height) / 2

/** Greatest extent along the fence, tip to tip. */
export const extentOf = (piece: Lying): Mm => piece.mid + tips(piece)

/** Length along the fence at the table: y = 0, z = 0. */
export const fenceLength = ({ lead, trail, mid, depth, height }: Lying): Mm =>
  mid + ((trail.p - lead.p) * depth + (trail.q - lead.q) * height) / 2

/** Least of the four long edges: what a vise is sure to have between its jaws. */
export const shortestEdge = ({ lead, trail, mid, depth, height }: Lying): Mm =>
  mid - (Math.abs(trail.p - lead.p) * depth + Math.abs(trail.q - lead.q) * height) / 2
