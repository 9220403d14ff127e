import type { Certificate, CertificateLeaf } from '../core/check/certificate.ts'
import { leastCostFrom } from '../core/check/stick-sums.ts'
import type { NestProblem } from '../core/nest.ts'
import { openPatterns } from './best-pattern.ts'
import { countOf, dearest } from './model.ts'
import type { Box, Relaxed, Task } from './relax.ts'
import type { Work } from './work.ts'

// From the floating-point prices of a relaxed problem to whole ones that hold exactly, so that rounding or an early
// stop makes a bound weaker and never wrong.

export interface Leaf extends CertificateLeaf {
  /** No nest within the leaf's box costs less; in the unit of the pricing, rounded up to a sum that can be. */
  readonly cost: number
}

/** Worth of the dearest stick in units of the certificate: fine enough, and far below where doubles go coarse. */
const finest = 1e11

/** Whole units of the certificate per unit of cost: a power of ten, so that people can read it. */
export const scaleOf = (pricing: readonly number[]): number =>
  10 ** Math.max(0, Math.floor(Math.log10(finest / dearest(pricing))))

/**
 * Whole prices from a relaxed task: `most` is the cost of the best known nest, past which no bound need go.
 * Undefined when the work was over before the prices were known to hold.
 */
export function certify(
  task: Task,
  problem: NestProblem,
  relaxed: Relaxed,
  most: number,
  work: Work,
): Leaf | undefined {
  const { model, pricing, box } = task
  const scale = scaleOf(pricing)
  const dear = dearest(pricing)
  let worth = relaxed.worth.map((value) => Math.floor(value * dear * scale))
  // What a stick's pieces may be worth: its price less what the box's limits on its kind are worth.
  for (let round = 0; round < 20; round += 1) {
    const limits: number[] = []
    let shrink = 1
    const best = openPatterns(task, task.demand, worth, work)
    for (const kind of model.kinds.keys()) {
      const price = pricing[kind]! * scale
      const aim = Math.max(0, Math.round(price - relaxed.kindWorth[kind]! * dear * scale))
      const bounded = box.least[kind]! > 0 || isLimited(task, problem, kind)
      const limit = bounded ? (box.least[kind]! > 0 ? aim : Math.max(price, aim)) : price
      const over = best(kind, limit)
      if (work.over) return undefined
      if (!over) limits[kind] = limit
      else if (bounded && (over.value <= price || isLimited(task, problem, kind))) limits[kind] = over.value
      else shrink = Math.min(shrink, limit / over.value)
    }
    if (shrink === 1) return leafOf(task, problem, worth, limits, most)
    worth = worth.map((value) => Math.floor(value * shrink * (1 - 1e-12)))
  }
  return undefined
}

const isLimited = ({ model, box }: Task, problem: NestProblem, kind: number): boolean =>
  countOf(problem.stock[model.kinds[kind]!.stock]!) !== undefined ||
  box.most[kind]! < model.kinds[kind]!.count

function leafOf(
  { model, pricing, box }: Task,
  problem: NestProblem,
  worth: readonly number[],
  limits: readonly number[],
  most: number,
): Leaf {
  const scale = scaleOf(pricing)
  const duals = problem.parts.map(() => 0)
  for (const [item, { parts, together }] of model.items.entries()) {
    // What is together worth something is worth it by one part of it: by the one that is there least often.
    const least = together?.indexOf(Math.min(...together)) ?? 0
    if (together) duals[parts[least]!] = Math.floor(worth[item]! / together[least]!)
    else for (const part of parts) duals[part] = worth[item]!
  }
  const stockDuals = problem.stock.map(() => 0)
  const branch: CertificateLeaf['branch'][number][] = []
  const branchDuals: number[] = []
  for (const [kind, { stock, count }] of model.kinds.entries()) {
    // Above 0: each stick of this kind costs more than its pieces are worth, and some must be used.
    const spare = pricing[kind]! * scale - (limits[kind] ?? pricing[kind]! * scale)
    const narrowed = box.most[kind]! < count
    if (narrowed) {
      branch.push({ stock, atMost: box.most[kind]! })
      branchDuals.push(Math.min(0, spare))
    } else stockDuals[stock] = Math.min(0, spare)
    if (box.least[kind]! > 0) {
      branch.push({ stock, atLeast: box.least[kind]! })
      branchDuals.push(Math.max(0, spare))
    }
  }
  const leaf: CertificateLeaf = { branch, duals, stockDuals, branchDuals }
  return { ...leaf, cost: costFrom(problem, leaf, scale, pricing, most) }
}

function costFrom(
  problem: NestProblem,
  leaf: CertificateLeaf,
  scale: number,
  pricing: readonly number[],
  most: number,
): number {
  let sum = 0n
  for (const [part, dual] of leaf.duals.entries()) sum += BigInt(dual) * BigInt(problem.parts[part]!.count)
  for (const [stock, dual] of leaf.stockDuals.entries())
    if (dual !== 0) sum += BigInt(dual) * BigInt(countOf(problem.stock[stock]!)!)
  for (const [at, bound] of leaf.branch.entries())
    sum += BigInt(leaf.branchDuals[at]!) * BigInt('atMost' in bound ? bound.atMost : bound.atLeast)
  const per = BigInt(scale)
  const least = sum <= 0n ? 0 : Number((sum + per - 1n) / per)
  return leastCostFrom(Math.min(least, most), pricing, most)
}

export const certificateOf = (leaves: readonly Leaf[], pricing: readonly number[]): Certificate => ({
  scale: scaleOf(pricing),
  leaves: leaves.map(({ branch, duals, stockDuals, branchDuals }) => ({
    branch,
    duals,
    stockDuals,
    branchDuals,
  })),
})

/** The box that a leaf of this task speaks of. */
export const narrower = (box: Box, kind: number, limit: { atMost: number } | { atLeast: number }): Box =>
  'atMost' in limit
    ? { ...box, most: box.most.with(kind, Math.min(box.most[kind]!, limit.atMost)) }
    : { ...box, least: box.least.with(kind, Math.max(box.least[kind]!, limit.atLeast)) }
