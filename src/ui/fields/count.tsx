import { parseCount } from '../../core/reading/parse.ts'
import { bad, good, type Result } from '../../core/result.ts'
import { TypedField, type TypedFieldProps } from './typed-field.tsx'

/** A whole number between least and most; both ends are possible. */
export function readCount(text: string, least: number, most: number): Result<number> {
  const counted = parseCount(text)
  if (!counted.ok) return counted
  if (counted.value < least || counted.value > most) {
    const range = Number.isFinite(most) ? `${least} to ${most}` : `${least} or more`
    return bad('count-range', `${counted.value} was given; ${range} is possible.`)
  }
  return good(counted.value)
}

/** A whole number with a key on each side: one less, one more. */
export function Count({
  value,
  least = 1,
  most = Number.POSITIVE_INFINITY,
  onChange,
  ...rest
}: Omit<TypedFieldProps, 'value' | 'read' | 'onChange' | 'keypad'> & {
  readonly value: number
  readonly least?: number | undefined
  readonly most?: number | undefined
  readonly onChange: (value: number) => void
}) {
  return (
    <div className="count">
      <TypedField
        {...rest}
        keypad="plain"
        value={String(value)}
        read={(text) => {
          const result = readCount(text, least, most)
          return result.ok ? good(String(result.value)) : result
        }}
        onChange={(text) => {
          const result = readCount(text, least, most)
          if (result.ok) onChange(result.value)
        }}
      />
      <button
        type="button"
        aria-label={`${rest.label}: one less`}
        disabled={value <= least}
        onClick={() => onChange(value - 1)}
      >
        −
      </button>
      <button
        type="button"
        aria-label={`${rest.label}: one more`}
        disabled={value >= most}
        onClick={() => onChange(value + 1)}
      >
        +
      </button>
    </div>
  )
}
