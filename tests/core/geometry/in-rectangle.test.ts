import { describe, expect, test } from 'vitest'
import { extentTurned, leastRectangle, turnInto } from '../../../src/core/geometry/in-rectangle.ts'
import { type Polygon, regular } from '../../../src/core/geometry/polygon.ts'

const rectangle = (p: number, q: number): Polygon => [
  [0, 0],
  [p, 0],
  [p, q],
  [0, q],
]
const turned = (polygon: Polygon, angle: number): Polygon =>
  polygon.map(([x, y]) => [
    x * Math.cos(angle) - y * Math.sin(angle),
    x * Math.sin(angle) + y * Math.cos(angle),
  ])

/**
 * Least width b of a rectangle a × b that holds p × q lying slanted, for p > a: W. B. Carver, American Mathematical
 * Monthly 64 (1957); from memory, and checked here against turning by a thousandth of a degree.
 */
const slantedWidth = (p: number, q: number, a: number) =>
  (2 * p * q * a + (p * p - q * q) * Math.sqrt(p * p + q * q - a * a)) / (p * p + q * q)

describe('an outline in a rectangle of sheet', () => {
  test('a strip of 2600 × 100 goes into 2500 only slanted, and then needs just the width of the formula', () => {
    const width = slantedWidth(2600, 100, 2500)
    let least = Infinity
    for (let at = 0; at <= 90_000; at++) {
      const [along, across] = extentTurned(rectangle(2600, 100), (at / 180_000) * Math.PI)
      if (along <= 2500) least = Math.min(least, across)
    }
    expect(least).toBeCloseTo(width, 1)
    const turn = turnInto(rectangle(2600, 100), 2500, width + 0.001)
    expect(turn).toBeDefined()
    expect(extentTurned(rectangle(2600, 100), turn!)[0]).toBeLessThanOrEqual(2500.001)
    expect(turnInto(rectangle(2600, 100), 2500, width - 0.001)).toBeUndefined()
  })

  test('a hexagon of 700 across flats is 700 by 700 · 2/√3 = 808.29, and fits in just that, not in 0.01 less', () => {
    const hexagon = regular(6, 350)
    const { long, short } = leastRectangle(hexagon)
    expect(short).toBeCloseTo(700, 6)
    expect(long).toBeCloseTo((700 * 2) / Math.sqrt(3), 6)
    expect(turnInto(hexagon, 808.291, 700)).toBeDefined()
    expect(turnInto(hexagon, 700, 808.291)).toBeDefined()
    expect(turnInto(hexagon, 808.28, 700)).toBeUndefined()
  })

  test('a hexagon of side 1 comes out of a square of 1.932, turned by 15°, and of none of 1.9318', () => {
    // Least square round a regular hexagon of side 1 has the side √6/2 + √2/2 = 2 cos 15° = 1.9319: at 15° its two extents
    // are equal. Across corners it is 2, across flats 1.7321.
    const hexagon = turned(regular(6, Math.sqrt(3) / 2), 0.3)
    expect(turnInto(hexagon, 1.932, 1.932)).toBeDefined()
    expect(turnInto(hexagon, 1.9318, 1.9318)).toBeUndefined()
  })

  test('how it is drawn does not matter: an L of 300 × 200 drawn at 20° needs 300 × 200', () => {
    const ell: Polygon = [
      [0, 0],
      [300, 0],
      [300, 100],
      [100, 100],
      [100, 200],
      [0, 200],
    ]
    expect(turnInto(turned(ell, 0.35), 300.001, 200.001)).toBeDefined()
    // Its hull has a slanted side, along which it lies narrower: 300 × 200 less a corner triangle of 200 × 100.
    const { long, short } = leastRectangle(turned(ell, 0.35))
    expect(long * short).toBeLessThanOrEqual(300 * 200 + 1e-6)
  })
})
