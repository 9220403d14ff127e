import type { NestProblem, Slope, StockLength } from '../nest.ts'
import { stepsDown, stepsUp } from '../units.ts'
import { frontSteps, kerfSteps, tailSteps, turned } from './room.ts'

// The most that the pieces of one stick can be worth, each piece at its dual: an exact knapsack in whole steps.

/** What the search may still look at; it counts down, and at 0 the answer is "not checked". */
export interface Work {
  states: number
}

/** Above this the quotients of the bound in `search` could be off by a whole unit of worth. */
const mostWorth = 2n ** 50n

export const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b))

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
    const size = 2 * stepsUp(mid) + kerfSteps(problem.kerf, ends[0]) + kerfSteps(problem.kerf, ends[1])
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
  const leading: Slope[] = []
  const trailing: Slope[] = []
  for (const part of problem.parts)
    for (const turn of new Set([...part.turns, 'none' as const])) {
      const [lead, trail] = turned(part.ends, turn)
      leading.push(lead)
      trailing.push(trail)
    }
  const least = (slopes: readonly Slope[], of: (slope: Slope) => number) =>
    slopes.reduce(
      (all, slope) => Math.min(all, 2 * of(slope) - kerfSteps(problem.kerf, slope)),
      Number.POSITIVE_INFINITY,
    )
  const front = least(leading, (slope) => frontSteps(problem, ends[0], slope))
  const tail = least(trailing, (slope) => tailSteps(problem, ends[1], slope))
  return 2 * stepsDown(length) - front - tail
}

/**
 * Exact search by lists of (size, worth) in which no state is both larger and worth less than another; items by worth
 * per size, so that what is still possible is bounded by the next item's. A state that cannot pass the limit is left.
 */
function search(
  items: readonly Item[],
  room: number,
  limit: number,
  work: Work,
): string | undefined | 'not checked' {
  let sizes: number[] = [0]
  let worths: number[] = [0]
  for (const [index, item] of items.entries()) {
    const next = items[index + 1]
    const ratio = next ? next.worth / next.size : 0
    // Rounding of the quotient is less than the 1 that is added while worths stay below `mostWorth`.
    const hopeless = (size: number, worth: number) => worth + (room - size) * ratio + 1 < limit
    const copies = Math.min(item.count, Math.floor(room / item.size))
    const states: [number, number][] = []
    for (let state = 0; state < sizes.length; state += 1)
      for (let copy = 0; copy <= copies; copy += 1) {
        const size = sizes[state]! + copy * item.size
        if (size > room) break
        const worth = worths[state]! + copy * item.worth
        if (worth > limit)
          return `pieces worth ${worth}, more than the limit ${limit} (last added: ${item.name})`
        work.states -= 1
        if (work.states < 0) return 'not checked'
        if (!hopeless(size, worth)) states.push([size, worth])
      }
    states.sort((a, b) => a[0] - b[0] || b[1] - a[1])
    sizes = []
    worths = []
    for (const [size, worth] of states)
      if (worths.length === 0 || worth > worths[worths.length - 1]!) {
        sizes.push(size)
        worths.push(worth)
      }
  }
  return undefined
}
