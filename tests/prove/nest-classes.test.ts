import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem } from '../../src/core/nest.ts'
import { solve, usualSteps } from '../../src/nest/solve.ts'
import { inchJob, scholl1, schwerin, shopJob, triplets, uniform } from '../nest/classes.ts'
import { type Dice, dice, seed } from './seed.ts'

/** Solves a class; every nest must pass the judge and keep its bound. Gives the share that was proved least. */
function provedOf(name: string, times: number, make: (roll: Dice) => NestProblem): number {
  let proved = 0
  let sticks = 0
  for (let time = 0; time < times; time += 1) {
    const where = `${name} ${time}, seed ${seed}`
    const given = make(dice(`${name} ${time}`))
    const result = solve(given, { steps: usualSteps })
    if (!result.ok) throw new Error(`${where}: ${result.problems[0]?.text}`)
    const { nest, provedSticks } = result.value
    const sealed = { version: 1 as const, id: 'x', solver: 'x', jobs: ['job-1'], sections: [nest] }
    expect(checkNest(sealed, [given]).faults, where).toEqual([])
    expect(nest.bound, where).toBeLessThanOrEqual(nest.cost)
    // Steel alone: no nest is shorter than its pieces.
    const steel = given.parts.reduce((sum, { mid, count }) => sum + mid * count, 0)
    expect(
      nest.sticks.reduce((sum, { length }) => sum + length, 0),
      where,
    ).toBeGreaterThanOrEqual(steel)
    if (nest.proved) proved += 1
    if (provedSticks) sticks += 1
  }
  console.log(`${name}: ${proved} of ${times} proved least, ${sticks} in sticks too, seed ${seed}`)
  return proved / times
}

// Floors a little below what was seen over several seeds, without the solver library: U 12 of 12, T 11 of 12, S1 and W
// all, orders 79 of 80. The whole classes, with the library, are the bench's.
describe('classes of problems', () => {
  test('uniform sizes, 120 pieces', () => {
    expect(provedOf('uniform 120', 10, (roll) => uniform(roll, 120))).toBeGreaterThanOrEqual(0.9)
  })
  test('triplets of 60, where the least is known by their making: 20 sticks', () => {
    const least = (roll: Dice) => triplets(roll, 60)
    expect(provedOf('triplets 60', 8, least)).toBeGreaterThanOrEqual(0.75)
    const result = solve(least(dice('triplets 60 0')), { steps: usualSteps })
    expect(result.ok && result.value.nest.bound).toBe(20_000)
  })
  test('sizes of Scholl, Klein and Jürgens, set 1, 100 pieces', () => {
    expect(provedOf('S1 100', 10, (roll) => scholl1(roll, 100))).toBeGreaterThanOrEqual(0.9)
  })
  test('sizes of Schwerin and Wäscher, 100 pieces', () => {
    expect(provedOf('W 100', 10, (roll) => schwerin(roll, 100))).toBeGreaterThanOrEqual(0.9)
  })
  test('orders of a shop', () => {
    expect(provedOf('shop', 40, shopJob)).toBeGreaterThanOrEqual(0.95)
    expect(provedOf('shop, inch', 40, inchJob)).toBeGreaterThanOrEqual(0.95)
  })
})
