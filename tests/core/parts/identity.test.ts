import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { end, flip, geometryKey, over, quarter, type Solid } from '../../../src/core/parts/identity.ts'
import { markOf } from '../../../src/core/parts/parts.ts'

const section = (width: number, height: number) =>
  ({ kind: width === height ? 'square-tube' : 'rect-tube', width, height, wall: 2, cornerRadius: 4 }) as const

const solid = (width: number, height: number, a: [number, number], b: [number, number]): Solid => ({
  section: section(width, height),
  a: { x: 0, p: a[0], q: a[1] },
  b: { x: 500, p: b[0], q: b[1] },
})

const mirror = ({ section: of, a, b }: Solid): Solid => ({
  section: of,
  a: { ...a, p: -a.p },
  b: { ...b, p: -b.p },
})

describe('the geometry key', () => {
  const slope = fc.double({ min: -1, max: 1, noNaN: true })
  const solids = fc
    .tuple(fc.constantFrom(40, 60), fc.tuple(slope, slope), fc.tuple(slope, slope))
    .map(([width, a, b]) => solid(width, 40, a, b))

  test('is the same over, end for end, flipped, and after a quarter turn with width and height exchanged', () => {
    fc.assert(
      fc.property(solids, (of) => {
        const key = geometryKey(of)
        for (const turn of [over, end, flip, quarter]) expect(geometryKey(turn(of))).toBe(key)
      }),
    )
  })

  test('of a mirror image is another where the planes of the ends are at right angles', () => {
    const handed = solid(60, 40, [0.5, 0], [0, 0.5])
    expect(geometryKey(mirror(handed))).not.toBe(geometryKey(handed))
    // In one swing plane the mirror image is the piece turned over.
    const flat = solid(60, 40, [0.5, 0], [-0.3, 0])
    expect(geometryKey(mirror(flat))).toBe(geometryKey(flat))
  })

  test('tells 500 from 500.001 mm (1.6 steps), not from 500.0000001', () => {
    const longer = (by: number): Solid => ({
      ...solid(40, 40, [0, 0], [0, 0]),
      b: { x: 500 + by, p: 0, q: 0 },
    })
    expect(geometryKey(longer(0.001))).not.toBe(geometryKey(longer(0)))
    expect(geometryKey(longer(1e-7))).toBe(geometryKey(longer(0)))
  })

  test('does not fall on both sides of 1/128 in, which is half a step', () => {
    const at = (x: number) => geometryKey({ ...solid(40, 40, [0, 0], [0, 0]), b: { x, p: 0, q: 0 } })
    expect(at(25.4 / 128 + 254 - 1e-10)).toBe(at(25.4 / 128 + 254 + 1e-10))
  })
})

test('marks run A … Z, AA, AB, and none is S: S1 is a stick', () => {
  const marks = [0, 17, 18, 24, 25, 26, 700, 701].map(markOf)
  expect(marks).toEqual(['A', 'R', 'T', 'Z', 'AA', 'AB', 'ZZ', 'AAA'])
})
