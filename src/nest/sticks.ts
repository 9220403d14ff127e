import type { Model } from './model.ts'

/** Sets of stick counts that are looked at; past it the answer is left to the search. */
const mostSets = 50_000

/**
 * The fewest sticks that any nest of exactly this cost can have, by counting alone: every set of sticks whose prices
 * sum up to it and whose rooms hold all the steel there is. Undefined where there are too many sets to look at.
 */
export function fewestAtCost(model: Model, cost: number): number | undefined {
  const roomOf = model.kinds.map(({ room, uncut }) =>
    Math.max(0, room, uncut === undefined ? 0 : model.items[uncut]!.size),
  )
  const size = model.items.reduce((sum, item) => sum + item.size * item.count, 0)
  const paid = [...model.kinds.keys()].filter((kind) => model.kinds[kind]!.price > 0)
  const free = [...model.kinds.keys()].filter((kind) => model.kinds[kind]!.price === 0)
  // What costs nothing is used roomiest first: fewer of them would hold less.
  free.sort((a, b) => roomOf[b]! - roomOf[a]!)
  let sets = 0
  let fewest = Number.POSITIVE_INFINITY
  const withFree = (left: number, sticks: number): number => {
    let [rest, count] = [left, sticks]
    for (const kind of free) {
      if (rest <= 0) break
      const used = Math.min(model.kinds[kind]!.count, Math.ceil(rest / Math.max(1, roomOf[kind]!)))
      rest -= used * roomOf[kind]!
      count += used
    }
    return rest > 0 ? Number.POSITIVE_INFINITY : count
  }
  const go = (at: number, money: number, left: number, sticks: number): boolean => {
    sets += 1
    if (sets > mostSets) return false
    const kind = paid[at]
    if (kind === undefined) {
      if (money === 0) fewest = Math.min(fewest, withFree(left, sticks))
      return true
    }
    const { price, count } = model.kinds[kind]!
    for (let used = 0; used <= count && used * price <= money; used += 1)
      if (!go(at + 1, money - used * price, left - used * roomOf[kind]!, sticks + used)) return false
    return true
  }
  return go(0, cost, size, 0) ? fewest : undefined
}
