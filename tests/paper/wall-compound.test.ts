import { expect, test } from 'vitest'
import type { SetUp } from '../../src/core/plan-shapes.ts'
import { pageSizes } from '../../src/paper/size.ts'
import { figuresHigh, thirdFigure } from '../../src/paper/wall-figures.ts'
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
  expect(figuresHigh(bevel, pageSizes.A4) - figuresHigh(set({}), pageSizes.A4)).toBeGreaterThan(12)
})

test('a fraction stands behind its whole number where the line has room for it, else stacked and twice as high', () => {
  const high = (stop: string, miter: string) =>
    figuresHigh(
      set({
        printed: {
          ...squareSet.printed,
          stop: { mm: 1, text: stop, unit: 'in' },
          miter: { deg: 1, text: miter },
        },
      }),
      pageSizes.A4,
    )
  expect(high('50 9/16', '22.5°')).toBe(high('50', '45°'))
  expect(high('23 45/64', '45°')).toBe(high('50', '45°'))
  expect(high('123 45/64', '22 1/2°') - high('50', '45°')).toBeGreaterThan(12)
})
