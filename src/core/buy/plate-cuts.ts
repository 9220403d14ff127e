import type { Plate } from '../frame/frame.ts'
import { leastRectangle } from '../geometry/in-rectangle.ts'
import { area, type Polygon } from '../geometry/polygon.ts'
import type { Plan } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** A plate to be cut, with how many of it all copies need. */
export interface PlateCut {
  readonly mark: string
  readonly name: string
  readonly count: number
  readonly thickness: Mm
  readonly polygon: Polygon
  /** Sides of the least rectangle round it. */
  readonly long: Mm
  readonly short: Mm
  /** It is that rectangle: sawn from a bar it needs no other cut. */
  readonly rectangle: boolean
  /** It closes the end of a tube. */
  readonly cap: boolean
  /** Kilograms, one. */
  readonly mass: number
}

/** Plates of these plans by their marks, each plan's apart: marks are a plan's own. */
export function plateCuts(plans: readonly Plan[]): readonly PlateCut[] {
  return plans.flatMap(({ frame, plates, quantity }) => {
    const capped = new Set(
      frame.joints.filter(({ kind }) => kind === 'cap').flatMap(({ members }) => members),
    )
    const byId = new Map(frame.plates.map((plate) => [plate.id, plate]))
    const marks = [...new Set(plates.map(({ mark }) => mark))]
    return marks.flatMap((mark) => {
      const alike = plates.filter((plate) => plate.mark === mark)
      const first = alike[0]!
      const plate = byId.get(first.id)
      if (!plate) return []
      const made = { mark, name: first.name, count: alike.length * quantity, mass: first.mass }
      return [cutOf(plate, made, capped.has(plate.id))]
    })
  })
}

function cutOf(
  { polygon, thickness }: Plate,
  made: Pick<PlateCut, 'mark' | 'name' | 'count' | 'mass'>,
  cap: boolean,
): PlateCut {
  const { long, short } = leastRectangle(polygon)
  // An outline of a rectangle's area within that rectangle is the rectangle; 1e-6 mm of its girth is rounding.
  const rectangle = long * short - Math.abs(area(polygon)) <= sameLength * 2 * (long + short)
  return { ...made, thickness, polygon, long, short, rectangle, cap }
}
