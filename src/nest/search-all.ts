import { gather } from './first-fit.ts'
import type { Fill, Model } from './model.ts'
import { spend, type Work } from './work.ts'

// Small problems are searched through to the end: every way to put the pieces on sticks that is not worse for sure.

/** More pieces than this are left to the other search. */
export const fewPieces = 14

interface Stick {
  readonly kind: number
  left: number
  counts: number[]
}

/**
 * A nest of all pieces that costs less than `below` in money, or the same with fewer sticks; undefined if there is
 * none, or none was found before the work was over (`work.over` says which).
 */
export function searchAll(
  model: Model,
  below: { readonly cost: number; readonly sticks: number },
  work: Work,
): Fill[] | undefined {
  const { items, kinds } = model
  const pieces = items.flatMap(({ count }, item) => Array.from({ length: count }, () => item))
  const left = kinds.map(({ count }) => count)
  const sticks: Stick[] = []
  let { cost: leastCost, sticks: leastSticks } = below
  let best: Fill[] | undefined
  // Cost of a unit of room at best: what is not yet placed and finds no room in open sticks costs at least that.
  const perRoom = Math.min(
    ...kinds.map(({ price, room, uncut }) => price / Math.max(room, uncutSize(model, uncut))),
  )
  const sizeFrom = new Float64Array(pieces.length + 1)
  for (let at = pieces.length - 1; at >= 0; at -= 1)
    sizeFrom[at] = sizeFrom[at + 1]! + items[pieces[at]!]!.size

  const place = (at: number, spent: number): void => {
    if (!spend(work, 1)) return
    const free = sticks.reduce((sum, stick) => sum + stick.left, 0)
    const more = Math.max(0, sizeFrom[at]! - free)
    const cost = spent + Math.ceil(more * perRoom - 1e-6)
    const count = sticks.length + (more > 0 ? 1 : 0)
    if (cost > leastCost || (cost === leastCost && count >= leastSticks)) return
    const item = pieces[at]
    if (item === undefined) {
      leastCost = spent
      leastSticks = sticks.length
      best = gather(sticks.map(({ kind, counts }) => ({ kind, counts: [...counts] })))
      return
    }
    const { size } = items[item]!
    // Two open sticks with the same room are one choice.
    const tried = new Set<number>()
    for (const stick of sticks) {
      if (stick.left < size || tried.has(stick.left)) continue
      tried.add(stick.left)
      stick.left -= size
      stick.counts[item]! += 1
      place(at + 1, spent)
      stick.left += size
      stick.counts[item]! -= 1
      // Nothing can use this stick's room better than a piece that fills it and is nowhere used uncut.
      if (stick.left === size && !kinds.some(({ uncut }) => uncut === item)) return
    }
    const opened = new Set<string>()
    for (const [kind, { room, price, uncut }] of kinds.entries()) {
      const name = `${room} ${price} ${uncut}`
      if (left[kind]! === 0 || opened.has(name) || (room < size && uncut !== item)) continue
      opened.add(name)
      left[kind]! -= 1
      const counts = items.map((_, other) => (other === item ? 1 : 0))
      sticks.push({ kind, left: Math.max(0, room - size), counts })
      place(at + 1, spent + price)
      sticks.pop()
      left[kind]! += 1
    }
  }
  place(0, 0)
  return best
}

const uncutSize = ({ items }: Model, uncut: number | undefined): number =>
  uncut === undefined ? 1 : items[uncut]!.size
