import fc from 'fast-check'
import { expect, test } from 'vitest'
import { convexPieces } from '../../../src/core/geometry/convex.ts'
import { area, type Polygon, regular } from '../../../src/core/geometry/polygon.ts'
import { notched } from '../../../src/core/plates/notched.ts'

const areaOf = (polygon: Polygon, piece: readonly number[]) => area(piece.map((at) => polygon[at]!))

test('a convex outline is one piece; an L is two, a rectangle notched at four corners at most five', () => {
  expect(convexPieces(regular(7, 100))).toHaveLength(1)
  const el: Polygon = [
    [0, 0],
    [100, 0],
    [100, 40],
    [40, 40],
    [40, 100],
    [0, 100],
  ]
  const pieces = convexPieces(el)
  expect(pieces).toHaveLength(2)
  // 100 · 40 + 40 · 60.
  expect(pieces.reduce((sum, piece) => sum + areaOf(el, piece), 0)).toBeCloseTo(6400, 9)
  const posts = [-480, 480].map((x) => ({ x, y: -180, width: 40, depth: 40 }))
  expect(convexPieces(notched(1000, 400, posts, 2)).length).toBeLessThanOrEqual(5)
})

test('star-shaped outlines, either way round: convex pieces whose areas add up to the whole', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 20, max: 100, noNaN: true }), { minLength: 4, maxLength: 14 }),
      fc.boolean(),
      (radii, back) => {
        const star = radii.map((radius, at) => {
          const angle = (2 * Math.PI * at) / radii.length
          return [radius * Math.cos(angle), radius * Math.sin(angle)] as const
        })
        const polygon = back ? [...star].reverse() : star
        const pieces = convexPieces(polygon)
        const areas = pieces.map((piece) => areaOf(polygon, piece))
        expect(Math.min(...areas)).toBeGreaterThan(0)
        expect(areas.reduce((sum, each) => sum + each, 0)).toBeCloseTo(Math.abs(area(polygon)), 6)
        for (const piece of pieces)
          for (const [at] of piece.entries()) {
            const three = [0, 1, 2].map((k) => piece[(at + k) % piece.length]!)
            expect(areaOf(polygon, three)).toBeGreaterThan(-1e-6)
          }
      },
    ),
  )
})
