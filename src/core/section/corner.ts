import type { Mm } from '../units.ts'
import { gaugeOfWall } from './gauge.ts'
import type { Section } from './section.ts'

/**
 * Outside corner of a cold-formed metric tube: 2T up to 6 mm, 2.5T up to 10 mm, 3T above.
 * Source: EN 10219-2, nominal corners for calculation (tolerance 1.6T to 2.4T for T up to 6).
 */
export const metricCorner = (wall: Mm): Mm => wall * (wall <= 6 ? 2 : wall <= 10 ? 2.5 : 3)

/** Outside corner of inch structural tube: 2t, as the AISC tables count (ASTM A500 allows up to 3t). */
export const structuralCorner = (wall: Mm): Mm => 2 * wall

/**
 * Outside corner of gauge-walled mechanical tube: 1.3t, the middle of what ASTM A513 allows at 18, 16 and 14 ga
 * (3/64 to 5/64, 1/16 to 7/64, 5/64 to 1/8 in: 1.28t, 1.32t, 1.22t). It serves landings and pictures; the mass is
 * that of the mechanical lists, which count sharp corners.
 */
export const mechanicalCorner = (wall: Mm): Mm => 1.3 * wall

/** Square or rectangular tube with a wall of a gauge: the lists that it is bought by count sharp corners. */
export const isMechanical = ({ kind, wall }: Pick<Section, 'kind' | 'wall'>): boolean =>
  (kind === 'square-tube' || kind === 'rect-tube') && gaugeOfWall(wall) !== undefined
