import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem, NestSection, StockLength } from '../../src/core/nest.ts'
import { solve } from '../../src/nest/solve.ts'
import { asPieces, asShop, leastOfAll } from '../nest/every-plan.ts'
import { drop, mill, mitered, part, problem } from '../nest/stock.ts'
import { type Dice, dice, seed } from './seed.ts'

const steps = 20_000_000

const nestOf = (section: NestSection) => ({
  version: 1 as const,
  id: 'test',
  solver: 'test',
  jobs: ['job-1'],
  sections: [section],
})

function stockOf(roll: Dice): StockLength[] {
  const priced = roll() < 0.5
  const lengths = roll.pick([[1000], [1000, 1250], [1200, 900, 700]])
  const bought = lengths.map((length) =>
    mill(length, {
      ...(priced && { price: roll.whole(200, 900) }),
      ...(roll() < 0.3 && { count: roll.whole(0, 4) }),
    }),
  )
  const racked = Array.from({ length: roll.whole(0, 2) }, (_, at) =>
    drop(roll.whole(12, 95) * 10, `R${at}`, priced && roll() < 0.3 ? { price: roll.whole(0, 200) } : {}),
  )
  return [...bought, ...racked]
}

function figuresOf(roll: Dice): Pick<NestProblem, 'kerf' | 'trim' | 'grip'> {
  const kerf = roll.pick([0, 2.5, 3])
  return { kerf, trim: roll.pick([0, 5, 10]), grip: roll.pick([0, 0, 60]) }
}

function squareProblem(roll: Dice): NestProblem {
  const parts = Array.from({ length: roll.whole(1, 4) }, (_, at) =>
    part(roll.whole(12, 80) * 10, roll.whole(1, 2), { mark: 'ABCD'[at]!, key: `key ${at}` }),
  )
  return problem(parts, stockOf(roll), figuresOf(roll))
}

function angledProblem(roll: Dice): NestProblem {
  const angles = [0, 22.5, 30, 45, -30, -45]
  const turns = [['none', 'over', 'end', 'flip'], ['none'], ['none', 'end'], ['none', 'flip']] as const
  const counts = roll.pick([[1], [2], [1, 2], [2, 2], [1, 1, 1], [2, 1, 1], [3, 2], [5], [2, 2, 1]])
  const parts = counts.map((count, at) => ({
    ...mitered(40, roll.whole(16, 60) * 10, [roll.pick(angles), roll.pick(angles)], count, roll.pick(turns)),
    mark: 'ABC'[at]!,
    key: `key ${at}`,
  }))
  return problem(parts, stockOf(roll), { ...figuresOf(roll), way: 'from the stick' })
}

/** Some pieces of a problem come from one stick. */
const shared =
  (make: (roll: Dice) => NestProblem) =>
  (roll: Dice): NestProblem => {
    const given = make(roll)
    const parts = given.parts.map((part) => (roll() < 0.5 ? { ...part, same: 'one stick' } : part))
    return { ...given, parts }
  }

/** Up to `most` copies, each of which keeps its pieces on one stick, beside what may lie anywhere. */
const copied =
  (make: (roll: Dice) => NestProblem, most: number) =>
  (roll: Dice): NestProblem => {
    const given = make(roll)
    const [wish, ...others] = given.parts
    const also = roll() < 0.5 ? others.slice(0, 1).map((part) => ({ ...part, count: 1 })) : []
    const each = [{ ...wish!, count: also.length > 0 ? 1 : 2 }, ...also]
    const copies = Array.from({ length: roll.whole(1, most) }, (_, copy) =>
      // The pieces of a copy stand in any order in the list.
      (roll() < 0.5 ? each : each.toReversed()).map((part) => ({
        ...part,
        perCopy: part.count,
        first: copy * part.count + 1,
        same: `copy ${copy}`,
      })),
    )
    const alone = others.slice(also.length, also.length + 1).map((part) => ({ ...part, count: 1 }))
    return { ...given, parts: roll() < 0.5 ? [...copies.flat(), ...alone] : [...alone, ...copies.flat()] }
  }

/** Counts of what happened, so that a lane in which nothing was proved cannot pass unseen. */
function compareAll(name: string, times: number, make: (roll: Dice) => NestProblem) {
  const counts = { solved: 0, proved: 0, least: 0, unplaced: 0, refused: 0 }
  for (let time = 0; time < times; time += 1) {
    const where = `${name} ${time}, seed ${seed}`
    const given = make(dice(`${name} ${time}`))
    const least = leastOfAll(asShop(given), asPieces(given.parts))
    const solved = solve(given, { steps })
    if (!solved.ok) {
      // Only a part that fits no stick is refused, and then there is no plan at all.
      expect(least, `${where}: ${solved.problems[0]?.text}`).toBeUndefined()
      counts.refused += 1
      continue
    }
    const { nest, provedSticks, unplaced } = solved.value
    if (unplaced.some((count) => count > 0)) {
      expect(least, `${where}: pieces left out`).toBeUndefined()
      expect(nest.proved, where).toBe(false)
      counts.unplaced += 1
      continue
    }
    counts.solved += 1
    expect(checkNest(nestOf(nest), [given]).faults, where).toEqual([])
    if (!least) throw new Error(`${where}: a nest was found where there is none`)
    expect(nest.bound, where).toBeLessThanOrEqual(least.cost + 1e-6)
    expect(nest.cost, where).toBeGreaterThanOrEqual(least.cost - 1e-6)
    if (nest.proved) {
      counts.proved += 1
      expect(nest.cost, where).toBeCloseTo(least.cost, 6)
    }
    if (provedSticks) expect(nest.sticks.length, where).toBe(least.sticks)
    if (Math.abs(nest.cost - least.cost) < 1e-6 && nest.sticks.length === least.sticks) counts.least += 1
    // Few pieces are searched through to the end, proved or not.
    expect([nest.cost, nest.sticks.length], where).toEqual([expect.closeTo(least.cost, 6), least.sticks])
  }
  console.log(`${name}: ${JSON.stringify(counts)} of ${times}, seed ${seed}`)
  return counts
}

describe('the nest against every plan there is', () => {
  test('up to 8 square pieces: cost and sticks are the least', () => {
    const counts = compareAll('square', 1500, squareProblem)
    expect(counts.proved).toBeGreaterThan(0.8 * counts.solved)
    expect(counts.unplaced + counts.refused).toBeGreaterThan(10)
  })

  test('up to 5 pieces with angled ends: cost and sticks are the least, never proved falsely', () => {
    const counts = compareAll('angled', 400, angledProblem)
    expect(counts.proved).toBeGreaterThan(0.3 * counts.solved)
  })

  test('pieces that come from one stick: cost and sticks are the least of all plans that keep them together', () => {
    const square = compareAll('square, shared', 300, shared(squareProblem))
    expect(square.proved).toBeGreaterThan(0.7 * square.solved)
    const angled = compareAll('angled, shared', 150, shared(angledProblem))
    expect(angled.proved).toBeGreaterThan(0.2 * angled.solved)
  })

  test('copies that each keep alike pieces on one stick: the least of all plans that do', () => {
    const square = compareAll('square, copies', 300, copied(squareProblem, 3))
    expect(square.proved).toBeGreaterThan(0.7 * square.solved)
    const angled = compareAll('angled, copies', 100, copied(angledProblem, 2))
    expect(angled.proved).toBeGreaterThan(0.2 * angled.solved)
  })
})
