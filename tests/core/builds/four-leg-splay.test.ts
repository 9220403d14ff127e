// Splayed legs of square tube against the formulas and figures of shared reference section 1.4 (computed there by
// formula and checked with vectors; its "side" is the lean along the length here, its "front" that along the width),
// and against common practice. What is measured here are the raw cuts and poses of the legs.
import { describe, expect, test } from 'vitest'
import { edgesOf, endPlane } from '../../../src/core/frame/member.ts'
import { axisX } from '../../../src/core/geometry/pose.ts'
import { framed, inches, metric, partOf, tube } from './framed.ts'

const in1 = 25.4
const deg = (slope: number) => (Math.atan(Math.abs(slope)) * 180) / Math.PI

/** A 1 in frame with bare legs of this height under it. */
const bareLegs = (height: number, leanLength: number, leanWidth: number, more = {}) =>
  framed(
    'four-leg',
    {
      section: tube('1', '16 ga'),
      legSection: tube('1', '16 ga'),
      height: `${height + 1}`,
      splay: 'angles',
      leanLength,
      leanWidth,
      caps: false,
      levelers: false,
      ...more,
    },
    inches,
  )

describe('a tube turned square to the frame', () => {
  test.each([
    [5, 5, 28, 7.0532, 45.0, 28.2135, 5.0189, 4.9811, 4.9621],
    [10, 0, 28, 10.0, 0.0, 28.4319, 10.0, 0.0, 0.0],
    [10, 10, 17, 14.0019, 45.0, 17.5206, 10.1466, 9.8511, 9.7],
    [8, 12, 28, 14.2957, 56.5276, 28.8948, 8.173, 11.8866, 11.7692],
  ])(
    'splay %d/%d over %d in: lean %d°, plan %d°, axis %d in, face miter %d°, adjacent %d°, bevel %d°',
    (along, across, height, lean, plan, axis, miter, adjacent, bevel) => {
      const made = bareLegs(height, along, across)
      for (const leg of made.frame.members.filter(({ id }) => id.startsWith('legs/leg-'))) {
        for (const edge of edgesOf(leg).lengths) expect(edge / in1).toBeCloseTo(axis, 4)
        const [x, y, z] = axisX(leg.pose)
        expect((Math.acos(z) * 180) / Math.PI).toBeCloseTo(lean, 4)
        expect((Math.atan2(Math.abs(y), Math.abs(x)) * 180) / Math.PI).toBeCloseTo(plan, 3)
        for (const cut of leg.ends) {
          const { p, q } = endPlane(cut)
          expect(deg(p)).toBeCloseTo(miter, 3)
          expect(deg(q)).toBeCloseTo(adjacent, 3)
          // The face miter on the saw, then the blade tilted: the height's share of the cut's normal.
          expect((Math.asin(Math.abs(cut.normal[2])) * 180) / Math.PI).toBeCloseTo(bevel, 4)
        }
      }
      expect(partOf(made, 'Leg').shape).toBe('ends parallel')
    },
  )

  test('all four legs are one part: ends that are parallel make a mirror image the same piece, end for end', () => {
    expect(partOf(bareLegs(28, 8, 12), 'Leg').count).toBe(4)
  })
})

test('a tube turned to its lean of 8/12 is cut by one plain miter of 14.2957° (reference 1.4)', () => {
  const made = bareLegs(28, 8, 12, { legTurned: 'to the lean' })
  for (const leg of made.frame.members.filter(({ id }) => id.startsWith('legs/leg-')))
    for (const { p, q } of leg.ends.map(endPlane)) {
      expect(deg(p)).toBeCloseTo(14.2957, 4)
      expect(q).toBeCloseTo(0, 12)
    }
  expect(partOf(made, 'Leg').edges[0] / in1).toBeCloseTo(28.8948, 4)
})

test('a cap under a 40 tube that leans 12° is 40.89 by 40, and takes 6/cos 12° off the axis (common practice)', () => {
  const at = (caps: boolean) =>
    framed(
      'four-leg',
      { splay: 'angles', leanLength: 12, leanWidth: 0, caps, capThickness: 6, levelers: false },
      metric,
    )
  const capped = at(true)
  const cap = capped.frame.plates.find(({ id }) => id === 'legs/cap-1')
  if (!cap) throw new Error('no cap')
  const span = (axis: 0 | 1) => {
    const along = cap.polygon.map((point) => point[axis])
    return Math.max(...along) - Math.min(...along)
  }
  expect([span(0), span(1)].sort((a, b) => a - b)[0]).toBeCloseTo(40, 9)
  expect([span(0), span(1)].sort((a, b) => a - b)[1]).toBeCloseTo(40.89, 2)
  const leg = (caps: boolean) => partOf(at(caps), 'Leg').edges[0]
  expect(leg(false) - leg(true)).toBeCloseTo(6 / Math.cos((12 * Math.PI) / 180), 9)
  expect(capped.frame.size[2]).toBeCloseTo(740, 9)
})
