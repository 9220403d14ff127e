import type { EndPlane, Slope } from '../nest.ts'
import type { Turn } from '../plan-shapes.ts'
import { type Section, turnOf } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** An end of a workpiece; a mill end is still as it came. */
export interface Face extends EndPlane {
  readonly mill: boolean
}

/**
 * A workpiece as it lies: a section box along x, between two planes x + p·y + q·z, section centered.
 * x toward the stop, y off the fence, z up. `across` and `up` are its present extents along y and z.
 */
export interface Solid {
  readonly across: Mm
  readonly up: Mm
  /** Outside corner radius of the section. */
  readonly radius: Mm
  readonly lead: Face
  readonly trail: Face
}

export const boxOf = (section: Section, lead: Face, trail: Face): Solid => ({
  across: section.width,
  up: section.height,
  radius: turnOf(section),
  lead,
  trail,
})

/** (y, z) of the four long edges of the sharp box: +y+z, −y+z, −y−z, +y−z. */
export function corners({ across, up }: { readonly across: Mm; readonly up: Mm }) {
  const [y, z] = [across / 2, up / 2]
  return [
    [y, z],
    [-y, z],
    [-y, -z],
    [y, -z],
  ] as const
}

export const xAt = ({ x, p, q }: EndPlane, y: Mm, z: Mm): Mm => x + p * y + q * z

/** Distance along x from the plane `behind` to the plane `ahead` on each of the four edges. */
export const along = (solid: Solid, ahead: EndPlane, behind: EndPlane): readonly Mm[] =>
  corners(solid).map(([y, z]) => xAt(ahead, y, z) - xAt(behind, y, z))

/** The four edges, as in a part: +y+z, −y+z, −y−z, +y−z. */
export const edges = (solid: Solid): readonly Mm[] => along(solid, solid.lead, solid.trail)

/** A box whose corners are half as wide as itself is a round tube; its tips and least lengths are those of the circle. */
const isCircle = ({ across, up, radius }: Solid): boolean =>
  Math.abs(across - up) <= sameLength && Math.abs(across / 2 - radius) <= sameLength

/** Greatest extent along x: of the sharp box, or of the circle. */
export function extent(solid: Solid): Mm {
  const { lead, trail } = solid
  if (isCircle(solid)) return lead.x - trail.x + reach(solid, lead) + reach(solid, trail)
  const ahead = corners(solid).map(([y, z]) => xAt(lead, y, z))
  const behind = corners(solid).map(([y, z]) => xAt(trail, y, z))
  return Math.max(...ahead) - Math.min(...behind)
}

/** Least distance along x from the plane `behind` to the plane `ahead`, over the outside of the section. */
export function least(solid: Solid, ahead: EndPlane, behind: EndPlane): Mm {
  if (!isCircle(solid)) return Math.min(...along(solid, ahead, behind))
  return ahead.x - behind.x - reach(solid, { p: ahead.p - behind.p, q: ahead.q - behind.q })
}

/**
 * Greatest p·y + q·z over the section with its rounded corners: that of the sharp box less the corner loss
 * R(|p| + |q| − √(p² + q²)), which is nothing for a plain swing.
 */
export function reach({ across, up, radius }: Solid, { p, q }: Slope): Mm {
  const sharp = (Math.abs(p) * across) / 2 + (Math.abs(q) * up) / 2
  return sharp - radius * (Math.abs(p) + Math.abs(q) - Math.hypot(p, q))
}

const face = (from: Face, x: Mm, p: number, q: number): Face => ({ x, p, q, mill: from.mill })

/** Rigid turns of the workpiece; none of them makes a mirror image. */
export function turnedBy(solid: Solid, turn: Turn): Solid {
  const { across, up, lead, trail } = solid
  const each = (move: (from: Face) => Face) => ({ ...solid, lead: move(lead), trail: move(trail) })
  const swapped = (move: (from: Face) => Face) => ({ ...solid, lead: move(trail), trail: move(lead) })
  switch (turn) {
    case 'over': // (x, −y, −z)
      return each((from) => face(from, from.x, -from.p, -from.q))
    case 'quarter+': // (x, −z, y)
      return { ...each((from) => face(from, from.x, -from.q, from.p)), across: up, up: across }
    case 'quarter-': // (x, z, −y)
      return { ...each((from) => face(from, from.x, from.q, -from.p)), across: up, up: across }
    case 'end': // (−x, −y, z)
      return swapped((from) => face(from, -from.x, from.p, -from.q))
    case 'flip': // (−x, y, −z)
      return swapped((from) => face(from, -from.x, -from.p, from.q))
  }
}

/** The mirror image in x: what lies the same way, seen from a stop on the other side. */
export const mirroredX = (solid: Solid): Solid => ({
  ...solid,
  lead: face(solid.trail, -solid.trail.x, -solid.trail.p, -solid.trail.q),
  trail: face(solid.lead, -solid.lead.x, -solid.lead.p, -solid.lead.q),
})

/** The mirror image in y: a stick whose end x = length leads toward a stop on the other side, same face up. */
export const mirroredY = (solid: Solid): Solid => ({
  ...solid,
  lead: face(solid.lead, solid.lead.x, -solid.lead.p, solid.lead.q),
  trail: face(solid.trail, solid.trail.x, -solid.trail.p, solid.trail.q),
})
