import { bestFill } from './fill.ts'
import { gather } from './first-fit.ts'
import type { Fill, Model } from './model.ts'
import type { Work } from './work.ts'

interface Stick {
  readonly kind: number
  counts: readonly number[]
}

/** Sticks whose remains are made longer, the longest first; more would cost time and leave short drops anyway. */
const mostLong = 3

/**
 * The same sticks, with what is left over gathered into one long drop before two short ones: the pieces of a stick and
 * of the emptiest one are dealt anew so that the stick gets as full as it can. Cost and sticks stay as they are.
 */
export function gatherRemains(model: Model, fills: readonly Fill[], work: Work): Fill[] {
  const sticks: Stick[] = fills.flatMap(({ kind, counts, times }) =>
    Array.from({ length: times }, () => ({ kind, counts })),
  )
  const settled = new Set<Stick>()
  for (let round = 0; round < Math.min(mostLong, sticks.length - 1); round += 1) {
    let longest: Stick | undefined
    for (const stick of sticks)
      if (
        !settled.has(stick) &&
        !isUncut(model, stick) &&
        (!longest || free(model, stick) > free(model, longest))
      )
        longest = stick
    if (!longest) break
    settled.add(longest)
    for (const other of sticks) {
      if (work.over) return gather(sticks)
      if (settled.has(other) || isUncut(model, other) || free(model, other) === 0) continue
      pour(model, longest, other, work)
    }
  }
  return gather(sticks)
}

const filled = ({ items }: Model, counts: readonly number[]): number =>
  counts.reduce((sum, count, item) => sum + count * items[item]!.size, 0)

const free = (model: Model, { kind, counts }: Stick): number =>
  model.kinds[kind]!.room - filled(model, counts)

/** A rack piece used uncut holds more than its room, and is left alone. */
const isUncut = (model: Model, stick: Stick): boolean => free(model, stick) < 0

/** Makes `into` as full as the pieces of both sticks allow; the rest stays on `from`, if it fits there. */
function pour(model: Model, from: Stick, into: Stick, work: Work): void {
  const both = from.counts.map((count, item) => count + into.counts[item]!)
  const things = model.items.map(({ size }, item) => ({ size, value: size, count: both[item]! }))
  const fuller = bestFill(things, model.kinds[into.kind]!.room, filled(model, into.counts), work)
  if (!fuller) return
  const rest = both.map((count, item) => count - fuller.counts[item]!)
  // An empty stick would be one stick less than the least: it cannot come up where the sticks are the fewest.
  if (filled(model, rest) > model.kinds[from.kind]!.room || rest.every((count) => count === 0)) return
  into.counts = fuller.counts
  from.counts = rest
}
