import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem } from '../../src/core/nest.ts'
import { solve } from '../../src/nest/solve.ts'
import { openWholeSolver } from '../../src/nest/whole-solver.ts'
import { answer } from '../../src/worker/answer.ts'
import type { End } from '../../src/worker/protocol.ts'
import { dice } from '../prove/seed.ts'
import { triplets, uniform } from './classes.ts'
import { mill, part, problem } from './stock.ts'

const solver = (await openWholeSolver())(() => 20)

// The least of triplets is known by their making: three fill a stick exactly (recipe of Falkenauer, from memory).
describe('with a solver for whole numbers', () => {
  test.each([0, 1, 2])('120 pieces in triplets, the %i. of seed 1: 40 sticks, proved', (time) => {
    const given = triplets(dice(`T 120 ${time}`, 1), 120)
    const result = solve(given, { steps: 300_000_000 }, solver)
    expect(result.ok && [result.value.nest.sticks.length, result.value.nest.proved]).toEqual([40, true])
    const sections = result.ok ? [result.value.nest] : []
    const nest = { version: 1 as const, id: 'x', solver: 'x', jobs: ['job-1'], sections }
    expect(checkNest(nest, [given]).faults).toEqual([])
  })

  test('an answer that leaves pieces out is not taken, nor one that says nothing', () => {
    const given = triplets(dice('T 60 0', 1), 60)
    for (const whole of [() => ({ x0: 1 }), () => undefined, () => ({})]) {
      const result = solve(given, { steps: 20_000_000 }, whole)
      if (!result.ok) throw new Error(result.problems[0]?.text)
      const placed = result.value.nest.sticks.reduce((sum, { pieces }) => sum + pieces.length, 0)
      expect(placed).toBe(60)
      expect(result.value.nest.bound).toBeLessThanOrEqual(result.value.nest.cost)
    }
  })
})

describe('the worker and the solver library', () => {
  const run = async (given: NestProblem) => {
    const ends: End[] = []
    let loaded = 0
    await answer(
      { kind: 'solve', id: 1, problem: given, budget: { steps: 300_000_000, seconds: 60 } },
      () => false,
      (said) => said.kind === 'end' && ends.push(said),
      async () => {
        loaded += 1
        return solver
      },
    )
    return { ends, loaded }
  }

  test('an order that the search proves by itself loads nothing', async () => {
    const { ends, loaded } = await run(problem([part(404, 30)], [mill(6000)], { kerf: 2.5, trim: 10 }))
    expect([ends.length, ends[0]?.why, ends[0]?.nest.sticks.length, loaded]).toEqual([1, 'proved', 3, 0])
    expect((await run(uniform(dice('U 120 0', 1), 120))).loaded).toBe(0)
  })

  test('triplets of 249 end once, with 83 sticks proved', async () => {
    const { ends } = await run(triplets(dice('T 249 1', 1), 249))
    expect(ends.map(({ why, nest }) => [why, nest.sticks.length])).toEqual([['proved', 83]])
  })

  test('where the solver cannot be loaded, the search goes on and still ends once', async () => {
    const ends: End[] = []
    await answer(
      {
        kind: 'solve',
        id: 1,
        problem: triplets(dice('T 249 1', 1), 249),
        budget: { steps: 20_000_000, seconds: 60 },
      },
      () => false,
      (said) => said.kind === 'end' && ends.push(said),
      () => Promise.reject(new Error('no network')),
    )
    expect(ends).toHaveLength(1)
  })
})
