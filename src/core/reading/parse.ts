import type { Given } from '../job.ts'
import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'
import type { Deg, Mm } from '../units.ts'
import { echo } from './show.ts'
import type { Quantity } from './sum.ts'
import { readQuantity, readSum } from './sum.ts'
import { inShort, misread, tokens } from './tokens.ts'

export interface LengthRead {
  readonly mm: Mm
  /** Echo of what was understood: `9 5/8 in = 244.48 mm`. */
  readonly understood: string
  /** The unit it was meant in. */
  readonly unit: 'in' | 'mm'
}

const empty = 'Nothing is typed here.'

/**
 * A length as people type it: `9 5/8`, `9-5/8`, `9.625"`, `6' 2 1/2"`, `175mm`, `17.5 cm`, `26 - 2*1 1/2`. A bare
 * number is in `units`. A dash without spaces joins a mixed number, with spaces on both sides it subtracts. In a metric
 * shop a fraction that is the whole text is inches. Fails with what was not understood and its column; never guesses.
 */
export function parseLength(text: string, units: 'in' | 'mm'): Result<LengthRead> {
  if (text.trim() === '')
    return bad('empty', `${empty} Give a length such as ${units === 'in' ? '9 5/8' : '175'}.`)
  const pieces = tokens(text, units === 'mm' ? 'decimal' : 'refuse')
  if (!pieces.ok) return pieces
  const sum = readSum(pieces.value, units)
  if (!sum.ok) return sum
  const { mm, unit } = sum.value
  if (!Number.isFinite(mm)) return bad('misread', `“${inShort(text.trim())}” is too long a length.`)
  const other = unit === 'in' ? 'mm' : 'in'
  const understood = `${echo(mm, unit, { in: 4, mm: 4 })} = ${echo(mm, other, { in: 3, mm: 2 })}`
  return good({ mm, unit, understood })
}

/** A length of a document: a number is mm, a text is as typed. Problems carry `field`. */
export function resolveLength(given: Given, units: 'in' | 'mm', field?: string): Result<Mm> {
  if (typeof given === 'number')
    return Number.isFinite(given) ? good(given) : bad('not-a-number', `${given} is not a length.`, field)
  const read = parseLength(given, units)
  if (read.ok) return good(read.value.mm)
  return field === undefined
    ? read
    : { ok: false, problems: read.problems.map((problem) => ({ ...problem, field })) }
}

/** An angle in degrees: `22.5`, `22½`, `22 1/2°`, `-30`, `180/7`. A decimal comma is read. */
export function parseAngle(text: string): Result<Deg> {
  if (text.trim() === '') return bad('empty', `${empty} Give an angle such as 22.5.`)
  const read = tokens(text, 'decimal')
  if (!read.ok) return read
  const pieces = read.value
  const first = pieces[0]
  const minus = first?.kind === 'sign' && first.sign === '-'
  const found = readQuantity(pieces, minus ? 1 : 0, { after: 'the minus', angle: true })
  if (!found.ok) return found
  const quantity: Quantity = found.value
  if (quantity.unit !== undefined && quantity.unit !== 'deg')
    return misread(quantity, 'an angle is in degrees.')
  const left = pieces[quantity.next]
  if (left) return misread(left, `not understood after ${quantity.text}: an angle is one number, in degrees.`)
  return good(minus && quantity.value !== 0 ? -quantity.value : quantity.value)
}

/** A count: a whole number, 0 or more. */
export function parseCount(text: string): Result<number> {
  const typed = text.trim()
  if (typed === '') return bad('empty', `${empty} Give a whole number such as 6.`)
  const value = /^\d+$/.test(typed) ? Number(typed) : Number.NaN
  if (Number.isSafeInteger(value)) return good(value)
  return bad('not-whole', `“${inShort(typed)}” is not a count: a whole number such as 6 is needed.`)
}
