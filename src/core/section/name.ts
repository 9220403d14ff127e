import { decimals, nearest } from '../reading/round.ts'
import { fractionText, unitOf } from '../reading/show.ts'
import type { Reading } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { inch } from '../units.ts'
import type { Section, SectionKind } from './section.ts'
import { isRound } from './section.ts'

export { flatOf } from './section.ts'

export const kindWord: Readonly<Record<SectionKind, string>> = {
  'square-tube': 'square tube',
  'rect-tube': 'rectangular tube',
  'round-tube': 'round tube',
  'flat-bar': 'flat bar',
  angle: 'angle',
  'round-bar': 'round bar',
  'square-bar': 'square bar',
}

const onGrid = (value: number, steps: number, unit: Mm): boolean =>
  Math.abs((nearest((value / unit) * steps) / steps) * unit - value) <= sameLength

/**
 * The unit that the steel is sold in: sixteenths of an inch, or half millimeters. Where both fit (127 mm is 5 in) the
 * wall decides, metric ones being counted in 0.05 mm; where that does not tell either, as read here.
 */
export function soldIn({ width, height, wall }: Section, reading: Reading): 'in' | 'mm' {
  const inches = onGrid(width, 16, inch) && onGrid(height, 16, inch)
  const metric = onGrid(width, 2, 1) && onGrid(height, 2, 1)
  if (inches && metric && !onGrid(wall, 20, 1)) return 'in'
  if (inches === metric) return unitOf(reading)
  return inches ? 'in' : 'mm'
}

/** Outside sizes are bought by fractions; what lies on no sixteenth is said in decimals. */
function side(mm: Mm, unit: 'in' | 'mm'): string {
  if (unit === 'mm') return decimals(mm, 2)
  return onGrid(mm, 16, inch) ? fractionText(nearest((mm / inch) * 16), 16) : decimals(mm / inch, 4)
}

/**
 * What the steel is called where it is bought, sizes unrounded: `2 × 2 × 0.125 in square tube`,
 * `60 × 40 × 3 mm rectangular tube`. Metric steel keeps its name in an inch shop, and the other way round.
 */
export function sectionName(section: Section, reading: Reading): string {
  const unit = soldIn(section, reading)
  const { width, height, wall, kind, grade } = section
  const sides = isRound(section) ? [`⌀ ${side(width, unit)}`] : [side(width, unit), side(height, unit)]
  const walls = wall > 0 ? [unit === 'in' ? decimals(wall / inch, 4) : decimals(wall, 3)] : []
  return `${[...sides, ...walls].join(' × ')} ${unit} ${kindWord[kind]}${grade ? `, ${grade}` : ''}`
}
