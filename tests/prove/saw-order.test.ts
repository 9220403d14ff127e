// The order of work against every other order of the same cuts, on random jobs of up to seven standings of head and stop.
import { expect, test } from 'vitest'
import { againstBrute, randomOrderJob } from '../core/saw/order-jobs.ts'
import { dice, seed } from './seed.ts'

const jobs = 500

test(`${jobs} random jobs: no order of all cuts takes fewer minutes (seed ${seed})`, () => {
  const roll = dice('saw order')
  const told = againstBrute(jobs, () => randomOrderJob(roll), `seed ${seed}`)
  console.info(`saw-order: seed ${seed}, ${told.text}`)
  expect(told.jobs).toBe(jobs)
  expect(told.standings).toBeGreaterThan(2 * jobs)
})
