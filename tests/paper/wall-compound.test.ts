import { expect, test } from 'vitest'
import type { SetUp } from '../../src/core/plan-shapes.ts'
import { figuresHigh, thirdFigure } from '../../src/paper/wall.ts'
import { squareSet } from '../ui/saw/bench-run.ts'

const set = (change: Partial<SetUp>): SetUp => ({ ...squareSet, ...change })

test('the wall sheet shows what is set beside miter and stop, as great as they are, and makes room for it', () => {
  const bevel = set({
    tilt: -8,
    printed: { ...squareSet.printed, bevel: { deg: 8, text: '8°' }, bevelLean: 'the top leans' },
  })
  expect(thirdFigure(bevel)).toEqual({ label: 'Bevel', text: '8°' })
  expect(thirdFigure(set({ roll: 34.31 }))).toEqual({ label: 'Turned', text: '34.3°' })
  expect(thirdFigure(set({ ramp: -11.89 }))).toEqual({ label: 'Wedge', text: '11.9°' })
  expect(thirdFigure(set({}))).toBeUndefined()
  // At least the 12 mm of a digit more.
  expect(figuresHigh(bevel) - figuresHigh(set({}))).toBeGreaterThan(12)
})
