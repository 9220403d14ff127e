import { describe, expect, test } from 'vitest'
import { viewsOf } from '../../src/paper/piece-picture.tsx'
import { scaled } from '../../src/paper/scaled.ts'
import { plan } from '../ui/saw/bench-run.ts'

describe('steel drawn to scale on paper', () => {
  test('a piece that fits is drawn whole, one scale both ways; one that does not is broken, its ends true', () => {
    const whole = scaled([0, 200], 50, 60, { least: 12, most: 15 })
    expect([whole.broken, whole.scale]).toEqual([false, 0.3])
    expect(whole.at(200) - whole.at(0)).toBeCloseTo(60, 9)
    const long = scaled([0, 2000], 50, 60, { least: 12, most: 15 })
    expect([long.broken, long.scale]).toEqual([true, 0.24])
    expect([long.at(0), long.at(2000)]).toEqual([0, 60])
    // 30 mm of either end are drawn as at 0.24, however long the piece.
    expect(long.at(30) - long.at(0)).toBeCloseTo(7.2, 9)
    expect(long.at(2000) - long.at(1970)).toBeCloseTo(7.2, 9)
  })

  test('a short piece is not blown up past the depth that is wanted, and stands in the middle', () => {
    const short = scaled([0, 40], 40, 60, { least: 12, most: 15 })
    expect([short.scale, short.at(0), short.at(40)]).toEqual([0.375, 22.5, 37.5])
  })

  test('a trapezoid of 404 in 40 tube, 30°: 404.145 on the side at the fence, 357.957 on the other (formula for mitered frames)', () => {
    const t = Math.tan(Math.PI / 6)
    const slopes = [
      { p: -t, q: 0 },
      { p: t, q: 0 },
    ] as const
    const [above, ...more] = viewsOf({ ...plan.parts[0]!, slopes, mid: 404.145 - 40 * t })
    expect(more).toEqual([])
    const long = (edge: readonly [number, number]) => edge[1] - edge[0]
    expect(long(above!.upper)).toBeCloseTo(404.145, 9)
    // Long point less 2 w tan 30°.
    expect(long(above!.lower)).toBeCloseTo(357.957, 3)
  })

  test('ends that lean up too are drawn from the side as well', () => {
    const [part] = plan.parts
    const compound = {
      ...part!,
      slopes: [
        { p: 0.2, q: 0.1 },
        { p: 0.2, q: 0.1 },
      ] as const,
    }
    expect(viewsOf(compound).map(({ from }) => from)).toEqual(['above', 'the side'])
  })
})
