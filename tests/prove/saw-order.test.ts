// The order of work against every other order of the same cuts, on random jobs of up to seven standings of head and stop,
// in every way of working; and against the naive order on larger ones.
import { expect, test } from 'vitest'
import {
  againstBrute,
  againstNaive,
  gangsAgainstBrute,
  randomOrderJob,
  ways,
} from '../core/saw/order-jobs.ts'
import { dice, seed } from './seed.ts'

const jobs = 120

for (const way of ways) {
  test(`${jobs} random jobs, ${way}: no order of all cuts takes fewer minutes (seed ${seed})`, () => {
    const roll = dice(`saw order ${way}`)
    const told = againstBrute(jobs, () => randomOrderJob(roll, way), `seed ${seed}`)
    console.info(`saw-order, ${way}: seed ${seed}, ${told.text}`)
    expect(told.jobs).toBe(jobs)
    expect(told.standings).toBeGreaterThan(1.5 * jobs)
  })

  test(`${jobs / 3} random jobs of up to 5 sticks, ${way}: the naive order never takes less (seed ${seed})`, () => {
    const roll = dice(`naive order ${way}`)
    const next = () => randomOrderJob(roll, way, { sticks: 5, each: 6, marks: 5 })
    const told = againstNaive(jobs / 3, next, `seed ${seed}`)
    console.info(`naive, ${way}: seed ${seed}, ${told.text}`)
    expect(told.jobs).toBe(jobs / 3)
    expect(told.quicker).toBeGreaterThan(jobs / 12)
  })
}

test(`${jobs} random jobs side by side: never longer than the best one by one (seed ${seed})`, () => {
  const told = gangsAgainstBrute(jobs, dice('gang order'), `seed ${seed}`)
  console.info(`gangs: seed ${seed}, ${told.text}`)
  expect(told.jobs).toBe(jobs)
  expect(told.whole).toBeGreaterThan(jobs / 20)
})
