import type { Seam } from '../plan-shapes.ts'
import { steelDensity } from '../section/mass.ts'
import type { Mm } from '../units.ts'

/** Mass of a flat fillet, kg: half of leg × leg, along its length (reference.md 5.6). Convexity adds 10 to 25 % (common practice). */
export const filletMass = (leg: Mm, length: Mm): number => ((leg ** 2 / 2) * length * steelDensity) / 1e9

/** Weld metal of all seams, kg, each taken as a flat fillet as large as the thinner wall: an estimate. */
export const weldMetal = (seams: readonly Pick<Seam, 'size' | 'length'>[]): number =>
  seams.reduce((sum, { size, length }) => sum + filletMass(size, length), 0)
