import type { Certificate } from '../core/check/certificate.ts'
import type { NestProblem } from '../core/nest.ts'
import { branch, type Found, type Learned } from './branch.ts'
import { certificateOf, type Leaf } from './certify.ts'
import { greedyFills } from './first-fit.ts'
import { boundModelOf, compare, costOf, type Fill, type Model, missingOf, sticksOf } from './model.ts'
import { gatherRemains } from './remains.ts'
import { fewPieces, searchAll } from './search-all.ts'
import { fewestAtCost } from './sticks.ts'
import { type Asking, answered } from './whole.ts'
import { shareOf, type Work, within } from './work.ts'

/** Why no nest costs less than `cost`, in the unit of `pricing`. */
export interface Proof {
  readonly pricing: readonly number[]
  readonly cost: number
  readonly certificate: Certificate
}

export interface Searched {
  readonly fills: readonly Fill[]
  /** Pieces per item that found no room. */
  readonly missing: readonly number[]
  /** For cost; absent when the work was over before there was any. */
  readonly proof?: Proof
  /** A lower bound with a proof in one piece, for where the judge finds the other too long. */
  readonly firstProof?: Proof
  /** Sums of prices alone say that no nest of this cost has fewer sticks. */
  readonly fewestByCount: boolean
  /** For sticks at that cost, by a pricing in which both count. */
  readonly sticksProof?: Proof
}

/** Share of the work that the search for least cost may use, so that sticks and remains get their turn. */
const costShare = 0.7

/** Share of what is then left for proving the fewest sticks at that cost: it saves no steel. */
const sticksShare = 0.3

/**
 * Least cost, then fewest sticks, then one long drop: first fit, then branching over relaxed answers, then, where few
 * pieces leave the question open, every way there is. `report` hears of each better nest; it yields where it
 * asks for a solver of whole numbers.
 */
export function* search(
  model: Model,
  problem: NestProblem,
  work: Work,
  report: (fills: readonly Fill[], bound: number) => void,
): Asking<Searched> {
  const pricing = model.kinds.map(({ price }) => price)
  const demand = model.items.map(({ count }) => count)
  const available = model.kinds.map(({ count }) => count)
  let fills: readonly Fill[] = greedyFills(model, demand, available, pricing)
  const bound = (found?: Found) => found?.bound ?? 0
  const complete = () => missingOf(model, fills).every((count) => count === 0)
  const consider = (other: readonly Fill[], least: number) => {
    if (compare(model, other, fills) >= 0) return
    fills = other
    if (complete()) report(fills, least)
  }
  if (complete()) report(fills, 0)

  const share = shareOf(work, work.left * costShare)
  const cheap = yield* branch({ model, problem, pricing }, fills, complete(), share.work, consider)
  share.close()
  if (model.pieces <= fewPieces && !(cheap && complete() && costOf(fills, pricing) <= cheap.bound))
    everyWay(model, fills, complete(), work, (other) => consider(other, bound(cheap)))

  const proof = cheap && proofOf(pricing, cheap.leaves, cheap.bound)
  const firstProof = cheap && cheap.leaves.length > 1 && proofOf(pricing, [cheap.first], cheap.first.cost)
  // Where the sums of prices alone say that no fewer sticks come to this cost, there is nothing to search.
  const counted = complete() ? fewestAtCost(boundModelOf(problem, model), costOf(fills, pricing)) : undefined
  const sticks =
    complete() && counted !== sticksOf(fills)
      ? within(work, work.left * sticksShare, (part) =>
          fewest(model, problem, fills, part, consider, cheap?.learned),
        )
      : undefined
  if (sticks) consider(sticks.fills, bound(cheap))
  if (complete() && model.square) fills = gatherRemains(model, fills, work)
  return {
    fills,
    missing: missingOf(model, fills),
    fewestByCount: complete() && counted === sticksOf(fills),
    ...(proof && { proof }),
    ...(firstProof && { firstProof }),
    ...(sticks && { sticksProof: sticks.proof }),
  }
}

const proofOf = (pricing: readonly number[], leaves: readonly Leaf[], cost: number): Proof => ({
  pricing,
  cost,
  certificate: certificateOf(leaves, pricing),
})

function everyWay(
  model: Model,
  fills: readonly Fill[],
  complete: boolean,
  work: Work,
  take: (fills: readonly Fill[]) => void,
): void {
  const below = complete
    ? {
        cost: costOf(
          fills,
          model.kinds.map(({ price }) => price),
        ),
        sticks: sticksOf(fills),
      }
    : { cost: Number.MAX_SAFE_INTEGER, sticks: 0 }
  const better = within(work, work.left / 2, (part) => searchAll(model, below, part))
  if (better) take(better)
}

/**
 * The same cost on fewer sticks, with its proof. With one price per stick the cost says it all; else one stick more is
 * made to cost a little, less than any difference in money: prices are brought to their least whole numbers and then
 * multiplied by the number of sticks.
 */
function fewest(
  model: Model,
  problem: NestProblem,
  known: readonly Fill[],
  work: Work,
  consider: (fills: readonly Fill[], bound: number) => void,
  learned: Learned | undefined,
): { readonly fills: readonly Fill[]; readonly proof: Proof } | undefined {
  const prices = model.kinds.map(({ price }) => price)
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b))
  const unit = prices.reduce(divisor, 0) || 1
  const sticks = sticksOf(known)
  const pricing = prices.map((price) => (price / unit) * sticks + 1)
  const take = (fills: readonly Fill[]) => consider(fills, 0)
  const found = answered(branch({ model, problem, pricing }, known, true, work, take, learned))
  return (
    found && {
      fills: found.fills,
      proof: proofOf(pricing, found.leaves, found.bound),
    }
  )
}
