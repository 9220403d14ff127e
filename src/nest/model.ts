import type { NestPart, NestProblem, Slope, StockLength } from '../core/nest.ts'
import { front, isSquare, tail } from '../core/stick-room.ts'
import { addedUp, stepSlack } from '../core/tolerance.ts'
import { fromSteps, stepsDown, stepsNearest, stepsPerMm, stepsUp } from '../core/units.ts'
import { sharesOf } from './cut-share.ts'
import { turnEnds, usedUncut } from './fit.ts'
import { groupsOf } from './together.ts'

// The problem as plain cutting stock: whole sizes in whole rooms. Every piece counts with its shares of the cuts beside
// it (cut-share.ts). At square ends that is the very rule of the stick, in whole steps; at angled ends no order of
// pieces needs less, so that a bound from here holds, and a nest from here is still to be put in order (angled.ts).

/** One piece of a part, or the pieces that must share a stick. */
export interface Bundle {
  /** How many pieces of which parts. */
  readonly pieces: readonly { readonly part: number; readonly count: number }[]
  /** How many of this bundle there are. */
  readonly times: number
}

/**
 * What takes one and the same room of a stick. At square ends bundles of one length are one item, at angled ends those
 * whose pieces are all alike: which of them lies where changes nothing, so the search need not tell them apart.
 */
export interface Item {
  readonly size: number
  readonly count: number
  /** What it stands for, in the order of the problem. All of them single pieces, or all of them groups. */
  readonly bundles: readonly Bundle[]
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

/**
 * Cost of one stick: its price, or its length where nothing is priced; on the rack 0 unless it has a price. Of a half that
 * of both, which are paid together.
 */
export function priceOf(stock: readonly StockLength[], at: number): number {
  const { length, price, rack, halfOf } = stock[at]!
  return price ?? (rack === undefined && !isPriced(stock) ? (halfOf ?? length) : 0)
}

/** Units of the search per cent or per step of length: two where there are halves, so that half a price is whole. */
export const unitsPer = (stock: readonly StockLength[]): 1 | 2 =>
  stock.some(({ halfOf }) => halfOf !== undefined) ? 2 : 1

/**
 * Cost of one stick per kind of stock, in whole cents or whole steps of length, or halves of these where there are half
 * sticks: the unit in which the search counts. A half counts half of what is paid for both.
 */
export function pricingOf(stock: readonly StockLength[]): number[] {
  const priced = isPriced(stock)
  const units = unitsPer(stock)
  return stock.map((each, at) => {
    const paid = priced ? priceOf(stock, at) : stepsDown(priceOf(stock, at))
    return each.halfOf === undefined ? units * paid : paid
  })
}

/** What so many sticks of each kind cost, in the unit of `pricingOf`: of halves two are paid where one is taken. */
export const paidFor = (stock: readonly StockLength[], counts: readonly number[]): number =>
  pricingOf(stock).reduce(
    (sum, price, at) =>
      sum + price * (stock[at]!.halfOf === undefined ? counts[at]! : 2 * Math.ceil(counts[at]! / 2)),
    0,
  )

/** A rack piece is one; bought stock without a count is as much as wanted. */
export const countOf = ({ count, rack }: StockLength): number | undefined =>
  count ?? (rack === undefined ? undefined : 1)

/** Whole sizes and rooms in one unit, part by part and stock by stock. */
interface Measured {
  readonly sizes: readonly number[]
  readonly rooms: readonly number[]
}

export function modelOf(problem: NestProblem): Model {
  const allSquare = problem.parts.every(({ ends }) => ends.every(isSquare))
  const measured = allSquare ? inSteps(problem) : finely(problem)
  return modelFrom(problem, measured, allSquare)
}

/**
 * The same problem with every rounding the other way, which no plan can beat, for bounds. Items and kinds are those of
 * the model; where all lengths are whole steps it is the model itself.
 */
export function boundModelOf(problem: NestProblem, model: Model): Model {
  if (!model.square || inWholeSteps(problem)) return model
  const { sizes, rooms } = finely(problem)
  return {
    ...model,
    items: model.items.map((item) => ({
      ...item,
      size: Math.min(...item.bundles.map((bundle) => sizeOf(bundle, sizes))),
    })),
    kinds: model.kinds.map((kind) => ({ ...kind, room: rooms[kind.stock]! })),
  }
}

const sizeOf = ({ pieces }: Pick<Bundle, 'pieces'>, sizes: readonly number[]): number =>
  pieces.reduce((sum, { part, count }) => sum + count * sizes[part]!, 0)

export const isGroup = ({ pieces }: Pick<Bundle, 'pieces'>): boolean =>
  pieces.reduce((sum, { count }) => sum + count, 0) > 1

/** How many pieces of each part so many of each item are, all of them taken for the first of their like. */
export function perPart({ items }: Model, parts: number, counts: readonly number[]): number[] {
  const all = Array.from({ length: parts }, () => 0)
  for (const [item, count] of counts.entries())
    for (const piece of items[item]!.bundles[0]!.pieces) all[piece.part]! += piece.count * count
  return all
}

/** Every piece by itself, but for those that share a stick. */
function bundlesOf(parts: readonly NestPart[]): Bundle[] {
  const groups = groupsOf(parts)
  const grouped = new Set(groups.flat())
  const single = parts.flatMap(({ count }, part) =>
    grouped.has(part) ? [] : [{ pieces: [{ part, count: 1 }], times: count }],
  )
  // The longest first, and in one order wherever the pieces are alike: each then stands for its like in another group.
  const order = (a: number, b: number) => {
    const [one, other] = [likeness(parts[a]!), likeness(parts[b]!)]
    const byLikeness = one < other ? -1 : Number(one > other)
    return parts[b]!.mid - parts[a]!.mid || byLikeness || parts[b]!.count - parts[a]!.count || a - b
  }
  const together = groups.map((group) => ({
    pieces: group.toSorted(order).map((part) => ({ part, count: parts[part]!.count })),
    times: 1,
  }))
  return [...single, ...together]
}

/** All that a place in a row asks of a part. */
const likeness = ({ mid, ends, turns }: NestPart): string =>
  JSON.stringify([mid, ends.map(({ p, q }) => [p, q]), turns])

function modelFrom(problem: NestProblem, { sizes, rooms }: Measured, allSquare: boolean): Model {
  const { parts } = problem
  const unit = sizes.reduce(commonDivisor, 0)
  const merged = new Map<string, Bundle[]>()
  for (const bundle of bundlesOf(parts)) {
    const what = allSquare
      ? sizeOf(bundle, sizes)
      : bundle.pieces.map(({ part, count }) => `${count} × ${likeness(parts[part]!)}`).join()
    const name = `${isGroup(bundle) ? 'together' : 'single'} ${what}`
    merged.set(name, [...(merged.get(name) ?? []), bundle])
  }
  const items = [...merged.values()]
    .map(
      (bundles): Item => ({
        size: sizeOf(bundles[0]!, sizes) / unit,
        count: bundles.reduce((sum, { times }) => sum + times, 0),
        bundles,
      }),
    )
    .sort((a, b) => b.size - a.size || firstPart(a) - firstPart(b))
  const pieces = parts.reduce((sum, { count }) => sum + count, 0)
  const pricing = pricingOf(problem.stock)
  const kinds = problem.stock.map((stock, index): Kind => {
    const room = Math.floor(rooms[index]! / unit)
    const uncut = items.findIndex(
      (item) =>
        !isGroup(item.bundles[0]!) &&
        item.size > room &&
        usedUncut(stock, parts[firstPart(item)]!.mid, turnEnds(parts[firstPart(item)]!.ends, 'none')),
    )
    const count = Math.min(countOf(stock) ?? pieces, pieces)
    return { stock: index, room, price: pricing[index]!, count, ...(uncut >= 0 && { uncut }) }
  })
  return { items, kinds, square: allSquare, pieces }
}

/** The part that comes first in the problem among those that an item stands for. */
export const firstPart = ({ bundles }: Item): number =>
  Math.min(...bundles[0]!.pieces.map(({ part }) => part))

const square: Slope = { p: 0, q: 0 }

/** Square pieces in whole steps, each with one kerf. */
function inSteps(problem: NestProblem): Measured {
  const { kerf, parts, stock } = problem
  return {
    sizes: parts.map(({ mid }) => stepsUp(mid) + stepsUp(kerf)),
    rooms: stock.map(
      ({ length, ends }) =>
        stepsDown(length) +
        stepsUp(kerf) -
        stepsUp(front(problem, ends[0], square)) -
        stepsUp(tail(problem, ends[1], square)),
    ),
  }
}

/** Angled ends are no whole steps: lengths are counted finer, pieces down and sticks up, so that nothing is ruled out. */
const finePerMm = 1000 * stepsPerMm

function finely(problem: NestProblem): Measured {
  const { sizes, room } = sharesOf(problem)
  return {
    sizes: sizes.map((size) => Math.floor(size * finePerMm)),
    rooms: problem.stock.map((stock) => Math.ceil((room(stock) + stepSlack) * finePerMm)),
  }
}

function inWholeSteps(problem: NestProblem): boolean {
  const { kerf, parts, stock } = problem
  const lengths = [
    kerf,
    ...parts.map(({ mid }) => mid),
    ...stock.flatMap(({ length, ends }) => [
      length,
      front(problem, ends[0], square),
      tail(problem, ends[1], square),
    ]),
  ]
  return lengths.every((length) => Math.abs(fromSteps(stepsNearest(length)) - length) <= addedUp)
}

/** A part that names no turning lies as it is. */
export const turnsOf = <T>(turns: readonly T[]): readonly (T | 'none')[] =>
  turns.length > 0 ? turns : ['none']

/** Price of the dearest stick: worths are counted in shares of it. */
export const dearest = (pricing: readonly number[]): number => Math.max(1, ...pricing)

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
