import type { NestProblem } from '../core/nest.ts'
import { wholeSlack } from '../core/tolerance.ts'
import { isCounted, type Leaf, leafOf, type Sized } from './certify.ts'
import type { Box, Cut } from './counts.ts'
import type { Model } from './model.ts'

// All counts of sticks parted into boxes, each of which costs enough by one cut, or by its least counts alone: the leaves
// of a proof.

/** Most leaves; the judge looks at every one. */
const mostLeaves = 400

/** A stick's worth in prices at the most, where what a box lacks is made to cost as much as is asked. */
const mostUnits = 100_000

interface Looked extends Sized {
  /** Cost of the box at the least. */
  readonly bound: number
  /** The kind of which a part of a stick is used at that cost; −1: none. */
  readonly kind: number
  readonly count: number
}

/**
 * Leaves that show together that no nest costs less than `cost`, where the cuts say so for all counts of sticks. Undefined
 * where they do not, or where it takes too many.
 */
export function leavesOf(
  model: Model,
  problem: NestProblem,
  pricing: readonly number[],
  box: Box,
  cuts: readonly Cut[],
  cost: number,
): Leaf[] | undefined {
  const leaves: Leaf[] = []
  const close = (within: Box, sized?: Sized): boolean => {
    const leaf = leafOf(model, problem, pricing, within, sized, cost)
    if (leaf.cost < cost) return false
    leaves.push(leaf)
    return true
  }
  const go = (within: Box): boolean => {
    if (leaves.length >= mostLeaves) return false
    const paid = within.least.reduce((sum, count, kind) => sum + count * pricing[kind]!, 0)
    if (paid >= cost && close(within)) return true
    const looked = cuts.map((cut) => lookAt(model, problem, pricing, within, cut, cost))
    const best = looked.reduce<Looked | undefined>((a, b) => (a && a.bound >= b.bound ? a : b), undefined)
    if (best && close(within, best)) return true
    const halves = parted(within, best)
    return halves?.every(go) ?? false
  }
  return go(box) ? leaves : undefined
}

/** The best bound of a cut on the box, over all units: where some kind costs just what it is worth, or past all costs. */
export function lookAt(
  model: Model,
  problem: NestProblem,
  pricing: readonly number[],
  { least, most }: Box,
  cut: Cut,
  cost: number,
): Looked {
  const endless = (kind: number) =>
    most[kind]! >= model.kinds[kind]!.count && !isCounted(problem, model.kinds[kind]!.stock)
  const units = pricing.map((price, kind) =>
    cut.most[kind]! > 0 ? price / cut.most[kind]! : Number.POSITIVE_INFINITY,
  )
  const upTo = Math.min(...units.filter((_, kind) => endless(kind)))
  let best: Looked = {
    cut,
    by: 0,
    bound: least.reduce((sum, count, kind) => sum + count * pricing[kind]!, 0),
    kind: -1,
    count: 0,
  }
  const at = (by: number): number =>
    pricing.reduce((sum, price, kind) => {
      const spare = price - by * cut.most[kind]!
      return sum + spare * (spare < 0 ? most[kind]! : least[kind]!)
    }, by * cut.sum)
  for (const [kind, by] of units.entries()) {
    if (!(by <= upTo) || !Number.isFinite(by)) continue
    const bound = at(by)
    if (bound <= best.bound) continue
    best = { cut, by, bound, kind, count: 0 }
  }
  if (best.kind >= 0) {
    const { by, kind } = best
    const others = cut.most.reduce((sum, worth, other) => {
      const spare = pricing[other]! - by * worth
      return other === kind ? sum : sum + worth * (spare < 0 ? most[other]! : least[other]!)
    }, 0)
    best = { ...best, count: (cut.sum - others) / cut.most[kind]! }
  }
  // All sticks of the box together hold too little: each unit of that may cost what it likes.
  const lacks = cut.sum - cut.most.reduce((sum, worth, kind) => sum + worth * most[kind]!, 0)
  if (upTo === Number.POSITIVE_INFINITY && lacks > 0) {
    // By doublings, so that boxes share their worths: the judge then looks at each of them once.
    let by = Math.max(...units.filter(Number.isFinite))
    while (at(by) < cost && by * lacks < 2 * cost) by *= 2
    const perStick = (by * Math.max(...cut.most)) / Math.max(1, ...pricing)
    if (perStick <= mostUnits && at(by) > best.bound) best = { cut, by, bound: at(by), kind: -1, count: 0 }
  }
  return best
}

/** The box in two: beside the part of a stick, or through the middle of the widest side. */
function parted({ least, most }: Box, best: Looked | undefined): readonly [Box, Box] | undefined {
  let kind = best?.kind ?? -1
  let atMost = Math.floor((best?.count ?? 0) + wholeSlack)
  const part = (best?.count ?? 0) - atMost
  if (kind < 0 || part < wholeSlack || atMost < least[kind]! || atMost >= most[kind]!) {
    kind = most.reduce(
      (widest, count, at) => (count - least[at]! > most[widest]! - least[widest]! ? at : widest),
      0,
    )
    if (most[kind]! <= least[kind]!) return undefined
    atMost = Math.floor((least[kind]! + most[kind]!) / 2)
  }
  return [
    { least, most: most.with(kind, atMost) },
    { least: least.with(kind, atMost + 1), most },
  ]
}
