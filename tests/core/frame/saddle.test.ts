import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Member } from '../../../src/core/frame/frame.ts'
import { type End, member } from '../../../src/core/frame/member.ts'
import { outsideAt } from '../../../src/core/frame/round-end.ts'
import { type FirstCut, outlineLength, saddle, saddleProfile } from '../../../src/core/frame/saddle.ts'
import { axisX, origin } from '../../../src/core/geometry/pose.ts'
import { add, cross, dot, norm, scale, sub, unit, type Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { cosDeg, sinDeg, tanDeg } from '../../../src/core/units.ts'

const pipe = (diameter: number): Section => ({
  kind: 'round-tube',
  width: diameter,
  height: diameter,
  wall: 3,
  cornerRadius: 0,
})
const say = (mm: number) => `${+mm.toFixed(3)} mm`
const post = (diameter: number) =>
  member('post', 'Post', pipe(diameter), [0, 0, -500], [0, 0, 500], [0, 1, 0])

/** A brace whose axis ends on the post's (or `beside` mm to its side), rising from it by `rise` degrees. */
const brace = (diameter: number, rise: number, beside = 0, from = 400) =>
  member(
    'brace',
    'Brace',
    pipe(diameter),
    [from * cosDeg(rise), beside, from * sinDeg(rise)],
    [0, beside, 0],
    [0, 1, 0],
  )

function fitted(stops: Member, runs: Member, gap = 0, first: FirstCut = 'square', end: End = 'B') {
  const made = saddle('node', stops, end, runs, gap, say, first)
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join())
  return made.value
}
const refused = (stops: Member, runs: Member) => {
  const made = saddle('node', stops, 'B', runs, 0, say)
  if (made.ok) throw new Error('it was made')
  return made.problems[0]!
}

/** Distance of a point from a member's axis, by a formula that the code does not use. */
const away = (point: Vec3, of: Member) => norm(cross(sub(point, origin(of.pose)), axisX(of.pose)))

describe('the saddle curve', () => {
  test('square on a tube of the same 60 mm: 0 mm from the axis at the sides, 30 mm at front and back', () => {
    const profile = saddleProfile(fitted(brace(60, 0), post(60)).member, 'B', 4)
    for (const [at, x] of [370, 400, 370, 400].entries()) expect(profile[at]).toBeCloseTo(x, 9)
  })

  test.each([
    [48.3, 60.3, 45, 0],
    [33.7, 60.3, 30, 10],
    [42.4, 42.4, 60, 0],
    [26.9, 114.3, 70, -40],
  ])(
    '%f on %f at %f°, %f beside: r cos t / tan a ± √(R² − (r sin t + e)²) / sin a (descriptive geometry, from memory)',
    (own, other, angle, beside) => {
      const made = fitted(brace(own, 90 - angle, beside), post(other))
      const [r, R] = [own / 2, other / 2]
      // From the point where the axes pass each other; t from the side that leans toward the post's far end.
      const along = (t: number) =>
        Math.sqrt(R ** 2 - (r * Math.sin(t) + beside) ** 2) / sinDeg(angle) +
        (r * Math.cos(t)) / tanDeg(angle)
      const wanted = Array.from({ length: 360 }, (_, k) => along((2 * Math.PI * k) / 360)).sort(
        (a, b) => a - b,
      )
      const got = saddleProfile(made.member, 'B', 360)
        .map((x) => 400 - x)
        .sort((a, b) => a - b)
      for (const [at, x] of got.entries()) expect(x).toBeCloseTo(wanted[at]!, 6)
    },
  )

  test('any direction, any offset, either end: every point of the outline lies on the other tube, 1.5 mm off with that gap', () => {
    const unitless = fc.double({ min: -1, max: 1, noNaN: true })
    fc.assert(
      fc.property(
        fc.tuple(unitless, unitless, unitless).filter((v) => norm(v) > 0.1),
        fc.tuple(unitless, unitless, unitless).filter((v) => norm(v) > 0.1),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.constantFrom<End>('A', 'B'),
        fc.constantFrom<FirstCut>('square', 'miter'),
        (one, two, narrow, aside, end, first) => {
          const [d, e] = [unit(one), unit(two)]
          fc.pre(norm(cross(d, e)) > 0.3)
          const up: Vec3 = Math.abs(d[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]
          const side = scale(unit(cross(d, e)), aside * (1 - narrow) * 40)
          const runs = member('runs', 'Runs', pipe(80), scale(d, -3000), scale(d, 3000), up)
          const upOf: Vec3 = Math.abs(e[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]
          const [near, far] = [side, add(side, scale(e, 900))]
          const stops = member(
            'stops',
            'Stops',
            pipe(80 * narrow),
            end === 'A' ? near : far,
            end === 'A' ? far : near,
            upOf,
          )
          const made = fitted(stops, runs, 1.5, first, end).member
          const plane = made.ends[end === 'A' ? 0 : 1]
          const around = Array.from({ length: 360 }, (_, k) => (2 * Math.PI * k) / 360)
          const points = around.map((angle) => outsideAt(made, end, angle))
          const worst = (f: (at: Vec3) => number) => Math.max(...points.map(f))
          expect(worst((at) => Math.abs(away(at, runs) - 41.5))).toBeLessThan(1e-6)
          expect(worst((at) => Math.abs(away(at, stops) - 40 * narrow))).toBeLessThan(1e-6)
          const profile = saddleProfile(made, end, 360)
          const left = around.map((angle, k) => {
            const at: Vec3 = [profile[k]!, 40 * narrow * Math.cos(angle), 40 * narrow * Math.sin(angle)]
            return dot(sub(plane.point, at), plane.normal)
          })
          const touching = Math.min(...left)
          expect(touching).toBeGreaterThan(-1e-9)
          // The first cut touches the longest point: it wastes nothing.
          expect(touching).toBeLessThan(0.4)
        },
      ),
      { numRuns: 50 },
    )
  })

  test('straight lines between 720 equal angles lie within 0.05 mm of it, also on a tube only 0.1 mm wider', () => {
    for (const made of [fitted(brace(60.3, 0), post(60.4)), fitted(brace(48.3, 30), post(60.3))]) {
      const [coarse, fine] = [720, 7200].map((steps) => saddleProfile(made.member, 'B', steps))
      fine!.forEach((x, k) => {
        const [from, part] = [Math.floor(k / 10), (k % 10) / 10]
        const chord = coarse![from]! * (1 - part) + coarse![(from + 1) % 720]! * part
        expect(Math.abs(x - chord)).toBeLessThan(0.05)
      })
    }
  })

  test('equal tubes, square: the outline is two half ellipses r by r√2, 4 r √2 E(1/2), E = 1.350643881 (Abramowitz and Stegun, table 17.1, from memory)', () => {
    const made = fitted(brace(60, 0), post(60)).member
    expect(outlineLength(made, 'B', 0, 2 * Math.PI)).toBeCloseTo(4 * 30 * Math.SQRT2 * 1.350643881, 2)
  })
})

describe('the first cut', () => {
  test('square: at the longest point; equal 60 tubes at 45°, axes meeting at 500: the side points, at 500 mm', () => {
    const { member: made } = fitted(brace(60, 45, 0, 500), post(60))
    expect(made.ends[1].normal).toEqual([1, 0, 0])
    expect(made.ends[1].point[0]).toBeCloseTo(500, 6)
  })

  test('miter: parallel to the post, as steep as the brace leans on it: rising 50°, 50° from square', () => {
    const { member: made } = fitted(brace(48.3, 50, 0, 500), post(60.3), 0, 'miter')
    const { normal } = made.ends[1]
    const world = add(
      add(
        scale(axisX(made.pose), normal[0]),
        scale([made.pose[4]!, made.pose[5]!, made.pose[6]!], normal[1]),
      ),
      scale([made.pose[8]!, made.pose[9]!, made.pose[10]!], normal[2]),
    )
    expect(dot(world, [0, 0, 1])).toBeCloseTo(0, 12)
    expect((Math.acos(normal[0]) * 180) / Math.PI).toBeCloseTo(50, 9)
  })
})

describe('what no saddle can do is refused, and it is said why', () => {
  test('a brace of 60.3 on a post of 48.3', () => {
    expect(refused(brace(60.3, 20), post(48.3))).toMatchObject({ code: 'saddle-too-wide' })
  })
  test('48.3 on 60.3 fits 6.0 mm beside it, not 6.1', () => {
    expect(fitted(brace(48.3, 0, 6), post(60.3)).joint.kind).toBe('saddle')
    expect(refused(brace(48.3, 0, 6.1), post(60.3))).toMatchObject({ code: 'saddle-hangs-past' })
    expect(refused(brace(48.3, 0, 6.1), post(60.3)).text).toContain('at most 6 mm apart')
  })
  test('axes 54.3 mm apart miss each other', () => {
    expect(refused(brace(48.3, 0, 54.3), post(60.3))).toMatchObject({ code: 'saddle-misses' })
  })
  test('a brace along the post', () => {
    expect(refused(brace(48.3, 90, 0), post(60.3))).toMatchObject({ code: 'saddle-parallel' })
  })
  test('a square tube', () => {
    const square = { ...brace(40, 0), section: { ...pipe(40), kind: 'square-tube' as const } }
    expect(refused(square, post(60.3))).toMatchObject({ code: 'saddle-not-round' })
  })
  test('a saddle that reaches past the end of the post, at 480 of 500 with 24 mm each way', () => {
    const high = member('brace', 'Brace', pipe(48.3), [400, 0, 480], [0, 0, 480], [0, 1, 0])
    expect(refused(high, post(60.3))).toMatchObject({ code: 'saddle-past-the-end' })
    const lower = member('brace', 'Brace', pipe(48.3), [400, 0, 475], [0, 0, 475], [0, 1, 0])
    expect(fitted(lower, post(60.3)).joint.ends).toEqual(['B', 'side'])
  })
  test('a brace that begins inside the post', () => {
    expect(refused(brace(48.3, 0, 0, 20), post(60.3))).toMatchObject({ code: 'saddle-no-steel' })
  })
})
