import type { NestProblem } from '../core/nest.ts'
import type { Mm } from '../core/units.ts'
import { fits, type Lying } from './fit.ts'
import { costOf, countOf, type Fill, firstPart, type Item, type Model, perPart, pricingOf } from './model.ts'
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
    model,
    ways,
    [],
    model.items.map(({ count }) => count),
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
  const left = model.items.map(({ count }) => count)
  for (const { kind, counts, times } of fills) {
    const { stock } = model.kinds[kind]!
    const { row, placed: here } = shortened(problem, model, ways, stock, counts)
    for (let time = 0; time < times && row.length > 0; time += 1) rows.push({ stock, pieces: row })
    for (const [item, count] of here.entries()) left[item]! -= count * times
  }
  return placed(problem, model, ways, rows, left)
}

/** Steel in one of an item, without any cut, mm. */
const steelOf = (problem: NestProblem, { bundles }: Item): Mm =>
  bundles[0]!.pieces.reduce((sum, { part, count }) => sum + count * problem.parts[part]!.mid, 0)

/** The best row of these items, without the shortest ones that are too many for the stick; how many of each are left in it. */
function shortened(
  problem: NestProblem,
  model: Model,
  ways: Ways,
  stock: number,
  counts: readonly number[],
): { readonly row: Lying[]; readonly placed: readonly number[] } {
  let placed = counts
  for (;;) {
    const row = leastRow(problem, ways, problem.stock[stock]!, perPart(model, problem.parts.length, placed))
    if (row.length === 0 || fits(problem, problem.stock[stock]!, row)) return { row, placed }
    const there = [...placed.keys()].filter((item) => placed[item]! > 0)
    const steel = (item: number) => steelOf(problem, model.items[item]!)
    const short = there.reduce((least, item) => (steel(item) < steel(least) ? item : least))
    placed = placed.with(short, placed[short]! - 1)
  }
}

/** First fit, longest first, into the rows that are there and into new sticks; what fits nowhere is left out. */
function placed(
  problem: NestProblem,
  model: Model,
  ways: Ways,
  rows: readonly Row[],
  demand: readonly number[],
): Row[] {
  const result: Row[] = [...rows]
  const left = problem.stock.map((stock) => countOf(stock) ?? Number.POSITIVE_INFINITY)
  for (const { stock } of rows) left[stock]! -= 1
  const steel = model.items.map((item) => steelOf(problem, item))
  const order = [...demand.keys()].sort(
    (a, b) => steel[b]! - steel[a]! || firstPart(model.items[a]!) - firstPart(model.items[b]!),
  )
  for (const item of order) {
    const { pieces } = model.items[item]!.bundles[0]!
    const own = pieces.flatMap(({ part, count }) => Array<number>(count).fill(part))
    for (let piece = 0; piece < demand[item]!; piece += 1)
      if (!addTo(problem, ways, result, own) && !open(problem, ways, result, left, own)) break
  }
  return result.map(({ stock, pieces }) => cheapest(problem, left, stock, pieces))
}

/** All these pieces into one of the rows, each where it costs least. */
function addTo(problem: NestProblem, ways: Ways, rows: Row[], parts: readonly number[]): boolean {
  const mid = parts.reduce((sum, part) => sum + problem.parts[part]!.mid, 0)
  for (const [at, { stock, pieces }] of rows.entries()) {
    // Steel alone is too much already, whatever the order: no need to try.
    const steel = pieces.reduce((sum, piece) => sum + piece.mid, mid)
    if (steel > problem.stock[stock]!.length) continue
    const longer = inserted(problem, ways, stock, pieces, parts)
    if (!fits(problem, problem.stock[stock]!, longer)) continue
    rows[at] = { stock, pieces: longer }
    return true
  }
  return false
}

const inserted = (
  problem: NestProblem,
  ways: Ways,
  stock: number,
  pieces: readonly Lying[],
  parts: readonly number[],
): readonly Lying[] =>
  parts.reduce((row, part) => insert(problem, problem.stock[stock]!, row, ways[part]!), pieces)

/** Opens the stick with the lowest price for its length among those that hold the pieces. */
function open(
  problem: NestProblem,
  ways: Ways,
  rows: Row[],
  left: number[],
  parts: readonly number[],
): boolean {
  const pricing = pricingOf(problem.stock)
  const perLength = (stock: number) => pricing[stock]! / problem.stock[stock]!.length
  const kinds = [...left.keys()]
    .filter((stock) => left[stock]! > 0)
    .sort(
      (a, b) => perLength(a) - perLength(b) || problem.stock[b]!.length - problem.stock[a]!.length || a - b,
    )
  for (const stock of kinds) {
    const [only] = parts
    const alone =
      parts.length === 1 && ways[only!]!.find((lying) => fits(problem, problem.stock[stock]!, [lying]))
    const pieces = alone ? [alone] : inserted(problem, ways, stock, [], parts)
    if (!alone && !fits(problem, problem.stock[stock]!, pieces)) continue
    left[stock]! -= 1
    rows.push({ stock, pieces })
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
