import { dualSlack, wholeSlack } from '../core/tolerance.ts'
import type { Row } from './basis.ts'
import { openPatterns } from './best-pattern.ts'
import type { Box } from './counts.ts'
import { between, evenPrices, type Prices } from './even-prices.ts'
import { commonDivisor, dearest, type Model } from './model.ts'
import { openSimplex, type Simplex } from './simplex.ts'
import { spend, type Work } from './work.ts'

// The problem with fractions of sticks allowed, solved by column generation: prices per piece, and which fills of a
// stick, in which amounts, cost least. Its cost is the bound, its prices are the proof, its amounts lead the search.

/** A way to fill one stick, only the items that are on it. */
export interface Pattern {
  readonly kind: number
  readonly items: readonly number[]
  readonly counts: readonly number[]
}

/** Patterns met so far, each once, in the order of meeting. */
export type Pool = Map<string, Pattern>

export interface Relaxed {
  /** In shares of the dearest stick. */
  readonly cost: number
  /** Worth of one piece per item, and of one more stick per kind; shares of the dearest stick. */
  readonly worth: readonly number[]
  readonly kindWorth: readonly number[]
  /** What the pieces of one stick of each kind are worth at the most; infinite where that was not looked for. */
  readonly richest: readonly number[]
  readonly used: readonly { readonly pattern: Pattern; readonly amount: number }[]
  /** Pieces that no sticks, not even fractions, can hold. */
  readonly missing: number
}

/** What is to be cut and with what: the whole problem, or what a dive has left of it. */
export interface Task {
  readonly model: Model
  /** Whole cost per kind. */
  readonly pricing: readonly number[]
  /** Pieces per item still to be placed. */
  readonly demand: readonly number[]
  readonly box: Box
  /** Worth of the items in a task close to this one: says which known patterns may help. */
  readonly hint?: readonly number[]
}

export const wholeBox = ({ kinds }: Model): Box => ({
  least: kinds.map(() => 0),
  most: kinds.map(({ count }) => count),
})

const nameOf = ({ kind, items, counts }: Pattern): string => `${kind}:${items.join()}x${counts.join()}`

export function addPattern(pool: Pool, kind: number, counts: readonly number[]): Pattern {
  const items = [...counts.keys()].filter((item) => counts[item]! > 0)
  const pattern = { kind, items, counts: items.map((item) => counts[item]!) }
  const name = nameOf(pattern)
  const known = pool.get(name)
  if (known) return known
  pool.set(name, pattern)
  return pattern
}

/** Known patterns to begin with, per row of the linear program: more of them cost more time than they save. */
const patternsPerRow = 4

/** The known patterns that promise most, without the pieces that are more than are left. */
function startPatterns({ pricing, demand, box, hint }: Task, pool: Pool, rows: number): Pool {
  const scale = dearest(pricing)
  const promise = ({ kind, items, counts }: Pattern): number => {
    let sum = -pricing[kind]! / scale
    for (let at = 0; at < items.length; at += 1)
      sum += hint ? hint[items[at]!]! * Math.min(counts[at]!, demand[items[at]!]!) : 0
    return sum
  }
  const chosen = [...pool.values()]
    .filter(({ kind }) => box.most[kind]! > 0)
    .map((pattern) => ({ pattern, promises: promise(pattern) }))
    .sort((a, b) => b.promises - a.promises)
    .slice(0, patternsPerRow * rows)
  const start: Pool = new Map()
  for (const { pattern } of chosen) {
    const { kind, items, counts } = pattern
    const full = demand.map(() => 0)
    for (const [at, item] of items.entries()) full[item] = Math.min(counts[at]!, demand[item]!)
    if (full.some((count) => count > 0)) addPattern(start, kind, full)
  }
  return start
}

/** Looks at the same prices: each at the pieces that the best pattern of the one before left. */
const looks = 2

/** Whether a bound that lies between these two could still tell more, in the unit of the pricing. */
export type WorthTelling = (bound: number, most: number) => boolean

/** A relaxed task that goes on from where it stands when sticks are taken out of it. */
export interface Relaxation {
  /** Pieces per item still to be placed, sticks per kind still there. */
  readonly demand: readonly number[]
  readonly most: readonly number[]
  /**
   * Least cost with fractions of sticks. Ends early where the bound can no longer tell more. Undefined when the work was
   * over first. Where it need not be sure, patterns that are far to seek are not sought: for a dive that is enough.
   */
  solve(work: Work, worthTelling?: WorthTelling, sure?: boolean): Relaxed | undefined
  /**
   * So many sticks of each kind from now on, where several kinds are paid for; of other kinds a limit stays as it was
   * opened.
   */
  move(box: Box): void
  /** One stick of this kind with these pieces (how many of each item) is settled. */
  take(kind: number, counts: readonly number[]): void
  fork(): Relaxation
}

/** Opens the relaxed task; new patterns go into the pool. */
export function openRelaxation(task: Task, pool: Pool): Relaxation {
  const { model, demand, box } = task
  const pieces = demand.reduce((sum, count) => sum + count, 0)
  // Dearer than any nest of all the rest: no piece is left out to save steel.
  const missing = pieces + 1
  const rows: Row[] = []
  const rowOfItem = demand.map((count) =>
    count > 0 ? rows.push({ sense: 'at least', amount: count, missing }) - 1 : -1,
  )
  // Where several kinds are paid for, how many of each is what the search will cut in two.
  const paid = (kind: number): boolean => model.kinds.length > 1 && task.pricing[kind]! > 0
  const mostRow = box.most.map((most, kind) =>
    most < pieces || paid(kind) ? rows.push({ sense: 'at most', amount: most, missing: 0 }) - 1 : -1,
  )
  const leastRow = box.least.map((least, kind) =>
    least > 0 || paid(kind) ? rows.push({ sense: 'at least', amount: least, missing }) - 1 : -1,
  )
  const table: Table = { task, pool, rowOfItem, mostRow, leastRow, pieces }
  const simplex = openSimplex(rows)
  const relaxation = relaxationOf(table, simplex, {
    fresh: true,
    known: new Set(),
    patterns: [],
    demand: [...demand],
    least: [...box.least],
    most: [...box.most],
  })
  for (const pattern of startPatterns(task, pool, rows.length).values()) relaxation.know(pattern)
  // A stick that must be used may stay empty.
  for (const kind of model.kinds.keys())
    if (leastRow[kind]! >= 0) relaxation.know({ kind, items: [], counts: [] })
  return relaxation
}

/** Share of the best prices in those that patterns are looked for with. */
const mostHeld = 0.8

/** Which row of the linear program stands for what. */
interface Table {
  readonly task: Task
  readonly pool: Pool
  readonly rowOfItem: readonly number[]
  readonly mostRow: readonly number[]
  readonly leastRow: readonly number[]
  /** A limit of so many sticks is none. */
  readonly pieces: number
}

/** What a stick of each kind holds at the most of certain worths. */
interface Richest {
  readonly richest: readonly number[]
}

/** What changes. */
interface Standing {
  /** Not solved yet, and opened by itself. */
  fresh: boolean
  /** The best prices of the last time, with what a stick of each kind holds of them at the most. */
  held?: Prices & Richest
  readonly known: Set<string>
  /** In the order of the simplex's columns. */
  readonly patterns: Pattern[]
  readonly demand: number[]
  readonly least: number[]
  readonly most: number[]
}

function relaxationOf(
  table: Table,
  simplex: Simplex,
  standing: Standing,
): Relaxation & { know(pattern: Pattern): boolean } {
  const { task, pool, rowOfItem, mostRow, leastRow, pieces } = table
  const { model, pricing } = task
  const { known, patterns, demand, least, most } = standing
  const scale = dearest(pricing)
  const unit = pricing.reduce(commonDivisor, 0)

  function know(pattern: Pattern): boolean {
    const name = nameOf(pattern)
    if (known.has(name)) return false
    known.add(name)
    patterns.push(pattern)
    const { kind, items, counts } = pattern
    const own = [mostRow[kind]!, leastRow[kind]!].filter((row) => row >= 0)
    simplex.add({
      cost: pricing[kind]! / scale,
      rows: [...items.map((item) => rowOfItem[item]!), ...own],
      values: [...counts, ...own.map(() => 1)],
    })
    return true
  }

  /** Patterns worth more than their stick, and the most that a stick of each kind can be filled with. */
  function look(worth: readonly number[], kindWorth: readonly number[], sure: boolean, work: Work) {
    let found = false
    // What is not looked at could be worth anything.
    const richest = model.kinds.map((_, kind) =>
      standing.most[kind]! > 0 ? pricing[kind]! / scale - kindWorth[kind]! : Number.POSITIVE_INFINITY,
    )
    let left: readonly number[] = demand
    for (let time = 0; time < looks; time += 1) {
      const best = openPatterns(task, left, worth, work, sure && time === 0 ? 'any' : 'quick')
      let most = dualSlack
      let next: readonly number[] | undefined
      for (const kind of model.kinds.keys()) {
        if (standing.most[kind]! <= 0) continue
        const limit = pricing[kind]! / scale - kindWorth[kind]!
        const better = best(kind, limit + dualSlack)
        if (!better) continue
        if (time === 0) richest[kind] = better.sure === false ? Number.POSITIVE_INFINITY : better.value
        // Known already: rounding alone made it look better than it is.
        if (!know(addPattern(pool, kind, better.counts))) continue
        found = true
        if (better.value - limit <= most) continue
        most = better.value - limit
        next = better.counts
      }
      if (!next) break
      const taken = next
      left = left.map((count, item) => count - taken[item]!)
    }
    return { found, richest }
  }

  /**
   * No nest costs less, in shares of the dearest stick. A stick of a limited kind may be worth more than its price, at
   * the cost of the limit; else all worths shrink until none is.
   */
  function boundBy(worth: readonly number[], richest: readonly number[]): number {
    if (richest.some((value, kind) => most[kind]! > 0 && value === Number.POSITIVE_INFINITY)) return 0
    const prices = model.kinds.map((_, kind) => pricing[kind]! / scale)
    let shrink = 1
    for (const [kind, price] of prices.entries())
      if (most[kind]! > 0 && most[kind]! >= pieces && richest[kind]! > price)
        shrink = Math.min(shrink, price / richest[kind]!)
    let bound = worth.reduce((sum, value, item) => sum + value * shrink * demand[item]!, 0)
    for (const [kind, price] of prices.entries()) {
      const over = richest[kind]! * shrink - price
      if (most[kind]! > 0) bound -= over > 0 ? over * most[kind]! : over * least[kind]!
    }
    return bound
  }

  const byUnit: WorthTelling = (bound, most) =>
    Math.ceil(bound / unit - wholeSlack) < Math.ceil(most / unit - wholeSlack)

  function solve(work: Work, worthTelling = byUnit, sure = true): Relaxed | undefined {
    // Prices of a program with few columns swing wildly: held near the best ones known they settle far sooner.
    let center: (Prices & Richest) | undefined
    if (sure && standing.fresh) center = evenPrices(task)
    else if (sure && standing.held)
      center = { ...standing.held, bound: boundBy(standing.held.worth, standing.held.richest) }
    standing.fresh = false
    let hold = center ? mostHeld : 0
    let before = Number.POSITIVE_INFINITY
    for (;;) {
      if (!simplex.solve(work)) return undefined
      const duals = simplex.duals()
      const own: Prices = {
        worth: rowOfItem.map((row) => (row < 0 ? 0 : Math.max(0, duals[row]!))),
        kindWorth: model.kinds.map(
          (_, kind) =>
            (mostRow[kind]! < 0 ? 0 : Math.min(0, duals[mostRow[kind]!]!)) +
            (leastRow[kind]! < 0 ? 0 : Math.max(0, duals[leastRow[kind]!]!)),
        ),
        bound: 0,
      }
      const { worth, kindWorth } = center && hold > 0 ? between(center, own, hold) : own
      const { found, richest } = look(worth, kindWorth, sure, work)
      if (!spend(work, 1)) return undefined
      const { missing, cost } = simplex.standing()
      const bound = boundBy(worth, richest)
      if (center && bound > center.bound) center = { worth, kindWorth, bound, richest }
      const best = center && center.bound > bound ? center : { worth, kindWorth, bound, richest }
      const told = missing <= wholeSlack && !worthTelling(best.bound * scale, cost * scale)
      if (told || (!found && hold === 0)) {
        const proving = told ? best : { ...own, richest }
        if (center) standing.held = center
        return {
          cost: found || hold > 0 ? proving.bound : cost,
          worth: proving.worth,
          kindWorth: proving.kindWorth,
          richest: proving.richest,
          used: simplex.used().map(([column, amount]) => ({ pattern: patterns[column]!, amount })),
          missing,
        }
      }
      // Held prices that change nothing are let go, and taken up again once something moves.
      const moved = cost + missing * (pieces + 1) < before - dualSlack
      before = Math.min(before, cost + missing * (pieces + 1))
      if (center) hold = moved ? mostHeld : hold > 0.2 ? hold / 2 : 0
    }
  }

  return {
    demand,
    most,
    solve,
    know,
    move(box) {
      for (const kind of model.kinds.keys()) {
        if (mostRow[kind]! >= 0) {
          most[kind] = box.most[kind]!
          simplex.setAmount(mostRow[kind]!, most[kind]!)
        }
        if (leastRow[kind]! >= 0) {
          least[kind] = box.least[kind]!
          simplex.setAmount(leastRow[kind]!, least[kind]!)
        }
      }
    },
    take(kind, counts) {
      for (const [item, count] of counts.entries()) {
        if (count === 0) continue
        demand[item]! -= count
        simplex.setAmount(rowOfItem[item]!, demand[item]!)
      }
      most[kind]! -= 1
      if (mostRow[kind]! >= 0) simplex.setAmount(mostRow[kind]!, most[kind]!)
      least[kind] = Math.max(0, least[kind]! - 1)
      if (leastRow[kind]! >= 0) simplex.setAmount(leastRow[kind]!, least[kind]!)
    },
    // Patterns are good for all forks: what one finds, the others need not look for.
    fork: () =>
      relaxationOf(table, simplex.fork(), {
        fresh: false,
        known,
        patterns,
        demand: [...demand],
        least: [...least],
        most: [...most],
      }),
  }
}

/** Solves the relaxed task from the beginning. Undefined when the work was over first. */
export const relax = (task: Task, pool: Pool, work: Work): Relaxed | undefined =>
  openRelaxation(task, pool).solve(work)
