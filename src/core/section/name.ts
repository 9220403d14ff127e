import { decimals, nearest } from '../reading/round.ts'
import { fractionText, say, unitOf } from '../reading/show.ts'
import type { Reading } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { inch } from '../units.ts'
import { gaugeOfSheet, gaugeOfWall } from './gauge.ts'
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

/** As the trade says it: a fraction down to thirty-seconds, else its gauge, and only else decimals. */
function inches(mm: Mm, gaugeOf?: (mm: Mm) => number | undefined): string {
  if (onGrid(mm, 32, inch)) return fractionText(nearest((mm / inch) * 32), 32)
  const gauge = gaugeOf?.(mm)
  return gauge === undefined ? decimals(mm / inch, 4) : `${gauge} ga`
}

/** Sizes as they stand in the name: sides, then the wall. The thickness of a flat bar is a wall in all but its place. */
function sizesOf(section: Section, unit: 'in' | 'mm'): readonly string[] {
  const { kind, width, height, wall } = section
  const side = (mm: Mm) => (unit === 'mm' ? decimals(mm, 2) : inches(mm))
  const second = unit === 'in' && kind === 'flat-bar' ? inches(height, gaugeOfSheet) : side(height)
  const walls = wall > 0 ? [unit === 'mm' ? decimals(wall, 3) : inches(wall, gaugeOfWall)] : []
  return [...(isRound(section) ? [`⌀ ${side(width)}`] : [side(width), second]), ...walls]
}

/**
 * What the steel is called where it is bought, sizes unrounded: `2 × 2 × 1/8 in square tube`, `2 × 2 × 11 ga square tube`,
 * `60 × 40 × 3 mm rectangular tube`. Metric steel keeps its name in an inch shop, and the other way round: there a gauge,
 * which is no length, has the unit before it, `2 × 2 in × 11 ga square tube`.
 */
export function sectionName(section: Section, reading: Reading): string {
  const unit = soldIn(section, reading)
  const sizes = sizesOf(section, unit)
  const gauge = sizes.at(-1)!.endsWith('ga')
  const said = gauge && unit !== unitOf(reading) ? sizes.with(-2, `${sizes.at(-2)} ${unit}`) : sizes
  const { kind, grade } = section
  return `${said.join(' × ')}${gauge ? '' : ` ${unit}`} ${kindWord[kind]}${grade ? `, ${grade}` : ''}`
}

/** A wall by itself, as its section is called: `1/8 in`, `11 ga`, `3 mm`; one that no steel is sold in, as read here. */
export function wallName(wall: Mm, reading: Reading): string {
  if (onGrid(wall, 32, inch) || gaugeOfWall(wall) !== undefined) {
    const said = inches(wall, gaugeOfWall)
    return said.endsWith('ga') ? said : `${said} in`
  }
  return onGrid(wall, 20, 1) ? `${decimals(wall, 3)} mm` : say(wall, reading)
}
