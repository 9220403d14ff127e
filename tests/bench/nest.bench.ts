import { bench, describe } from 'vitest'
import { solve, usualSteps } from '../../src/nest/solve.ts'
import { shopJob, triplets, uniform } from '../nest/classes.ts'
import { dice } from '../prove/seed.ts'

// Times of the nest by class, one fixed problem each. The aims of speed are the nesting issue's.

const options = { iterations: 3, time: 0, warmupIterations: 0, warmupTime: 0 }

describe('nest', () => {
  for (const [name, problem] of [
    ['an order of a shop', shopJob(dice('bench shop', 1))],
    ['120 pieces of uniform sizes', uniform(dice('bench uniform', 1), 120)],
    ['60 pieces in triplets', triplets(dice('bench triplets', 1), 60)],
  ] as const)
    bench(name, () => void solve(problem, { steps: usualSteps }), options)
})
