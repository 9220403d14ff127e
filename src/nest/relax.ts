import { dualSlack } from '../core/tolerance.ts'
import { bestFill } from './fill.ts'
import type { Model } from './model.ts'
import { type Column, openSimplex, type Row } from './simplex.ts'
import { spend, type Work } from './work.ts'

// The problem with fractions of sticks allowed, solved by column generation: prices per piece, and which fills of a
// stick, in which amounts, cost least. Its cost is the bound, its prices are the proof, its amounts lead the search.

/** How many sticks of each kind may be used. */
export interface Box {
  readonly least: readonly number[]
  readonly most: readonly number[]
}

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

export const dearest = (pricing: readonly number[]): number => Math.max(1, ...pricing)

export const wholeBox = ({ kinds }: Model): Box => ({
  least: kinds.map(() => 0),
  most: kinds.map(({ count }) => count),
})

export function addPattern(pool: Pool, kind: number, counts: readonly number[]): Pattern {
  const items = [...counts.keys()].filter((item) => counts[item]! > 0)
  const pattern = { kind, items, counts: items.map((item) => counts[item]!) }
  const name = `${kind}:${items.map((item) => `${item}x${counts[item]}`).join()}`
  const known = pool.get(name)
  if (known) return known
  pool.set(name, pattern)
  return pattern
}

/** The most valuable fill of a stick of this kind that is worth more than `above`, with the one uncut piece in mind. */
export function bestPattern(
  { model, demand }: Pick<Task, 'model' | 'demand'>,
  kind: number,
  worth: readonly number[],
  above: number,
  work: Work,
): { readonly value: number; readonly counts: readonly number[] } | undefined {
  const { room, uncut } = model.kinds[kind]!
  const things = model.items.map(({ size }, item) => ({ size, value: worth[item]!, count: demand[item]! }))
  const filled = bestFill(things, room, above, work)
  if (uncut === undefined || demand[uncut]! === 0) return filled
  const alone = worth[uncut]!
  if (alone <= Math.max(above, filled?.value ?? 0)) return filled
  return { value: alone, counts: model.items.map((_, item) => (item === uncut ? 1 : 0)) }
}

/** Known patterns to begin with, per row of the linear program: more of them cost more time than they save. */
const patternsPerRow = 4

/** The known patterns that promise most, without the pieces that are more than are left. */
function startPatterns({ model, pricing, demand, box, hint }: Task, pool: Pool, rows: number): Pool {
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
  const none = demand.map(() => 0)
  // A stick that must be used may stay empty.
  for (const kind of model.kinds.keys()) if (box.least[kind]! > 0) addPattern(start, kind, none)
  return start
}

/** Solves the relaxed task; new patterns go into the pool. Undefined when the work was over first. */
export function relax(task: Task, pool: Pool, work: Work): Relaxed | undefined {
  const { model, pricing, demand, box } = task
  const scale = dearest(pricing)
  const pieces = demand.reduce((sum, count) => sum + count, 0)
  // Dearer than any nest of all the rest: no piece is left out to save steel.
  const missing = pieces + 1
  const rows: Row[] = []
  const rowOfItem = demand.map((count) =>
    count > 0 ? rows.push({ sense: 'at least', amount: count, missing }) - 1 : -1,
  )
  const mostRow = box.most.map((most) =>
    most < pieces ? rows.push({ sense: 'at most', amount: most, missing: 0 }) - 1 : -1,
  )
  const leastRow = box.least.map((least) =>
    least > 0 ? rows.push({ sense: 'at least', amount: least, missing }) - 1 : -1,
  )
  const simplex = openSimplex(rows)
  const patterns: Pattern[] = []
  const add = (pattern: Pattern) => {
    const { kind, items, counts } = pattern
    const own = [mostRow[kind]!, leastRow[kind]!].filter((row) => row >= 0)
    const column: Column = {
      cost: pricing[kind]! / scale,
      rows: [...items.map((item) => rowOfItem[item]!), ...own],
      values: [...counts, ...own.map(() => 1)],
    }
    patterns.push(pattern)
    simplex.add(column)
  }
  const known = startPatterns(task, pool, rows.length)
  for (const pattern of known.values()) add(pattern)

  for (;;) {
    if (!simplex.solve(work)) return undefined
    const duals = simplex.duals()
    const worth = rowOfItem.map((row) => (row < 0 ? 0 : Math.max(0, duals[row]!)))
    const kindWorth = model.kinds.map(
      (_, kind) =>
        (mostRow[kind]! < 0 ? 0 : Math.min(0, duals[mostRow[kind]!]!)) +
        (leastRow[kind]! < 0 ? 0 : Math.max(0, duals[leastRow[kind]!]!)),
    )
    let found = false
    for (const kind of model.kinds.keys()) {
      if (box.most[kind] === 0) continue
      const limit = pricing[kind]! / scale - kindWorth[kind]!
      const better = bestPattern(task, kind, worth, limit + dualSlack, work)
      if (!better) continue
      const before = known.size
      const pattern = addPattern(known, kind, better.counts)
      // Rounding alone made it look better than it is.
      if (known.size === before) continue
      addPattern(pool, kind, better.counts)
      add(pattern)
      found = true
    }
    if (!spend(work, 1)) return undefined
    if (found) continue
    const used = simplex.used().map(([column, amount]) => ({ pattern: patterns[column]!, amount }))
    return {
      cost: used.reduce((sum, { pattern, amount }) => sum + (pricing[pattern.kind]! / scale) * amount, 0),
      worth,
      kindWorth,
      used,
      missing: simplex.missing(),
    }
  }
}
