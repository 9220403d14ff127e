import type { NestProblem } from '../core/nest.ts'
import { fits, type Lying } from './fit.ts'
import { costOf, countOf, type Fill, type Model, pricingOf } from './model.ts'
import { insert, leastRow, lyings } from './row.ts'

/** A stick of the problem's stock with its pieces from the leading end on. */
export interface Row {
  readonly stock: number
  readonly pieces: readonly Lying[]
}

type Ways = readonly (readonly Lying[])[]

/**
 * Rows for pieces with angled ends. `fills` say which pieces might share a stick, by a measure that no order of them
 * undercuts; here each stick is put in its best order and measured by that, and what then finds no room is placed anew.
 * The better of that and of plain first fit, longest pieces first.
 */
export function rowsOf(problem: NestProblem, model: Model, fills: readonly Fill[]): Row[] {
  const ways = lyings(problem)
  const plain = placed(
    problem,
    ways,
    [],
    problem.parts.map(({ count }) => count),
  )
  const led = fromFills(problem, model, ways, fills)
  const pricing = model.kinds.map(({ price }) => price)
  const score = (rows: readonly Row[]) => [
    -rows.reduce((sum, { pieces }) => sum + pieces.length, 0),
    costOf(
      rows.map(({ stock }) => ({ kind: stock, counts: [], times: 1 })),
      pricing,
    ),
    rows.length,
  ]
  const [a, b] = [score(led), score(plain)]
  const at = a.findIndex((value, index) => value !== b[index])
  return at >= 0 && b[at]! < a[at]! ? plain : led
}

function fromFills(problem: NestProblem, model: Model, ways: Ways, fills: readonly Fill[]): Row[] {
  const rows: Row[] = []
  const left = problem.parts.map(({ count }) => count)
  for (const { kind, counts, times } of fills) {
    const { stock } = model.kinds[kind]!
    const perPart = problem.parts.map(() => 0)
    // Items of angled problems are parts; items of one size share a fill of square ones only.
    for (const [item, count] of counts.entries()) perPart[model.items[item]!.parts[0]!] = count
    const row = shortened(problem, ways, stock, perPart)
    for (let time = 0; time < times && row.length > 0; time += 1) rows.push({ stock, pieces: row })
    for (const { part } of row) left[part]! -= times
  }
  return placed(problem, ways, rows, left)
}

/** The best row of these pieces, without the shortest ones that are too many for the stick. */
function shortened(problem: NestProblem, ways: Ways, stock: number, counts: readonly number[]): Lying[] {
  let wanted = counts
  for (;;) {
    const row = leastRow(problem, ways, problem.stock[stock]!, wanted)
    if (row.length === 0 || fits(problem, problem.stock[stock]!, row)) return row
    const short = row.reduce((least, piece) => (piece.mid < least.mid ? piece : least))
    wanted = wanted.with(short.part, wanted[short.part]! - 1)
  }
}

/** First fit, longest first, into the rows that are there and into new sticks; what fits nowhere is left out. */
function placed(problem: NestProblem, ways: Ways, rows: readonly Row[], demand: readonly number[]): Row[] {
  const result: Row[] = [...rows]
  const left = problem.stock.map((stock) => countOf(stock) ?? Number.POSITIVE_INFINITY)
  for (const { stock } of rows) left[stock]! -= 1
  const order = [...demand.keys()].sort((a, b) => problem.parts[b]!.mid - problem.parts[a]!.mid || a - b)
  for (const part of order)
    for (let piece = 0; piece < demand[part]!; piece += 1)
      if (!addTo(problem, ways, result, part) && !open(problem, ways, result, left, part)) break
  return result.map(({ stock, pieces }) => cheapest(problem, left, stock, pieces))
}

function addTo(problem: NestProblem, ways: Ways, rows: Row[], part: number): boolean {
  const { mid } = ways[part]![0]!
  for (const [at, { stock, pieces }] of rows.entries()) {
    // Steel alone is too much already, whatever the order: no need to try.
    const steel = pieces.reduce((sum, piece) => sum + piece.mid, mid)
    if (steel > problem.stock[stock]!.length) continue
    const longer = insert(problem, problem.stock[stock]!, pieces, ways[part]!)
    if (!fits(problem, problem.stock[stock]!, longer)) continue
    rows[at] = { stock, pieces: longer }
    return true
  }
  return false
}

/** Opens the stick with the lowest price for its length among those that hold the part. */
function open(problem: NestProblem, ways: Ways, rows: Row[], left: number[], part: number): boolean {
  const pricing = pricingOf(problem.stock)
  const perLength = (stock: number) => pricing[stock]! / problem.stock[stock]!.length
  const kinds = [...left.keys()]
    .filter((stock) => left[stock]! > 0)
    .sort(
      (a, b) => perLength(a) - perLength(b) || problem.stock[b]!.length - problem.stock[a]!.length || a - b,
    )
  for (const stock of kinds) {
    const pieces = ways[part]!.find((lying) => fits(problem, problem.stock[stock]!, [lying]))
    if (!pieces) continue
    left[stock]! -= 1
    rows.push({ stock, pieces: [pieces] })
    return true
  }
  return false
}

/** The same row on the cheapest stick that holds it and is still there. */
function cheapest(problem: NestProblem, left: number[], stock: number, pieces: readonly Lying[]): Row {
  const pricing = pricingOf(problem.stock)
  let best = stock
  for (const other of left.keys())
    if (left[other]! > 0 && pricing[other]! < pricing[best]! && fits(problem, problem.stock[other]!, pieces))
      best = other
  if (best !== stock) {
    left[best]! -= 1
    left[stock]! += 1
  }
  return { stock: best, pieces }
}
