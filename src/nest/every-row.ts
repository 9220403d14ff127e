import type { NestProblem } from '../core/nest.ts'
import type { Row } from './angled.ts'
import { fits, type Lying } from './fit.ts'
import { countOf, type Model, perPart, pricingOf } from './model.ts'
import { leastRow, lyings } from './row.ts'
import { spend, type Work } from './work.ts'

// Few pieces with angled ends are searched through to the end: every way to part them into rows, each in its best order.

/** More pieces than this are left to the other search. */
export const fewAngled = 6

interface Plan {
  readonly cost: number
  readonly rows: readonly Row[]
}

/**
 * The rows of all pieces that cost least in the unit of `pricingOf`, and of these the fewest; undefined where no sticks
 * hold all of them, or where the work was over first (`work.over` says which). For prices that add up stick by stick.
 */
export function everyRow(problem: NestProblem, model: Model, work: Work): readonly Row[] | undefined {
  const ways = lyings(problem)
  const pricing = pricingOf(problem.stock)
  const rowsKnown = new Map<string, readonly Lying[] | undefined>()
  const plansKnown = new Map<string, Plan | undefined>()

  const rowOn = (stock: number, counts: readonly number[]): readonly Lying[] | undefined => {
    const name = `${stock}|${counts.join()}`
    if (rowsKnown.has(name)) return rowsKnown.get(name)
    const row = leastRow(problem, ways, problem.stock[stock]!, perPart(model, problem.parts.length, counts))
    const answer = fits(problem, problem.stock[stock]!, row) ? row : undefined
    rowsKnown.set(name, answer)
    return answer
  }

  const least = (left: readonly number[], there: readonly number[]): Plan | undefined => {
    const first = left.findIndex((count) => count > 0)
    if (first < 0) return { cost: 0, rows: [] }
    const name = `${left.join()}|${there.join()}`
    if (plansKnown.has(name)) return plansKnown.get(name)
    let best: Plan | undefined
    for (const taken of setsWith(first, left)) {
      const after = left.map((count, item) => count - taken[item]!)
      for (const [stock, price] of pricing.entries()) {
        if (there[stock]! < 1 || !spend(work, 100)) continue
        const row = rowOn(stock, taken)
        const rest = row && least(after, there.with(stock, there[stock]! - 1))
        if (!row || !rest) continue
        const cost = rest.cost + price
        const fewer = best === undefined || rest.rows.length + 1 < best.rows.length
        if (best && (cost > best.cost || (cost === best.cost && !fewer))) continue
        best = { cost, rows: [{ stock, pieces: row }, ...rest.rows] }
      }
    }
    plansKnown.set(name, best)
    return best
  }

  const plan = least(
    model.items.map(({ count }) => count),
    problem.stock.map((stock) => Math.min(countOf(stock) ?? model.pieces, model.pieces)),
  )
  return work.over ? undefined : plan?.rows
}

/** Every set of the items that are left that has one of this kind in it: how many of each. */
function setsWith(item: number, left: readonly number[]): readonly (readonly number[])[] {
  let sets: readonly (readonly number[])[] = [[]]
  for (const [at, count] of left.entries()) {
    const from = at === item ? 1 : 0
    const choices = Array.from({ length: count - from + 1 }, (_, more) => from + more)
    sets = sets.flatMap((set) => choices.map((many) => [...set, many]))
  }
  return sets
}
