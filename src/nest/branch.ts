import { leastCostFrom } from '../core/check/stick-sums.ts'
import type { NestProblem } from '../core/nest.ts'
import { wholeSlack } from '../core/tolerance.ts'
import { cutOf, type Leaf, leafOf } from './certify.ts'
import { correct } from './correct.ts'
import { type Box, type Counts, type Cut, cheapestCounts, keeps } from './counts.ts'
import { dive, type Manner } from './dive.ts'
import { evenPrices } from './even-prices.ts'
import { leavesOf, lookAt } from './leaves.ts'
import { boundModelOf, commonDivisor, costOf, dearest, type Fill, type Model } from './model.ts'
import {
  addPattern,
  openRelaxation,
  type Pool,
  type Relaxed,
  relax,
  type Task,
  type WorthTelling,
  wholeBox,
} from './relax.ts'
import { type Asking, type WholeSolver, wasteBelow, wholeNest } from './whole.ts'
import { type Work, within } from './work.ts'

// Least cost, and why no nest costs less. The relaxed problem says which counts of sticks cannot hold the pieces; the
// cheapest counts that are left are filled, or shown to be impossible too, until the cheapest of them are those of the
// best nest.

export interface Found {
  readonly fills: readonly Fill[]
  /** No nest costs less, in the unit of the pricing. */
  readonly bound: number
  /** Shares of all nests that each cost at least the bound; together they are all. */
  readonly leaves: readonly Leaf[]
  /** Of the whole in one piece. */
  readonly first: Leaf
  /** What a search of the same pieces by another pricing can begin with. */
  readonly learned: Learned
}

export interface Learned {
  readonly pool: Pool
  /** Worth of one piece per item. */
  readonly worth: readonly number[]
  readonly cuts: readonly Cut[]
}

/** Counts of sticks that the relaxed problem does not rule out. */
interface Aim extends Counts {
  readonly box: Box
  readonly relaxed: Relaxed
  /** Tries to fill them that were in vain. */
  tries: number
}

/** Dives for the same counts of sticks, one after the other. */
const manners: readonly Manner[] = [
  { rank: 0, choices: 2, loose: 0, deadEnds: 8 },
  { rank: 1, choices: 3, loose: 6, deadEnds: 60 },
  { rank: 2, choices: 4, loose: 12, deadEnds: 120 },
  { rank: 0, choices: 6, loose: 0, deadEnds: 1000 },
  { rank: 0, choices: 6, loose: 20, deadEnds: 500 },
  { rank: 1, choices: 4, loose: 40, deadEnds: 500 },
]

/** The dive that comes first for any counts: mostly others must be tried. */
const firstManner: Manner = { rank: 0, choices: 2, loose: 0, deadEnds: 2 }

/** Dives before the solver for whole numbers is asked: it has to be loaded first. */
const divesBeforeWhole = 2

/** Rounds of value correction: at the first prices, before dives for counts, and before the first of these. */
const quickRounds = 20
const fewRounds = 5

/** Rounds by the worth of bare lengths, before anything else. */
const bareRounds = 12

/** Share of the dearest stick that counts must lack to be ruled out: less of it would be no proof in whole numbers. */
const clearly = 1e-4

/** Counts that are looked at together, the cheapest of all. */
const mostCounts = 20

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
  const scale = dearest(pricing)
  const box = wholeBox(model)
  const cuts: Cut[] = [...(learned?.cuts ?? [])]
  let fills = known
  // Without a nest of all pieces there is nothing to stay below.
  let cost = complete ? costOf(known, pricing) : Number.MAX_SAFE_INTEGER
  let worth = learned?.worth ?? []

  const open = (): readonly Counts[] | undefined => cheapestCounts(cuts, pricing, box, cost, mostCounts)
  /** No nest costs less, by the cuts. */
  const boundNow = (): number => {
    const counts = open()
    return counts ? (counts[0]?.cost ?? cost) : firstLeaf().cost
  }
  const take = (better: readonly Fill[]): void => {
    fills = better
    cost = costOf(better, pricing)
    report(fills, Math.min(cost, boundNow()))
  }
  /** What prices say of the counts, kept; undefined when the work was over first. */
  const cutBy = ({ worth, richest }: Pick<Relaxed, 'worth' | 'richest'>): Cut | undefined => {
    const expected = richest.map((value) => (Number.isFinite(value) ? Math.max(0, value) : 0))
    const cut = cutOf(bounds, demand, worth, expected, work)
    if (cut) cuts.push(cut)
    return cut
  }
  const corrected = (
    relaxed: Relaxed,
    there: Box,
    rounds: number,
    bound: number,
    manner: 'most' | 'any' = 'most',
  ) => {
    const task: Task = { model, pricing, demand, box: there, hint: relaxed.worth }
    while (bound < cost) {
      const better = correct(task, relaxed, cost, rounds, work, manner)
      if (!better) break
      take(better)
    }
  }
  const done = (least: number): Found => {
    const first = firstLeaf()
    const leaves =
      first.cost >= least ? [first] : (leavesOf(bounds, problem, pricing, box, cuts, least) ?? [first])
    const bound = Math.min(cost, ...leaves.map((leaf) => leaf.cost))
    return { fills, bound, leaves, first, learned: { pool, worth, cuts } }
  }
  /** The best that one cut proves by itself. */
  const firstLeaf = (): Leaf => {
    const looked = cuts.map((cut) => lookAt(bounds, problem, pricing, box, cut, cost))
    const best = looked.toSorted((a, b) => b.bound - a.bound)[0]
    return leafOf(bounds, problem, pricing, box, best, cost)
  }

  if (!learned) {
    // Where little is wasted the worth of the bare lengths is proof enough, and filling sticks by it comes down to it.
    const even = evenPrices({ model, pricing, demand, box })
    const bare: Relaxed = { ...even, cost: even.bound, used: [], missing: 0 }
    if (!cutBy(even)) return undefined
    const bareBound = boundNow()
    if (wasteBelow({ model, pricing, demand }, bareBound + unit) > 0)
      corrected(bare, box, bareRounds, bareBound, 'any')
    worth = even.worth
  }
  if (open()?.length === 0) return done(cost)
  for (const { kind, counts } of fills) addPattern(pool, kind, counts)

  const relaxation = openRelaxation(
    { model, pricing, demand, box, ...(learned && { hint: learned.worth }) },
    pool,
  )
  let root: Relaxed | undefined
  if (!learned) {
    // A bound counts as the next sum of prices, and none need reach past the best nest.
    const rounded = (bound: number) => leastCostFrom(Math.ceil(bound - unit * wholeSlack), pricing, cost)
    root = relaxation.solve(work, (bound, most) => {
      const told = rounded(bound)
      return told < cost && told < rounded(most)
    })
    if (!root) return undefined
    // Not even fractions of all sticks hold every piece: nothing to prove, the caller says what is left out.
    if (root.missing > wholeSlack) return undefined
    if (!cutBy(root)) return undefined
    worth = root.worth
  }
  const paid = [...model.kinds.keys()].filter((kind) => pricing[kind]! > 0)
  const pivot = paid.reduce((a, b) => (a >= 0 && model.kinds[a]!.count >= model.kinds[b]!.count ? a : b), -1)

  const aims = new Map<string, Aim>()
  /** The aim of these counts; undefined where they are ruled out by a new cut, or when the work is over. */
  const aimAt = ({ cost: aimed, sticks }: Counts): Aim | undefined => {
    const name = sticks.join()
    const there = aims.get(name)
    if (there) return there
    // With one kind the cost limits the count already.
    const own: Box = model.kinds.length === 1 ? box : { least: box.least, most: sticks }
    if (root && paid.length < 2) {
      const aim: Aim = { cost: aimed, sticks, box: own, relaxed: root, tries: 0 }
      aims.set(name, aim)
      return aim
    }
    // All counts but one as they are to be: how many of that one are needed says whether they can hold the pieces.
    relaxation.move({
      least: sticks.map((count, kind) => (kind === pivot || pricing[kind] === 0 ? 0 : count)),
      most: sticks.map((count, kind) => (kind === pivot ? box.most[kind]! : count)),
    })
    const tooMuch = aimed + clearly * scale
    const telling: WorthTelling = (bound, most) => bound <= tooMuch && most > aimed + wholeSlack
    const relaxed = relaxation.solve(work, telling)
    if (!relaxed) return undefined
    if (relaxed.missing > wholeSlack || relaxed.cost * scale > tooMuch) {
      const cut = cutBy(relaxed)
      if (!cut || !keeps(cut, sticks)) return undefined
    }
    const aim: Aim = { cost: aimed, sticks, box: own, relaxed, tries: 0 }
    aims.set(name, aim)
    return aim
  }
  const dived = (aim: Aim, manner: Manner): void => {
    if (work.over || aim.cost >= cost) return
    const task: Task = { model, pricing, demand, box: aim.box, hint: aim.relaxed.worth }
    // Begun anew: an answer of long standing lies in a corner that few dives come down from.
    const anew = openRelaxation(task, pool)
    const relaxed = anew.solve(work)
    const better =
      relaxed && within(work, work.left / 2, (part) => dive(task, anew, relaxed, cost, manner, part))
    if (better) take(better)
  }
  let solver: WholeSolver | 'not asked' | undefined = 'not asked'
  function* filled(aim: Aim, what: 'aim alone' | 'any better'): Asking<void> {
    if (work.over || aim.cost >= cost) return
    if (solver === 'not asked') solver = yield
    if (!solver) return
    const task: Task = { model, pricing, demand, box: aim.box, hint: aim.relaxed.worth }
    const relaxed = paid.length < 2 ? aim.relaxed : relax(task, pool, work)
    if (!relaxed) return
    // First for the bound itself: that takes the fewest patterns.
    const better =
      wholeNest(task, relaxed, Math.min(cost, aim.cost + unit), solver, work, pool) ??
      (what === 'any better' && aim.cost + unit < cost
        ? wholeNest(task, relaxed, cost, solver, work, pool)
        : undefined)
    if (better && costOf(better, pricing) < cost) take(better)
  }

  while (!work.over) {
    const counts = open()
    if (!counts || counts.length === 0) break
    // Each is tried lightly once; then the cheapest must be filled, or nothing is proved.
    const tries = ({ sticks }: Counts) => aims.get(sticks.join())?.tries ?? 0
    const next =
      counts.find((each) => tries(each) === 0) ?? counts.find((each) => tries(each) <= manners.length + 1)
    if (!next) break
    const aim = aimAt(next)
    if (!aim) continue
    const { tries: before } = aim
    aim.tries += 1
    if (before === 0) {
      const least = boundNow()
      // Where nothing may be wasted, dives hardly ever end well, and the solver is quick.
      if (wasteBelow({ model, pricing, demand }, aim.cost + unit) === 0) yield* filled(aim, 'aim alone')
      corrected(aim.relaxed, aim.box, paid.length < 2 ? quickRounds : fewRounds, least)
      dived(aim, firstManner)
      continue
    }
    if (before === 1) corrected(aim.relaxed, aim.box, quickRounds, aim.cost)
    if (before === divesBeforeWhole + 1) yield* filled(aim, 'any better')
    else dived(aim, manners[before <= divesBeforeWhole ? before - 1 : before - 2]!)
  }
  return done(boundNow())
}
