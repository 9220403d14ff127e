import { describe, expect, test } from 'vitest'
import { firstPiece, habitsOf, sizeEffects, toleranceOf } from '../../../src/core/saw/first-piece.ts'
import { part, shop } from './sample.ts'

const told = (...given: Parameters<typeof firstPiece>) => {
  const found = firstPiece(...given)
  if (!found.ok) throw new Error(found.problems[0]!.text)
  return found.value
}

describe('a first piece of 404 mm with the stop at 404, reading 1 mm', () => {
  test('404.5 is within half of the reading, 404.6 is not', () => {
    expect(told(404.5, 404, { stop: 404 }, shop())).toMatchObject({ within: true, by: 0, piece: 'keep' })
    expect(told(404.6, 404, { stop: 404 }, shop())).toMatchObject({ within: false, piece: 'recut' })
  })

  test('2 too long: the stop goes to 402 and the piece is cut once more; 2 too short: 406, and it is scrap', () => {
    expect(told(406, 404, { stop: 404 }, shop())).toMatchObject({
      off: 2,
      by: -2,
      stop: { text: '402' },
      piece: 'recut',
    })
    expect(told(402, 404, { stop: 404 }, shop())).toMatchObject({
      off: -2,
      by: 2,
      stop: { text: '406' },
      piece: 'scrap',
    })
  })

  test('the long side outward: the stop of 381 moves by what the edge is off', () => {
    expect(told(406, 404, { stop: 381 }, shop()).stop.text).toBe('379')
  })

  test('on a wedge of 60° the stop moves by half of what the piece is off along itself', () => {
    expect(told(408, 404, { stop: 202, ramp: 60 }, shop())).toMatchObject({ by: expect.closeTo(-2, 9) })
  })

  test('the tolerance of the shop goes before the reading', () => {
    expect(toleranceOf(shop())).toBe(0.5)
    expect(told(406, 404, { stop: 404 }, shop({ tolerance: 2 })).within).toBe(true)
    expect(told(406.1, 404, { stop: 404 }, shop({ tolerance: 2 })).within).toBe(false)
  })

  test('a measure that cannot be of this edge is refused with both figures', () => {
    for (const measured of [0, -1, 201, 607]) {
      const refused = firstPiece(measured, 404, { stop: 404 }, shop())
      expect(refused.ok ? '' : refused.problems[0]!.text).toMatch(/404 mm is printed/)
    }
  })
})

test('40 tube that measures 40.5: at 30° the short point is 0.577 less, the outward stop 0.289 less, the long point the same', () => {
  // 2 · 0.5 · tan 30° = 0.577 and 0.5 · tan 30° = 0.289 (short side and outward stop by the rules of the documents).
  const effects = sizeEffects(part({ length: 404, ends: [30, 30] }), 40, 40.5)
  expect(effects.map(({ what, by }) => [what, +by.toFixed(3)])).toEqual([
    ['long point', 0],
    ['short point', -0.577],
    ['outward stop', -0.289],
  ])
  const slanted = sizeEffects(part({ length: 404, ends: [30, -30] }), 40, 40.5)
  expect(slanted.map(({ by }) => +by.toFixed(3))).toEqual([0, 0, 0.289])
})

test('four habits, each of which a shop can turn off; what is written with follows the shop', () => {
  expect(habitsOf(shop()).map(({ habit }) => habit)).toEqual(['deburr', 'chips', 'back off', 'mark'])
  expect(habitsOf(shop({ habitsOff: ['chips', 'mark'] })).map(({ habit }) => habit)).toEqual([
    'deburr',
    'back off',
  ])
  expect(habitsOf(shop()).at(-1)!.text).toContain('paint pen')
  expect(habitsOf(shop({ markWith: 'scribe or stamp' })).at(-1)!.text).toContain('scribed or stamped')
})
