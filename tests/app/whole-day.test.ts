import { afterEach, expect, test } from 'vitest'
import { dice } from '../prove/seed.ts'
import { closeTabs } from '../storage/faulty.ts'
import { wholeDay } from './whole-day.ts'

afterEach(closeTabs)

test('two days in which much goes wrong: every piece is cut in the end, and no steel is lost or used twice', async () => {
  const roll = dice('whole day', 7)
  for (let day = 0; day < 2; day++) expect((await wholeDay(roll, 25)).cuts).toBeGreaterThan(5)
})

test('a day from the stick and a day of paired blanks: a blank of two pieces is never taken for that of one', async () => {
  expect((await wholeDay(dice('whole day', 7), 25, 'from the stick')).cuts).toBeGreaterThan(5)
  // This day once took a blank of 1390 for one of 713, and lost 677 mm of a stick with it.
  expect((await wholeDay(dice('tmp paired 1', 5), 25, 'paired')).cuts).toBeGreaterThan(5)
})
