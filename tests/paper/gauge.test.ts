import { describe, expect, test } from 'vitest'
import { gaugesOf, riseOf, triangleOf } from '../../src/paper/gauge.ts'
import { bodyWide, pageSizes } from '../../src/paper/size.ts'
import { cutsWith, plan, shop } from '../ui/saw/bench-run.ts'

const metric = { kind: 'mm', step: 1 } as const
const inches = { kind: 'inch-fraction', denominator: 16 } as const
const angleOf = ({ along, across }: { along: number; across: number }) =>
  (Math.atan2(along, across) * 180) / Math.PI

describe('angle gauges', () => {
  test('25.714° rises 5.779 in 12 in and 48.16 in 100 mm (design figure for seven sides)', () => {
    expect(riseOf(180 / 7, inches)).toBe('5.779 in 12 in')
    expect(riseOf(180 / 7, metric)).toBe('48.16 in 100 mm')
  })

  test.each([0.5, 8, 14.3, 22.5, 30, 45, 45.1, 60, 75, 89])(
    'the triangle of %s° has that angle, and fits on the narrower paper',
    (deg) => {
      for (const reading of [metric, inches]) {
        const triangle = triangleOf(deg, reading)
        expect(angleOf(triangle)).toBeCloseTo(deg, 9)
        expect(triangle.along + triangle.strip + 2).toBeLessThan(bodyWide(pageSizes.A4))
        expect(Math.max(triangle.along, triangle.across)).toBeCloseTo(reading.kind === 'mm' ? 100 : 101.6, 9)
      }
    },
  )

  test('a triangle too slim to hold has a strip beside it: at 16.6° of 100 mm, no more at 16.8°', () => {
    expect(triangleOf(16.6, metric).strip).toBe(25)
    expect(triangleOf(16.8, metric).strip).toBe(0)
  })

  test('one gauge for an angle, with all that it is for; square has none', () => {
    const slope = Math.tan(Math.PI / 6)
    const [part] = plan.parts
    const slopes = [
      { p: -slope, q: 0 },
      { p: slope, q: 0 },
    ] as const
    const [gauge, ...more] = gaugesOf({ ...plan, parts: [{ ...part!, slopes }] }, cutsWith([]), shop)
    expect(more).toEqual([])
    expect(gauge).toMatchObject({ text: '30°', uses: ['Miter of set-up 2', 'On a face of A'] })
    expect(gauge!.deg).toBeCloseTo(30, 9)
  })

  test('two angles a tenth of a degree apart are two gauges', () => {
    const [first, second] = [30, 30.1].map((deg) => ({ p: Math.tan((deg * Math.PI) / 180), q: 0 }))
    const parts = [{ ...plan.parts[0]!, slopes: [first!, second!] as const }]
    expect(gaugesOf({ ...plan, parts }, [], shop).map(({ text }) => text)).toEqual(['30°', '30.1°'])
  })
})
