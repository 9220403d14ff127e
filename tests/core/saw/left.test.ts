import { describe, expect, test } from 'vitest'
import { checkRun } from '../../../src/core/check/check-run.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { nest, nestSection, part, saw, shop } from './sample.ts'

// What no saw of the shop finishes is left to the hand; the rest is cut.
const sharp = part({ mark: 'A', length: 800, ends: [60, 60] })
const plain = part({ mark: 'B', length: 500, ends: [30, 30] })
const leg = part({ mark: 'L', length: 1200, ends: [0, 0] })
const parts = [sharp, plain, leg]
const sticks = nest([nestSection(parts, { sticks: [['L', 'A', 'B', 'A', 'B']] })])

function planned(set: Shop) {
  const run = planRun(sticks, parts, set)
  if (!run.ok) throw new Error(run.problems[0]!.text)
  expect(checkRun(run.value, sticks, parts, set).faults).toEqual([])
  return run.value
}
const finished = (set: Shop) =>
  planned(set)
    .products.filter(({ kind }) => kind === 'piece')
    .map(({ id }) => id)
    .sort()

describe('a miter of 60° on a saw of 45°', () => {
  const run = planned(shop())

  test('its blanks are cut, everything else is finished', () => {
    expect(finished(shop())).toEqual(['B1', 'B2', 'L1'])
    expect(run.left?.map(({ piece, code }) => [piece, code])).toEqual([
      ['A1', 'beyond-the-saw'],
      ['A2', 'beyond-the-saw'],
    ])
    expect(run.products.filter(({ makes }) => makes?.includes('A1')).map(({ kind }) => kind)).toEqual([
      'blank',
    ])
    expect(run.left![0]!.why).toContain('60° from square')
    expect(run.left![0]!.ways.length).toBeGreaterThan(1)
  })

  test('the judge refuses a piece that is left and made, left twice, or left without steel', () => {
    const faults = (left: NonNullable<typeof run.left>) =>
      checkRun({ ...run, left }, sticks, parts, shop()).faults.join(' ')
    const [one, two] = run.left!
    expect(faults([one!, two!, { ...one!, piece: 'B1' }])).toContain('is made all the same')
    expect(faults([one!, two!, one!])).toContain('stands twice')
    expect(faults([one!])).toContain('piece A2 of the nest is never made')
    expect(faults([one!, two!, { ...one!, piece: 'Z1' }])).toContain('is none of the nest')
    const silent = { ...run, products: run.products.map(({ makes: _makes, ...product }) => product) }
    expect(checkRun(silent, sticks, parts, shop()).faults.join(' ')).toContain('has no steel left')
  })
})

describe('a stop that reaches 1199 mm', () => {
  const limits = { ...saw.limits, longestStop: 1199, towardStop: 60, awayFromStop: 60 }

  test('the leg of 1200 stays in its bar, which names it; one of 1200 on a stop of 1200 is cut', () => {
    const run = planned(shop({}, { limits }))
    expect(run.left?.map(({ piece, code }) => [piece, code])).toEqual([['L1', 'past-longest-stop']])
    const bar = run.products.find(({ makes, kind }) => kind === 'rest' && makes?.includes('L1'))
    expect(bar?.length).toBeGreaterThan(1200)
    expect(finished(shop({}, { limits }))).toEqual(['A1', 'A2', 'B1', 'B2'])
    expect(finished(shop({}, { limits: { ...limits, longestStop: 1200 } }))).toContain('L1')
  })

  test('a stick of which nothing can be cut is not touched', () => {
    const only = nest([nestSection([leg], { sticks: [['L']] })])
    const run = planRun(only, [leg], shop({}, { limits }))
    expect(run.ok && [run.value.programs, run.value.left?.length]).toEqual([[], 1])
    expect(run.ok && checkRun(run.value, only, [leg], shop({}, { limits })).faults).toEqual([])
  })
})
