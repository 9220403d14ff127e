import { describe, expect, test } from 'vitest'
import { cap } from '../../../src/core/frame/cap.ts'
import { flat } from '../../../src/core/frame/flat.ts'
import type { Frame, Joint, Member } from '../../../src/core/frame/frame.ts'
import { butt, miter } from '../../../src/core/frame/joint.ts'
import { landingsOf, landingWarnings } from '../../../src/core/frame/landing.ts'
import { member } from '../../../src/core/frame/member.ts'
import { saddle } from '../../../src/core/frame/saddle.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { cosDeg, sinDeg, tanDeg } from '../../../src/core/units.ts'
import { seamsOf } from '../../../src/core/weld/seams.ts'

const pipe = (width: number): Section => ({
  kind: 'round-tube',
  width,
  height: width,
  wall: 3,
  cornerRadius: 0,
})
const box: Section = { kind: 'square-tube', width: 60, height: 60, wall: 4, cornerRadius: 8 }
const say = (mm: number) => `${mm} mm`
const frame = (members: readonly Member[], joints: readonly Joint[]): Frame => ({
  members,
  joints,
  plates: [],
  hardware: [],
  assemblies: [],
  measures: [],
  warnings: [],
  size: [0, 0, 0],
  floor: 0,
})
const total = (lengths: readonly { length: number }[]) => lengths.reduce((sum, { length }) => sum + length, 0)
/** Perimeter of an ellipse, Ramanujan's second formula (1914): good to 1e-9 here. */
const ellipse = (a: number, b: number) => {
  const h = ((a - b) / (a + b)) ** 2
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)))
}
const rail = (section: Section) => member('rail', 'Rail', section, [-500, 0, 0], [500, 0, 0], [0, 0, 1])

/** A brace that comes down on the rail at x = 0, leaning along it by `lean` degrees. */
const brace = (lean: number, diameter = 48.3, aside = 0) =>
  member('brace', 'Brace', pipe(diameter), [400 * tanDeg(lean), aside, 400], [0, aside, 0], [0, 1, 0])

describe('round tube that stops on a flat face', () => {
  test('square on it: landing 475.85 to 524.15 from end A, fillets π · 48.3 in four quarters, no more and no less', () => {
    const { member: made, joint } = butt('node', brace(0), 'B', rail(box), 0)
    const both = frame([made, rail(box)], [joint])
    expect(landingsOf(both)).toEqual([
      {
        on: 'rail',
        by: 'brace',
        face: '+z',
        from: 'A',
        near: expect.closeTo(475.85, 9),
        far: expect.closeTo(524.15, 9),
      },
    ])
    const seams = seamsOf(both)
    expect(seams.map((each) => each.class)).toEqual(['fillet', 'fillet', 'fillet', 'fillet'])
    expect(total(seams)).toBeCloseTo(Math.PI * 48.3, 2)
    expect(seams[0]!.size).toBe(3)
  })

  test('leaning 35°: 48.3/cos 35° long, and the seam is that ellipse (Ramanujan)', () => {
    const { member: made, joint } = butt('node', brace(35), 'B', rail(box), 0)
    const both = frame([made, rail(box)], [joint])
    const [landing] = landingsOf(both)
    expect(landing!.far - landing!.near).toBeCloseTo(48.3 / cosDeg(35), 9)
    expect(total(seamsOf(both))).toBeCloseTo(ellipse(24.15 / cosDeg(35), 24.15), 2)
  })

  test('40 mm is flat enough on a 60 face with R 8, 48.3 is not: a warning; 20 beside, it hangs past and has less seam', () => {
    const made = (diameter: number, aside = 0) => {
      const { member: stops, joint } = butt('node', brace(0, diameter, aside), 'B', rail(box), 0)
      return frame([stops, rail(box)], [joint])
    }
    expect(landingWarnings(made(40), say)).toEqual([])
    expect(landingWarnings(made(48.3), say).map(({ code }) => code)).toEqual(['landing-wider-than-flat'])
    const seams = seamsOf(made(48.3, 20))
    // Past the face: where 20 + 24.15 sin t > 30, an arc of 2 acos(10/24.15).
    const off = 2 * Math.acos(10 / 24.15) * 24.15
    expect(Math.abs(total(seams) - (Math.PI * 48.3 - off))).toBeLessThan(0.25)
  })
})

describe('saddles, miters and caps of round tube', () => {
  test('a saddle of 48.3 on 60.3 at the middle: landing from A, a quarter round from +y, length by Simpson’s rule', () => {
    const made = saddle('node', brace(0), 'B', rail(pipe(60.3)), 0, say)
    if (!made.ok) throw new Error('no saddle')
    const both = frame([made.value.member, rail(pipe(60.3))], [made.value.joint])
    expect(landingsOf(both)).toEqual([
      {
        on: 'rail',
        by: 'brace',
        face: '+z',
        from: 'A',
        near: expect.closeTo(475.85, 9),
        far: expect.closeTo(524.15, 9),
        around: expect.closeTo(90, 9),
      },
    ])
    const [r, R] = [24.15, 30.15]
    const speed = (t: number) => {
      const s = r * Math.sin(t)
      return Math.hypot(r, (s * r * Math.cos(t)) / Math.sqrt(R * R - s * s))
    }
    const n = 20000
    let sum = 0
    for (let k = 0; k <= n; k++)
      sum += speed((2 * Math.PI * k) / n) * (k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2)
    const seams = seamsOf(both)
    expect(total(seams)).toBeCloseTo((sum * 2 * Math.PI) / n / 3, 2)
    expect(seams.map(({ place }) => place.fromA).sort((a, b) => a - b)[0]).toBeGreaterThan(475)
  })

  test('two of 48.3 mitered at 90°: four seams, together the ellipse r by r√2; outside and inside where they are', () => {
    for (const roll of [0, 30, 77]) {
      const up: Vec3 = [0, -sinDeg(roll), cosDeg(roll)]
      const one = member('one', 'One', pipe(48.3), [0, 0, 0], [500, 0, 0], up)
      const two = member('two', 'Two', pipe(48.3), [500, 0, 0], [500, 400, 0], [0, 0, 1])
      const { members, joint } = miter('corner', one, 'B', two, 'A', [500, 0, 0], 0)
      const seams = seamsOf(frame(members, [joint]))
      expect(seams.map((each) => each.class)).toEqual(['top', 'outside', 'bottom', 'inside'])
      expect(total(seams)).toBeCloseTo(ellipse(24.15 * Math.SQRT2, 24.15), 2)
      const middle = (kind: string) => {
        const { from, to } = seams.find((each) => each.class === kind)!
        return from.map((c, axis) => (c + to[axis]!) / 2)
      }
      expect(middle('top')[2]).toBeGreaterThan(10)
      expect(middle('bottom')[2]).toBeLessThan(-10)
      expect(middle('outside')[1]).toBeLessThan(-10)
      expect(middle('inside')[1]).toBeGreaterThan(10)
    }
  })

  test('a cap under a leg of 48.3 that leans 20°: edge seams all round the oval', () => {
    const { member: made, joint } = cap('cap', flat(brace(20), 'B', 0), 'B', 5)
    const seams = seamsOf(frame([made], [joint]))
    expect(seams.map((each) => each.class)).toEqual(['edge', 'edge', 'edge', 'edge'])
    expect(total(seams)).toBeCloseTo(ellipse(24.15 / cosDeg(20), 24.15), 2)
  })
})
