import { parseAngle } from '../../core/reading/parse.ts'
import type { Result } from '../../core/result.ts'
import { bad, good } from '../../core/result.ts'
import { TypedField, type TypedFieldProps } from './typed-field.tsx'

/** A plain number with least and most, both possible: `22.5`, `22½`, `22 1/2`; `whole`: no fraction of it. */
export function readNumber(
  text: string,
  least: number,
  most: number,
  unit: string,
  whole = false,
): Result<number> {
  const read = parseAngle(text)
  if (!read.ok) return bad('number', `“${text.trim()}” is not a number.`)
  const { value } = read
  if (whole && !Number.isInteger(value))
    return bad('not-whole', `${value} was given; a whole number is possible.`)
  if (value < least || value > most) {
    const range = Number.isFinite(most) ? `${least} to ${most}` : `${least} or more`
    return bad('number-range', `${value}${unit} was given; ${range} is possible.`)
  }
  return good(value)
}

export function NumberField({
  value,
  least = 0,
  most = Number.POSITIVE_INFINITY,
  unit = '',
  whole = false,
  onChange,
  ...rest
}: Omit<TypedFieldProps, 'value' | 'read' | 'onChange' | 'keypad'> & {
  readonly value: number | undefined
  readonly least?: number
  readonly most?: number
  /** Said after the number, with its space: ` min`. */
  readonly unit?: string
  /** Of what is counted. */
  readonly whole?: boolean
  readonly onChange: (value: number | undefined) => void
}) {
  return (
    <TypedField
      {...rest}
      keypad="plain"
      unit={unit.trim()}
      value={value === undefined ? '' : String(value)}
      read={(text) => {
        const result = readNumber(text, least, most, unit, whole)
        return result.ok ? good(`${result.value}${unit}`) : result
      }}
      onChange={(text) => {
        const result = readNumber(text, least, most, unit, whole)
        if (text.trim() === '') onChange(undefined)
        else if (result.ok) onChange(result.value)
      }}
    />
  )
}
