import { wholeSlack } from '../core/tolerance.ts'
import { ranked } from './fill-deep.ts'
import { gather } from './first-fit.ts'
import { commonDivisor, dearest, type Fill } from './model.ts'
import type { Pattern, Pool, Relaxed, Task } from './relax.ts'
import { spend, type Work } from './work.ts'

// Whole sticks by a solver for whole numbers, given every pattern that a better nest could use: one whose pieces are
// worth at least what its stick costs, less the gap between the bound and the best nest.

/** Solves a program in the LP text format: amounts by name, or undefined where it found none within its limits. */
export type WholeSolver = (program: string) => Readonly<Record<string, number>> | undefined

/** A search that may ask once for a solver: it goes on with it, or without where there is none. */
export type Asking<T> = Generator<undefined, T, WholeSolver | undefined>

/** Goes through to the end with the solver that there is. */
export function answered<T>(search: Asking<T>, solver?: WholeSolver): T {
  for (let step = search.next(); ; step = search.next(solver)) if (step.done) return step.value
}

/** Patterns given to the solver: more take it long, and mostly the best of them do. */
const mostPatterns = 12_000

/** Of the gap, at the least, that patterns are listed within. */
const leastShare = 1e-4

/** Patterns met on the way that are given to the solver. */
const mostMet = 3000

/** Looks while patterns are listed. */
const mostLooks = 2_000_000

/** A nest of the task that costs less than `below`; undefined where the solver finds none among the patterns it is given. */
export function wholeNest(
  task: Task,
  relaxed: Relaxed,
  below: number,
  solver: WholeSolver,
  work: Work,
  pool: Pool,
): Fill[] | undefined {
  const { model, pricing, demand, box } = task
  const unit = pricing.reduce(commonDivisor, 0)
  const scale = dearest(pricing)
  const gap = Math.max(0, (below - unit) / scale - relaxed.cost)
  const waste = wasteBelow(task, below)
  let patterns: readonly Pattern[] | undefined
  // Where there are too many, those that waste least; where even these are, those that were met on the way.
  if (listed(task, relaxed, gap * leastShare, waste, work))
    for (let share = 1; !patterns && share > leastShare; share /= 2)
      patterns = listed(task, relaxed, gap * share, waste, work)
  const every = patterns !== undefined
  patterns ??= met(task, relaxed, gap, pool)
  if (work.over) return undefined

  // Where nothing may be wasted no piece can be too many: saying so makes it far easier.
  const exact = every && waste === 0
  const known = exact ? patterns : [...patterns, ...relaxed.used.map(({ pattern }) => pattern)]
  const rows: string[] = []
  const sum = (of: (pattern: Pattern) => number) =>
    known.flatMap((pattern, at) => (of(pattern) === 0 ? [] : [`${of(pattern)} x${at}`])).join('\n + ')
  for (const [item, count] of demand.entries())
    if (count > 0)
      rows.push(
        `i${item}: ${sum(({ items, counts }) => counts[items.indexOf(item)] ?? 0)} ${exact ? '=' : '>='} ${count}`,
      )
  for (const kind of model.kinds.keys()) {
    const sticks = sum((pattern) => (pattern.kind === kind ? 1 : 0))
    if (sticks === '') continue
    rows.push(`m${kind}: ${sticks} <= ${box.most[kind]}`)
    if (box.least[kind]! > 0) rows.push(`l${kind}: ${sticks} >= ${box.least[kind]}`)
  }
  const cost = sum(({ kind }) => pricing[kind]! / unit)
  const most = below / unit - 1
  if (cost !== '' && !exact) rows.push(`cost: ${cost} <= ${most}`)
  // Nothing is cheaper than the bound: where that is the aim, any answer will do.
  const reached = exact || (relaxed.cost * scale) / unit > most - 1 + wholeSlack
  const names = known.map((_, at) => `x${at}`).join('\n')
  const program = `Minimize\n obj: ${reached || cost === '' ? '0 x0' : cost}\nSubject To\n ${rows.join('\n ')}\nGeneral\n${names}\nEnd\n`
  const amounts = solver(program)
  return amounts && trimmed(task, known, amounts)
}

/** The patterns of the pool that a nest within the gap could use, the best first. */
function met(
  { pricing, demand, box }: Task,
  { worth, kindWorth }: Relaxed,
  gap: number,
  pool: Pool,
): Pattern[] {
  const scale = dearest(pricing)
  return [...pool.values()]
    .filter(({ kind, items }) => box.most[kind]! > 0 && items.some((item) => demand[item]! > 0))
    .map((pattern) => {
      const { kind, items, counts } = pattern
      const price = pricing[kind]! / scale - kindWorth[kind]!
      return { pattern, over: items.reduce((sum, item, at) => sum - worth[item]! * counts[at]!, price) }
    })
    .filter(({ over }) => over <= gap + wholeSlack)
    .sort((a, b) => a.over - b.over)
    .slice(0, mostMet)
    .map(({ pattern }) => pattern)
}

/** What one stick of a nest that costs less than `below` may leave at most: the rest of all the others may be 0. */
export function wasteBelow(
  { model: { kinds, items }, pricing, demand }: Pick<Task, 'model' | 'pricing' | 'demand'>,
  below: number,
): number {
  const [only] = kinds
  if (!only || kinds.length > 1 || only.uncut !== undefined || pricing[0] === 0)
    return Number.POSITIVE_INFINITY
  const sticks = Math.ceil(below / pricing[0]!) - 1
  return sticks * only.room - items.reduce((sum, { size }, item) => sum + size * demand[item]!, 0)
}

/** Patterns within the gap, none of which could take one more piece; undefined where they are too many. */
function listed(
  { model, pricing, demand, box }: Task,
  relaxed: Relaxed,
  gap: number,
  waste: number,
  work: Work,
): Pattern[] | undefined {
  const { worth, kindWorth } = relaxed
  const things = model.items.map(({ size }, item) => ({
    size,
    value: Math.max(worth[item]!, 0),
    count: demand[item]!,
  }))
  const { order, ratios, least } = ranked(things)
  const worthless = [...things.keys()].filter((item) => things[item]!.value === 0 && demand[item]! > 0)
  const patterns: Pattern[] = []
  let looks = 0

  function list(kind: number): boolean {
    const { room } = model.kinds[kind]!
    const needed = pricing[kind]! / dearest(pricing) - kindWorth[kind]! - gap - wholeSlack
    const counts = new Int32Array(things.length)
    const put = (left: number): boolean => {
      for (const item of order)
        if (counts[item]! < things[item]!.count && things[item]!.size <= left) return true
      if (left > waste) return true
      const items = order.filter((item) => counts[item]! > 0)
      let rest = left
      const filler: number[] = []
      // What is worth nothing may ride along.
      for (const item of worthless) {
        const fit = Math.min(demand[item]!, Math.floor(rest / things[item]!.size))
        if (fit === 0) continue
        filler.push(item)
        counts[item] = fit
        rest -= fit * things[item]!.size
      }
      const all = [...items, ...filler]
      if (all.length > 0) patterns.push({ kind, items: all, counts: all.map((item) => counts[item]!) })
      for (const item of filler) counts[item] = 0
      return patterns.length <= mostPatterns
    }
    const go = (place: number, left: number, value: number): boolean => {
      looks += 1
      if (looks > mostLooks || (value >= needed && !put(left))) return false
      for (let at = place; at < order.length; at += 1) {
        if (left < least[at]! || value + left * ratios[at]! < needed) return true
        const item = order[at]!
        const { size, value: each, count } = things[item]!
        for (let copies = Math.min(count, Math.floor(left / size)); copies > 0; copies -= 1) {
          counts[item] = copies
          if (!go(at + 1, left - copies * size, value + copies * each)) return false
        }
        counts[item] = 0
      }
      return true
    }
    return go(0, room, 0)
  }

  const whole = [...model.kinds.keys()].every((kind) => box.most[kind]! < 1 || list(kind))
  spend(work, looks)
  return whole ? patterns : undefined
}

/** The sticks of an answer, without the pieces that are more than wanted. */
function trimmed(
  { demand }: Task,
  patterns: readonly Pattern[],
  amounts: Readonly<Record<string, number>>,
): Fill[] | undefined {
  const left = [...demand]
  const sticks: { kind: number; counts: readonly number[] }[] = []
  for (const [at, { kind, items, counts }] of patterns.entries())
    for (let times = Math.round(amounts[`x${at}`] ?? 0); times > 0; times -= 1) {
      const here = demand.map(() => 0)
      for (const [place, item] of items.entries()) {
        here[item] = Math.min(counts[place]!, left[item]!)
        left[item]! -= here[item]!
      }
      if (here.some((count) => count > 0)) sticks.push({ kind, counts: here })
    }
  return left.every((count) => count === 0) ? gather(sticks) : undefined
}
