import { expect, test } from 'vitest'
import { dice } from '../../prove/seed.ts'
import { againstBrute, randomOrderJob } from './order-jobs.ts'

test('60 random jobs on several sticks, square first and paired: no order of all cuts takes fewer minutes', () => {
  const roll = dice('least order', 1)
  const told = againstBrute(60, () => randomOrderJob(roll))
  console.info(`order: ${told.text}`)
  expect(told.jobs).toBe(60)
  expect(told.standings).toBeGreaterThan(60 * 3)
})
