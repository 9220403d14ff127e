import { pound } from '../reading/show.ts'
import { inch } from '../units.ts'
import { isMechanical } from './corner.ts'
import type { Section } from './section.ts'

/** Carbon steel, kg/m³ (EN 1993-1-1; 490 lb/ft³ in inch tables). */
export const steelDensity = 7850

/** Mechanical-tube lists count 3.4 lb/ft for each square inch; in kg/m for each mm². */
const listDensity = (3.4 * pound) / (12 * inch * 1e-3) / inch ** 2

/** Steel of a square or rectangular tube, mm²: EN 10219-2 Annex B, with inner radius = outer − wall. */
function cornered({ width, height, wall, cornerRadius }: Section): number {
  const inner = Math.max(0, cornerRadius - wall)
  return 2 * wall * (width + height - 2 * wall) - (4 - Math.PI) * (cornerRadius ** 2 - inner ** 2)
}

/** Steel of a square or rectangular tube as if its corners were sharp, mm². */
export const sharpArea = ({ width, height, wall }: Section): number => 2 * wall * (width + height - 2 * wall)

/** Mass of a mechanical tube as its lists print it, kg/m: sharp corners, 3.4 lb/ft per square inch. */
export const mechanicalMass = (section: Section): number => sharpArea(section) * listDensity

/** Steel in the cross-section with its corners rounded, mm². An angle's root and toes are taken as sharp. */
export function areaOf(section: Section): number {
  const { kind, width, height, wall, cornerRadius } = section
  switch (kind) {
    case 'square-tube':
    case 'rect-tube':
      return cornered(section)
    case 'round-tube':
      return Math.PI * wall * (width - wall)
    case 'angle':
      return wall * (width + height - wall)
    case 'round-bar':
      return (Math.PI / 4) * width ** 2
    case 'flat-bar':
    case 'square-bar':
      return width * height - (4 - Math.PI) * cornerRadius ** 2
  }
}

/** kg/m, as the lists count that the section is bought by: gauge-walled tube sharp, all other steel by `areaOf`. */
export const massPerLength = (section: Section): number =>
  isMechanical(section) ? mechanicalMass(section) : areaOf(section) * steelDensity * 1e-6
