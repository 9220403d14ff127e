import { bench, describe } from 'vitest'
import { buildOf } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { plan } from '../../src/core/plan.ts'
import { startShop } from '../../src/core/shop-start.ts'

const shop = startShop('mm')
const start = newJob(buildOf('cut-list')!, 'mm', 'bench')
/** A hundred parts, each of its own length and angles. */
const rows = Array.from({ length: 100 }, (_, at) => ({
  count: 1,
  length: 400 + 3 * at,
  a: at % 46,
  b: (at * 7) % 46,
}))
const hundred = { ...start, build: { kind: 'cut-list', params: { ...start.build.params, rows } } }
const table = newJob(buildOf('pedestal')!, 'mm', 'bench')

describe('plan without a nest', () => {
  bench('100 different parts (aim: 16 ms)', () => {
    if (!plan(hundred, shop).ok) throw new Error('refused')
  })
  bench('pedestal table', () => {
    if (!plan(table, shop).ok) throw new Error('refused')
  })
})
