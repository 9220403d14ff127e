import type { Certificate, CertificateLeaf } from '../core/check/certificate.ts'
import { leastCostFrom } from '../core/check/stick-sums.ts'
import type { NestProblem } from '../core/nest.ts'
import { openPatterns } from './best-pattern.ts'
import type { Box, Cut } from './counts.ts'
import { countOf, dearest, type Model } from './model.ts'
import type { Work } from './work.ts'

// From the floating-point prices of a relaxed problem to whole ones that hold exactly, so that rounding or an early
// stop makes a bound weaker and never wrong.

export interface Leaf extends CertificateLeaf {
  /** No nest within the leaf's box costs less; in the unit of the pricing, rounded up to a sum that can be. */
  readonly cost: number
}

/** Worth of the dearest stick in whole units of a cut, and of a certificate: far below where doubles go coarse. */
const finest = 1e11
const fine = 1e10

/** Whole units of the certificate per unit of cost: a power of ten, so that people can read it. */
export const scaleOf = (pricing: readonly number[]): number =>
  10 ** Math.max(0, Math.floor(Math.log10(fine / dearest(pricing))))

/**
 * Whole worths that are as `worth` says (any unit), and what they say of the counts of sticks. `expected` is what the
 * pieces of one stick of each kind should be worth at the most: it is looked for only whether they can be worth more.
 * Undefined when the work was over first.
 */
export function cutOf(
  model: Model,
  demand: readonly number[],
  worth: readonly number[],
  expected: readonly number[],
  work: Work,
): Cut | undefined {
  const unit = Math.max(...worth, ...expected)
  if (!(unit > 0)) return { worth: worth.map(() => 0), sum: 0, most: expected.map(() => 0) }
  const whole = worth.map((value) => Math.max(0, Math.floor((value / unit) * finest)))
  const best = openPatterns({ model }, demand, whole, work)
  const most = expected.map((value, kind) => {
    const limit = Math.max(0, Math.ceil((value / unit) * finest))
    return best(kind, limit)?.value ?? limit
  })
  if (work.over) return undefined
  return { worth: whole, sum: whole.reduce((sum, value, item) => sum + value * demand[item]!, 0), most }
}

/** What each kind may be worth in a leaf: a cut makes one for every unit. */
export interface Sized {
  readonly cut: Cut
  /** Units of cost per unit of the cut. */
  readonly by: number
}

/**
 * The leaf that says what a nest within the box costs at the least: by the worths of a cut, or, without one, by the least
 * counts alone. `most` is past where no bound need go. The cut counts as dearer than its price only where the box or the
 * stock has a limit on that kind.
 */
export function leafOf(
  model: Model,
  problem: NestProblem,
  pricing: readonly number[],
  box: Box,
  sized: Sized | undefined,
  most: number,
): Leaf {
  const scale = scaleOf(pricing)
  const by = (sized?.by ?? 0) * scale
  // Rounded down all of them: the pieces of a stick are then together worth no more than the stick.
  const worth = model.items.map((_, item) => Math.floor((sized?.cut.worth[item] ?? 0) * by))
  const duals = problem.parts.map(() => 0)
  for (const [item, { bundles }] of model.items.entries())
    for (const { pieces } of bundles) {
      // What is together worth something is worth it by one part of it: by the one that is there least often.
      const least = pieces.reduce((one, other) => (other.count < one.count ? other : one))
      duals[least.part] = Math.floor(worth[item]! / least.count)
    }
  const stockDuals = problem.stock.map(() => 0)
  const branch: CertificateLeaf['branch'][number][] = []
  const branchDuals: number[] = []
  for (const [kind, { stock, count }] of model.kinds.entries()) {
    // Above 0: each stick of this kind costs more than its pieces are worth, and some must be used.
    const spare = pricing[kind]! * scale - Math.ceil((sized?.cut.most[kind] ?? 0) * by)
    if (box.most[kind]! < count) {
      branch.push({ stock, atMost: box.most[kind]! })
      branchDuals.push(Math.min(0, spare))
    } else if (isCounted(problem, stock)) stockDuals[stock] = Math.min(0, spare)
    if (box.least[kind]! > 0) {
      branch.push({ stock, atLeast: box.least[kind]! })
      branchDuals.push(Math.max(0, spare))
    }
  }
  const leaf: CertificateLeaf = { branch, duals, stockDuals, branchDuals }
  return { ...leaf, cost: costFrom(problem, leaf, scale, pricing, most) }
}

export const isCounted = ({ stock }: NestProblem, at: number): boolean => countOf(stock[at]!) !== undefined

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
