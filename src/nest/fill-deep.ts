import type { Filled, Thing } from './fill.ts'
import { spend, type Work } from './work.ts'

// The most valuable set of pieces for one stick by trying: as many as possible of what is worth most for its length
// first, and back. Mostly over at once; where many pieces are worth alike for their length it is given up.

/** Things in the order of trying. */
export interface Ranked {
  readonly things: readonly Thing[]
  readonly order: readonly number[]
  /** Value per size, and the least size from there on, by place in the order. */
  readonly ratios: Float64Array
  readonly least: Float64Array
}

/** Looks before the search is given up: about what a table of some thousand sums costs. */
const mostLooks = 2000

export function ranked(things: readonly Thing[]): Ranked {
  const order = [...things.keys()]
    .filter((at) => things[at]!.value > 0 && things[at]!.count > 0)
    .sort((a, b) => things[b]!.value / things[b]!.size - things[a]!.value / things[a]!.size || a - b)
  const ratios = Float64Array.from(order, (at) => things[at]!.value / things[at]!.size)
  const least = new Float64Array(order.length + 1).fill(Number.POSITIVE_INFINITY)
  for (let place = order.length - 1; place >= 0; place -= 1)
    least[place] = Math.min(least[place + 1]!, things[order[place]!]!.size)
  return { things, order, ratios, least }
}

/**
 * The best set worth more than `above`; 'none' where there is none, 'given up' where it took too long to know. With
 * `anyDoes` a set worth more is enough where the best would take too long, and is said not to be sure.
 */
export function deepestFill(
  { things, order, ratios, least }: Ranked,
  room: number,
  above: number,
  anyDoes: boolean,
  work: Work,
): (Filled & { readonly sure: boolean }) | 'none' | 'given up' {
  const taken = new Int32Array(order.length)
  let kept: Int32Array | undefined
  let best = above
  let looks = 0

  function go(place: number, left: number, value: number): boolean {
    looks += 1
    if (looks > mostLooks) return false
    if (value > best) {
      best = value
      kept = taken.slice()
    }
    for (let at = place; at < order.length; at += 1) {
      if (left < least[at]! || value + left * ratios[at]! <= best) return true
      const { size, value: each, count } = things[order[at]!]!
      for (let copies = Math.min(count, Math.floor(left / size)); copies > 0; copies -= 1) {
        taken[at] = copies
        if (!go(at + 1, left - copies * size, value + copies * each)) return false
      }
      taken[at] = 0
    }
    return true
  }

  const whole = go(0, room, 0)
  spend(work, looks)
  if (!whole && !(anyDoes && kept)) return 'given up'
  if (!kept) return 'none'
  const counts = things.map(() => 0)
  for (const [at, copies] of kept.entries()) counts[order[at]!] = copies
  return { value: best, counts, sure: whole }
}
