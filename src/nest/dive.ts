import { wholeSlack } from '../core/tolerance.ts'
import { gather, greedyFills } from './first-fit.ts'
import type { Fill } from './model.ts'
import { type Box, dearest, type Pool, type Relaxed, relax, type Task } from './relax.ts'
import type { Work } from './work.ts'

/** Where a dive leaves the most promising way: at this decision the second best pattern is taken, and so on. */
export interface Turnoff {
  readonly decision: number
  readonly rank: number
}

/**
 * From the relaxed answer down to whole sticks: whole amounts are taken, then the pattern that is used most, and the
 * rest is relaxed again with fresh patterns. Undefined when it can no longer cost less than `below` (in the unit of the
 * pricing), or when the work was over first.
 */
export function dive(
  task: Task,
  start: Relaxed,
  pool: Pool,
  below: number,
  turnoff: Turnoff | undefined,
  work: Work,
): Fill[] | undefined {
  const { model, pricing } = task
  const unit = smallestStep(pricing)
  const scale = dearest(pricing)
  const taken: { kind: number; counts: readonly number[] }[] = []
  let { demand, box } = task
  let relaxed: Relaxed | undefined = start
  let spent = 0
  for (let decision = 0; ; decision += 1) {
    const rest = relaxed.cost * scale
    if (spent + rest > below - unit * (1 - wholeSlack)) return undefined
    // Sticks that the box wants though nothing is on them are not taken.
    const used: Relaxed['used'] = relaxed.used.filter(({ pattern }) => pattern.items.length > 0)
    const whole = used.filter(({ amount }) => amount >= 1 - wholeSlack)
    const before = taken.length
    const take = (kind: number, items: readonly number[], counts: readonly number[]) => {
      const here = demand.map(() => 0)
      for (const [at, item] of items.entries()) here[item] = Math.min(counts[at]!, demand[item]!)
      if (here.every((count) => count === 0) || box.most[kind]! < 1) return
      taken.push({ kind, counts: here })
      demand = demand.map((count, item) => count - here[item]!)
      box = lessOne(box, kind)
      spent += pricing[kind]!
    }
    for (const { pattern, amount } of whole)
      for (let times = Math.floor(amount + wholeSlack); times > 0; times -= 1)
        take(pattern.kind, pattern.items, pattern.counts)
    if (whole.length === 0) {
      const ranked = used.toSorted((a, b) => b.amount - a.amount)
      const rank = turnoff?.decision === decision ? turnoff.rank : 0
      const chosen = ranked[Math.min(rank, ranked.length - 1)]
      if (!chosen) return undefined
      take(chosen.pattern.kind, chosen.pattern.items, chosen.pattern.counts)
    }
    if (demand.every((count) => count === 0)) return gather(taken)
    if (taken.length === before) return undefined
    const quick = greedyFills(model, demand, box.most, pricing)
    const total = spent + quick.reduce((sum, { kind, times }) => sum + pricing[kind]! * times, 0)
    const placed = demand.every((count, item) => sumOf(quick, item) === count)
    if (placed && total < below) return [...gather(taken), ...quick]
    relaxed = relax({ model, pricing, demand, box, hint: relaxed.worth }, pool, work)
    if (!relaxed || relaxed.missing > wholeSlack) return undefined
  }
}

const sumOf = (fills: readonly Fill[], item: number): number =>
  fills.reduce((sum, { counts, times }) => sum + counts[item]! * times, 0)

const lessOne = ({ least, most }: Box, kind: number): Box => ({
  least: least.with(kind, Math.max(0, least[kind]! - 1)),
  most: most.with(kind, most[kind]! - 1),
})

const smallestStep = (pricing: readonly number[]): number => {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b))
  return pricing.reduce(divisor, 0)
}
