import type { NestProblem, Slope, StockLength } from '../core/nest.ts'
import { addedUp, stepSlack } from '../core/tolerance.ts'
import { fromSteps, stepsDown, stepsNearest, stepsPerMm, stepsUp } from '../core/units.ts'
import { sharesOf } from './cut-share.ts'
import { front, isSquare, tail, turnEnds, usedUncut } from './fit.ts'
import { groupsOf } from './together.ts'

// The problem as plain cutting stock: whole sizes in whole rooms. Every piece counts with its shares of the cuts beside
// it (cut-share.ts). At square ends that is the very rule of the stick, in whole steps; at angled ends no order of
// pieces needs less, so that a bound from here holds, and a nest from here is still to be put in order (angled.ts).

/** Pieces of one size. At square ends equal sizes of several parts are one item; so are pieces that must share a stick. */
export interface Item {
  readonly size: number
  readonly count: number
  /** Parts of the problem that it stands for, in their order. */
  readonly parts: readonly number[]
  /** Pieces of each of these parts that go onto one stick together; absent: one piece of one of them. */
  readonly together?: readonly number[]
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
  return modelFrom(problem, measured, allSquare, (part) =>
    allSquare ? `${measured.sizes[part]}` : `part ${part}`,
  )
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
      size: item.together
        ? sizeOf(item.parts, item.together, sizes)
        : Math.min(...item.parts.map((part) => sizes[part]!)),
    })),
    kinds: model.kinds.map((kind) => ({ ...kind, room: rooms[kind.stock]! })),
  }
}

const sizeOf = (parts: readonly number[], counts: readonly number[], sizes: readonly number[]): number =>
  parts.reduce((sum, part, at) => sum + counts[at]! * sizes[part]!, 0)

/** How many pieces of each part so many of each item are; parts of one size that stand for each other count as the first. */
export function perPart({ items }: Model, parts: number, counts: readonly number[]): number[] {
  const all = Array.from({ length: parts }, () => 0)
  for (const [item, count] of counts.entries()) {
    const { parts: own, together = [1] } = items[item]!
    for (const [at, each] of together.entries()) all[own[at]!]! += each * count
  }
  return all
}

function modelFrom(
  problem: NestProblem,
  { sizes, rooms }: Measured,
  allSquare: boolean,
  nameOf: (part: number) => string,
): Model {
  const { parts } = problem
  const unit = sizes.reduce(commonDivisor, 0)
  const groups = groupsOf(parts)
  const merged = new Map<string, Item>()
  for (const [index, { count }] of parts.entries()) {
    if (groups.some((group) => group.includes(index))) continue
    const known = merged.get(nameOf(index))
    merged.set(nameOf(index), {
      size: sizes[index]! / unit,
      count: count + (known?.count ?? 0),
      parts: [...(known?.parts ?? []), index],
    })
  }
  const grouped = groups.map((group): Item => {
    const together = group.map((part) => parts[part]!.count)
    return { size: sizeOf(group, together, sizes) / unit, count: 1, parts: group, together }
  })
  const items = [...merged.values(), ...grouped].sort((a, b) => b.size - a.size || a.parts[0]! - b.parts[0]!)
  const pieces = parts.reduce((sum, { count }) => sum + count, 0)
  const pricing = pricingOf(problem.stock)
  const kinds = problem.stock.map((stock, index): Kind => {
    const room = Math.floor(rooms[index]! / unit)
    const uncut = items.findIndex(
      ({ size, parts: [part = 0], together }) =>
        !together && size > room && usedUncut(stock, parts[part]!.mid, turnEnds(parts[part]!.ends, 'none')),
    )
    const count = Math.min(countOf(stock) ?? pieces, pieces)
    return { stock: index, room, price: pricing[index]!, count, ...(uncut >= 0 && { uncut }) }
  })
  return { items, kinds, square: allSquare, pieces }
}

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
