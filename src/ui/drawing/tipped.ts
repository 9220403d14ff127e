import type { EndPlane } from '../../core/nest.ts'
import type { Deg, Mm } from '../../core/units.ts'
import { cosDeg, sinDeg } from '../../core/units.ts'
import type { Workpiece } from './lying.ts'

// A piece rolled in a cradle or raised on a wedge, as it is seen from above; for the picture alone.

/** How the piece itself is set, degrees: rolled right-hand about +x, then raised right-hand about +y. */
export interface Tip {
  readonly roll: Deg
  readonly ramp: Deg
}

export const flat: Tip = { roll: 0, ramp: 0 }

function rolled({ x, p, q }: EndPlane, roll: Deg): EndPlane {
  const [s, c] = [sinDeg(roll), cosDeg(roll)]
  return { x, p: p * c - q * s, q: p * s + q * c }
}

/** A plane stays on its point of the axis, which comes to lie shorter along the fence. */
function raised({ x, p, q }: EndPlane, ramp: Deg): EndPlane {
  const [s, c] = [sinDeg(ramp), cosDeg(ramp)]
  const along = c - q * s
  return { x: x * c, p: p / along, q: (s + q * c) / along }
}

/** An end of the piece in the saw's frame. */
export const seen = (end: EndPlane, { roll, ramp }: Tip): EndPlane => raised(rolled(end, roll), ramp)

/** The way back: a plane of the saw's frame on the piece as it lay flat. */
export function lain(end: EndPlane, { roll, ramp }: Tip): EndPlane {
  const back = raised(end, -ramp as Deg)
  return rolled({ ...back, x: end.x / cosDeg(ramp) }, -roll as Deg)
}

/** Across the table and off it, of the section as it is rolled. */
export function sizeSeen({ depth, height }: Workpiece, { roll }: Tip): { depth: Mm; height: Mm } {
  const [s, c] = [Math.abs(sinDeg(roll)), Math.abs(cosDeg(roll))]
  return { depth: depth * c + height * s, height: depth * s + height * c }
}
