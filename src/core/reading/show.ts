import type { AngleShown, Shown } from '../plan-shapes.ts'
import type { Reading } from '../shop.ts'
import { sameAngle, sameLength } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import { inch, tanDeg } from '../units.ts'
import { decimals, fixed, nearest } from './round.ts'

/** A length is called strong or scant, and its remainder said, from this error on: 1/128 in, or 0.1 mm. */
const worthSaying = { in: inch / 128, mm: 0.1 } as const

/** Steps of a reading in its own unit: a fraction's denominator, 10 or 100 or 1000 to the inch, 1 or 2 or 10 to the mm. */
function stepsPerUnit(reading: Reading): number {
  if (reading.kind === 'inch-fraction') return reading.denominator
  return reading.kind === 'inch-decimal' ? 10 ** reading.places : Math.round(1 / reading.step)
}

export const unitOf = (reading: Reading): 'in' | 'mm' => (reading.kind === 'mm' ? 'mm' : 'in')

/** One step of a reading, mm. */
export const readingStep = (reading: Reading): Mm =>
  (unitOf(reading) === 'in' ? inch : 1) / stepsPerUnit(reading)

/** Whole steps of the reading nearest to a length; ties go away from zero. */
const stepsOf = (mm: Mm, reading: Reading): number =>
  nearest((unitOf(reading) === 'in' ? mm / inch : mm) * stepsPerUnit(reading))

const fromReadingSteps = (steps: number, reading: Reading): Mm =>
  (steps / stepsPerUnit(reading)) * (unitOf(reading) === 'in' ? inch : 1)

/** The length, mm, that a person reads and sets: to the nearest step, ties away from zero. Round once, at the end. */
export const roundLength = (mm: Mm, reading: Reading): Mm => fromReadingSteps(stepsOf(mm, reading), reading)

/** `6 7/8`, `5/8`, `0`: steps of 1/denominator, reduced. The denominator is a power of two. */
export function fractionText(steps: number, denominator: number): string {
  const whole = Math.floor(Math.abs(steps) / denominator)
  let above = Math.abs(steps) % denominator
  let below = denominator
  while (above > 0 && above % 2 === 0) {
    above /= 2
    below /= 2
  }
  const parts = [
    ...(whole > 0 || above === 0 ? [String(whole)] : []),
    ...(above > 0 ? [`${above}/${below}`] : []),
  ]
  return (steps < 0 ? '−' : '') + parts.join(' ')
}

function lengthText(steps: number, reading: Reading): string {
  if (reading.kind === 'inch-fraction') return fractionText(steps, reading.denominator)
  if (reading.kind === 'inch-decimal') return fixed(steps / stepsPerUnit(reading), reading.places)
  return reading.step === 1 ? fixed(steps, 0) : fixed(steps / stepsPerUnit(reading), 1)
}

/** `+1/64`, `−0.3`: what the exact length has more (or less) than the rounded one, to 1/64 in or 0.1 mm. */
function remainderText(error: Mm, unit: 'in' | 'mm'): string {
  const said = unit === 'in' ? fractionText(nearest((error / inch) * 64), 64) : fixed(error, 1)
  return error > 0 ? `+${said}` : said
}

/**
 * A length as the shop reads it. Fractions are reduced; below 1 in there is no leading 0. Where the exact length
 * differs by at least 1/128 in (0.1 mm), `lies` says strong (longer than the text) or scant, and `remainder` by how
 * much; a smaller difference cannot be seen on a tape and is not mentioned.
 */
export function showLength(mm: Mm, reading: Reading): Shown {
  const steps = stepsOf(mm, reading)
  const unit = unitOf(reading)
  const rounded = fromReadingSteps(steps, reading)
  const shown = { mm: rounded, text: lengthText(steps, reading), unit }
  const error = mm - rounded
  if (Math.abs(error) < worthSaying[unit] - sameLength) return shown
  return { ...shown, lies: error > 0 ? 'strong' : 'scant', remainder: remainderText(error, unit) }
}

/** Text with its unit, for messages: `6 7/8 in`, `404 mm`. */
export function say(mm: Mm, reading: Reading): string {
  const { text, unit } = showLength(mm, reading)
  return `${text} ${unit}`
}

/** Text with its unit and how it lies: `6 7/8 in strong (+1/64)`. */
export function sayMeasure({ text, unit, lies, remainder }: Shown): string {
  return `${text} ${unit}${lies ? ` ${lies}` : ''}${remainder ? ` (${remainder})` : ''}`
}

const quarters = ['', '¼', '½', '¾'] as const

/**
 * An angle as a saw scale shows it: whole, half and quarter degrees exactly (`30°`, `22½°`), others to 0.1°. `deg` is
 * what the text says. An angle that the text does not hit exactly also comes as a rise: in 12 in, or in 100 mm.
 */
export function showAngle(deg: Deg, reading: Reading): AngleShown {
  const inQuarters = nearest(deg * 4)
  if (Math.abs(deg - inQuarters / 4) <= sameAngle) {
    const size = Math.abs(inQuarters)
    const whole = Math.floor(size / 4)
    const part = quarters[size % 4] ?? ''
    const digits = whole === 0 && part ? part : `${whole}${part}`
    return { deg: inQuarters / 4, text: `${inQuarters < 0 ? '−' : ''}${digits}°` }
  }
  const tenths = nearest(deg * 10)
  const shown = { deg: tenths / 10, text: `${fixed(deg, 1)}°` }
  const exact = Math.abs(deg - tenths / 10) <= sameAngle
  if (exact || Math.abs(deg) >= 90) return shown
  const rise =
    unitOf(reading) === 'in'
      ? `${fixed(12 * tanDeg(deg), 3)} in 12 in`
      : `${fixed(100 * tanDeg(deg), 2)} in 100 mm`
  return { ...shown, rise }
}

/** 1 lb = 0.45359237 kg exactly (International yard and pound agreement, 1959). */
export const pound = 0.45359237

/** A mass, given in kg, to three digits or so: `3.05 lb`, `24.5 kg`, `128 kg`. */
export function showMass(kg: number, unit: 'lb' | 'kg'): string {
  const value = unit === 'lb' ? kg / pound : kg
  const size = Math.abs(value)
  return `${fixed(value, size < 9.995 ? 2 : size < 99.95 ? 1 : 0)} ${unit}`
}

/** Pieces of a shown text for typesetting; the empty string where there is none. `6 7/8`, `404`, `−5/8`, `+1/64`. */
export interface FractionPieces {
  /** With its sign and decimals; of `−5/8` the sign alone. */
  readonly whole: string
  readonly numerator: string
  readonly denominator: string
}

export function fractionOf(text: string): FractionPieces {
  const found = /^(.*?)\s*(\d+)\/(\d+)$/.exec(text)
  if (!found) return { whole: text, numerator: '', denominator: '' }
  const [, whole = '', numerator = '', denominator = ''] = found
  return { whole, numerator, denominator }
}

/** The same length in inches (exact 64ths as a fraction, else to 0.0001) or mm (to 0.01), for the echo of typed text. */
export function echo(
  mm: Mm,
  unit: 'in' | 'mm',
  places: { readonly in: number; readonly mm: number },
): string {
  if (unit === 'mm') return `${decimals(mm, places.mm)} mm`
  const sixtyFourths = nearest((mm / inch) * 64)
  const exact = Math.abs((sixtyFourths / 64) * inch - mm) <= sameLength
  return `${exact ? fractionText(sixtyFourths, 64) : decimals(mm / inch, places.in)} in`
}
