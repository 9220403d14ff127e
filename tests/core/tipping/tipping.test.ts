import { describe, expect, test } from 'vitest'
import table from '../../../shared/reference/stability.json'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import type { Point } from '../../../src/core/geometry/polygon.ts'
import { plan } from '../../../src/core/plan.ts'
import { tipLines, tippingOf, tippingOver } from '../../../src/core/tipping.ts'
import { metric } from '../builds/framed.ts'

const ring = (n: number, radius: number): Point[] =>
  Array.from({ length: n }, (_, k) => [
    radius * Math.cos((2 * Math.PI * k) / n),
    radius * Math.sin((2 * Math.PI * k) / n),
  ])

describe('tipping over the line between two feet, reference 7.2', () => {
  test.each(table.tip_line)(
    '$feet feet: the line lies $tip_line_over_foot_radius of the foot radius away',
    (row) => {
      const made = tippingOver(ring(row.feet, 1), ring(360, 2), [0, 0], 1, 1)!
      expect(made.inside).toBeCloseTo(row.tip_line_over_foot_radius, 4)
    },
  )

  test.each(table.examples)(
    'weight $W on $feet feet at $foot_radius under a top of $top_radius: $F_vertical on the edge, $F_horizontal_at_top at its height',
    (row) => {
      // A round top, close enough: a corner each tenth of a degree.
      const made = tippingOver(
        ring(row.feet, row.foot_radius),
        ring(3600, row.top_radius),
        [0, 0],
        row.W,
        row.height,
      )!
      expect(made.inside).toBeCloseTo(row.a, 2)
      expect(made.outside).toBeCloseTo(row.overhang, 2)
      expect(made.load).toBeCloseTo(row.F_vertical, 1)
      expect(made.push).toBeCloseTo(row.F_horizontal_at_top, 1)
    },
  )

  test('a top inside its feet tips by no load on its edge, still by a push', () => {
    const made = tippingOver(ring(4, 300), ring(4, 100), [0, 0], 40, 700)!
    expect(made.load).toBe(Number.POSITIVE_INFINITY)
    expect(made.push).toBeCloseTo((40 * 300 * Math.SQRT1_2) / 700, 9)
  })

  test('two feet are no stand; the third point on a line adds none', () => {
    expect(
      tippingOver(
        [
          [0, 0],
          [100, 0],
        ],
        ring(4, 50),
        [50, 0],
        10,
        500,
      ),
    ).toBeUndefined()
    expect(
      tipLines([
        [0, 0],
        [50, 0],
        [100, 0],
      ]),
    ).toEqual([])
  })
})

test('a pedestal on four arms with levelers: feet at 275 from the middle, top of 600 across flats with corners at 346.4', () => {
  const made = plan(newJob(buildOf('pedestal')!, 'mm', 'j'), metric)
  if (!made.ok) throw new Error(made.problems[0]!.text)
  const tip = tippingOf(made.value)!
  // Levelers stand under the middle of the feet: half of 600 less half of a 50 foot; four of them: × 0.7071.
  expect(tip.inside).toBeCloseTo(275 * Math.SQRT1_2, 6)
  // The corner of the hexagon at 60° lies at 346.41; toward 45° it reaches 346.41 · cos 15°.
  expect(tip.outside).toBeCloseTo(346.4102 * Math.cos(Math.PI / 12) - 275 * Math.SQRT1_2, 3)
  expect(tip.load).toBeCloseTo((made.value.mass * tip.inside) / tip.outside, 6)
})
