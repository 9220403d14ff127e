import type { NestProblem, StockLength } from '../nest.ts'
import { sameLength } from '../tolerance.ts'
import { type Mm, stepsDown, stepsUp } from '../units.ts'
import type { Measure } from './measure.ts'
import { commonDivisor } from './stick-sums.ts'

// The most that the pieces of one stick can be worth, each piece at its dual: an exact knapsack.

/** What the search may still look at; it counts down, and at 0 the answer is "not checked". */
export interface Work {
  states: number
}

/** Above this the quotients of the bound in `search` could be off by a whole unit of worth. */
const mostWorth = 2n ** 50n

interface Item {
  readonly name: string
  readonly size: number
  readonly worth: number
  readonly count: number
}

/** Words for a set of pieces on one such stick that is worth more than the limit; undefined if there is none. */
export function worthMoreThan(
  problem: NestProblem,
  stock: number,
  duals: readonly number[],
  limit: bigint,
  measures: readonly Measure[],
  work: Work,
): string | undefined | 'not checked' {
  if (limit < 0n) return `no piece at all and is still worth more than the limit ${limit}`
  const bundles = bundlesOf(problem.parts)
  for (const [part, { mark, mid, count }] of problem.parts.entries())
    if (
      count > 0 &&
      BigInt(duals[part]!) > limit &&
      mayLieUncut(problem.stock[stock]!, mid) &&
      !bundles.some((bundle) => bundle.includes(part))
    )
      return `one ${mark} uncut, worth ${duals[part]}, more than the limit ${limit}`
  if (limit > mostWorth) return 'not checked'
  let answer: string | undefined
  for (const { sizes, rooms } of measures) {
    const items = problem.parts.flatMap(({ mark, count }, part): Item[] =>
      bundles.some((bundle) => bundle.includes(part))
        ? []
        : [{ name: mark, size: sizes[part]!, worth: duals[part]!, count }],
    )
    for (const bundle of bundles) {
      const sum = (of: readonly number[]) =>
        bundle.reduce((all, part) => all + of[part]! * problem.parts[part]!.count, 0)
      const name = bundle.map((part) => problem.parts[part]!.mark).join(' with ')
      items.push({ name, size: sum(sizes), worth: sum(duals), count: 1 })
    }
    answer = search(fitting(items, rooms[stock]!), Number(limit), work)
    if (answer === undefined) return undefined
  }
  return answer
}

/** Parts whose pieces come from one stick: there they lie all together, or none of them. One piece alone is no bundle. */
function bundlesOf(parts: NestProblem['parts']): readonly (readonly number[])[] {
  const names = new Set(parts.flatMap(({ same }) => same ?? []))
  return [...names]
    .map((name) => [...parts.keys()].filter((part) => parts[part]!.same === name && parts[part]!.count > 0))
    .filter((bundle) => bundle.reduce((sum, part) => sum + parts[part]!.count, 0) > 1)
}

/** A rack piece, both ends cut, that is one part as it lies there. */
const mayLieUncut = ({ rack, ends, length }: StockLength, mid: Mm): boolean =>
  rack !== undefined &&
  ends[0] === 'cut' &&
  ends[1] === 'cut' &&
  (stepsUp(mid) === stepsDown(length) || Math.abs(mid - length) <= sameLength)

/** What may lie on the stick, dearest for its length first, in units of the greatest common length. */
function fitting(items: readonly Item[], room: number): { readonly items: Item[]; readonly room: number } {
  const worthy = items.filter(({ worth, count, size }) => worth > 0 && count > 0 && size <= room)
  const unit = worthy.reduce((all, { size }) => commonDivisor(all, size), 0) || 1
  return {
    items: worthy
      .map((item) => ({ ...item, size: item.size / unit }))
      .sort((a, b) => b.worth / b.size - a.worth / a.size),
    room: Math.floor(room / unit),
  }
}

/**
 * Exact search by lists of (size, worth) in which no state is both larger and worth less than another. Items by worth
 * per size, so that what is still possible is bounded by the next item's ratio; a state that cannot pass the limit is
 * left. An item of count 7 goes in as lots of 1, 2 and 4: every number of it is a sum of some of them.
 */
function search(
  { items, room }: ReturnType<typeof fitting>,
  limit: number,
  work: Work,
): string | undefined | 'not checked' {
  const lots = items.flatMap((item) => lotsOf(item, Math.min(item.count, Math.floor(room / item.size))))
  let states: Lists = { count: 1, sizes: new Float64Array(256), worths: new Float64Array(256) }
  let spare: Lists = { count: 0, sizes: new Float64Array(256), worths: new Float64Array(256) }
  for (const [index, lot] of lots.entries()) {
    const next = lots[index + 1]
    const grown = merged(states, lot, room, spare)
    const most = grown.worths[grown.count - 1]!
    if (most > limit) return `pieces worth ${most}, more than the limit ${limit} (last added: ${lot.name})`
    work.states -= grown.count
    if (work.states < 0) return 'not checked'
    spare = states
    states = grown
    keepHopeful(grown, room, next ? next.worth / next.size : 0, limit)
  }
  return undefined
}

function lotsOf(item: Item, copies: number): Item[] {
  const lots: Item[] = []
  for (let left = copies, lot = 1; left > 0; left -= lot, lot *= 2) {
    lot = Math.min(lot, left)
    lots.push({ ...item, size: lot * item.size, worth: lot * item.worth })
  }
  return lots
}

/** The first `count` of both lists rise together: a larger state is there only because it is worth more. */
interface Lists {
  count: number
  readonly sizes: Float64Array
  readonly worths: Float64Array
}

/** The states without and with the lot, in one list, written over `spare` where that has the room. */
function merged({ count, sizes, worths }: Lists, lot: Item, room: number, spare: Lists): Lists {
  const longer = 2 * count > spare.sizes.length
  const out = longer
    ? { count: 0, sizes: new Float64Array(4 * count), worths: new Float64Array(4 * count) }
    : spare
  out.count = 0
  let best = -1
  let [plain, added] = [0, 0]
  while (plain < count || added < count) {
    const larger = added < count ? sizes[added]! + lot.size : Number.POSITIVE_INFINITY
    const without = plain < count && sizes[plain]! <= larger
    const size = without ? sizes[plain]! : larger
    const worth = without ? worths[plain]! : worths[added]! + lot.worth
    if (size > room) break
    if (without) plain += 1
    else added += 1
    if (worth <= best) continue
    best = worth
    if (out.count === 0 || out.sizes[out.count - 1] !== size) out.count += 1
    out.sizes[out.count - 1] = size
    out.worths[out.count - 1] = worth
  }
  return out
}

/** Keeps only the states that can still pass the limit, their room filled at the ratio of the next lot. */
function keepHopeful(states: Lists, room: number, ratio: number, limit: number): void {
  const { count, sizes, worths } = states
  let kept = 0
  for (let at = 0; at < count; at += 1) {
    // Worths are whole: to pass the limit is to pass it by 1, and while they stay below `mostWorth` three roundings
    // come to less than half of that. So where all pieces are worth alike for their length nothing is left to look at.
    if (worths[at]! + (room - sizes[at]!) * ratio < limit + 0.5) continue
    sizes[kept] = sizes[at]!
    worths[kept] = worths[at]!
    kept += 1
  }
  states.count = kept
}
