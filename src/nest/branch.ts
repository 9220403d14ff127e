import { leastCostFrom } from '../core/check/stick-sums.ts'
import { wholeSlack } from '../core/tolerance.ts'
import { type Aim, nameOf, openAims } from './aims.ts'
import type { Leaf } from './certify.ts'
import type { Counts, Cut } from './counts.ts'
import type { Manner } from './dive.ts'
import { evenPrices } from './even-prices.ts'
import { openLedger, type Question } from './ledger.ts'
import { commonDivisor, costOf, type Fill } from './model.ts'
import { addPattern, openRelaxation, type Pool, type Relaxed, wholeBox } from './relax.ts'
import { type Best, openTries } from './tries.ts'
import { type Asking, wasteBelow } from './whole.ts'
import type { Work } from './work.ts'

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

/** Rounds of value correction: for counts where there is one kind or they must be filled, and where they are many. */
const quickRounds = 20
const fewRounds = 5

/** Rounds by the worth of bare lengths, before anything else. */
const bareRounds = 12

/**
 * Searches from a known nest on; `complete`: it holds all pieces. `report` hears of every better nest. Undefined when not
 * even the first bound came before the work was over.
 */
export function* branch(
  question: Question,
  known: readonly Fill[],
  complete: boolean,
  work: Work,
  report: (fills: readonly Fill[], bound: number) => void,
  learned?: Learned,
): Asking<Found | undefined> {
  const { model, pricing } = question
  const task = { model, pricing, demand: model.items.map(({ count }) => count), box: wholeBox(model) }
  const unit = pricing.reduce(commonDivisor, 0)
  const pool: Pool = new Map(learned?.pool)
  const ledger = openLedger(question, learned?.cuts)
  let fills = known
  // Without a nest of all pieces there is nothing to stay below.
  let cost = complete ? costOf(known, pricing) : Number.MAX_SAFE_INTEGER
  const best: Best = {
    get cost() {
      return cost
    },
    get fills() {
      return fills
    },
    take(better) {
      if (!better || costOf(better, pricing) >= cost) return
      fills = better
      cost = costOf(better, pricing)
      report(fills, Math.min(cost, ledger.bound(cost)))
    },
  }
  const tries = openTries(question, pool, best, work)
  const nothingWasted = (below: number): boolean => wasteBelow(task, below) === 0

  let worth = learned?.worth ?? []
  const done = (least: number): Found => {
    const first = ledger.firstLeaf(cost)
    const leaves = ledger.leaves(first, least)
    const bound = Math.min(cost, ...leaves.map((leaf) => leaf.cost))
    return { fills, bound, leaves, first, learned: { pool, worth, cuts: ledger.cuts } }
  }

  if (!learned) {
    // Where little is wasted the worth of the bare lengths is proof enough, and filling sticks by it comes down to it.
    const even = evenPrices(task)
    if (!ledger.note(even, work)) return undefined
    const relaxed: Relaxed = { ...even, cost: even.bound, used: [], missing: 0 }
    const bound = ledger.bound(cost)
    if (!nothingWasted(bound + unit)) tries.correct({ relaxed, box: task.box }, bareRounds, bound, 'any')
    worth = even.worth
  }
  if (ledger.open(cost)?.length === 0) return done(cost)
  for (const { kind, counts } of fills) addPattern(pool, kind, counts)

  const relaxation = openRelaxation({ ...task, ...(learned && { hint: learned.worth }) }, pool)
  let root: Relaxed | undefined
  if (!learned) {
    // A bound counts as the next sum of prices, and none need reach past the best nest.
    const rounded = (bound: number) => leastCostFrom(Math.ceil(bound - unit * wholeSlack), pricing, cost)
    root = relaxation.solve(work, (bound, most) => {
      const told = rounded(bound)
      return told < cost && told < rounded(most)
    })
    // Not even fractions of all sticks hold every piece: nothing to prove, the caller says what is left out.
    if (!root || root.missing > wholeSlack) return undefined
    if (!ledger.note(root, work)) return undefined
    worth = root.worth
  }

  const aims = openAims(question, relaxation, root, ledger)
  const rounds = pricing.filter((price) => price > 0).length < 2 ? quickRounds : fewRounds
  /** One more try at these counts, after so many in vain. */
  function* attempt(aim: Aim, before: number): Asking<void> {
    if (before === 0) {
      const least = ledger.bound(cost)
      // Where nothing may be wasted, dives hardly ever end well, and the solver is quick.
      if (nothingWasted(aim.cost + unit)) yield* tries.solve(aim, 'aim alone')
      tries.correct(aim, rounds, least)
      return tries.dive(aim, firstManner)
    }
    if (before === 1) tries.correct(aim, quickRounds, aim.cost)
    if (before === divesBeforeWhole + 1) yield* tries.solve(aim, 'any better')
    else tries.dive(aim, manners[before <= divesBeforeWhole ? before - 1 : before - 2]!)
  }

  while (!work.over) {
    const counts = ledger.open(cost)
    if (!counts || counts.length === 0) break
    // Each is tried lightly once; then the cheapest must be filled, or nothing is proved.
    const triedAt = (each: Counts): number => aims.known.get(nameOf(each))?.tries ?? 0
    const next =
      counts.find((each) => triedAt(each) === 0) ?? counts.find((each) => triedAt(each) <= manners.length + 1)
    if (!next) break
    const aim = aims.at(next, work)
    if (!aim) continue
    aim.tries += 1
    yield* attempt(aim, aim.tries - 1)
  }
  return done(ledger.bound(cost))
}
