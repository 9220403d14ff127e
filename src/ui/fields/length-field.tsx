import type { Given } from '../../core/job.ts'
import { parseAngle, parseLength } from '../../core/reading/parse.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Result } from '../../core/result.ts'
import type { Reading } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import { inch } from '../../core/units.ts'
import { unitsOf } from '../words.ts'
import { type Possible, possibleLength } from './possible.ts'
import { TypedField, type TypedFieldProps } from './typed-field.tsx'

type Rest = Omit<TypedFieldProps, 'value' | 'read' | 'onChange' | 'keypad'>

/**
 * A length that was given, as text to type in. What was typed stays as typed. A number is said in `units`, the ones in
 * which the field reads a bare number back: as the shop reads where that is exact, else to 1/64 in, else in decimals.
 */
export function givenText(
  given: Given | undefined,
  reading: Reading,
  units: 'in' | 'mm' = unitsOf(reading),
): string {
  if (given === undefined) return ''
  if (typeof given === 'string') return given
  const own: Reading = units === 'in' ? { kind: 'inch-fraction', denominator: 64 } : { kind: 'mm', step: 0.1 }
  for (const each of unitsOf(reading) === units ? [reading, own] : [own]) {
    const shown = showLength(given, each)
    if (Math.abs(shown.mm - given) <= sameLength)
      return units === 'mm' ? shown.text.replace(/\.0+$/, '') : shown.text
  }
  return units === 'in' ? String(+(given / inch).toFixed(6)) : String(+given.toFixed(4))
}

const echo = (result: Result<{ readonly understood: string }>): Result<string> =>
  result.ok ? { ok: true, value: result.value.understood } : result

/** A length, typed as people type them; what is kept is the text. Bare numbers are in `units`, else the shop's. */
export function LengthField({
  value,
  reading,
  units = unitsOf(reading),
  onChange,
  ...rest
}: Rest & {
  readonly value: Given | undefined
  readonly reading: Reading
  readonly units?: 'in' | 'mm' | undefined
  readonly onChange: (typed: string) => void
}) {
  return (
    <TypedField
      {...rest}
      keypad={units}
      unit={units}
      value={givenText(value, reading, units)}
      read={(text) => echo(parseLength(text, units))}
      onChange={onChange}
    />
  )
}

/** A length kept in millimeters, as the shop's figures are. What is not `possible` is refused beside the field. */
export function MmField({
  value,
  reading,
  possible = {},
  onChange,
  ...rest
}: Rest & {
  readonly value: number | undefined
  readonly reading: Reading
  readonly possible?: Possible
  readonly onChange: (mm: number | undefined) => void
}) {
  const units = unitsOf(reading)
  const within = (mm: number) =>
    possibleLength(mm, possible, (each) => `${givenText(each, reading)} ${units}`)
  return (
    <TypedField
      {...rest}
      keypad={units}
      unit={units}
      value={givenText(value, reading)}
      read={(text) => {
        const read = parseLength(text, units)
        if (!read.ok) return read
        const fits = within(read.value.mm)
        return fits.ok ? echo(read) : fits
      }}
      onChange={(typed) => {
        const mm = parseLength(typed, units)
        if (typed.trim() === '') onChange(undefined)
        else if (mm.ok) onChange(mm.value.mm)
      }}
    />
  )
}

/** An angle in degrees, typed: `22.5`, `22½`, `22 1/2`. */
export function AngleField({
  value,
  onChange,
  ...rest
}: Rest & { readonly value: Given | undefined; readonly onChange: (typed: string) => void }) {
  return (
    <TypedField
      {...rest}
      keypad="plain"
      unit="°"
      value={value === undefined ? '' : String(value)}
      read={(text) => {
        const angle = parseAngle(text)
        return angle.ok ? { ok: true, value: `${angle.value}°` } : angle
      }}
      onChange={onChange}
    />
  )
}
