import type { Filled, Thing } from './fill.ts'
import { spend, type Work } from './work.ts'

// The most valuable set of pieces for one stick by trying: as many as possible of what is worth most for its length
// first, and back. Mostly over at once; where many pieces are worth alike for their length it is given up.

/** Things in the order of trying; all lists but the first by place in that order. */
export interface Ranked {
  readonly order: readonly number[]
  readonly sizes: Float64Array
  readonly values: Float64Array
  readonly counts: Int32Array
  /** Value per size, and the least size from there on. */
  readonly ratios: Float64Array
  readonly least: Float64Array
}

/** Looks before the search is given up: about what a table of some thousand sums costs. */
const mostLooks = 2000

export function ranked(things: readonly Thing[]): Ranked {
  const ratio = things.map(({ size, value }) => value / size)
  const order: number[] = []
  for (let at = 0; at < things.length; at += 1)
    if (things[at]!.value > 0 && things[at]!.count > 0) order.push(at)
  order.sort((a, b) => ratio[b]! - ratio[a]! || a - b)
  const { length } = order
  const sizes = new Float64Array(length)
  const values = new Float64Array(length)
  const counts = new Int32Array(length)
  const ratios = new Float64Array(length)
  const least = new Float64Array(length + 1).fill(Number.POSITIVE_INFINITY)
  for (let place = length - 1; place >= 0; place -= 1) {
    const thing = things[order[place]!]!
    sizes[place] = thing.size
    values[place] = thing.value
    counts[place] = thing.count
    ratios[place] = ratio[order[place]!]!
    least[place] = Math.min(least[place + 1]!, thing.size)
  }
  return { order, sizes, values, counts, ratios, least }
}

/**
 * The best set worth more than `above`; 'none' where there is none, 'given up' where it took too long to know. With
 * `anyDoes` a set worth more is enough where the best would take too long, and is said not to be sure.
 */
export function deepestFill(
  { order, sizes, values, counts: most, ratios, least }: Ranked,
  items: number,
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
    for (let at = place; at < most.length; at += 1) {
      if (left < least[at]! || value + left * ratios[at]! <= best) return true
      const size = sizes[at]!
      if (size > left) continue
      const each = values[at]!
      for (let copies = Math.min(most[at]!, Math.floor(left / size)); copies > 0; copies -= 1) {
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
  const counts = new Array<number>(items).fill(0)
  for (let at = 0; at < order.length; at += 1) counts[order[at]!] = kept[at]!
  return { value: best, counts, sure: whole }
}
