import { leastCostFrom } from '../core/check/stick-sums.ts'
import type { NestProblem } from '../core/nest.ts'
import { wholeSlack } from '../core/tolerance.ts'
import { certify, type Leaf, narrower } from './certify.ts'
import { correct } from './correct.ts'
import { dive, type Manner } from './dive.ts'
import { boundModelOf, commonDivisor, costOf, type Fill, type Model } from './model.ts'
import {
  type Box,
  openRelaxation,
  type Pool,
  type Relaxation,
  type Relaxed,
  type Task,
  type WorthTelling,
  wholeBox,
} from './relax.ts'
import { type WholeSolver, wasteBelow, wholeNest } from './whole.ts'
import { spend, type Work, within } from './work.ts'

// Least cost, and why no nest costs less: the relaxed problem, cut in two by how many sticks of one kind are used
// until every share of it costs at least what the best nest does.

export interface Found {
  readonly fills: readonly Fill[]
  /** No nest costs less, in the unit of the pricing. */
  readonly bound: number
  /** Shares of all nests that each cost at least the bound; together they are all. */
  readonly leaves: readonly Leaf[]
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
  readonly leaf: Leaf
  readonly relaxation: Relaxation
  readonly relaxed: Relaxed
  /** Cannot be cut in two, or was searched as far as it goes. */
  readonly stuck: boolean
}

/** One half of a share. */
interface Cut {
  readonly kind: number
  readonly limit: { readonly atMost: number } | { readonly atLeast: number }
}

/** Most shares; the judge looks at every one. */
const mostShares = 120

/** Dives into one share, before the share is given up; the first one also into every half of a share. */
const manners: readonly Manner[] = [
  { rank: 0, choices: 2, deadEnds: 8 },
  { rank: 1, choices: 3, deadEnds: 60 },
  { rank: 2, choices: 4, deadEnds: 120 },
  { rank: 0, choices: 6, deadEnds: 1000 },
]

/** Rounds of value correction before dives into a share, and before those into a half of one. */
const quickRounds = 20
const fewRounds = 5

/** Cuts in two between dives into the halves: most halves only move the bound. */
const divesEvery = 6

/** Dives before the first cut in two: if these find nothing better, mostly the bound is what must move. */
const firstTries = 2

/**
 * Searches from a known nest on. `pricing` may be another one than the model's (sticks instead of money); `report`
 * hears of every better nest. Undefined when not even the first bound came before the work was over.
 */
export function branch(
  model: Model,
  problem: NestProblem,
  pricing: readonly number[],
  known: readonly Fill[],
  complete: boolean,
  work: Work,
  report: (fills: readonly Fill[], bound: number) => void,
  { solver, learned }: { readonly solver?: WholeSolver | undefined; readonly learned?: Learned | undefined },
): Found | undefined {
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
    const leaf = certify({ ...task, model: bounds }, problem, relaxed, cost, work)
    return leaf && { box, leaf, relaxation, relaxed, stuck: false }
  }
  const boundOf = (shares: readonly Share[]) => Math.min(cost, ...shares.map(({ leaf }) => leaf.cost))

  const root = look(wholeBox(model))
  if (!root) return undefined
  // Not even fractions of all sticks hold every piece: nothing to prove, the caller says what is left out.
  if (root.relaxed.missing > wholeSlack) return undefined
  let shares: Share[] = [root]
  const take = (better: readonly Fill[]): void => {
    fills = better
    cost = costOf(better, pricing)
    report(fills, boundOf(shares))
  }
  const search = (share: Share, tries: number): void => {
    const task: Task = { model, pricing, demand, box: share.box, hint: share.relaxed.worth }
    for (let rounds = tries > 1 ? quickRounds : fewRounds; share.leaf.cost < cost; ) {
      const better = correct(task, share.relaxed, cost, rounds, work)
      if (!better) break
      take(better)
    }
    if (work.over || share.leaf.cost >= cost) return
    // Begun anew: an answer of long standing lies in a corner that few dives come down from.
    const anew = openRelaxation(task, pool)
    const relaxed = anew.solve(work)
    if (!relaxed) return
    for (const manner of manners.slice(0, tries)) {
      if (work.over || share.leaf.cost >= cost) return
      const better = within(work, work.left / 2, (part) =>
        dive(task, anew.fork(), relaxed, cost, manner, part),
      )
      if (better) take(better)
    }
  }
  const searchWhole = (share: Share): void => {
    if (!solver || share.leaf.cost >= cost) return
    const task: Task = { model, pricing, demand, box: share.box }
    // First for the bound itself: that takes the fewest patterns.
    const better =
      wholeNest(task, share.relaxed, Math.min(cost, share.leaf.cost + unit), solver, work) ??
      (share.leaf.cost + unit < cost ? wholeNest(task, share.relaxed, cost, solver, work) : undefined)
    if (better && costOf(better, pricing) < cost) take(better)
  }
  // Where nothing may be wasted, dives hardly ever end well, and the solver is quick.
  if (wasteBelow({ model, pricing, demand }, root.leaf.cost + unit) === 0) searchWhole(root)
  search(root, firstTries)
  let cuts = 0
  while (!work.over && shares.length < mostShares) {
    const next = shares
      .filter(({ leaf, stuck }) => !stuck && leaf.cost < cost)
      .sort((a, b) => a.leaf.cost - b.leaf.cost)[0]
    if (!next) break
    const halves = parted(model, pricing, next)
    if (!halves) {
      searchWhole(next)
      search(next, manners.length)
      shares = shares.map((share) => (share === next ? { ...share, stuck: true } : share))
      continue
    }
    const looked = halves.map((cut) => look(narrower(next.box, cut.kind, cut.limit), next, cut))
    if (looked.some((half) => !half) || !spend(work, 1)) break
    shares = shares.flatMap((share) => (share === next ? (looked as Share[]) : [share]))
    cuts += 1
    if (cuts % divesEvery !== 0) continue
    for (const half of looked as Share[])
      if (half.relaxed.missing <= wholeSlack && half.leaf.cost < cost) search(half, 1)
  }
  return {
    fills,
    bound: boundOf(shares),
    leaves: shares.map(({ leaf }) => leaf),
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
