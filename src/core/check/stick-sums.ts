// What whole sticks can cost together: a bound between two such sums goes up to the next.

/** Sets of counts that are looked at; past it only the common divisor of the prices is left to round by. */
const mostLooks = 100_000

export const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b))

/**
 * The least sum of prices (whole, each as often as wanted) that is at least `from`, looked for below `upTo`, which is
 * the answer if there is none. Where there are too many sums to look at, a lower one that is sure.
 */
export function leastCostFrom(from: number, pricing: readonly number[], upTo: number): number {
  if (from <= 0) return Math.min(0, upTo)
  // The dearest first: fewest of them fit in; how many of the cheapest is reckoned.
  const prices = [...new Set(pricing.filter((price) => price > 0))].sort((a, b) => b - a)
  if (prices.length === 0 || from >= upTo) return upTo
  const unit = prices.reduce(commonDivisor)
  let best = upTo
  let looks = 0

  /** False when there were too many looks. */
  function go(at: number, cost: number): boolean {
    looks += 1
    if (looks > mostLooks) return false
    const price = prices[at]!
    if (at === prices.length - 1) {
      best = Math.min(best, cost + Math.max(0, Math.ceil((from - cost) / price)) * price)
      return true
    }
    for (let sum = cost; sum < best && best > from; sum += price) if (!go(at + 1, sum)) return false
    return true
  }
  return go(0, 0) ? best : Math.min(upTo, Math.ceil(from / unit) * unit)
}
