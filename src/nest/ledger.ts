import type { NestProblem } from '../core/nest.ts'
import { cutOf, type Leaf, leafOf } from './certify.ts'
import { type Box, type Counts, type Cut, cheapestCounts } from './counts.ts'
import { leavesOf, lookAt } from './leaves.ts'
import { boundModelOf, type Model } from './model.ts'
import { type Relaxed, wholeBox } from './relax.ts'
import type { Work } from './work.ts'

// All that worths of the pieces have said of the counts of sticks so far, and the proof that this makes.

/** What is to be nested, and what counts as dear: money, or sticks at the same money. */
export interface Question {
  readonly model: Model
  readonly problem: NestProblem
  /** Whole cost per kind. */
  readonly pricing: readonly number[]
}

/** `known` is the cost of the best nest there is: past it no bound need go. */
export interface Ledger {
  readonly cuts: readonly Cut[]
  /** What worths say, noted; undefined when the work was over first. */
  note(said: Pick<Relaxed, 'worth' | 'richest'>, work: Work): Cut | undefined
  /** The cheapest counts that no cut rules out, below `known`; undefined where there are too many to look at. */
  open(known: number): readonly Counts[] | undefined
  /** No nest costs less. */
  bound(known: number): number
  /** The best that one cut proves by itself, of the whole in one piece. */
  firstLeaf(known: number): Leaf
  /** Shares of all nests that each cost at least so much; `first` alone where it says that, or the cuts do not in few. */
  leaves(first: Leaf, least: number): readonly Leaf[]
}

/** Counts that are looked at together, the cheapest of all. */
const mostCounts = 20

export function openLedger({ model, problem, pricing }: Question, learned: readonly Cut[] = []): Ledger {
  const cuts = [...learned]
  const bounds = boundModelOf(problem, model)
  const demand = model.items.map(({ count }) => count)
  const box: Box = wholeBox(model)
  const ledger: Ledger = {
    cuts,
    note({ worth, richest }, work) {
      const expected = richest.map((value) => (Number.isFinite(value) ? Math.max(0, value) : 0))
      const cut = cutOf(bounds, demand, worth, expected, work)
      if (cut) cuts.push(cut)
      return cut
    },
    open: (known) => cheapestCounts(cuts, pricing, box, known, mostCounts),
    bound(known) {
      const counts = ledger.open(known)
      return counts ? (counts[0]?.cost ?? known) : ledger.firstLeaf(known).cost
    },
    firstLeaf(known) {
      const looked = cuts.map((cut) => lookAt(bounds, problem, pricing, box, cut, known))
      const best = looked.toSorted((a, b) => b.bound - a.bound)[0]
      return leafOf(bounds, problem, pricing, box, best, known)
    },
    leaves: (first, least) =>
      (first.cost < least && leavesOf(bounds, problem, pricing, box, cuts, least)) || [first],
  }
  return ledger
}
