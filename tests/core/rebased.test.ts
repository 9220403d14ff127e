import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rebased } from '../../src/core/rebased.ts'

const plain = fc.jsonValue({ maxDepth: 3 })

describe('a change made on an older version', () => {
  test('of one field leaves what another has changed meanwhile, deep in lists too', () => {
    const seen = { daylight: false, saws: [{ kerf: 2.5, cleanUp: 10 }, { kerf: 1 }] }
    const now = { daylight: true, saws: [{ kerf: 2.5, cleanUp: 12 }, { kerf: 1 }] }
    const wanted = { daylight: false, saws: [{ kerf: 1.2, cleanUp: 10 }, { kerf: 1 }] }
    expect(rebased(now, seen, wanted)).toEqual({
      daylight: true,
      saws: [{ kerf: 1.2, cleanUp: 12 }, { kerf: 1 }],
    })
  })

  test('takes a field away, adds one, and a list that has grown stands as it is wanted', () => {
    const seen: Record<string, unknown> = { table: { length: 2 }, lengths: [6000] }
    const now = { ...seen, paper: 'A4' }
    expect(rebased(now, seen, { lengths: [6000, 12_000], hand: 'left' })).toEqual({
      lengths: [6000, 12_000],
      hand: 'left',
      paper: 'A4',
    })
  })

  test('where nobody else changed anything it is the change, and where it changes nothing all stays', () => {
    fc.assert(
      fc.property(plain, plain, (one, other) => {
        expect(rebased(one, one, other)).toEqual(other)
        expect(rebased(other, one, one)).toEqual(other)
      }),
    )
  })
})
