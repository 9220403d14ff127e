// What the hands are told around a cut from the stick and around a blank that one cut splits.
import { describe, expect, test } from 'vitest'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { benchCuts } from '../../../src/core/saw/bench.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import { stepsOf } from '../../../src/ui/saw/say.ts'
import { nestByWay } from '../../core/saw/by-way.ts'
import { part, shop } from '../../core/saw/sample.ts'

const lengths = { say: (mm: number) => `${mm} mm`, stick: 'stick', sticks: 'sticks', drop: 'drop' }

function told(one: Part, way: 'from the stick' | 'paired') {
  const set = shop()
  const asked = nestByWay([one], set, way)
  if (typeof asked === 'string') throw new Error(asked)
  const run = planRun(asked.nest, [one], set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join(' '))
  const cuts = benchCuts(run.value, asked.nest, [])
  return cuts.map((cut, at) => ({ cut, ...stepsOf([cut], run.value.products, lengths, cuts[at + 1]) }))
}

describe('three pieces of 404 mm with ends of 30°, from the stick', () => {
  const cuts = told({ ...part({ length: 404, ends: [30, 30] }), count: 3 }, 'from the stick')

  test('the clean-up cut says 30°, the side that the blade leans to, and 10 mm where it takes least', () => {
    const clean = cuts[0]!.before.filter(({ kind }) => kind === 'clean-up').map(({ text }) => text)
    expect(clean).toHaveLength(1)
    expect(clean[0]).toMatch(
      /^Clean-up cut first, at miter 30°: the end of the blade away from the fence leans/,
    )
    expect(clean[0]).toContain('Take 10 mm off the edge that loses least')
  })

  test('a fresh stick is the same either way up: it is not rolled over before its clean-up cut', () => {
    expect(cuts[0]!.before.map(({ kind }) => kind)).toEqual(['load', 'clean-up', 'turn', 'push'])
  })

  test('before each further piece the stick is turned over, and nothing is cleaned up again', () => {
    for (const { before } of cuts.slice(1)) {
      expect(before.map(({ kind }) => kind)).not.toContain('clean-up')
      expect(before.find(({ kind }) => kind === 'turn')?.text).toMatch(/over/)
    }
  })
})

test('two pieces of 300 mm mitered at one end, paired: the second is only checked off', () => {
  const cuts = told({ ...part({ length: 300, ends: [0, 45] }), count: 2 }, 'paired')
  const split = cuts.filter(({ cut }) => cut.splits)
  expect(split).toHaveLength(1)
  expect(split[0]!.before).toEqual([])
})
