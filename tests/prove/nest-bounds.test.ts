import { describe, expect, test } from 'vitest'
import { type Certificate, type CertificateLeaf, checkCertificate } from '../../src/core/check/certificate.ts'
import type { NestPart, NestProblem, StockLength, Turning } from '../../src/core/nest.ts'
import { pricingOf } from '../../src/nest/model.ts'
import { solve } from '../../src/nest/solve.ts'
import { asPieces, asShop, leastOfAll } from '../nest/every-plan.ts'
import { drop, mill, mitered, part, problem } from '../nest/stock.ts'
import { type Dice, dice, seed } from './seed.ts'

// No proof says more than is true: against every plan there is, reckoned in plain mm (every-plan.ts), with lengths that
// just fit or just do not, that are no whole steps, with prices in cents, counted stock, a rack of some value, pins.

const pins: readonly (readonly Turning[])[] = [
  ['none', 'over', 'end', 'flip'],
  ['none'],
  ['none', 'over'],
  ['none', 'end'],
  ['none', 'flip'],
]

/** What a length may be off by: nothing, grains below a whole step, a step, a hair. */
const offBy = (roll: Dice) => roll.pick([0, 0, 0, 1e-4, -1e-4, 1 / 1600, -1 / 1600, 0.01, -0.01, 3e-7, -3e-7])

const figures = (roll: Dice) => {
  const kerf = roll.pick([0, 2.5, 3, 1.7, 1 / 3, 25.4 / 64])
  return { kerf, trim: roll.pick([0, 5, 10 + 1 / 3]), grip: roll.pick([0, 0, 60]) }
}

/** A length of which some fill the stick all but exactly. */
function nearlyFilling(roll: Dice, stick: number, kerf: number, trim: number): number {
  const many = roll.whole(1, 4)
  const length = (stick - 2 * trim - (many - 1) * kerf) / many
  return Math.max(20, roll() < 0.5 ? length + offBy(roll) : (length * roll.whole(4, 9)) / 10 + offBy(roll))
}

function stockOf(roll: Dice): StockLength[] {
  const money = roll.pick(['none', 'cents', 'few'])
  const price = () => (money === 'cents' ? roll.whole(1, 9999) : roll.pick([48, 60, 72]))
  const bought = roll.pick([[1000], [1000, 1250], [1200, 900, 700]]).map((length) =>
    mill(length + offBy(roll), {
      ...(money !== 'none' && { price: price() }),
      ...(roll() < 0.4 && { count: roll.whole(0, 3) }),
    }),
  )
  const racked = Array.from({ length: roll.whole(0, 2) }, (_, at) =>
    drop(roll.whole(20, 95) * 10 + offBy(roll), `R${at}`, {
      count: roll.whole(1, 2),
      ...(money !== 'none' && roll() < 0.4 && { price: price() }),
    }),
  )
  return [...bought, ...racked]
}

function squareProblem(roll: Dice): NestProblem {
  const shop = figures(roll)
  const stock = stockOf(roll)
  const parts = Array.from({ length: roll.whole(1, 3) }, (_, at) => {
    const stick = roll.pick(stock).length
    return part(nearlyFilling(roll, stick, shop.kerf, shop.trim), roll.whole(1, at === 0 ? 3 : 2), {
      mark: 'ABC'[at]!,
      key: `key ${at}`,
    })
  })
  return problem(parts, stock, shop)
}

function angledProblem(roll: Dice): NestProblem {
  const shop = figures(roll)
  const stock = stockOf(roll)
  const angles = roll.pick([
    [0, 30, -30],
    [30, 30, 45],
    [0, 22.5, 45, -45],
    [15, -15, 60],
  ])
  const parts = roll.pick([[1], [2], [3], [5], [2, 1], [3, 2], [1, 1, 1], [2, 2, 1]]).map((count, at) => {
    const length = nearlyFilling(roll, roll.pick(stock).length, shop.kerf, shop.trim)
    const ends = [roll.pick(angles), roll.pick(angles)] as const
    return {
      ...mitered(40, Math.max(length, 200), ends, count, roll.pick(pins)),
      mark: 'ABC'[at]!,
      key: `key ${at}`,
    }
  })
  return problem(parts, stock, { ...shop, way: 'from the stick' })
}

/** A rack piece without a count is one, as the solver takes it; least cost in the unit of its pricing. */
function leastOf(given: NestProblem) {
  const pricing = pricingOf(given.stock)
  const least = leastOfAll(asShop(given), asPieces(given.parts))
  const bought = given.stock.filter(({ rack }) => rack === undefined)
  const unit = bought.length === 0 || bought.some(({ price }) => price !== undefined) ? 1 : 1600
  // A stick that is no whole number of steps long counts as the steps that it has.
  const slack = unit === 1 ? 1e-6 : 12
  return { pricing, least: least && { ...least, cost: least.cost * unit }, slack }
}

const someLeaf = (
  certificate: Certificate,
  at: number,
  change: (leaf: CertificateLeaf) => CertificateLeaf,
) => ({
  ...certificate,
  leaves: certificate.leaves.map((leaf, index) => (index === at ? change(leaf) : leaf)),
})

/** Ways to make a proof say something else. Some leave it sound; what they may not do is make it claim too much. */
const damages: Readonly<
  Record<string, (roll: Dice, certificate: Certificate, parts: readonly NestPart[]) => Certificate>
> = {
  'a smaller scale': (roll, certificate) => ({
    ...certificate,
    scale: Math.max(1, Math.floor(certificate.scale * roll.between(0.1, 0.999))),
  }),
  'one dual higher': (roll, certificate, parts) => {
    const which = roll.whole(0, parts.length - 1)
    return someLeaf(certificate, roll.whole(0, certificate.leaves.length - 1), (leaf) => ({
      ...leaf,
      duals: leaf.duals.with(
        which,
        leaf.duals[which]! + roll.pick([1, 1000, Math.floor(certificate.scale / 3), certificate.scale * 400]),
      ),
    }))
  },
  'all duals higher': (roll, certificate) => {
    const by = roll.between(1.00001, 2)
    return {
      ...certificate,
      leaves: certificate.leaves.map((leaf) => ({
        ...leaf,
        duals: leaf.duals.map((dual) => Math.ceil(dual * by)),
      })),
    }
  },
  'duals of two parts swapped': (_, certificate) => ({
    ...certificate,
    leaves: certificate.leaves.map((leaf) => ({ ...leaf, duals: leaf.duals.toReversed() })),
  }),
  'stock that costs nothing of its own': (_, certificate) => ({
    ...certificate,
    leaves: certificate.leaves.map((leaf) => ({ ...leaf, stockDuals: leaf.stockDuals.map(() => 0) })),
  }),
  'a stock dual half as low': (_, certificate) => ({
    ...certificate,
    leaves: certificate.leaves.map((leaf) => ({
      ...leaf,
      stockDuals: leaf.stockDuals.map((dual) => Math.ceil(dual / 2) || 0),
    })),
  }),
  'a leaf lost': (roll, certificate) => ({
    ...certificate,
    leaves: certificate.leaves.toSpliced(roll.whole(0, certificate.leaves.length - 1), 1),
  }),
  'a branch forgotten': (roll, certificate) =>
    someLeaf(certificate, roll.whole(0, certificate.leaves.length - 1), (leaf) => ({
      ...leaf,
      branch: leaf.branch.slice(1),
      branchDuals: leaf.branchDuals.slice(1),
    })),
  'a branch one further': (roll, certificate) =>
    someLeaf(certificate, roll.whole(0, certificate.leaves.length - 1), (leaf) => ({
      ...leaf,
      branch: leaf.branch.map((bound) =>
        'atMost' in bound
          ? { ...bound, atMost: Math.max(0, bound.atMost - 1) }
          : { ...bound, atLeast: bound.atLeast + 1 },
      ),
    })),
  'branch duals the other way': (roll, certificate) =>
    someLeaf(certificate, roll.whole(0, certificate.leaves.length - 1), (leaf) => ({
      ...leaf,
      branchDuals: leaf.branchDuals.map((dual) => -dual || 0),
    })),
  'branch duals higher': (roll, certificate) =>
    someLeaf(certificate, roll.whole(0, certificate.leaves.length - 1), (leaf) => ({
      ...leaf,
      branchDuals: leaf.branchDuals.map((dual) => dual + Math.ceil(certificate.scale * roll.between(0, 500))),
    })),
}

function prove(name: string, times: number, make: (roll: Dice) => NestProblem) {
  const counts = { solved: 0, proved: 0, branched: 0, damaged: 0, refused: 0 }
  for (let time = 0; time < times; time += 1) {
    const where = `${name} ${time}, seed ${seed}`
    const roll = dice(where)
    const given = make(roll)
    const { pricing, least, slack } = leastOf(given)
    const solved = solve(given, { steps: 20_000_000 })
    if (!solved.ok || solved.value.unplaced.some((count) => count > 0)) continue
    counts.solved += 1
    const { nest, certificate, provedSticks } = solved.value
    const unit = slack > 1 ? 1600 : 1
    if (least) {
      expect(nest.bound * unit, where).toBeLessThanOrEqual(least.cost + slack)
      if (nest.proved) expect(Math.abs(nest.cost * unit - least.cost), where).toBeLessThanOrEqual(slack)
      if (provedSticks) expect(nest.sticks.length, where).toBeLessThanOrEqual(least.sticks)
    }
    if (!certificate) continue
    counts.proved += 1
    if (certificate.leaves.length > 1) counts.branched += 1
    const cost = Math.round(nest.cost * unit)
    for (const claim of [cost + 1, cost + 1 + Math.ceil(cost / 50)])
      expect(checkCertificate(given, certificate, claim, pricing), `${where}: ${claim}`).not.toBe('holds')
    for (const [damage, make] of Object.entries(damages)) {
      const broken = make(roll, certificate, given.parts)
      counts.damaged += 1
      for (const claim of [cost, cost + 1, cost + 12, Math.ceil(cost * 1.1)]) {
        const answer = checkCertificate(given, broken, claim, pricing)
        if (answer !== 'holds') counts.refused += 1
        else if (least) expect(claim, `${where}: ${damage}`).toBeLessThanOrEqual(least.cost + slack)
      }
    }
  }
  console.log(`bounds, ${name}: ${JSON.stringify(counts)} of ${times}, seed ${seed}`)
  return counts
}

describe('bounds and proofs never claim more than is true', () => {
  test('square ends', () => {
    const counts = prove('square', 500, squareProblem)
    expect(counts.proved).toBeGreaterThan(0.6 * counts.solved)
    expect(counts.branched).toBeGreaterThan(10)
    expect(counts.refused).toBeGreaterThan(counts.damaged)
  })

  test('angled ends with pins', () => {
    const counts = prove('angled', 350, angledProblem)
    expect(counts.proved).toBeGreaterThan(0.4 * counts.solved)
    expect(counts.refused).toBeGreaterThan(counts.damaged)
  })
})
