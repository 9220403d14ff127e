// Which counts of sticks could hold all pieces. Worths of the pieces say so before any nest is tried: the sticks, each by
// the most that its pieces can be worth together, must come to what all pieces are worth.

/** What any nest must keep to: Σ most · sticks of that kind ≥ sum. Whole numbers, exact. */
export interface Cut {
  /** Worth of one piece per item. */
  readonly worth: readonly number[]
  /** Of all pieces together. */
  readonly sum: number
  /** What the pieces of one stick are worth at the most, per kind. */
  readonly most: readonly number[]
}

/** How many sticks of each kind may be used. */
export interface Box {
  readonly least: readonly number[]
  readonly most: readonly number[]
}

export interface Counts {
  readonly cost: number
  /** Sticks per kind; of what costs nothing all there are. */
  readonly sticks: readonly number[]
}

/** Sets of counts that are looked at; past it the answer is that they are too many. */
const mostLooks = 200_000

export const keeps = ({ most, sum }: Cut, sticks: readonly number[]): boolean =>
  most.reduce((all, worth, kind) => all + worth * sticks[kind]!, 0) >= sum

/**
 * The cheapest counts within the box that cost less than `below` and keep to all cuts, the cheapest first, so many at
 * most. Undefined where there are too many to look at.
 */
export function cheapestCounts(
  cuts: readonly Cut[],
  pricing: readonly number[],
  { least, most }: Box,
  below: number,
  many: number,
): Counts[] | undefined {
  // The dearest first: fewest of them fit in; how many of the last is reckoned.
  const paid = [...pricing.keys()]
    .filter((kind) => pricing[kind]! > 0)
    .sort((a, b) => pricing[b]! - pricing[a]! || a - b)
  const sticks = pricing.map((price, kind) => (price > 0 ? 0 : most[kind]!))
  // Per cut: what is still to be held, the most that kinds from a place on can hold, and what a unit costs there.
  const left = cuts.map(
    (cut) => cut.sum - cut.most.reduce((all, worth, kind) => all + worth * sticks[kind]!, 0),
  )
  const holds = cuts.map((cut) =>
    fromPlace(
      paid,
      (kind) => cut.most[kind]! * most[kind]!,
      (a, b) => a + b,
      0,
    ),
  )
  const costs = cuts.map((cut) =>
    fromPlace(paid, (kind) => pricing[kind]! / cut.most[kind]!, Math.min, Number.POSITIVE_INFINITY),
  )
  const found: Counts[] = []
  let limit = below
  let looks = 0

  const keep = (cost: number): void => {
    const counts: Counts = { cost, sticks: [...sticks] }
    // Of the same cost fewer sticks come first.
    const at = found.findIndex(
      (other) => other.cost > cost || (other.cost === cost && sumOf(other) > sumOf(counts)),
    )
    found.splice(at < 0 ? found.length : at, 0, counts)
    if (found.length > many) found.pop()
    if (found.length === many) limit = Math.min(limit, found.at(-1)!.cost)
  }
  const take = (kind: number, count: number): void => {
    sticks[kind]! += count
    for (const [at, cut] of cuts.entries()) left[at]! -= count * cut.most[kind]!
  }
  const go = (place: number, cost: number): boolean => {
    looks += 1
    if (looks > mostLooks) return false
    let more = 0
    for (let at = 0; at < cuts.length; at += 1) {
      if (left[at]! <= 0) continue
      if (left[at]! > holds[at]![place]!) return true
      more = Math.max(more, left[at]! * costs[at]![place]!)
    }
    if (cost + more * (1 - 1e-9) >= limit) return true
    const kind = paid[place]
    if (kind === undefined) {
      keep(cost)
      return true
    }
    let count = least[kind]!
    // More of the last kind than are needed only cost more.
    if (place === paid.length - 1)
      for (const [at, cut] of cuts.entries())
        if (left[at]! > 0) count = Math.max(count, Math.ceil(left[at]! / cut.most[kind]!))
    const to = place === paid.length - 1 ? Math.min(count, most[kind]!) : most[kind]!
    take(kind, count)
    let whole = true
    for (; whole && count <= to && cost + count * pricing[kind]! < limit; count += 1) {
      whole = go(place + 1, cost + count * pricing[kind]!)
      take(kind, 1)
    }
    take(kind, -count)
    return whole
  }
  return go(0, 0) ? found : undefined
}

const sumOf = ({ sticks }: Counts): number => sticks.reduce((sum, count) => sum + count, 0)

/** Of all kinds from each place on, and what stands for none at the end. */
function fromPlace(
  kinds: readonly number[],
  of: (kind: number) => number,
  both: (a: number, b: number) => number,
  none: number,
): Float64Array {
  const all = new Float64Array(kinds.length + 1).fill(none)
  for (let place = kinds.length - 1; place >= 0; place -= 1)
    all[place] = both(of(kinds[place]!), all[place + 1]!)
  return all
}
