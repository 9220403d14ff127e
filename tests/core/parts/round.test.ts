import { describe, expect, test } from 'vitest'
import type { Member } from '../../../src/core/frame/frame.ts'
import { cutEnd, member } from '../../../src/core/frame/member.ts'
import { saddle } from '../../../src/core/frame/saddle.ts'
import { dirToWorld, toWorld } from '../../../src/core/geometry/pose.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import { partsOf } from '../../../src/core/parts/parts.ts'
import { massPerLength } from '../../../src/core/section/mass.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { cosDeg, sinDeg, tanDeg } from '../../../src/core/units.ts'

const shop = startShop('mm')
const pipe = (width: number, wall = 3): Section => ({
  kind: wall > 0 ? 'round-tube' : 'round-bar',
  width,
  height: width,
  wall,
  cornerRadius: 0,
})
const turned = (angle: number): Vec3 => [0, -sinDeg(angle), cosDeg(angle)]

/** A tube along x, rolled, cut at its ends at world angles round it: `tilt` from square, leaning toward `toward`. */
function mitered(
  id: string,
  roll: number,
  a: { tilt: number; toward: number },
  b: { tilt: number; toward: number },
  section = pipe(48.3),
): Member {
  const start = member(id, 'Tube', section, [0, 0, 0], [500, 0, 0], turned(roll))
  const normal = ({ tilt, toward }: { tilt: number; toward: number }): Vec3 => [
    1,
    -tanDeg(tilt) * cosDeg(toward),
    -tanDeg(tilt) * sinDeg(toward),
  ]
  return cutEnd(cutEnd(start, 'A', [0, 0, 0], normal(a), 'open'), 'B', [500, 0, 0], normal(b), 'open')
}

const marks = (members: readonly Member[]) =>
  members.map(({ id }) => partsOf(members, shop).find((part) => part.members.includes(id))!.mark)

describe('round tube mitered at both ends', () => {
  test('is the same part however its axes are rolled, and lies with both miters in the table’s plane', () => {
    const all = [0, 17, 45, 90, 200].map((roll) =>
      mitered(`r${roll}`, roll, { tilt: 30, toward: 10 }, { tilt: -30, toward: 10 }),
    )
    expect(new Set(marks(all)).size).toBe(1)
    const [part] = partsOf(all, shop)
    for (const { p, q } of part!.slopes) {
      expect(Math.abs(p)).toBeCloseTo(tanDeg(30), 9)
      expect(q).toBeCloseTo(0, 9)
    }
    // Outside to outside on the long side: 500 + 48.3 tan 30°; the box round it as rolled would say more.
    expect(part!.longPoint).toBeCloseTo(500 + 48.3 * tanDeg(30), 9)
    expect(part!.shortPoint).toBeCloseTo(500 - 48.3 * tanDeg(30), 9)
    expect(part!.shape).toBe('ends opposed')
  })

  test('ends 40° round from each other to the right or to the left are two parts; end for end it is one', () => {
    const right = mitered('right', 0, { tilt: 20, toward: 0 }, { tilt: 30, toward: 40 })
    const left = mitered('left', 0, { tilt: 20, toward: 0 }, { tilt: 30, toward: -40 })
    // A half turn about z swaps the ends: slopes keep their y and lose the sign of their z.
    const about = mitered('about', 33, { tilt: 30, toward: -40 }, { tilt: 20, toward: 0 })
    expect(marks([right, left])).toEqual(['A', 'B'])
    expect(marks([right, about])).toEqual(['A', 'A'])
  })

  test('parallel ends: the edge is the center length', () => {
    const [part] = partsOf([mitered('p', 25, { tilt: 30, toward: 70 }, { tilt: 30, toward: 70 })], shop)
    expect(part!.printed.primary).toBe('edge')
    expect(part!.printed.length.mm).toBeCloseTo(500, 9)
    expect(part!.longPoint).toBeCloseTo(500 + 48.3 * tanDeg(30), 9)
  })
})

const say = (mm: number) => `${mm}`
const runs = (id: string, x: number, toward: number, diameter = 60.3, lean = 90, aside = 0) => {
  const along: Vec3 = [cosDeg(lean), sinDeg(lean) * cosDeg(toward), sinDeg(lean) * sinDeg(toward)]
  const mid: Vec3 = [x, -sinDeg(toward) * aside, cosDeg(toward) * aside]
  const at = (k: number): Vec3 => [mid[0] + k * along[0], mid[1] + k * along[1], mid[2] + k * along[2]]
  return member(
    id,
    'Post',
    pipe(diameter),
    at(-400),
    at(400),
    Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [0, 1, 0],
  )
}
/** A brace along x between two posts, saddled on both. */
function between(id: string, roll: number, a: Member, b: Member, section = pipe(48.3)): Member {
  const start = member(id, 'Brace', section, [0, 0, 0], [600, 0, 0], turned(roll))
  const one = saddle('a', start, 'A', a, 0, say)
  if (!one.ok) throw new Error(one.problems[0]!.text)
  const two = saddle('b', one.value.member, 'B', b, 0, say)
  if (!two.ok) throw new Error(two.problems[0]!.text)
  return two.value.member
}

describe('round tube with saddles', () => {
  const a = runs('a', 0, 90)
  test('square on two posts 600 apart: long point 600 − 2 √(30.15² − 24.15²), shortest 600 − 60.3', () => {
    const [part] = partsOf([between('x', 12, a, runs('b', 600, 90))], shop)
    expect(part!.longPoint).toBeCloseTo(600 - 2 * Math.sqrt(30.15 ** 2 - 24.15 ** 2), 9)
    expect(part!.shortPoint).toBeCloseTo(600 - 60.3, 9)
    expect(part).toMatchObject({ shape: 'square', saddles: 'at both ends' })
  })

  test('rolled, or the other way round, it is the same part; with one post turned by 25°, or that 25° the other way, another', () => {
    const straight = between('one', 0, a, runs('b', 600, 90))
    const rolled = between('two', 73, a, runs('b', 600, 90))
    const right = between('right', 0, a, runs('b', 600, 115))
    const rightAgain = between('again', 40, runs('c', 0, 115), runs('d', 600, 140))
    const left = between('left', 0, a, runs('b', 600, 65))
    expect(marks([straight, rolled, right, rightAgain, left])).toEqual(['A', 'A', 'B', 'B', 'C'])
  })

  test('a saddle on 60.3 and one on 76.1, a leaning and a straight one, one beside the axis: four parts', () => {
    const all = [
      between('one', 0, a, runs('b', 600, 90)),
      between('two', 0, a, runs('b', 600, 90, 76.1)),
      between('three', 0, a, runs('b', 600, 90, 60.3, 70)),
      between('four', 0, a, runs('b', 600, 90, 60.3, 90, 4)),
    ]
    expect(new Set(marks(all)).size).toBe(4)
  })

  test('end for end: leaning post at A or at B is one part', () => {
    const one = between('one', 0, a, runs('b', 600, 90, 60.3, 70))
    const two = between('two', 0, runs('c', 0, 90, 60.3, 70), runs('d', 600, 90))
    expect(marks([one, two])).toEqual(['A', 'A'])
  })

  test('mass of a bar of 40 between two of 40: the steel of 600 less the two-cylinder solid, 16 r³/3 (Archimedes)', () => {
    const bar = pipe(40, 0)
    const post = (id: string, x: number) => ({ ...runs(id, x, 90, 40), section: bar })
    const [part] = partsOf([between('x', 0, post('a', 0), post('b', 600), bar)], shop)
    const volume = Math.PI * 20 ** 2 * 600 - (16 / 3) * 20 ** 3
    const mean = volume / (Math.PI * 20 ** 2)
    expect((part!.mass / massPerLength(bar)) * 1000).toBeCloseTo(mean, 1)
  })

  test('its pose tells where it is worked: the outline of end B lies on the post’s outside', () => {
    const made = between('x', 30, a, runs('b', 600, 90))
    const to = made.ends[1].saddle!
    expect(to).toMatchObject({ on: 'b', radius: 30.15 })
    expect(toWorld(made.pose, to.point)[0]).toBeCloseTo(600, 9)
    expect(Math.abs(dirToWorld(made.pose, to.along)[2])).toBeCloseTo(1, 12)
  })
})
