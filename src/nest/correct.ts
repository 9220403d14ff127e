import { openPatterns } from './best-pattern.ts'
import { gather } from './first-fit.ts'
import { dearest, type Fill } from './model.ts'
import type { Relaxed, Task } from './relax.ts'
import { spend, type Work } from './work.ts'

// Whole sticks one after the other, each filled with what is worth most; then the worth of what came to lie on wasteful
// sticks goes up, so that it is placed earlier in the next round. Quick, and mostly close to the least.

/** The corrected worth follows size a little more than evenly: long pieces are the harder ones to place. */
const favorLong = 0.04

/**
 * A nest of all pieces that costs less than `below` in the unit of the pricing, found within so many rounds; undefined
 * when there was none. The rounds begin with the worths of the relaxed answer.
 */
export function correct(
  task: Task,
  relaxed: Relaxed,
  below: number,
  rounds: number,
  work: Work,
  manner: 'most' | 'any' = 'most',
): Fill[] | undefined {
  const { model, pricing, demand, box } = task
  const { items, kinds } = model
  const scale = dearest(pricing)
  const pieces = demand.reduce((sum, count) => sum + count, 0)
  const steel = items.reduce((sum, { size }, item) => sum + size * demand[item]!, 0)
  const perSize = relaxed.worth.reduce((sum, worth, item) => sum + worth * demand[item]!, 0) / steel
  const mean = steel / pieces
  const even = items.map(({ size }) => perSize * size * (size / mean) ** favorLong)
  const worth = relaxed.worth.map((value, item) => Math.max(value, even[item]! / 2))

  function round(follow: number): Fill[] | undefined {
    const left = [...demand]
    const most = [...box.most]
    const sticks: { kind: number; counts: readonly number[] }[] = []
    let [cost, size] = [0, steel]
    while (size > 0) {
      const last = cheapestHolding(task, most, size)
      if (last >= 0 && cost + pricing[last]! < below) {
        sticks.push({ kind: last, counts: left })
        return gather(sticks)
      }
      const best = openPatterns(task, left, worth, work, manner)
      let [chosen, ratio] = [-1, 0]
      let counts: readonly number[] = []
      for (const [kind, { room }] of kinds.entries()) {
        if (most[kind]! < 1 || room <= 0) continue
        const price = Math.max(pricing[kind]! / scale - relaxed.kindWorth[kind]!, 1e-9)
        const filled = best(kind, ratio * price)
        if (!filled) continue
        chosen = kind
        ratio = filled.value / price
        counts = filled.counts
      }
      if (chosen < 0 || !spend(work, 1)) return undefined
      let times = most[chosen]!
      let used = 0
      for (const [item, count] of counts.entries())
        if (count > 0) {
          times = Math.min(times, Math.floor(left[item]! / count))
          used += count * items[item]!.size
        }
      const waste = Math.max(1, kinds[chosen]!.room / used)
      for (const [item, count] of counts.entries()) {
        if (count === 0) continue
        left[item]! -= count * times
        worth[item] = (1 - follow) * worth[item]! + follow * even[item]! * waste
      }
      for (let time = 0; time < times; time += 1) sticks.push({ kind: chosen, counts })
      most[chosen]! -= times
      cost += times * pricing[chosen]!
      size -= times * used
      if (cost >= below) return undefined
    }
    return cost < below ? gather(sticks) : undefined
  }

  for (let at = 0; at < rounds && !work.over; at += 1) {
    const found = round(0.2 + 0.15 * (at % 5))
    if (found) return found
  }
  return undefined
}

/** The cheapest kind still there whose stick holds all that is left; −1 if there is none. */
function cheapestHolding({ model, pricing }: Task, most: readonly number[], size: number): number {
  let best = -1
  for (const [kind, { room }] of model.kinds.entries())
    if (most[kind]! > 0 && room >= size && (best < 0 || pricing[kind]! < pricing[best]!)) best = kind
  return best
}
