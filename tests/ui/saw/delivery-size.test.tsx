import { render } from '@testing-library/react'
import { describe, expect, test } from 'vitest'
import { DeliverySize } from '../../../src/ui/saw/delivery-size.tsx'
import { part, shop } from '../../core/saw/sample.ts'

const six = part({ length: 404, ends: [30, 30] })
const carried = (width: number) =>
  shop({
    sections: [
      { section: six.section, name: '40', measured: { width, height: 40 }, stock: [{ length: 6000 }] },
    ],
  })
const words = (width: number, of = six) => {
  const { container } = render(<DeliverySize part={of} shop={carried(width)} />)
  return container.textContent
}

describe('tube listed as 40, ends of 30°', () => {
  // 2 · 0.5 · tan 30° = 0.577 (short side of a part, by the rule of the documents).
  test('40.5 measured: the short point comes out 0.6 shorter, the long point at the fence stays', () => {
    expect(words(40.5)).toMatch(/measures 40.5 mm where 40.0 mm is listed/)
    expect(words(40.5)).toMatch(/long point at the fence stays .* short point comes out 0.6 mm shorter/)
  })

  test('39.5 measured: 0.6 longer', () => {
    expect(words(39.5)).toMatch(/short point comes out 0.6 mm longer/)
  })

  test('as listed, or square ends: nothing is said', () => {
    expect(words(40)).toBe('')
    expect(words(40.5, part({ length: 404, ends: [0, 0] }))).toBe('')
  })
})
