import { wholeSlack } from '../core/tolerance.ts'
import { gather, greedyFills } from './first-fit.ts'
import { commonDivisor, dearest, type Fill } from './model.ts'
import type { Pattern, Relaxation, Relaxed, Task, WorthTelling } from './relax.ts'
import type { Work } from './work.ts'

/** How a dive goes. */
export interface Manner {
  /** At the first decision the pattern of this rank is taken: 0 is the one used most. */
  readonly rank: number
  /** Patterns that are tried for one decision before it counts as lost. */
  readonly choices: number
  /** Sticks of whole amounts that are not settled at once: without them the rest may be too little to choose from. */
  readonly loose: number
  /** Dead ends after which the dive is given up. */
  readonly deadEnds: number
}

/** A pattern used at least so often goes onto a stick in the same decision as the one used most. */
const nearlyWhole = 0.7

interface Taken {
  readonly kind: number
  readonly counts: readonly number[]
}

/**
 * From the relaxed answer down to whole sticks: whole amounts are taken, then the patterns that are used most, and the
 * rest is relaxed again with fresh patterns. Where the rest then costs too much, the next pattern is tried instead.
 * `relaxation` is used up. Undefined when nothing that costs less than `below` (in the unit of the pricing) was found
 * before the dead ends were too many or the work was over.
 */
export function dive(
  { model, pricing }: Task,
  relaxation: Relaxation,
  start: Relaxed,
  below: number,
  { rank, choices, loose, deadEnds }: Manner,
  work: Work,
): Fill[] | undefined {
  const unit = pricing.reduce(commonDivisor, 0)
  const scale = dearest(pricing)
  const most = below - unit * (1 - wholeSlack)
  /** All that counts is whether the rest of a dive, `spent` being settled, can still stay below. */
  const within =
    (spent: number): WorthTelling =>
    (bound, cost) =>
      spent + bound <= most && spent + cost > most
  let lost = 0

  function settle(
    rest: Relaxation,
    relaxed: Relaxed,
    spent: number,
    above: readonly Taken[],
    first: boolean,
  ): Fill[] | undefined {
    const { demand } = rest
    const here: Taken[] = [...above]
    let cost = spent
    const take = (from: Relaxation, into: Taken[], pattern: Pattern, part: boolean): boolean => {
      const counts = onRest(pattern, from, part)
      if (!counts) return false
      into.push({ kind: pattern.kind, counts })
      from.take(pattern.kind, counts)
      return true
    }
    const ranked = relaxed.used.toSorted((a, b) => b.amount - a.amount)
    let kept = first ? loose : 0
    for (const { pattern, amount } of ranked.toReversed()) {
      let times = Math.floor(amount + wholeSlack)
      if (kept > 0 && times > 0) {
        times -= 1
        kept -= 1
      }
      for (; times > 0; times -= 1) if (take(rest, here, pattern, true)) cost += pricing[pattern.kind]!
    }
    if (demand.every((count) => count === 0)) return gather(here)
    const quick = greedyFills(model, demand, rest.most, pricing)
    const total = cost + quick.reduce((sum, { kind, times }) => sum + pricing[kind]! * times, 0)
    const placed = demand.every((count, item) => sumOf(quick, item) === count)
    if (placed && total < below) return [...gather(here), ...quick]

    const open = ranked.filter(({ amount }) => amount < 1 - wholeSlack)
    if (open.length === 0) {
      const again = rest.solve(work, within(cost), false)
      if (!again || again.missing > wholeSlack || here.length === above.length) return undefined
      return settle(rest, again, cost, here, false)
    }
    const from = first ? Math.min(rank, open.length - 1) : 0
    for (const [at, { pattern }] of open.slice(from, from + choices).entries()) {
      const next = rest.fork()
      const taken = [...here]
      if (!take(next, taken, pattern, true)) continue
      if (at === 0)
        for (const other of open)
          if (other.amount >= nearlyWhole && other.pattern !== pattern)
            take(next, taken, other.pattern, false)
      const more = taken.slice(here.length).reduce((sum, { kind }) => sum + pricing[kind]!, cost)
      if (next.demand.every((count) => count === 0)) return more < below ? gather(taken) : undefined
      const again = next.solve(work, within(more), false)
      if (!again) return undefined
      if (again.missing > wholeSlack || more + again.cost * scale > most) {
        lost += 1
        if (lost >= deadEnds) return undefined
        continue
      }
      const found = settle(next, again, more, taken, false)
      if (found || work.over || lost >= deadEnds) return found
    }
    return undefined
  }

  return start.cost * scale > most ? undefined : settle(relaxation, start, 0, [], true)
}

/** The pieces of a pattern that the rest still wants: all of them, or with `part` those that are left. */
function onRest({ kind, items, counts }: Pattern, rest: Relaxation, part: boolean): number[] | undefined {
  const { demand, most } = rest
  const here = demand.map(() => 0)
  for (const [at, item] of items.entries()) {
    if (!part && counts[at]! > demand[item]!) return undefined
    here[item] = Math.min(counts[at]!, demand[item]!)
  }
  // A stick that must be used though nothing is on it is not taken.
  return here.every((count) => count === 0) || most[kind]! < 1 ? undefined : here
}

const sumOf = (fills: readonly Fill[], item: number): number =>
  fills.reduce((sum, { counts, times }) => sum + counts[item]! * times, 0)
