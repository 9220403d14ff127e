import { cornerAt, directionsOf, moved } from '../geometry/outline.ts'
import { area, type Point, type Polygon } from '../geometry/polygon.ts'
import type { Mm } from '../units.ts'

// Lines for cutting a plate out of a sheet: where the middle of the kerf runs, and where a straight edge is laid for a
// torch in the hand. The outline is counterclockwise or not; out means away from the part.

/** The middle of the kerf: half a kerf outside of the part. Its faults are those of moving the outline so far. */
export const cutLine = (outline: Polygon, kerf: Mm): Polygon => moved(outline, kerf / 2)

export type GuideSide = 'keep' | 'waste'

/**
 * How far outside the straight edge the part's edge lies when the torch rides `offset` from it (common practice 1/2 in,
 * 12.7 mm): on the keep side offset − kerf/2; on the waste side the straight edge lies offset + kerf/2 outside the part.
 */
export const guideToEdge = (offset: Mm, kerf: Mm, side: GuideSide): Mm =>
  side === 'keep' ? offset - kerf / 2 : offset + kerf / 2

export interface GuideLine {
  /** The side of the outline that it guides, from 0. */
  readonly side: number
  readonly from: Point
  readonly to: Point
}

/**
 * The straight edge of every side: inside the part on the keep side, outside on the waste side, run on straight past both
 * corners by `past`.
 */
export function guideLines(
  outline: Polygon,
  offset: Mm,
  kerf: Mm,
  on: GuideSide,
  past: Mm = offset,
): GuideLine[] {
  const away = guideToEdge(offset, kerf, on) * (on === 'keep' ? -1 : 1)
  const round = area(outline) < 0 ? -1 : 1
  return directionsOf(outline).map(([x, y], side) => {
    const [a, b] = [cornerAt(outline, side), cornerAt(outline, side + 1)]
    // Outward of a counterclockwise side is to its right.
    const [u, v] = [y * round * away, -x * round * away]
    return {
      side,
      from: [a[0] + u - x * past, a[1] + v - y * past],
      to: [b[0] + u + x * past, b[1] + v + y * past],
    }
  })
}
