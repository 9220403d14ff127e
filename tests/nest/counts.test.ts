import { describe, expect, test } from 'vitest'
import { checkCertificate } from '../../src/core/check/certificate.ts'
import { type Box, type Cut, cheapestCounts, keeps } from '../../src/nest/counts.ts'
import { pricingOf } from '../../src/nest/model.ts'
import { solve } from '../../src/nest/solve.ts'
import { type Dice, dice } from '../prove/seed.ts'
import { inchJob } from './classes.ts'

// Which counts of sticks are left by the cuts, against every set of counts there is.

function everyCount({ least, most }: Box, kind = 0, chosen: readonly number[] = []): (readonly number[])[] {
  if (kind === most.length) return [chosen]
  const all = Array.from({ length: most[kind]! - least[kind]! + 1 }, (_, more) => least[kind]! + more)
  return all.flatMap((count) => everyCount({ least, most }, kind + 1, [...chosen, count]))
}

const priced = (pricing: readonly number[], sticks: readonly number[]) =>
  sticks.reduce((sum, count, kind) => sum + count * pricing[kind]!, 0)

function rolled(roll: Dice) {
  const kinds = Array.from({ length: roll.whole(1, 4) }, () => roll.whole(2, 6))
  const least = kinds.map((most) => (roll() < 0.2 ? roll.whole(0, most) : 0))
  const pricing = kinds.map(() => (roll() < 0.2 ? 0 : roll.whole(1, 60)))
  const cuts = Array.from({ length: roll.whole(1, 4) }, (): Cut => {
    const most = kinds.map(() => roll.whole(0, 50))
    return { worth: [], sum: roll.whole(0, 200), most }
  })
  return { box: { least, most: kinds }, pricing, cuts, below: roll.whole(50, 400), many: roll.whole(1, 8) }
}

describe('the cheapest counts of sticks that keep to all cuts', () => {
  test('are those of all there are, 300 rolls of the dice', () => {
    let found = 0
    for (let time = 0; time < 300; time += 1) {
      const { box, pricing, cuts, below, many } = rolled(dice(`counts ${time}`, 1))
      const counts = cheapestCounts(cuts, pricing, box, below, many)
      if (!counts) throw new Error('too many to look at')
      for (const { cost, sticks } of counts) {
        expect(cost).toBe(priced(pricing, sticks))
        expect(cuts.every((cut) => keeps(cut, sticks))).toBe(true)
        expect(sticks.every((count, kind) => count >= box.least[kind]! && count <= box.most[kind]!)).toBe(
          true,
        )
      }
      const all = everyCount(box).filter((sticks) => cuts.every((cut) => keeps(cut, sticks)))
      const costs = all.map((sticks) => priced(pricing, sticks)).filter((cost) => cost < below)
      // More sticks than needed are not listed: of the costs only the least must be there.
      expect(counts[0]?.cost).toBe(costs.length > 0 ? Math.min(...costs) : undefined)
      found += counts.length
    }
    expect(found).toBeGreaterThan(300)
  })

  test('20 ft at 60.00, 24 ft at 70.00, pieces that fill seven sticks of 20 ft: one of these and five of 24 ft cost least', () => {
    const cut: Cut = { worth: [], sum: 7 * 240, most: [240, 288] }
    const counts = cheapestCounts([cut], [6000, 7000], { least: [0, 0], most: [9, 9] }, 50_000, 3)
    // By hand: 6 of 24 ft (1728 in, 420.00); 7 of 20 ft (1680 in, 420.00); 1 and 5 (1680 in, 410.00).
    expect(counts?.map(({ cost, sticks }) => [cost, ...sticks])).toEqual([
      [41_000, 1, 5],
      [42_000, 0, 6],
      [42_000, 7, 0],
    ])
  })
})

// Orders of two and three stock lengths in which the bound by fractions of sticks is below what whole ones cost.
describe('the leaves of a proof', () => {
  test.each([25, 29, 43, 70])(
    'order %i in inches: proved, and the judge misses any leaf that is left out',
    (time) => {
      const given = inchJob(dice(`shop, inch ${time}`, 1))
      const result = solve(given, { steps: 60_000_000 })
      if (!result.ok) throw new Error(result.problems[0]?.text)
      const { nest, certificate, provedSticks } = result.value
      if (!certificate) throw new Error('not proved')
      expect([nest.proved, provedSticks]).toEqual([true, true])
      // As the solver hands a problem to the judge: a rack piece is one.
      const counted = {
        ...given,
        stock: given.stock.map((stock) => ({ ...stock, ...(stock.rack && { count: 1 }) })),
      }
      const judged = (leaves: typeof certificate.leaves, cost = nest.cost) =>
        checkCertificate(counted, { ...certificate, leaves }, cost, pricingOf(given.stock))
      expect(certificate.leaves.length).toBeGreaterThan(5)
      expect(judged(certificate.leaves)).toBe('holds')
      expect(judged(certificate.leaves, nest.cost + 1)).not.toBe('holds')
      for (const left of certificate.leaves)
        expect(judged(certificate.leaves.filter((leaf) => leaf !== left))).toEqual({
          faults: ['the leaves do not cover every nest'],
        })
    },
  )
})
