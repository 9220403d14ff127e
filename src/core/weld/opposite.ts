/**
 * Order of the joints of a ring in a jig: the opposite joint next each time, and for five and more no two neighbors
 * in a row. Common practice.
 */
export function opposite<T>(ring: readonly T[]): T[] {
  const n = ring.length
  const order: number[] = []
  const left = new Set(ring.keys())
  const away = (one: number, two: number) => Math.min((one - two + n) % n, (two - one + n) % n)
  while (left.size > 0) {
    const last = order.at(-1)
    const before = order.at(-2)
    let best: number | undefined
    let bestScore = Number.NEGATIVE_INFINITY
    for (const at of left) {
      const fromLast = last === undefined ? 0 : away(at, last)
      const fromBefore = before === undefined ? 0 : away(at, before)
      // Farthest from the last one first; then away from the one before; neighbors only when nothing else is left.
      const score =
        fromLast * n + Math.min(fromBefore, 2) - at / (n * n) - (n >= 5 && fromLast === 1 ? n * n : 0)
      if (score > bestScore) {
        bestScore = score
        best = at
      }
    }
    order.push(best!)
    left.delete(best!)
  }
  // The greedy walk may end on a neighbor: move that joint to where it has none.
  if (n >= 5) mend(order, away)
  return order.map((at) => ring[at]!)
}

function mend(order: number[], away: (one: number, two: number) => number): void {
  const touching = (at: number) =>
    (at > 0 && away(order[at]!, order[at - 1]!) === 1) ||
    (at + 1 < order.length && away(order[at]!, order[at + 1]!) === 1)
  for (let at = 1; at < order.length; at++) {
    if (!touching(at)) continue
    for (let other = 0; other < order.length; other++) {
      const swap = () => {
        const kept = order[at]!
        order[at] = order[other]!
        order[other] = kept
      }
      const faults = () => order.filter((_, k) => touching(k)).length
      const before = faults()
      swap()
      if (faults() < before) break
      swap()
    }
  }
}
