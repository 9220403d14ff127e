import { afterEach, expect, test } from 'vitest'
import { dice } from '../prove/seed.ts'
import { closeTabs } from '../storage/faulty.ts'
import { wholeDay } from './whole-day.ts'

afterEach(closeTabs)

test('two days in which much goes wrong: every piece is cut in the end, and no steel is lost or used twice', async () => {
  const roll = dice('whole day', 7)
  for (let day = 0; day < 2; day++) expect((await wholeDay(roll, 25)).cuts).toBeGreaterThan(5)
})
