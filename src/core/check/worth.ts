import type { NestProblem, Slope, StockLength } from '../nest.ts'
import { stepsDown, stepsUp } from '../units.ts'
import { front, kerfAlong, leastSteps, tail, turned } from './room.ts'

// The most that the pieces of one stick can be worth, each piece at its dual: an exact knapsack in whole steps.

/** What the search may still look at; it counts down, and at 0 the answer is "not checked". */
export interface Work {
  states: number
}

/** Above this the quotients of the bound in `search` could be off by a whole unit of worth. */
const mostWorth = 2n ** 50n

export const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b))

const kerfSteps = ({ kerf }: NestProblem, slope: Slope): number => stepsUp(kerfAlong(kerf, slope))

interface Item {
  readonly name: string
  readonly size: number
  readonly worth: number
  readonly count: number
}

/** Words for a set of pieces on one such stick that is worth more than the limit; undefined if there is none. */
export function worthMoreThan(
  problem: NestProblem,
  stock: StockLength,
  duals: readonly number[],
  limit: bigint,
  work: Work,
): string | undefined | 'not checked' {
  if (limit < 0n) return `no piece at all and is still worth more than the limit ${limit}`
  const most = Number(limit)
  const items: Item[] = []
  for (const [index, { mark, mid, ends, count }] of problem.parts.entries()) {
    const worth = duals[index]!
    const bothCut = stock.ends[0] === 'cut' && stock.ends[1] === 'cut'
    const uncut = stock.rack !== undefined && bothCut && stepsUp(mid) === stepsDown(stock.length)
    if (uncut && count > 0 && BigInt(worth) > limit)
      return `one ${mark} uncut, worth ${worth}, more than the limit ${limit}`
    // Twice the steps, so that half a kerf is a whole number.
    const size = 2 * stepsUp(mid) + kerfSteps(problem, ends[0]) + kerfSteps(problem, ends[1])
    if (worth > 0 && count > 0) items.push({ name: mark, size, worth, count })
  }
  const room = roomTwice(problem, stock)
  const unit = items.reduce((all, { size }) => commonDivisor(all, size), 0) || 1
  const fitting = items
    .filter(({ size }) => size <= room)
    .map((item) => ({ ...item, size: item.size / unit }))
    .sort((a, b) => b.worth / b.size - a.worth / a.size)
  if (limit > mostWorth) return 'not checked'
  return search(fitting, Math.floor(room / unit), most, work)
}

/** Twice the steps of a stick that pieces may take, each counted with half the kerfs of its ends. */
function roomTwice(problem: NestProblem, { length, ends }: StockLength): number {
  const leads: Slope[] = []
  const trails: Slope[] = []
  for (const part of problem.parts)
    for (const turn of new Set([...part.turns, 'none' as const])) {
      const [lead, trail] = turned(part.ends, turn)
      leads.push(lead)
      trails.push(trail)
    }
  const least = (slopes: readonly Slope[], of: (slope: Slope) => number) =>
    slopes.reduce(
      (all, slope) => Math.min(all, 2 * of(slope) - kerfSteps(problem, slope)),
      Number.POSITIVE_INFINITY,
    )
  const atFront = least(leads, (slope) => leastSteps(front(problem, ends[0], slope)))
  const atTail = least(trails, (slope) => leastSteps(tail(problem, ends[1], slope)))
  return 2 * stepsDown(length) - atFront - atTail
}

/**
 * Exact search by lists of (size, worth) in which no state is both larger and worth less than another. Items by worth
 * per size, so that what is still possible is bounded by the next item's ratio; a state that cannot pass the limit is
 * left. An item of count 7 goes in as lots of 1, 2 and 4: every number of it is a sum of some of them.
 */
function search(
  items: readonly Item[],
  room: number,
  limit: number,
  work: Work,
): string | undefined | 'not checked' {
  const lots = items.flatMap((item) => lotsOf(item, Math.min(item.count, Math.floor(room / item.size))))
  let states: Lists = { sizes: [0], worths: [0] }
  for (const [index, lot] of lots.entries()) {
    const next = lots[index + 1]
    const ratio = next ? next.worth / next.size : 0
    const grown = merged(states, lot, room)
    const most = grown.worths.at(-1) ?? 0
    if (most > limit) return `pieces worth ${most}, more than the limit ${limit} (last added: ${lot.name})`
    work.states -= grown.sizes.length
    if (work.states < 0) return 'not checked'
    // Rounding of the quotient is less than the 1 that is added while worths stay below `mostWorth`.
    const hopeful = grown.sizes.map((size, k) => grown.worths[k]! + (room - size) * ratio + 1 >= limit)
    states = {
      sizes: grown.sizes.filter((_, k) => hopeful[k]),
      worths: grown.worths.filter((_, k) => hopeful[k]),
    }
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

/** Both lists rise together: a larger state is there only because it is worth more. */
interface Lists {
  readonly sizes: readonly number[]
  readonly worths: readonly number[]
}

/** The states without and with the lot, in one list. */
function merged({ sizes, worths }: Lists, lot: Item, room: number): Lists {
  const out: { sizes: number[]; worths: number[] } = { sizes: [], worths: [] }
  let best = -1
  const put = (size: number, worth: number) => {
    if (worth <= best) return
    best = worth
    if (out.sizes.at(-1) === size) out.worths[out.worths.length - 1] = worth
    else {
      out.sizes.push(size)
      out.worths.push(worth)
    }
  }
  let added = 0
  for (let plain = 0; plain < sizes.length; plain += 1) {
    for (; added < sizes.length && sizes[added]! + lot.size < sizes[plain]!; added += 1)
      if (sizes[added]! + lot.size <= room) put(sizes[added]! + lot.size, worths[added]! + lot.worth)
    put(sizes[plain]!, worths[plain]!)
  }
  for (; added < sizes.length; added += 1)
    if (sizes[added]! + lot.size <= room) put(sizes[added]! + lot.size, worths[added]! + lot.worth)
  return out
}
