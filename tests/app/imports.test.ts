import { afterEach, expect, test } from 'vitest'
import { dice } from '../prove/seed.ts'
import { closeTabs } from '../storage/faulty.ts'
import { importRounds } from './imports.ts'

afterEach(closeTabs)

// A short run of the one in tests/prove/fuzz.test.ts.
test('30 spoiled files are taken whole, or refused with disk and screen as they were', async () => {
  const taken = await importRounds(dice('imports', 1), 30)
  expect(taken).toBeGreaterThan(2)
  expect(taken).toBeLessThan(28)
})
