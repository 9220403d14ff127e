import { expect, test } from 'vitest'
import { draggedTo } from '../../../src/ui/drawing/drag.ts'

const inch = 25.4

test('900 mm at 0.4 px a mm: 23 px make 957.5, which is 960 in steps of 5; 0.9 px make nothing', () => {
  expect(draggedTo(900, 23, 0.4, 'mm')).toBe(960)
  expect(draggedTo(900, -23, 0.4, 'mm')).toBe(845)
  expect(draggedTo(900, 0.9, 0.4, 'mm')).toBe(900)
})

test('24 in at 0.5 px a mm: 10 px are 20 mm, so 24 3/4 in; 25 3/8 is dragged to a quarter', () => {
  expect(draggedTo(24 * inch, 10, 0.5, 'in')).toBeCloseTo(24.75 * inch, 9)
  expect(draggedTo(25.375 * inch, 1, 0.5, 'in')).toBeCloseTo(25.5 * inch, 9)
})

test('back where it was grabbed it is what was typed; far to the left one step is left of it', () => {
  expect(draggedTo(25.375 * inch, 0, 0.5, 'in')).toBe(25.375 * inch)
  expect(draggedTo(900, -4000, 0.4, 'mm')).toBe(5)
})
