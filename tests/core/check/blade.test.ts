import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { atRest, cutAt, trimAt } from '../../../src/core/check/blade.ts'
import { boxOf, edges, type Face, reach, type Solid, turnedBy } from '../../../src/core/check/solid.ts'
import type { Turn } from '../../../src/core/plan-shapes.ts'
import type { Section } from '../../../src/core/section/section.ts'

const rad = (degrees: number) => (degrees * Math.PI) / 180
const tan = (degrees: number) => Math.tan(rad(degrees))
const tube = (width: number, height = width, cornerRadius = 0): Section => ({
  kind: 'rect-tube',
  width,
  height,
  wall: 2,
  cornerRadius,
})
const face = (x: number, p = 0, q = 0): Face => ({ x, p, q, mill: false })
const stick = (width: number, lead: Face, height = width, radius = 0) =>
  boxOf(tube(width, height, radius), lead, face(-3000))

/** Lengths of the kept part along the fence and along the outward face. */
function kept(solid: Solid, swing: number, stop: number) {
  const [, , fence, outward] = edges({
    ...solid,
    trail: { ...cutAt(solid, { ...atRest, swing }, stop), mill: false },
  })
  return { fence: fence!, outward: outward! }
}

describe('the stop rule, replayed', () => {
  // design.md 6, "Unequal ends".
  test('50 tube, cut 30°, leading end 20°, fence edge 400: the stop is at 418.20', () => {
    const stop = 400 + 50 * tan(20)
    expect(stop).toBeCloseTo(418.2, 2)
    expect(kept(stick(50, face(0, tan(20))), 30, stop).fence).toBeCloseTo(400, 9)
    // Leaning the other way the leading end touches at the fence: the same stop then gives the fence edge itself.
    expect(kept(stick(50, face(0, -tan(20))), 30, 400).fence).toBeCloseTo(400, 9)
  })

  // design.md 6, table of special cases: 40 tube at 30°, long point or edge 404; 404 − 40 · tan 30° = 380.906.
  const [w, a] = [40, 30]
  const drop = w * tan(a)
  test.each([
    ['trapezoid, long side at the fence', face(0, -tan(a)), -a, 404, { fence: 404, outward: 404 - 2 * drop }],
    ['trapezoid, outward', face(0, tan(a)), a, 404 - drop, { fence: 404 - 2 * drop, outward: 404 }],
    ['parallelogram, touching at the fence', face(0, -tan(a)), a, 404, { fence: 404, outward: 404 }],
    ['parallelogram, touching outward', face(0, tan(a)), -a, 404 + drop, { fence: 404, outward: 404 }],
    ['one end, long side at the fence', face(0), -a, 404, { fence: 404, outward: 404 - drop }],
    ['one end, outward', face(0), a, 404 - drop, { fence: 404 - drop, outward: 404 }],
  ])('%s', (_, lead, swing, stop, lengths) => {
    const found = kept(stick(w, lead), swing, stop)
    expect(found.fence).toBeCloseTo(lengths.fence, 9)
    expect(found.outward).toBeCloseTo(lengths.outward, 9)
  })
  test('the hexagon of 404 cut outward is set at 380.906; at the printed 381 its long point is 404.09', () => {
    expect(404 - drop).toBeCloseTo(380.906, 3)
    expect(kept(stick(w, face(0, tan(a))), a, 381).outward).toBeCloseTo(404.09, 2)
  })

  // Against polygons in the plane: the outline is moved until its greatest x touches the plate, then clipped.
  test('agrees with polygons pushed to a plate, for any two angles', () =>
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 10, max: 150, noNaN: true }),
        fc.double({ min: 600, max: 900, noNaN: true }),
        (lead, swing, width, stop) => {
          const slope = tan(lead)
          const outline = [
            [0, 0],
            [slope * width, width],
            [slope * width - 2500, width],
            [-2500, 0],
          ] as const
          const push = stop - Math.max(...outline.map(([x]) => x))
          // On the fence the blade is at 0, at the outward face at −width · tan swing.
          const fence = outline[0][0] + push
          const outward = outline[1][0] + push + width * tan(swing)
          const found = kept(stick(width, face(0, slope)), swing, stop)
          expect(found.fence).toBeCloseTo(fence, 6)
          expect(found.outward).toBeCloseTo(outward, 6)
        },
      ),
    ))
})

describe('compound cuts', () => {
  const slopes = (setting: Partial<typeof atRest>) => {
    const { p, q } = cutAt(stick(50, face(0)), { ...atRest, ...setting }, 500)
    return [p, q] as const
  }
  const swingTilt = (swing: number, tilt: number) => slopes({ swing, tilt })
  /** The normal of a blade plane by the angles: x toward the stop. */
  const normal = (swing: number, tilt: number) =>
    [
      Math.cos(rad(swing)) * Math.cos(rad(tilt)),
      Math.sin(rad(swing)) * Math.cos(rad(tilt)),
      Math.sin(rad(tilt)),
    ] as const
  const same = (a: readonly number[], b: readonly number[]) =>
    a.forEach((value, k) => {
      expect(value).toBeCloseTo(b[k]!, 9)
    })

  // design.md 5, "Example, splay 8/12": swing 11.89 with tilt 8 is the cradle at 34.31 with swing 14.30, or the ramp
  // at 8.17 with swing 11.77.
  test('swing and tilt, cradle and swing, ramp and swing give one plane (splay 8/12)', () => {
    const [x, y, z] = normal(11.89, 8)
    const rho = (Math.atan2(z, y) * 180) / Math.PI
    const turned = (Math.acos(x) * 180) / Math.PI
    expect([rho, turned]).toEqual([expect.closeTo(34.31, 1), expect.closeTo(14.3, 1)])
    same(slopes({ roll: -rho, swing: turned }), swingTilt(11.89, 8))
    const ramp = (Math.atan(z / x) * 180) / Math.PI
    const flat = (Math.asin(y) * 180) / Math.PI
    expect([ramp, flat]).toEqual([expect.closeTo(8.17, 1), expect.closeTo(11.77, 1)])
    same(slopes({ ramp, swing: flat }), swingTilt(11.89, 8))
  })

  // design.md 6: 50 tube, R 6, 30/20: the steel stops 1.7 mm short of the sharp box.
  test('the corner loss at 30/20 on 50 tube with R 6 is 1.7 mm, and nothing for a plain swing', () => {
    const [p, q] = swingTilt(30, 20)
    const box = stick(50, face(0), 50, 6)
    const sharp = stick(50, face(0), 50, 0)
    expect(reach(sharp, { p, q }) - reach(box, { p, q })).toBeCloseTo(1.7, 1)
    expect(reach(box, { p: tan(30), q: 0 })).toBeCloseTo(25 * tan(30), 12)
  })

  // design.md 6, rolled square tube with symmetric ends: S = center length + (h − d) · tan swing with the long side
  // outward, + with it toward the fence; here the tube touches the fence, so that d = h.
  test('a rolled tube with symmetric ends is set at its center length, or 2h · tan swing further', () => {
    const roll = 30
    const swing = 20
    const [w, r] = [50, 6]
    const h = (w / 2 - r) * (Math.abs(Math.cos(rad(roll))) + Math.abs(Math.sin(rad(roll)))) + r
    const [p, q] = slopes({ roll, swing })
    const fence = stick(w, face(0, p, q), w, r)
    // The two ends are mirror images: the leading one slopes as the blade would, swung the other way.
    const at = cutAt(fence, { ...atRest, roll, swing: -swing }, 400 + 2 * h * tan(swing))
    const other = cutAt(stick(w, face(0, -p, -q), w, r), { ...atRest, roll, swing }, 400)
    expect(-at.x).toBeCloseTo(400, 9)
    expect(-other.x).toBeCloseTo(400, 9)
  })
})

test('a clean-up of 10 square takes 10; on a slanted mill end the edge that loses least loses 10', () => {
  expect(trimAt(stick(40, face(6000)), atRest, 10)).toEqual({
    x: 5990,
    p: expect.closeTo(0, 12),
    q: expect.closeTo(0, 12),
  })
  const slanted = stick(40, face(6000, tan(10)))
  const { x } = trimAt(slanted, atRest, 10)
  expect(6000 - 20 * tan(10) - x).toBeCloseTo(10, 9)
})

describe('turning the workpiece', () => {
  const shape = boxOf(tube(60, 40, 4), face(200, 0.3, -0.2), face(-150, -0.1, 0.5))
  const turns: Turn[] = ['over', 'quarter+', 'quarter-', 'end', 'flip']
  const turnedAll = (...steps: Turn[]) => steps.reduce(turnedBy, shape)
  /** Volume under the corners, with its sign: a turn keeps it, a mirror image of unequal ends is told by `hand`. */
  const hand = ({ lead, trail }: Solid) => lead.p * trail.q - lead.q * trail.p

  test('twice a half turn, four times a quarter, is nothing', () => {
    for (const turn of ['over', 'end', 'flip'] as const) expect(turnedAll(turn, turn)).toEqual(shape)
    expect(turnedAll('quarter+', 'quarter+', 'quarter+', 'quarter+')).toEqual(shape)
    expect(turnedAll('quarter+', 'quarter-')).toEqual(shape)
  })
  test('two quarters are over, over and end are flip', () => {
    expect(turnedAll('quarter+', 'quarter+')).toEqual(turnedAll('over'))
    expect(turnedAll('over', 'end')).toEqual(turnedAll('flip'))
  })
  test('no turn changes the hand of a part with crossed ends, and a quarter swaps width and height', () => {
    for (const turn of turns) expect(hand(turnedAll(turn))).toBeCloseTo(hand(shape), 12)
    expect([turnedAll('quarter+').across, turnedAll('quarter+').up]).toEqual([40, 60])
  })
  test('a quarter turn about +x, right-hand, brings what leaned outward up', () => {
    const { lead } = turnedAll('quarter+')
    // (y, z) goes to (−z, y): the slope along y is found along z.
    expect([lead.p, lead.q]).toEqual([0.2, 0.3])
  })
  test('every turn keeps the four edges, in some order', () => {
    const sorted = (solid: Solid) => [...edges(solid)].sort((a, b) => a - b).map((edge) => edge.toFixed(9))
    for (const turn of turns) expect(sorted(turnedAll(turn))).toEqual(sorted(shape))
  })
})
