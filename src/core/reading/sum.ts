import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'
import type { Mm } from '../units.ts'
import { inch } from '../units.ts'
import type { LengthUnit, Token } from './tokens.ts'
import { misread } from './tokens.ts'

/** One number with the unit that is written behind it. */
export interface Quantity {
  readonly value: number
  readonly unit?: LengthUnit | 'deg'
  /** A fraction stands in it: in a metric shop it needs a unit. */
  readonly fraction: boolean
  readonly at: number
  /** As understood, for messages. */
  readonly text: string
  /** Index of its first token, and of the one behind it. */
  readonly first: number
  readonly next: number
}

const inMm: Readonly<Record<LengthUnit, Mm>> = { in: inch, ft: 12 * inch, mm: 1, cm: 10, m: 1000 }

const touches = (left: Token, right: Token): boolean => left.end === right.at

/** `9 5/8`, `9⅝`, `9-5/8`: the fraction that belongs to the whole number at `at`, and how many tokens it takes. */
function joined(pieces: readonly Token[], at: number): { fraction: Token; taken: number } | undefined {
  const number = pieces[at]
  const next = pieces[at + 1]
  const after = pieces[at + 2]
  if (number?.kind !== 'number' || !next) return undefined
  if (next.kind === 'fraction') return { fraction: next, taken: 2 }
  const dash = next.kind === 'sign' && next.sign === '-' && after?.kind === 'fraction'
  if (dash && touches(number, next) && touches(next, after)) return { fraction: after, taken: 3 }
  return undefined
}

function readNumber(pieces: readonly Token[], at: number, after: string): Result<Omit<Quantity, 'unit'>> {
  const first = pieces[at]
  if (!first) return bad('misread', `A number is missing after ${after}, at the end.`)
  if (first.kind !== 'number' && first.kind !== 'fraction') return misread(first, 'a number is needed here.')
  const fraction = joined(pieces, at)
  if (!fraction || first.kind === 'fraction')
    return good({
      value: first.value,
      fraction: first.kind === 'fraction',
      at: first.at,
      text: first.text,
      first: at,
      next: at + 1,
    })
  const part = fraction.fraction as Token & { kind: 'fraction' }
  if (!first.whole)
    return misread(
      part,
      `a fraction cannot follow ${first.text}; to subtract, put a space on both sides of the minus.`,
    )
  if (part.value >= 1) return misread(part, 'a fraction behind a whole number must be less than 1.')
  const text = `${first.text} ${part.text}`
  return good({
    value: first.value + part.value,
    fraction: true,
    at: first.at,
    text,
    first: at,
    next: at + fraction.taken,
  })
}

/** Feet take the inches written behind them: `6' 2 1/2"`, `6'-2`. */
function withInches(pieces: readonly Token[], feet: Quantity): Result<Quantity> {
  const unit = pieces[feet.next - 1]
  let at = feet.next
  const dash = pieces[at]
  const behind = pieces[at + 1]
  if (
    unit &&
    dash &&
    behind &&
    dash.kind === 'sign' &&
    dash.sign === '-' &&
    touches(unit, dash) &&
    touches(dash, behind)
  )
    at += 1
  const first = pieces[at]
  if (first?.kind !== 'number' && first?.kind !== 'fraction') return good(feet)
  const inches = readNumber(pieces, at, 'the feet')
  if (!inches.ok) return inches
  const mark = pieces[inches.value.next]
  const named = mark?.kind === 'unit'
  if (named && mark.unit !== 'in') return misread(mark, 'inches are needed behind feet.')
  return good({
    ...feet,
    value: feet.value * 12 + inches.value.value,
    unit: 'in',
    text: `${feet.text} ${inches.value.text}${named ? mark.text : ''}`,
    next: inches.value.next + (named ? 1 : 0),
  })
}

/** One number with its unit, from token `at` on; `after` says in a message what it should have followed. */
export function readQuantity(
  pieces: readonly Token[],
  at: number,
  { after, angle = false }: { readonly after: string; readonly angle?: boolean },
): Result<Quantity> {
  const number = readNumber(pieces, at, after)
  if (!number.ok) return number
  const mark = pieces[number.value.next]
  if (mark?.kind !== 'unit') return number
  if (mark.unit === 'deg' && !angle) return misread(mark, 'a length is needed here, not an angle.')
  const text = number.value.text + (/^[a-z]/i.test(mark.text) ? ` ${mark.text}` : mark.text)
  const quantity = { ...number.value, unit: mark.unit, text, next: number.value.next + 1 }
  return mark.unit === 'ft' && !angle ? withInches(pieces, quantity) : good(quantity)
}

interface Term {
  readonly mm: Mm
  readonly unit: 'in' | 'mm'
  /** A fraction without a unit in a metric job: inches where it is the whole text, else it must say its unit. */
  readonly bare?: Quantity
  /** Index of the token behind the term. */
  readonly next: number
}

const metric = (unit: LengthUnit) => unit === 'mm' || unit === 'cm' || unit === 'm'

function readFactors(pieces: readonly Token[], start: number, after: string): Result<readonly Quantity[]> {
  const factors: Quantity[] = []
  for (let at = start, behind = after; ; at += 1) {
    const factor = readQuantity(pieces, at, { after: behind })
    if (!factor.ok) return factor
    factors.push(factor.value)
    at = factor.value.next
    const sign = pieces[at]
    if (sign?.kind !== 'sign' || sign.sign !== '*') return good(factors)
    behind = sign.text
  }
}

/** One length, or a length times plain numbers: `2*1 1/2`. */
function readTerm(pieces: readonly Token[], start: number, units: 'in' | 'mm', after: string): Result<Term> {
  const read = readFactors(pieces, start, after)
  if (!read.ok) return read
  const factors = read.value
  const [length, second] = factors.filter(({ unit }) => unit !== undefined)
  if (second)
    return misread(second, 'two lengths multiplied are no length: one of them must be a plain number.')
  const next = factors.at(-1)?.next ?? start
  const value = factors.reduce((product, factor) => product * factor.value, 1)
  if (length?.unit !== undefined && length.unit !== 'deg')
    return good({ mm: value * inMm[length.unit], unit: metric(length.unit) ? 'mm' : 'in', next })
  const bare = units === 'mm' ? factors.find(({ fraction }) => fraction) : undefined
  const unit = bare ? 'in' : units
  return good({ mm: value * inMm[unit], unit, ...(bare ? { bare } : {}), next })
}

/** A dash is a minus with spaces on both sides, or with none where it joins no mixed number; never in between. */
function dashProblem(pieces: readonly Token[], at: number): Result<never> | undefined {
  const [left, dash, right] = [pieces[at - 1], pieces[at], pieces[at + 1]]
  if (!left || !dash || !right) return undefined
  const close = [touches(left, dash), touches(dash, right)]
  if (close[0] !== close[1] || (close[0] && right.kind === 'fraction'))
    return misread(
      dash,
      'to subtract, put a space on both sides of the minus; 9-5/8 without spaces is 9 5/8.',
    )
  return undefined
}

/** Terms added and subtracted. `unit` is inches as soon as one term is. */
export function readSum(pieces: readonly Token[], units: 'in' | 'mm'): Result<{ mm: Mm; unit: 'in' | 'mm' }> {
  const first = pieces[0]
  const leads = first?.kind === 'sign' && first.sign !== '*'
  let sign = leads && first.sign === '-' ? -1 : 1
  let at = leads ? 1 : 0
  let after = leads ? first.text : 'nothing'
  const terms: Term[] = []
  let mm = 0
  for (;;) {
    const term = readTerm(pieces, at, units, after)
    if (!term.ok) return term
    terms.push(term.value)
    mm += sign * term.value.mm
    const next = pieces[term.value.next]
    if (!next) break
    if (next.kind !== 'sign') {
      const before = pieces[term.value.next - 1]?.text ?? ''
      return misread(next, `not understood after “${before}”: + − or * is needed between lengths.`)
    }
    const problem = next.sign === '-' ? dashProblem(pieces, term.value.next) : undefined
    if (problem) return problem
    sign = next.sign === '-' ? -1 : 1
    after = next.text
    at = term.value.next + 1
  }
  const bare = terms.find((term) => term.bare)?.bare
  const alone = bare?.next === pieces.length && bare.first === (leads ? 1 : 0)
  if (bare && !alone) return misread(bare, `say its unit: ${bare.text} in, or ${bare.text} mm.`)
  return good({ mm: mm === 0 ? 0 : mm, unit: terms.some(({ unit }) => unit === 'in') ? 'in' : 'mm' })
}
