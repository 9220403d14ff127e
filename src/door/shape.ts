import * as v from 'valibot'
import { mostLength } from '../core/units.ts'

// The few forms that every schema of the door is made of. The message of a schema is always the words for what is
// possible, as they stand after "it must be": problem.ts puts path and given value before them.

/** A schema for `T` whose message says what is possible. */
export type Shape<T> = v.GenericSchema<unknown, T>

/**
 * Holds a schema to the type that it reads, both ways: it gives a `T`, and it knows every field of `T`, also the
 * optional ones; a field added to a document and forgotten here does not compile.
 */
export const shapeOf =
  <T>() =>
  <S extends Shape<T>>(
    schema: S & (Exclude<keyof T, keyof v.InferOutput<S>> extends never ? unknown : never),
  ): S =>
    schema

/** No length, price or count of a shop is greater. */
export const greatest = mostLength

const isNumber = (given: unknown): given is number => typeof given === 'number' && Number.isFinite(given)

/** A finite number within both limits, inclusive; `above` makes the lower limit exclusive. */
export function number(possible: string, limits: { least?: number; above?: number; most?: number } = {}) {
  const { least = -greatest, above = -Infinity, most = greatest } = limits
  return v.custom<number>(
    (given) => isNumber(given) && given >= least && given > above && given <= most,
    possible,
  )
}

export const whole = (least: number, most: number = Number.MAX_SAFE_INTEGER) =>
  v.custom<number>(
    (given) => Number.isSafeInteger(given) && (given as number) >= least && (given as number) <= most,
    most === Number.MAX_SAFE_INTEGER
      ? `a whole number, ${least} or more`
      : `a whole number from ${least} to ${most}`,
  )

export const size = number('a length over 0 mm', { above: 0 })
export const distance = number('a length of 0 mm or more', { least: 0 })
/** As nests count it. */
export const money = v.custom<number>(
  (given) => Number.isSafeInteger(given) && (given as number) >= 0 && (given as number) <= 1_000_000_000,
  'a price in whole cents, 0 or more',
)
export const flag = v.custom<boolean>((given) => typeof given === 'boolean', 'true or false')

/** Characters are counted as JSON Schema counts them, by code point: an emoji is one. */
const isWithin = (given: string, most: number): boolean =>
  given.length <= most || (given.length <= 2 * most && [...given].length <= most)

/** Text of up to `most` characters; `least` 1 for what must not be empty. */
export const text = (most: number, least: 0 | 1 = 1) =>
  v.custom<string>(
    (given) => typeof given === 'string' && isWithin(given, most) && (least === 0 || given.trim() !== ''),
    `text of ${least === 0 ? 'up' : '1'} to ${most} characters`,
  )

export const id = text(100)
export const name = text(200)

/** One of these values and no other. */
export function oneOf<const T extends string | number>(...values: readonly T[]) {
  const said = values.map((value) => (typeof value === 'string' ? `"${value}"` : String(value)))
  const possible = said.length === 1 ? said[0]! : `${said.slice(0, -1).join(', ')} or ${said.at(-1)}`
  return v.custom<T>((given) => (values as readonly unknown[]).includes(given), possible)
}

const possibleOf = (schema: unknown): string | undefined => {
  const message = (schema as { readonly message?: unknown } | undefined)?.message
  return typeof message === 'string' ? message : undefined
}

/** An object with these fields and no other: a misspelled field is said, not lost. `what` as in "a saw". */
export const fields = <const E extends v.ObjectEntries>(what: string, entries: E) =>
  v.strictObject(entries, (issue) => {
    const known = Object.keys(entries)
    if (issue.expected === 'Object') return `${what}: an object with ${known.join(', ')}`
    if (issue.expected === 'never') return `left out: the fields of ${what} are ${known.join(', ')}`
    const missing = known.find((key) => issue.expected === `"${key}"`)
    return (missing && possibleOf(entries[missing])) ?? `given in ${what}`
  })

/** An object with these fields; others are kept as they are. Only for facts, which are never rewritten. */
export const openFields = <const E extends v.ObjectEntries>(what: string, entries: E) =>
  v.looseObject(entries, (issue) => {
    if (issue.expected === 'Object') return `${what}: an object with ${Object.keys(entries).join(', ')}`
    const missing = Object.keys(entries).find((key) => issue.expected === `"${key}"`)
    return (missing && possibleOf(entries[missing])) ?? `given in ${what}`
  })

export const list = <S extends v.GenericSchema>(what: string, item: S) => v.array(item, `a list of ${what}`)

/** Two of a kind, as the two ends of a stick. */
export const pair = <S extends v.GenericSchema>(what: string, item: S) =>
  v.strictTuple([item, item], `a list of two: ${what}`)

/** What one object says about itself: `holds` sees the whole, the words are said of the field `at`. */
export const agrees = <T extends Readonly<Record<string, unknown>>>(
  at: keyof T & string,
  holds: (whole: T) => boolean,
  possible: string | ((whole: T) => string),
) =>
  v.rawCheck<T>(({ dataset, addIssue }) => {
    if (!dataset.typed || holds(dataset.value)) return
    const whole = dataset.value
    addIssue({
      message: typeof possible === 'string' ? possible : possible(whole),
      path: [{ type: 'object', origin: 'value', input: whole, key: at, value: whole[at] }],
    })
  })
