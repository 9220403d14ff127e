import { leastCostFrom } from '../core/check/stick-sums.ts'
import type { NestProblem } from '../core/nest.ts'
import { wholeSlack } from '../core/tolerance.ts'
import { certify, type Leaf, narrower } from './certify.ts'
import { correct } from './correct.ts'
import { dive, type Manner } from './dive.ts'
import { evenPrices } from './even-prices.ts'
import { boundModelOf, commonDivisor, costOf, dearest, type Fill, type Model } from './model.ts'
import {
  addPattern,
  type Box,
  openRelaxation,
  type Pool,
  type Relaxation,
  type Relaxed,
  type Task,
  type WorthTelling,
  wholeBox,
} from './relax.ts'
import { type Asking, type WholeSolver, wasteBelow, wholeNest } from './whole.ts'
import { openWork, spend, type Work, within } from './work.ts'

// Least cost, and why no nest costs less: the relaxed problem, cut in two by how many sticks of one kind are used
// until every share of it costs at least what the best nest does.

export interface Found {
  readonly fills: readonly Fill[]
  /** No nest costs less, in the unit of the pricing. */
  readonly bound: number
  /** Shares of all nests that each cost at least the bound; together they are all. */
  readonly leaves: readonly Leaf[]
  /** Of the whole, before it was cut in two. */
  readonly first: Leaf
  /** What a search of the same pieces by another pricing can begin with. */
  readonly learned: Learned
}

export interface Learned {
  readonly pool: Pool
  /** Worth of one piece per item. */
  readonly worth: readonly number[]
}

interface Share {
  readonly box: Box
  /** No nest within costs less, going by floating point, or by the leaf once there is one. */
  bound: number
  /** Asked for where the bound reaches the best nest, and at the end. */
  leaf?: Leaf
  readonly relaxation: Relaxation
  readonly relaxed: Relaxed
  /** Tries to fill it that were in vain; only a share that cannot be cut in two gets more than one. */
  tries: number
}

/** One half of a share. */
interface Cut {
  readonly kind: number
  readonly limit: { readonly atMost: number } | { readonly atLeast: number }
}

/** Steps for the proofs of shares when the work is over: some tenths of a second. */
const lateSteps = 10_000_000

/** Most shares; the judge looks at every one. */
const mostShares = 120

/** Dives into one share, one after the other while it is the one that holds the bound down. */
const manners: readonly Manner[] = [
  { rank: 0, choices: 2, loose: 0, deadEnds: 8 },
  { rank: 1, choices: 3, loose: 6, deadEnds: 60 },
  { rank: 2, choices: 4, loose: 12, deadEnds: 120 },
  { rank: 0, choices: 6, loose: 0, deadEnds: 1000 },
  { rank: 0, choices: 6, loose: 20, deadEnds: 500 },
  { rank: 1, choices: 4, loose: 40, deadEnds: 500 },
]

/** The dive at the very beginning, before the first cut in two: mostly the bound is what must move. */
const firstManner: Manner = { rank: 0, choices: 2, loose: 0, deadEnds: 2 }

/** Dives before the solver for whole numbers is asked: it has to be loaded first. */
const divesBeforeWhole = 2

/** Rounds of value correction before dives into a share, and before those into a half of one. */
const quickRounds = 20
const fewRounds = 5

/** Rounds by the worth of bare lengths, before anything else. */
const bareRounds = 12

/**
 * Searches from a known nest on. `pricing` may be another one than the model's (sticks instead of money); `report`
 * hears of every better nest. Undefined when not even the first bound came before the work was over.
 */
export function* branch(
  model: Model,
  problem: NestProblem,
  pricing: readonly number[],
  known: readonly Fill[],
  complete: boolean,
  work: Work,
  report: (fills: readonly Fill[], bound: number) => void,
  learned?: Learned,
): Asking<Found | undefined> {
  const pool: Pool = new Map(learned?.pool)
  const bounds = boundModelOf(problem, model)
  const demand = model.items.map(({ count }) => count)
  const unit = pricing.reduce(commonDivisor, 0)
  let fills = known
  // Without a nest of all pieces there is nothing to stay below.
  let cost = complete ? costOf(known, pricing) : Number.MAX_SAFE_INTEGER

  // A bound counts as the next sum of prices, and none need reach past the best nest.
  const rounded = (bound: number) => leastCostFrom(Math.ceil(bound - unit * wholeSlack), pricing, cost)
  const worthTelling: WorthTelling = (bound, most) => {
    const told = rounded(bound)
    return told < cost && told < rounded(most)
  }
  const look = (box: Box, from?: Share, cut?: Cut): Share | undefined => {
    const hint = from?.relaxed.worth ?? learned?.worth
    const task: Task = { model, pricing, demand, box, ...(hint && { hint }) }
    // From where the whole share stands it is a few steps to its half.
    const half = from?.relaxation.fork()
    const relaxation = half && cut && half.narrow(cut.kind, cut.limit) ? half : openRelaxation(task, pool)
    const relaxed = relaxation.solve(work, worthTelling)
    if (!relaxed) return undefined
    // What no sticks hold makes a share impossible: its prices show it.
    const bound = relaxed.missing > wholeSlack ? cost : rounded(relaxed.cost * dearest(pricing))
    return { box, bound, relaxation, relaxed, tries: 0 }
  }
  /** Whether whole prices were found; then its bound is what they prove. */
  const certified = (share: Share, most: Work): boolean => {
    const task: Task = { model: bounds, pricing, demand, box: share.box }
    const leaf = certify(task, problem, share.relaxed, cost, most)
    if (!leaf) return false
    share.leaf = leaf
    share.bound = leaf.cost
    return true
  }

  let proved = 0
  const take = (better: readonly Fill[]): void => {
    fills = better
    cost = costOf(better, pricing)
    report(fills, Math.min(cost, proved))
  }
  const corrected = (
    { box, relaxed, bound }: Pick<Share, 'box' | 'relaxed' | 'bound'>,
    rounds: number,
    manner: 'most' | 'any' = 'most',
  ) => {
    const task: Task = { model, pricing, demand, box, hint: relaxed.worth }
    while (bound < cost) {
      const better = correct(task, relaxed, cost, rounds, work, manner)
      if (!better) break
      take(better)
    }
  }
  // Where little is wasted the worth of the bare lengths is proof enough, and filling sticks by it comes down to it.
  const box = wholeBox(model)
  const even = evenPrices({ model, pricing, demand, box })
  const bare: Relaxed = { ...even, cost: even.bound, used: [], missing: 0 }
  const bareBound = rounded(even.bound * dearest(pricing))
  if (wasteBelow({ model, pricing, demand }, bareBound + unit) > 0)
    corrected({ box, relaxed: bare, bound: bareBound }, bareRounds, 'any')

  if (bareBound >= cost) {
    const leaf = certify({ model: bounds, pricing, demand, box }, problem, bare, cost, work)
    if (leaf && leaf.cost >= cost)
      return { fills, bound: cost, leaves: [leaf], first: leaf, learned: { pool, worth: even.worth } }
  }
  for (const { kind, counts } of fills) addPattern(pool, kind, counts)

  const root = look(box)
  if (!root || !certified(root, work)) return undefined
  const rootLeaf = root.leaf!
  proved = rootLeaf.cost
  // Not even fractions of all sticks hold every piece: nothing to prove, the caller says what is left out.
  if (root.relaxed.missing > wholeSlack) return undefined
  let shares: Share[] = [root]
  const dived = (share: Share, manner: Manner): void => {
    if (work.over || share.bound >= cost) return
    const task: Task = { model, pricing, demand, box: share.box, hint: share.relaxed.worth }
    // Begun anew: an answer of long standing lies in a corner that few dives come down from.
    const anew = openRelaxation(task, pool)
    const relaxed = anew.solve(work)
    const better =
      relaxed && within(work, work.left / 2, (part) => dive(task, anew, relaxed, cost, manner, part))
    if (better) take(better)
  }
  let solver: WholeSolver | 'not asked' | undefined = 'not asked'
  function* filled(share: Share): Asking<void> {
    if (work.over || share.bound >= cost) return
    if (solver === 'not asked') solver = yield
    if (!solver) return
    const task: Task = { model, pricing, demand, box: share.box }
    // First for the bound itself: that takes the fewest patterns.
    const better =
      wholeNest(task, share.relaxed, Math.min(cost, share.bound + unit), solver, work, pool) ??
      (share.bound + unit < cost ? wholeNest(task, share.relaxed, cost, solver, work, pool) : undefined)
    if (better && costOf(better, pricing) < cost) take(better)
  }
  /** Looks for a nest that costs just what the share's bound says: the counts of sticks that come to it are few. */
  const aimed = (share: Share): void => {
    const aim = share.bound
    if (work.over || aim >= cost || share.relaxed.missing > wholeSlack) return
    for (const counts of countsAt(aim, pricing, share.box)) {
      const half = share.relaxation.fork()
      let box = share.box
      for (const [kind, count] of counts) {
        for (const limit of [{ atMost: count }, { atLeast: count }]) {
          box = narrower(box, kind, limit)
          half.narrow(kind, limit)
        }
      }
      const relaxed = half.solve(work, undefined, false)
      if (!relaxed || relaxed.missing > wholeSlack) continue
      const there: Share = { ...share, box, relaxation: half, relaxed }
      corrected(there, fewRounds)
      dived(there, manners[0]!)
      if (work.over || cost <= aim) return
    }
  }
  // Where nothing may be wasted, dives hardly ever end well, and the solver is quick.
  if (wasteBelow({ model, pricing, demand }, root.bound + unit) === 0) yield* filled(root)
  corrected(root, quickRounds)
  dived(root, firstManner)
  let aimedAt = -1
  // A better nest may meet the first bound after all: then no share has anything left to prove.
  while (!work.over && shares.length < mostShares && rootLeaf.cost < cost) {
    const next = shares
      .filter(({ bound, leaf, tries }) => (tries <= manners.length && bound < cost) || !leaf)
      .sort((a, b) => a.bound - b.bound || a.tries - b.tries)[0]
    if (!next) break
    if (next.bound >= cost || next.tries > manners.length) {
      if (!certified(next, work)) break
      continue
    }
    if (model.kinds.length > 1 && next.bound > aimedAt) {
      aimedAt = next.bound
      aimed(next)
      continue
    }
    const halves = parted(model, pricing, next)
    if (!halves) {
      const { tries } = next
      if (tries === 0) corrected(next, quickRounds)
      if (tries === divesBeforeWhole) yield* filled(next)
      else dived(next, manners[tries < divesBeforeWhole ? tries : tries - 1]!)
      next.tries += 1
      continue
    }
    const looked = halves.map((cut) => look(narrower(next.box, cut.kind, cut.limit), next, cut))
    if (looked.some((half) => !half) || !spend(work, 1)) break
    shares = shares.flatMap((share) => (share === next ? (looked as Share[]) : [share]))
  }
  // Shares that the work did not reach get their proof all the same, or else the first one stands for all.
  const late = openWork(lateSteps)
  const enough = rootLeaf.cost >= cost
  const whole = enough || shares.every((share) => share.leaf || certified(share, late))
  const leaves = enough || !whole ? [rootLeaf] : shares.map(({ leaf }) => leaf!)
  return {
    fills,
    bound: Math.min(cost, ...leaves.map((leaf) => leaf.cost)),
    leaves,
    first: rootLeaf,
    learned: { pool, worth: root.relaxed.worth },
  }
}

/** The share cut in two where the number of sticks of one kind is the least whole, the dearer kinds first; undefined where all are whole. */
function parted(
  model: Model,
  pricing: readonly number[],
  { relaxed }: Share,
): readonly [Cut, Cut] | undefined {
  // With one kind the count of sticks is the cost, and the bound is whole already.
  if (model.kinds.length === 1) return undefined
  const sticks = model.kinds.map(() => 0)
  for (const { pattern, amount } of relaxed.used) sticks[pattern.kind]! += amount
  let [best, most] = [-1, 0]
  for (const [kind, amount] of sticks.entries()) {
    const part = Math.abs(amount - Math.round(amount))
    if (part <= wholeSlack) continue
    const away = part * (1 + pricing[kind]!)
    if (away <= most) continue
    best = kind
    most = away
  }
  if (best < 0) return undefined
  const atMost = Math.floor(sticks[best]!)
  return [
    { kind: best, limit: { atMost } },
    { kind: best, limit: { atLeast: atMost + 1 } },
  ]
}

/** Sets of stick counts that are tried for one cost, and looks while they are listed. */
const mostSets = 3
const mostSetLooks = 2000

/** Which counts of the sticks that are paid for come to this cost within the box: kind and count of each. */
function countsAt(
  cost: number,
  pricing: readonly number[],
  { least, most }: Box,
): (readonly [number, number])[][] {
  // The dearest first: how many of the cheapest is reckoned.
  const paid = [...pricing.keys()]
    .filter((kind) => pricing[kind]! > 0)
    .sort((a, b) => pricing[b]! - pricing[a]!)
  const sets: (readonly [number, number])[][] = []
  let looks = 0
  const go = (at: number, left: number, chosen: readonly (readonly [number, number])[]): void => {
    looks += 1
    const kind = paid[at]
    if (kind === undefined) {
      if (left === 0) sets.push([...chosen])
      return
    }
    const price = pricing[kind]!
    const fits = Math.min(most[kind]!, Math.floor(left / price))
    const from = at === paid.length - 1 ? Math.max(least[kind]!, fits) : least[kind]!
    for (let count = from; count <= fits && sets.length < mostSets && looks < mostSetLooks; count += 1)
      go(at + 1, left - count * price, [...chosen, [kind, count]])
  }
  go(0, cost, [])
  return sets
}
