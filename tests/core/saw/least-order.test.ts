import { expect, test } from 'vitest'
import { dice } from '../../prove/seed.ts'
import { againstBrute, againstNaive, gangsAgainstBrute, randomOrderJob, ways } from './order-jobs.ts'

for (const way of ways) {
  test(`20 random jobs on several sticks, ${way}: no order of all cuts takes fewer minutes`, () => {
    const roll = dice(`least order ${way}`, 1)
    const told = againstBrute(20, () => randomOrderJob(roll, way))
    console.info(`order, ${way}: ${told.text}`)
    expect(told.jobs).toBe(20)
    expect(told.standings).toBeGreaterThan(20 * 1.5)
  })

  test(`12 random jobs of up to 5 sticks, ${way}: the naive order, part by part in the order of the list, never takes less`, () => {
    const roll = dice(`naive order ${way}`, 1)
    const told = againstNaive(12, () => randomOrderJob(roll, way, { sticks: 5, each: 6, marks: 5 }))
    console.info(`naive, ${way}: ${told.text}`)
    expect(told.jobs).toBe(12)
    expect(told.quicker).toBeGreaterThan(12 / 4)
  })
}

test('20 random jobs side by side: never longer than the best one by one; whole sticks together in their best order', () => {
  const told = gangsAgainstBrute(20, dice('gang order', 1))
  console.info(`gangs: ${told.text}`)
  expect(told.jobs).toBe(20)
  expect(told.whole).toBeGreaterThan(1)
})
