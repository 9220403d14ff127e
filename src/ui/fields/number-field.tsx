import type { Result } from '../../core/result.ts'
import { bad, good } from '../../core/result.ts'
import { TypedField, type TypedFieldProps } from './typed-field.tsx'

/** A plain number with least and most, both possible. */
export function readNumber(text: string, least: number, most: number, unit: string): Result<number> {
  const plain = text.trim().replace(',', '.')
  const value = Number(plain)
  if (plain === '' || !Number.isFinite(value)) return bad('number', `“${text}” is not a number.`)
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
  onChange,
  ...rest
}: Omit<TypedFieldProps, 'value' | 'read' | 'onChange' | 'keypad'> & {
  readonly value: number | undefined
  readonly least?: number
  readonly most?: number
  /** Said after the number, with its space: ` min`. */
  readonly unit?: string
  readonly onChange: (value: number | undefined) => void
}) {
  return (
    <TypedField
      {...rest}
      keypad="plain"
      unit={unit.trim()}
      value={value === undefined ? '' : String(value)}
      read={(text) => {
        const result = readNumber(text, least, most, unit)
        return result.ok ? good(`${result.value}${unit}`) : result
      }}
      onChange={(text) => {
        const result = readNumber(text, least, most, unit)
        if (text.trim() === '') onChange(undefined)
        else if (result.ok) onChange(result.value)
      }}
    />
  )
}
