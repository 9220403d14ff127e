import type { Frame, Plate } from '../frame/frame.ts'
import { meanLength } from '../frame/round-end.ts'
import { area } from '../geometry/polygon.ts'
import { isRound, type Section } from '../section/section.ts'
import { inch, type Mm } from '../units.ts'

/** Round the outside of a section, mm: flats and the arcs of its corners. Of an angle, both legs inside and out. */
export function girthOf({ kind, width, height, cornerRadius, ...section }: Section): Mm {
  if (isRound({ kind, width, height, cornerRadius, ...section })) return Math.PI * width
  return 2 * (width + height) - (8 - 2 * Math.PI) * (kind === 'angle' ? 0 : cornerRadius)
}

/** Both sides and the edge of a plate, mm². */
function plateSurface({ polygon, thickness, holes }: Plate): number {
  const round = polygon.reduce((sum, [x, y], at) => {
    const [u, v] = polygon[(at + 1) % polygon.length]!
    return sum + Math.hypot(u - x, v - y)
  }, 0)
  const open = holes.reduce((sum, [, , diameter]) => sum + (Math.PI * diameter ** 2) / 4, 0)
  return 2 * (Math.abs(area(polygon)) - open) + round * thickness
}

/**
 * What a coat has to cover, mm²: the outside of every member and all of every plate. Where steel lies on steel it is
 * counted on both, so this is a little more than the truth.
 */
export const surfaceOf = (frame: Frame): number =>
  frame.members.reduce((sum, of) => sum + girthOf(of.section) * meanLength(of), 0) +
  frame.plates.reduce((sum, plate) => sum + plateSurface(plate), 0)

/** Powder that a square meter takes, kg: film in micrometers, specific gravity, share of the powder that stays on. */
export const powderPerSquareMeter = (microns: number, gravity: number, use: number): number =>
  (microns * gravity) / (1000 * use)

/** Square meters that a liter of paint covers: film in micrometers, share of solids, share that lands on the steel. */
export const squareMetersPerLiter = (microns: number, solids: number, use: number): number =>
  (1000 * solids * use) / microns

export const mil = inch / 1000
