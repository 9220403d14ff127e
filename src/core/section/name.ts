import { decimals, nearest } from '../reading/round.ts'
import { fractionText, unitOf } from '../reading/show.ts'
import type { Reading } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { inch } from '../units.ts'
import type { Section, SectionKind } from './section.ts'
import { isRound } from './section.ts'

export { flatOf } from './section.ts'

const words: Readonly<Record<SectionKind, string>> = {
  'square-tube': 'square tube',
  'rect-tube': 'rectangular tube',
  'round-tube': 'round tube',
  'flat-bar': 'flat bar',
  angle: 'angle',
  'round-bar': 'round bar',
  'square-bar': 'square bar',
}

/** Outside sizes are bought by fractions; what is on no 1/16 is said in decimals. */
function size(mm: Mm, unit: 'in' | 'mm'): string {
  if (unit === 'mm') return decimals(mm, 2)
  const sixteenths = nearest((mm / inch) * 16)
  const exact = Math.abs((sixteenths / 16) * inch - mm) <= sameLength
  return exact ? fractionText(sixteenths, 16) : decimals(mm / inch, 4)
}

/** What the steel is called, sizes unrounded: `2 × 2 × 0.125 in square tube`, `60 × 40 × 3 mm rectangular tube`. */
export function sectionName(section: Section, reading: Reading): string {
  const unit = unitOf(reading)
  const { width, height, wall, kind, grade } = section
  const sides = isRound(section) ? [`⌀ ${size(width, unit)}`] : [size(width, unit), size(height, unit)]
  const walls = wall > 0 ? [unit === 'in' ? decimals(wall / inch, 4) : decimals(wall, 2)] : []
  return `${[...sides, ...walls].join(' × ')} ${unit} ${words[kind]}${grade ? `, ${grade}` : ''}`
}
