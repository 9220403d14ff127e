import type { NestProblem, StockLength } from '../nest.ts'
import { measuresOf } from './measure.ts'
import { leastCostFrom } from './stick-sums.ts'
import { type Work, worthMoreThan } from './worth.ts'

/** How many sticks of one kind of stock a leaf speaks of: at most, or at least. */
export type StockBranch =
  | { readonly stock: number; readonly atMost: number }
  | { readonly stock: number; readonly atLeast: number }

/** Prices for one share of all nests. All duals are whole numbers, in units of cost / scale. */
export interface CertificateLeaf {
  /** The nests that this leaf speaks of; empty: all. Together the leaves must speak of all. */
  readonly branch: readonly StockBranch[]
  /** Worth of one piece, per part of the problem. */
  readonly duals: readonly number[]
  /** At most 0, and 0 for stock without a count: what one more stick of that kind would save. */
  readonly stockDuals: readonly number[]
  /** One per branch: at most 0 for `atMost`, at least 0 for `atLeast`. */
  readonly branchDuals: readonly number[]
}

/** Why no nest costs less than a certain sum: anybody can check it without the solver. */
export interface Certificate {
  readonly scale: number
  readonly leaves: readonly CertificateLeaf[]
}

/** What the search for a stick worth too much may look at; past it the answer is "not checked", never "holds". */
const mostStates = 4_000_000

const notChecked = (why: string) => ({ faults: [`not checked: ${why}`] })

/**
 * Whether the certificate proves that no nest of the problem costs less than `cost`.
 *
 * `pricing` is the cost of one stick per stock kind, in whole cents or whole steps of length, `cost` in the same unit.
 * For every leaf: a stick's pieces are together never worth more than its price less its own dual (found by an exact
 * knapsack), so that every nest costs at least Σ duals · count + Σ stockDuals · count + Σ branchDuals ·
 * branch over scale; that, rounded up to a sum of prices that can be, must reach `cost`. What a
 * piece takes of a stick is rounded down, what a stick gives is rounded up, and no order of pieces undercuts it.
 *
 * Where half sticks are paid in pairs, two for each one begun, a nest costs no less than its halves by themselves, and
 * what it costs is a sum of whole pairs: the bound by single halves goes up to the next such sum.
 * Weak duality of linear programming: any textbook on it, for example its chapter on cutting stock.
 */
export function checkCertificate(
  problem: NestProblem,
  certificate: Certificate,
  cost: number,
  pricing: readonly number[],
  paid: 'one by one' | 'in pairs' = 'one by one',
): 'holds' | { readonly faults: readonly string[] } {
  const faults = shapeFaults(problem, certificate, cost, pricing)
  if (faults.length > 0) return { faults }
  if (!coversAll(certificate.leaves, problem.stock)) return { faults: ['the leaves do not cover every nest'] }
  const work: Work = { states: mostStates }
  const sums =
    paid === 'in pairs' ? pricing.map((price, at) => price * (pairs(problem.stock[at]!) ? 2 : 1)) : pricing
  const measures = measuresOf(problem)
  const held = new Map<string, bigint>()
  for (const [index, leaf] of certificate.leaves.entries()) {
    const which = certificate.leaves.length > 1 ? `leaf ${index + 1}: ` : ''
    const sum = leafSum(problem, leaf)
    if (sum <= BigInt(certificate.scale) * BigInt(cost - 1)) {
      const reached = leastCostFrom(Math.max(0, ceilingOf(sum, certificate.scale)), sums, cost)
      if (reached < cost)
        return { faults: [`${which}the duals prove a cost of ${reached} only, not of ${cost}`] }
    }
    for (const [stock, kind] of problem.stock.entries()) {
      const limit = stickLimit(certificate.scale, leaf, stock, pricing[stock] as number)
      // Many leaves have the same duals: a stick that held to a limit holds to any higher one.
      const name = `${stock} ${leaf.duals.join()}`
      const least = held.get(name)
      if (least !== undefined && limit >= least) continue
      const answer = worthMoreThan(problem, stock, leaf.duals, limit, measures, work)
      if (answer === 'not checked')
        return notChecked(`the search over the sticks of ${kind.length} mm grew past ${mostStates} states`)
      if (answer) return { faults: [`${which}a stick of ${kind.length} mm can hold ${answer}`] }
      held.set(name, limit)
    }
  }
  return 'holds'
}

const pairs = ({ halfOf }: StockLength): boolean => halfOf !== undefined

function ceilingOf(sum: bigint, scale: number): number {
  const whole = sum / BigInt(scale)
  return Number(sum > 0n && sum % BigInt(scale) !== 0n ? whole + 1n : whole)
}

function shapeFaults(
  problem: NestProblem,
  { scale, leaves }: Certificate,
  cost: number,
  pricing: readonly number[],
): string[] {
  const faults: string[] = []
  const whole = (value: number | undefined) => value !== undefined && Number.isSafeInteger(value)
  if (!whole(scale) || scale < 1) faults.push(`the scale is ${scale}; it must be a whole number from 1 on`)
  if (!whole(cost) || cost < 0)
    faults.push(`the cost is ${cost}; it must be whole, in the unit of the prices`)
  if (pricing.length !== problem.stock.length || !pricing.every((price) => whole(price) && price >= 0))
    faults.push(`one whole price from 0 on is needed for each of the ${problem.stock.length} kinds of stock`)
  if (leaves.length === 0) faults.push('the certificate has no leaf')
  for (const { branch, duals, stockDuals, branchDuals } of leaves) {
    if (duals.length !== problem.parts.length || !duals.every(whole))
      faults.push(`one whole dual is needed for each of the ${problem.parts.length} parts`)
    if (stockDuals.length !== problem.stock.length || !stockDuals.every((dual) => whole(dual) && dual <= 0))
      faults.push(`one whole dual of at most 0 is needed for each kind of stock`)
    for (const [stock, dual] of stockDuals.entries())
      if (dual < 0 && problem.stock[stock]?.count === undefined)
        faults.push(`stock ${stock} has no count, so its dual must be 0, not ${dual}`)
    if (branchDuals.length !== branch.length || !branchDuals.every(whole))
      faults.push('one whole dual is needed for each branch')
    for (const [index, bound] of branch.entries()) {
      const limit = 'atMost' in bound ? bound.atMost : bound.atLeast
      const dual = branchDuals[index] ?? 0
      if (!problem.stock[bound.stock] || !whole(limit) || limit < 0)
        faults.push(`branch ${index + 1} names no kind of stock, or no whole count of it`)
      if ('atMost' in bound ? dual > 0 : dual < 0)
        faults.push(`the dual of branch ${index + 1} has the wrong sign`)
    }
  }
  return faults
}

function leafSum({ parts, stock }: NestProblem, leaf: CertificateLeaf): bigint {
  let sum = 0n
  for (const [part, dual] of leaf.duals.entries()) sum += BigInt(dual) * BigInt(parts[part]!.count)
  for (const [kind, dual] of leaf.stockDuals.entries()) sum += BigInt(dual) * BigInt(stock[kind]!.count ?? 0)
  for (const [index, bound] of leaf.branch.entries())
    sum += BigInt(leaf.branchDuals[index]!) * BigInt('atMost' in bound ? bound.atMost : bound.atLeast)
  return sum
}

/** What the pieces of one stick may be worth together. */
function stickLimit(scale: number, leaf: CertificateLeaf, stock: number, price: number): bigint {
  let limit = BigInt(scale) * BigInt(price) - BigInt(leaf.stockDuals[stock]!)
  for (const [index, bound] of leaf.branch.entries())
    if (bound.stock === stock) limit -= BigInt(leaf.branchDuals[index]!)
  return limit
}

/** Every nest uses some count of each kind of stock; whether each such row of counts lies in a leaf. */
function coversAll(leaves: readonly CertificateLeaf[], stock: readonly StockLength[]): boolean {
  interface Box {
    readonly least: readonly number[]
    readonly most: readonly number[]
  }
  const boxes = leaves.map(({ branch }): Box => {
    const least = stock.map(() => 0)
    const most = stock.map(({ count }) => count ?? Number.POSITIVE_INFINITY)
    for (const bound of branch)
      if ('atMost' in bound) most[bound.stock] = Math.min(most[bound.stock]!, bound.atMost)
      else least[bound.stock] = Math.max(least[bound.stock]!, bound.atLeast)
    return { least, most }
  })
  const covered = (room: Box): boolean => {
    if (room.least.some((least, kind) => least > room.most[kind]!)) return true
    const meeting = boxes.find((box) =>
      box.least.every(
        (least, kind) => Math.max(least, room.least[kind]!) <= Math.min(box.most[kind]!, room.most[kind]!),
      ),
    )
    if (!meeting) return false
    // Where the leaf's edge crosses the room, both sides of it must be covered; the side within gets ever smaller.
    for (const kind of stock.keys()) {
      const [least, most] = [meeting.least[kind]!, meeting.most[kind]!]
      if (room.least[kind]! < least)
        return (
          covered({ ...room, most: room.most.with(kind, least - 1) }) &&
          covered({ ...room, least: room.least.with(kind, least) })
        )
      if (room.most[kind]! > most)
        return (
          covered({ ...room, least: room.least.with(kind, most + 1) }) &&
          covered({ ...room, most: room.most.with(kind, most) })
        )
    }
    return true
  }
  return covered({
    least: stock.map(() => 0),
    most: stock.map(({ count }) => count ?? Number.POSITIVE_INFINITY),
  })
}
