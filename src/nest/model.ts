import type { NestProblem, Slope, StockLength } from '../core/nest.ts'
import { stepSlack } from '../core/tolerance.ts'
import { stepsDown, stepsPerMm, stepsUp } from '../core/units.ts'
import { front, isSquare, kerfAt, tail, turnEnds, usedUncut } from './fit.ts'

// The problem as plain cutting stock: whole sizes in whole rooms. Every piece counts with half the kerf of both its
// ends. At square ends that is the very rule of the stick, in whole steps; at angled ends no order of pieces needs
// less, so that a bound from here holds, and a nest from here is still to be put in order (angled.ts).

/** Pieces of one size. At square ends equal sizes of several parts are one item. */
export interface Item {
  readonly size: number
  readonly count: number
  /** Parts of the problem that it stands for, in their order. */
  readonly parts: readonly number[]
}

export interface Kind {
  /** Index in the problem's stock. */
  readonly stock: number
  readonly room: number
  /** Whole cents, or whole steps of length where nothing is priced. */
  readonly price: number
  /** Never more than there are pieces. */
  readonly count: number
  /** Item that may use this rack piece uncut though its room is too short for it; absent: none. */
  readonly uncut?: number
}

export interface Model {
  readonly items: readonly Item[]
  readonly kinds: readonly Kind[]
  readonly square: boolean
  readonly pieces: number
}

/** What lies on `times` sticks of one kind: how many of each item. */
export interface Fill {
  readonly kind: number
  readonly counts: readonly number[]
  readonly times: number
}

export const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b))

/** True where cost is money; false where it is the length bought. */
export const isPriced = (stock: readonly StockLength[]): boolean => {
  const bought = stock.filter(({ rack }) => rack === undefined)
  return bought.length === 0 || bought.some(({ price }) => price !== undefined)
}

/** Cost of one stick: its price, or its length where nothing is priced; on the rack 0 unless it has a price. */
export function priceOf(stock: readonly StockLength[], at: number): number {
  const { length, price, rack } = stock[at]!
  return price ?? (rack === undefined && !isPriced(stock) ? length : 0)
}

/** Cost of one stick per kind of stock, in whole cents or whole steps: the unit in which the search counts. */
export function pricingOf(stock: readonly StockLength[]): number[] {
  const priced = isPriced(stock)
  return stock.map((_, at) => (priced ? priceOf(stock, at) : stepsDown(priceOf(stock, at))))
}

/** A rack piece is one; bought stock without a count is as much as wanted. */
export const countOf = ({ count, rack }: StockLength): number | undefined =>
  count ?? (rack === undefined ? undefined : 1)

export function modelOf(problem: NestProblem): Model {
  const { parts, kerf } = problem
  const allSquare = parts.every(({ ends }) => ends.every(isSquare))
  const sizes = parts.map(({ mid, ends }) =>
    allSquare
      ? stepsUp(mid) + stepsUp(kerf)
      : Math.floor((2 * mid + kerfAt(kerf, ends[0]) + kerfAt(kerf, ends[1])) * finePerMm),
  )
  const unit = sizes.reduce(commonDivisor, 0)
  const merged = new Map<number | string, Item>()
  for (const [index, { count }] of parts.entries()) {
    const size = sizes[index]! / unit
    const name = allSquare ? size : `part ${index}`
    const known = merged.get(name)
    merged.set(name, {
      size,
      count: count + (known?.count ?? 0),
      parts: [...(known?.parts ?? []), index],
    })
  }
  const items = [...merged.values()].sort((a, b) => b.size - a.size || a.parts[0]! - b.parts[0]!)
  const pieces = items.reduce((sum, { count }) => sum + count, 0)
  const pricing = pricingOf(problem.stock)
  const kinds = problem.stock.map((stock, index): Kind => {
    const room = Math.floor((allSquare ? squareRoom(problem, stock) : angledRoom(problem, stock)) / unit)
    const uncut = items.findIndex(
      ({ size, parts: [part = 0] }) =>
        size > room && usedUncut(stock, parts[part]!.mid, turnEnds(parts[part]!.ends, 'none')),
    )
    const count = Math.min(countOf(stock) ?? pieces, pieces)
    return { stock: index, room, price: pricing[index]!, count, ...(uncut >= 0 && { uncut }) }
  })
  return { items, kinds, square: allSquare, pieces }
}

const square: Slope = { p: 0, q: 0 }

/** Whole steps of a stick that square pieces can take, each with one kerf. */
const squareRoom = (problem: NestProblem, { length, ends }: StockLength): number =>
  stepsDown(length) +
  stepsUp(problem.kerf) -
  stepsUp(front(problem, ends[0], square)) -
  stepsUp(tail(problem, ends[1], square))

/** Angled ends are no whole steps: sizes are counted finer, pieces down and sticks up, so that nothing is ruled out. */
const finePerMm = 1000 * stepsPerMm

/** Twice the length of a stick that its pieces can take, each with half the kerfs of its ends: least front and tail. */
function angledRoom(problem: NestProblem, { length, ends }: StockLength): number {
  let [leastFront, leastTail] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (const part of problem.parts)
    for (const turn of turnsOf(part.turns)) {
      const [lead, trail] = turnEnds(part.ends, turn)
      leastFront = Math.min(leastFront, 2 * front(problem, ends[0], lead) - kerfAt(problem.kerf, lead))
      leastTail = Math.min(leastTail, 2 * tail(problem, ends[1], trail) - kerfAt(problem.kerf, trail))
    }
  return Math.ceil((2 * (length + stepSlack) - leastFront - leastTail) * finePerMm)
}

/** A part that names no turning lies as it is. */
export const turnsOf = <T>(turns: readonly T[]): readonly (T | 'none')[] =>
  turns.length > 0 ? turns : ['none']

export const costOf = (fills: readonly Fill[], pricing: readonly number[]): number =>
  fills.reduce((sum, { kind, times }) => sum + pricing[kind]! * times, 0)

export const sticksOf = (fills: readonly Fill[]): number => fills.reduce((sum, { times }) => sum + times, 0)

/** Pieces of each item that no stick holds. */
export function missingOf({ items }: Model, fills: readonly Fill[]): number[] {
  const missing = items.map(({ count }) => count)
  for (const { counts, times } of fills)
    for (const [item, count] of counts.entries()) missing[item]! -= count * times
  return missing
}

/** Better by: fewer pieces not placed, then cost, then sticks; negative when `a` is the better one. */
export function compare(model: Model, a: readonly Fill[], b: readonly Fill[]): number {
  const left = (fills: readonly Fill[]) => missingOf(model, fills).reduce((sum, count) => sum + count, 0)
  const pricing = model.kinds.map(({ price }) => price)
  return left(a) - left(b) || costOf(a, pricing) - costOf(b, pricing) || sticksOf(a) - sticksOf(b)
}
