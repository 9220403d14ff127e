import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { axisY, axisZ } from '../../../src/core/geometry/pose.ts'
import type { Params, RowGiven } from '../../../src/core/job.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { type Framed, framed, inches, metric, partOf, problems, tube } from './framed.ts'

// The lengths are worked out here by hand or by formulas of their own; nothing is taken from the frame.

type Xyz = readonly [number, number, number]

const pointRows = (points: Readonly<Record<string, Xyz>>): RowGiven[] =>
  Object.entries(points).map(([name, [x, y, z]]) => ({ name, x, y, z }))

const make = (
  points: Readonly<Record<string, Xyz>>,
  members: readonly RowGiven[],
  joints: readonly RowGiven[] = [],
  more: Params = {},
): Params => ({ section: tube(40, 3), points: pointRows(points), members, joints, ...more })

const frame = (params: Params, shop: Shop = metric) => framed('from-points', params, shop)
const refusals = (params: Params) => problems('from-points', params, metric)
const warned = (made: Framed) => made.frame.warnings.map(({ code }) => code)
const angles = (made: Framed, name: string) => partOf(made, name).angleFromSquare
const lengthOf = (made: Framed, id: string) =>
  made.parts.find(({ members }) => members.includes(`frame/${id}`))!.longPoint

/** A box of axes x by y by z, its corners named by what they are: 000, 100, … */
function box([x, y, z]: Xyz) {
  const corners = [0, 1].flatMap((i) => [0, 1].flatMap((j) => [0, 1].map((k) => [i, j, k] as const)))
  const points = Object.fromEntries(
    corners.map(([i, j, k]) => [`p${i}${j}${k}`, [i * x, j * y, k * z] as Xyz]),
  )
  const members = corners.flatMap(([i, j, k]): RowGiven[] => [
    ...(i === 0 ? [{ name: `x${j}${k}`, from: `p0${j}${k}`, to: `p1${j}${k}` }] : []),
    ...(j === 0 ? [{ name: `y${i}${k}`, from: `p${i}0${k}`, to: `p${i}1${k}` }] : []),
    ...(k === 0 ? [{ name: `z${i}${j}`, from: `p${i}${j}0`, to: `p${i}${j}1` }] : []),
  ])
  return { points, members, corners: Object.keys(points) }
}

/** Which member along an axis comes to the corner `p010`. */
const comesTo = (corner: string, axis: string) => {
  const [i, j, k] = corner.slice(1)
  return axis === 'x' ? `x${j}${k}` : axis === 'y' ? `y${i}${k}` : `z${i}${j}`
}

describe('a box of 40 tube, axes 360 each way', () => {
  const { points, members, corners } = box([360, 360, 360])
  const made = frame(
    make(
      points,
      members,
      corners.map((at) => ({ at, how: 'butt', runs: comesTo(at, 'z') })),
    ),
  )

  test('legs run through all eight corners: four of 400, eight rails of 320, all square', () => {
    expect(made.parts.map(({ count, shape }) => [count, shape])).toEqual([
      [4, 'square'],
      [8, 'square'],
    ])
    expect(made.parts[0]!.longPoint).toBeCloseTo(400, 9)
    expect(made.parts[1]!.longPoint).toBeCloseTo(320, 9)
  })

  test('it is 400 each way over all, and no member runs into another', () => {
    for (const side of made.frame.size) expect(side).toBeCloseTo(400, 9)
    expect(warned(made)).toEqual([])
  })

  test('sixteen butts, each with its own path', () => {
    expect(made.frame.joints).toHaveLength(16)
    expect(new Set(made.frame.joints.map(({ id }) => id)).size).toBe(16)
    expect(made.frame.joints.map(({ id }) => id)).toContain('frame/point-p000/x00')
  })

  test('a root gap of 2 is all taken from the rails: 316; legs stay 400', () => {
    const gapped = frame(
      make(
        points,
        members,
        corners.map((at) => ({ at, how: 'butt', runs: comesTo(at, 'z') })),
      ),
      { ...metric, rootGap: 2 },
    )
    expect(gapped.parts.map(({ longPoint }) => +longPoint.toFixed(6))).toEqual([400, 316])
  })
})

describe('a mitered ring with legs that stop under it', () => {
  const points = {
    a: [0, 0, 380],
    b: [560, 0, 380],
    c: [560, 360, 380],
    d: [0, 360, 380],
    top1: [100, 0, 380],
    top2: [460, 0, 380],
    foot1: [100, 0, 0],
    foot2: [460, 0, 0],
  } as const
  const members = [
    { name: 'front', from: 'a', to: 'b' },
    { name: 'right', from: 'b', to: 'c' },
    { name: 'back', from: 'c', to: 'd' },
    { name: 'left', from: 'd', to: 'a' },
    { name: 'leg 1', from: 'foot1', to: 'top1' },
    { name: 'leg 2', from: 'top2', to: 'foot2' },
  ]
  const feet = [
    { at: 'foot1', how: 'flat' },
    { at: 'foot2', how: 'flat' },
  ]

  test('miters need no rule: axes 560 and 360 give long points 600 and 400 at 45°', () => {
    const made = frame(make(points, members, feet))
    expect(lengthOf(made, 'front')).toBeCloseTo(600, 9)
    expect(lengthOf(made, 'right')).toBeCloseTo(400, 9)
    expect(angles(made, 'front')).toEqual([expect.closeTo(45, 9), expect.closeTo(45, 9)])
    expect(warned(made)).toEqual([])
  })

  test('nor does an end on the side of one other: a leg is 380 − 20, marked 100 from the corner of the axes', () => {
    const made = frame(make(points, members, feet))
    expect(lengthOf(made, 'leg-1')).toBeCloseTo(360, 9)
    const leg = made.frame.joints.find(({ id }) => id === 'frame/point-top1/leg-1')!
    expect(leg).toMatchObject({ kind: 'butt', members: ['frame/leg-1', 'frame/front'], ends: ['B', 'side'] })
    expect(leg.at).toEqual([100, 0, expect.closeTo(360, 9)])
  })

  test('both legs stand on the floor at 0 with the end that is theirs', () => {
    const made = frame(make(points, members, feet))
    const mates = (id: string) => made.frame.members.find((each) => each.id === id)!.mates
    expect(made.frame.floor).toBe(0)
    expect(mates('frame/leg-1')).toEqual(['floor', 'frame/front'])
    expect(mates('frame/leg-2')).toEqual(['frame/front', 'floor'])
  })

  test('one leg longer by 30: the other end hangs open, and is cut flat all the same', () => {
    const made = frame(make({ ...points, foot1: [100, 0, -30] }, members, feet))
    expect(made.frame.floor).toBe(-30)
    expect(made.frame.members.find(({ id }) => id === 'frame/leg-2')!.mates[1]).toBe('open')
  })

  test('a root gap of 2 takes 1/cos 45° off each end of a mitered part: 600 becomes 597.17', () => {
    const made = frame(make(points, members, feet), { ...metric, rootGap: 2 })
    expect(lengthOf(made, 'front')).toBeCloseTo(600 - 2 * Math.SQRT2, 9)
    expect(warned(made)).toEqual([])
  })
})

describe('angles', () => {
  const rect = (width: number, height: number) => ({ kind: 'rect-tube', width, height, wall: 3 }) as const

  test('60 meets 40 at 90°: 33.69° on the 60, 56.31° on the 40 (tan m1 = w2/w1, plane trigonometry)', () => {
    const made = frame(
      make({ a: [500, 0, 0], b: [0, 0, 0], c: [0, 400, 0] }, [
        { name: 'wide', from: 'a', to: 'b', section: rect(60, 30) },
        { name: 'narrow', from: 'b', to: 'c', section: rect(40, 30) },
      ]),
    )
    expect(Math.max(...angles(made, 'wide'))).toBeCloseTo(33.690068, 6)
    expect(Math.max(...angles(made, 'narrow'))).toBeCloseTo(56.309932, 6)
    // Outer corner: the wide one goes on by half of 40, the narrow one by half of 60.
    expect(lengthOf(made, 'wide')).toBeCloseTo(520, 9)
    expect(lengthOf(made, 'narrow')).toBeCloseTo(430, 9)
    expect(warned(made)).toEqual([])
  })

  test('any corner of widths w1 and w2, K between the axes: tan m1 = (w2 + w1 cos K) / (w1 sin K)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 150 }),
        fc.integer({ min: 25, max: 60 }),
        fc.integer({ min: 25, max: 60 }),
        fc.integer({ min: 0, max: 359 }),
        (corner, w1, w2, turned) => {
          const rad = (deg: number) => (deg * Math.PI) / 180
          const at = (length: number, deg: number): Xyz => [
            length * Math.cos(rad(deg)),
            length * Math.sin(rad(deg)),
            300,
          ]
          const made = frame(
            make({ a: at(900, turned), b: [0, 0, 300], c: at(800, turned + corner) }, [
              { name: 'first', from: 'a', to: 'b', section: rect(w1, 20) },
              { name: 'second', from: 'b', to: 'c', section: rect(w2, 20) },
            ]),
          )
          const slope = (own: number, other: number) =>
            (other + own * Math.cos(rad(corner))) / (own * Math.sin(rad(corner)))
          const deg = (value: number) => Math.abs(Math.atan(value) / rad(1))
          const found = made.frame.members.map(({ ends }, k) => {
            const cut = ends[k === 0 ? 1 : 0]
            return (Math.acos(Math.abs(cut.normal[0])) * 180) / Math.PI
          })
          expect(found[0]).toBeCloseTo(deg(slope(w1, w2)), 6)
          expect(found[1]).toBeCloseTo(deg(slope(w2, w1)), 6)
          expect(warned(made)).toEqual([])
        },
      ),
    )
  })

  test('a brace that comes down at 30° is cut 60° from square and covers 40/sin 30° = 80 of the rail', () => {
    const made = frame(
      make(
        { a: [0, 0, 0], b: [1000, 0, 0], p: [300, 0, 0], q: [300 + 500 * Math.cos(Math.PI / 6), 0, 250] },
        [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'brace', from: 'p', to: 'q' },
        ],
      ),
    )
    expect(angles(made, 'brace')).toEqual([expect.closeTo(60, 9), expect.closeTo(0, 9)])
    // The axis meets the face 20/tan 30° along from the point: edges at 300 + 34.64 ∓ 40.
    const joint = made.frame.joints.find(({ kind }) => kind === 'butt')!
    expect(joint.at[0]).toBeCloseTo(300 + 20 * Math.sqrt(3), 9)
    expect(joint.at[2]).toBeCloseTo(20, 9)
  })

  test('at an acute corner of 30° the rail reaches w/2 · tan 15° past the point, so that the whole end lands', () => {
    const made = frame(
      make(
        { a: [1000, 0, 0], b: [0, 0, 0], q: [500 * Math.cos(Math.PI / 6), 0, 250] },
        [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'brace', from: 'b', to: 'q' },
        ],
        [{ at: 'b', how: 'butt', runs: 'rail' }],
      ),
    )
    // Far edge of the footprint: 34.64 − 40 = −5.359 = −20 tan 15°.
    expect(lengthOf(made, 'rail')).toBeCloseTo(1000 + 20 * Math.tan(Math.PI / 12), 9)
  })

  test('a leg that leans by 1 in 10 is cut 5.71° from square to stand flat', () => {
    const made = frame(
      make(
        { a: [0, 0, 0], b: [70, 0, 700] },
        [{ name: 'leg', from: 'a', to: 'b' }],
        [{ at: 'a', how: 'flat' }],
      ),
    )
    expect(angles(made, 'leg')[0]).toBeCloseTo(5.710593, 6)
  })

  test('a point 0.3 mm beside an axis is on it, and the end stops there; at 0.6 mm it is not', () => {
    const near = (off: number) =>
      frame(
        make({ a: [0, 0, 0], b: [1000, 0, 0], p: [300, off, 0], q: [300, off, 400] }, [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'post', from: 'p', to: 'q' },
        ]),
      )
    expect(near(0.3).frame.joints.map(({ kind }) => kind)).toEqual(['butt'])
    expect(lengthOf(near(0.3), 'post')).toBeCloseTo(380, 9)
    expect(near(0.6).frame.joints).toEqual([])
    expect(warned(near(0.6))).toEqual(['members-clash'])
  })
})

describe('roll', () => {
  const lying = (roll: number | undefined, to: Xyz = [500, 0, 0]) => {
    const row = { name: 'bar', from: 'a', to: 'b', ...(roll === undefined ? {} : { roll }) }
    return frame(make({ a: [0, 0, 0], b: to }, [row])).frame.members[0]!.pose
  }
  const near = (to: Xyz) => to.map((each) => expect.closeTo(each, 9))

  test('without it the height of a level member looks up', () => {
    expect(axisZ(lying(undefined))).toEqual(near([0, 0, 1]))
    expect(axisZ(lying(0, [300, 400, 0]))).toEqual(near([0, 0, 1]))
  })

  test('90° going along +x turns up to the front, as a right-hand screw does', () =>
    expect(axisZ(lying(90))).toEqual(near([0, -1, 0])))

  test('an upright member has its width along x', () =>
    expect(axisY(lying(0, [0, 0, 500]))).toEqual(near([1, 0, 0])))

  test('30° on an upright one turns its width from x toward y', () =>
    expect(axisY(lying(30, [0, 0, 500]))).toEqual(near([Math.sqrt(3) / 2, 1 / 2, 0])))

  test('two members rolled 45° the same way about their corner still match; one alone does not', () => {
    const ring = (second: number) =>
      frame(
        make({ a: [400, 0, 0], b: [0, 0, 0], c: [0, 400, 0] }, [
          { name: 'one', from: 'a', to: 'b', roll: 45 },
          { name: 'two', from: 'b', to: 'c', roll: second },
        ]),
      )
    expect(warned(ring(45))).toEqual([])
    expect(warned(ring(0))).toEqual(['miter-mismatch'])
  })
})

describe('round tube', () => {
  const round = { kind: 'round-tube', width: 42.4, wall: 2.6 } as const
  const points = { a: [0, 0, 0], b: [600, 0, 0], c: [0, 0, 400], m: [300, 0, 0], n: [300, 0, 400] } as const

  test('two of one diameter miter at 45°, whatever their roll', () => {
    const made = frame(
      make(
        points,
        [
          { name: 'rail', from: 'a', to: 'b', roll: 20 },
          { name: 'post', from: 'c', to: 'a' },
        ],
        [],
        { section: round },
      ),
    )
    expect(angles(made, 'rail')[0]).toBeCloseTo(45, 9)
    expect(angles(made, 'post')[1]).toBeCloseTo(45, 9)
    expect(warned(made)).toEqual([])
  })

  test('one that stops on the side of another is fitted with a saddle, 400 less 0 to 21.2 on its outside', () => {
    const made = frame(
      make(
        points,
        [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'post', from: 'm', to: 'n' },
        ],
        [],
        { section: round },
      ),
    )
    expect(made.frame.joints.map(({ kind }) => kind)).toEqual(['saddle'])
    // Of equal diameters the saddle's longest points lie on the axis of the rail.
    expect(lengthOf(made, 'post')).toBeCloseTo(400, 6)
    expect(warned(made)).toEqual([])
  })

  test('where the rail ends there too it reaches a radius past the point, 21.2', () => {
    const made = frame(
      make(
        points,
        [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'post', from: 'a', to: 'c' },
        ],
        [{ at: 'a', how: 'butt', runs: 'rail' }],
        { section: round },
      ),
    )
    expect(made.frame.joints.map(({ kind }) => kind)).toEqual(['saddle'])
    expect(lengthOf(made, 'rail')).toBeCloseTo(621.2, 6)
  })

  test('square tube cannot stop on it', () => {
    const said = refusals(
      make(points, [
        { name: 'rail', from: 'a', to: 'b', section: round },
        { name: 'post', from: 'm', to: 'n' },
      ]),
    )
    expect(said[0]).toMatchObject({ code: 'butt-on-round', field: 'build.params.points[3].name' })
    expect(said[0]!.text).toMatch(/At m: post stops on rail, .* Let post run through, or take round tube/)
  })
})

describe('members that run into each other', () => {
  const cross = (z: number) =>
    frame(
      make({ a: [-200, 0, 0], b: [200, 0, 0], c: [0, -200, z], d: [0, 200, z] }, [
        { name: 'one', from: 'a', to: 'b' },
        { name: 'two', from: 'c', to: 'd' },
      ]),
    )
  test.each([
    [0, '40 mm deep'],
    [30, '10 mm deep'],
    [39, '1 mm deep'],
  ])('two 40 tubes crossing %i apart: %s', (z, said) => {
    const [warning] = cross(z).frame.warnings
    expect(warning).toMatchObject({ code: 'members-clash', members: ['frame/one', 'frame/two'] })
    expect(warning!.text).toContain(said)
  })
  test.each([40, 41])('%i apart they touch or pass', (z) => expect(warned(cross(z))).toEqual([]))

  test('a skew pair of which only the edges are near: parted along no face, and said right', () => {
    // Two tubes on edge (rolled 45°), crossing at right angles: their edges touch when the axes are 40√2 apart.
    const skew = (z: number) =>
      frame(
        make({ a: [-200, 0, 0], b: [200, 0, 0], c: [0, -200, z], d: [0, 200, z] }, [
          { name: 'one', from: 'a', to: 'b', roll: 45 },
          { name: 'two', from: 'c', to: 'd', roll: 45 },
        ]),
      )
    expect(warned(skew(40 * Math.SQRT2 - 0.1))).toEqual(['members-clash'])
    expect(warned(skew(40 * Math.SQRT2 + 0.1))).toEqual([])
  })

  test('an end that hangs past the end of what it stops on: a post 5 from the end of a rail has 15 of 40 in the air', () => {
    const past = (x: number) =>
      frame(
        make({ a: [0, 0, 0], b: [400, 0, 0], p: [x, 0, 0], q: [x, 0, 300] }, [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'post', from: 'p', to: 'q' },
        ]),
      )
    const [warning] = past(5).frame.warnings
    expect(warning).toMatchObject({ code: 'landing-past-the-end', members: ['frame/post', 'frame/rail'] })
    expect(warning!.text).toMatch(/post hangs 15 mm past the end of rail/)
    expect(warned(past(20))).toEqual([])
  })

  test('a brace whose whole end is past the rail lands nowhere', () => {
    // Its axis meets the face 20/tan 28.65° = 36.6 farther on; half its footprint is 10/sin 28.65° = 20.9: all beyond 400.
    const [warning] = frame(
      make(
        {
          a: [0, 0, 0],
          b: [400, 0, 0],
          p: [398, 0, 0],
          q: [398 + 300 * Math.cos(0.5), 0, 300 * Math.sin(0.5)],
        },
        [
          { name: 'rail', from: 'a', to: 'b' },
          { name: 'brace', from: 'p', to: 'q', section: tube(20, 2) },
        ],
      ),
    ).frame.warnings
    expect(warning!.text).toMatch(/brace lands nowhere on rail; move its point, or make rail longer/)
  })
})

describe('properties', () => {
  const size = fc.integer({ min: 200, max: 1500 })

  test('a box with any member running through at each corner: every length by hand, nothing in the way', () => {
    fc.assert(
      fc.property(
        fc.tuple(size, size, size),
        fc.integer({ min: 20, max: 60 }),
        fc.array(fc.constantFrom('x', 'y', 'z'), { minLength: 8, maxLength: 8 }),
        (sides, width, through) => {
          const { points, members, corners } = box(sides)
          const runs = new Map(corners.map((at, k) => [at, through[k]!]))
          const made = frame(
            make(
              points,
              members,
              corners.map((at) => ({ at, how: 'butt', runs: comesTo(at, runs.get(at)!) })),
              { section: tube(width, 2) },
            ),
          )
          for (const row of members) {
            const axis = String(row.name)[0]!
            const whole = sides[{ x: 0, y: 1, z: 2 }[axis as 'x' | 'y' | 'z']]
            const ends = [row.from, row.to].map((at) => (runs.get(String(at)) === axis ? width : -width) / 2)
            expect(lengthOf(made, String(row.name))).toBeCloseTo(whole! + ends[0]! + ends[1]!, 6)
          }
          expect(warned(made)).toEqual([])
          expect(made.frame.joints).toHaveLength(16)
        },
      ),
      { numRuns: 40 },
    )
  })

  const trestle = (turned: number, by: Xyz): Readonly<Record<string, Xyz>> => {
    const [cos, sin] = [Math.cos(turned), Math.sin(turned)]
    const at = (x: number, z: number): Xyz => [x * cos + by[0], x * sin + by[1], z + by[2]]
    return { a: at(0, 0), b: at(600, 0), c: at(70, 700), d: at(530, 700), e: at(20, 200), f: at(580, 200) }
  }
  const bars = [
    { name: 'Left leg', from: 'a', to: 'c' },
    { name: 'Right leg', from: 'b', to: 'd' },
    { name: 'Top', from: 'c', to: 'd' },
    { name: 'Rail', from: 'e', to: 'f' },
  ]
  const flats = [
    { at: 'a', how: 'flat' },
    { at: 'b', how: 'flat' },
  ]

  test('turned about the upright and moved, a trestle has the same parts', () => {
    const keys = frame(make(trestle(0, [0, 0, 0]), bars, flats)).parts.map(({ key, count }) => [key, count])
    fc.assert(
      fc.property(fc.double({ min: 0, max: 6.28, noNaN: true }), fc.tuple(size, size, size), (turned, by) => {
        const made = frame(make(trestle(turned, by), bars, flats))
        expect(made.parts.map(({ key, count }) => [key, count])).toEqual(keys)
      }),
      { numRuns: 40 },
    )
  })

  test('rows in any order and members drawn from either end give the same parts', () => {
    const of = (made: Framed) => made.parts.map(({ key, count }) => `${count} ${key}`).sort()
    const wanted = of(frame(make(trestle(0, [0, 0, 0]), bars, flats)))
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4, maxLength: 4 }),
        fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
        (order, backward) => {
          const rows = order.map((at) => {
            const { name, from, to } = bars[at]!
            return backward[at] ? { name, from: to, to: from } : { name, from, to }
          })
          const made = frame(make(trestle(0, [0, 0, 0]), rows, [...flats].reverse()))
          expect(of(made)).toEqual(wanted)
          expect(warned(made)).toEqual([])
        },
      ),
      { numRuns: 40 },
    )
  })
})

describe('what is refused, with what was given and what is possible', () => {
  const l = { a: [0, 0, 0], b: [500, 0, 0], c: [500, 400, 0], d: [900, 0, 0] } as const
  const ab = { name: 'ab', from: 'a', to: 'b' }
  const bc = { name: 'bc', from: 'b', to: 'c' }
  const bd = { name: 'bd', from: 'b', to: 'd' }
  const e: Xyz = [500, 0, 400]
  const table: readonly (readonly [string, Params, string, string, RegExp])[] = [
    ['no member', make(l, []), 'empty', 'members', /at least one, from a point to another/],
    [
      'an unknown point',
      make(l, [{ name: 'ab', from: 'a', to: 'k' }]),
      'unknown-point',
      'members[0].to',
      /“k” is no point; there is a, b, c and d/,
    ],
    [
      'two points of one name, but for capitals',
      { ...make(l, [ab]), points: [...pointRows(l), { name: 'A', x: 1, y: 2, z: 3 }] },
      'same-name',
      'points[4].name',
      /Rows 1 and 5 of the points are called “a” and “A”; every point needs a name of its own/,
    ],
    [
      'two members of one name',
      make(l, [ab, { ...bc, name: 'ab' }]),
      'same-name',
      'members[1].name',
      /Rows 1 and 2 of the members/,
    ],
    [
      'two members on one place',
      make(l, [ab, { name: 'ba', from: 'b', to: 'a' }]),
      'same-place',
      'members[1].to',
      /Members ab and ba both go between b and a; only one fits/,
    ],
    [
      'two points on one place',
      make({ ...l, k: [500, 0, 0.2] }, [ab, { name: 'kc', from: 'k', to: 'c' }]),
      'same-place',
      'points[4].name',
      /Points b and k lie on one place, 500 mm, 0 mm, 0 mm; .* use one of the two, or move the other/,
    ],
    [
      'no length',
      make(l, [{ name: 'aa', from: 'a', to: 'a' }]),
      'no-length',
      'members[0].to',
      /Member aa goes from a to a: it has no length; two points are needed/,
    ],
    [
      'three members without a rule',
      make({ ...l, e }, [ab, bc, { name: 'be', from: 'b', to: 'e' }]),
      'no-rule',
      'points[1].name',
      /ab, bc and be meet at b: .* butt, and which of them runs through; or flat, or square/,
    ],
    [
      'two ends on the side of a third without a rule',
      make({ ...l, k: [250, 0, 0], m: [250, 300, 0], n: [250, -300, 0] }, [
        ab,
        { name: 'km', from: 'k', to: 'm' },
        { name: 'kn', from: 'k', to: 'n' },
      ]),
      'no-rule',
      'points[4].name',
      /km, kn and ab meet at k/,
    ],
    [
      'a miter of members in one line',
      make(l, [ab, bd]),
      'miter-parallel',
      'points[1].name',
      /At b: ab and bd are parallel; a miter needs an angle .* left square/,
    ],
    [
      'a miter of three',
      make({ ...l, e }, [ab, bc, { name: 'be', from: 'b', to: 'e' }], [{ at: 'b', how: 'miter' }]),
      'miter-of-two',
      'joints[0].how',
      /A miter is given at b, where ab, bc and be meet; a miter is of two members. Butt is possible/,
    ],
    [
      'a miter of one',
      make(l, [ab], [{ at: 'a', how: 'miter' }]),
      'miter-of-two',
      'joints[0].how',
      /where only ab ends; a miter is of two members. Flat or square is possible/,
    ],
    [
      'a miter on the side of another',
      make(
        { ...l, k: [250, 0, 0], m: [250, 300, 0] },
        [ab, { name: 'km', from: 'k', to: 'm' }],
        [{ at: 'k', how: 'miter' }],
      ),
      'miter-through',
      'joints[0].how',
      /along the length of ab, which runs through; km can only stop on it: butt/,
    ],
    [
      'a butt that does not say what runs through',
      make(l, [ab, bc], [{ at: 'b', how: 'butt' }]),
      'no-runner',
      'joints[0].runs',
      /say which member runs through, ab and bc/,
    ],
    [
      'a butt on a member elsewhere',
      make(l, [ab, bc, { name: 'ad', from: 'c', to: 'd' }], [{ at: 'b', how: 'butt', runs: 'ad' }]),
      'runner-elsewhere',
      'joints[0].runs',
      /ad does not come to b; there meet ab and bc/,
    ],
    [
      'a butt on a member that there is not',
      make(l, [ab, bc], [{ at: 'b', how: 'butt', runs: 'zz' }]),
      'unknown-member',
      'joints[0].runs',
      /“zz” is no member; there is ab and bc/,
    ],
    [
      'a butt of one',
      make(l, [ab], [{ at: 'a', how: 'butt', runs: 'ab' }]),
      'butt-alone',
      'joints[0].how',
      /where only ab ends and no member passes; flat or square is possible/,
    ],
    [
      'a butt on a member that ends where another passes',
      make(
        { ...l, k: [250, 0, 0], m: [250, 300, 0] },
        [ab, { name: 'km', from: 'k', to: 'm' }],
        [{ at: 'k', how: 'butt', runs: 'km' }],
      ),
      'passes-too',
      'joints[0].runs',
      /km ends at k, which ab passes; the one that passes must be the one that runs through/,
    ],
    [
      'a butt along one line',
      make(l, [ab, bd], [{ at: 'b', how: 'butt', runs: 'ab' }]),
      'butt-parallel',
      'joints[0].how',
      /At b: bd and ab lie along one line; bd cannot stop on its side/,
    ],
    [
      'two members that stop on each other, 1 mm apart',
      make({ ...l, p: [499, 0, 0], q: [762, 0, 144] }, [ab, { name: 'pq', from: 'p', to: 'q' }]),
      'stop-on-each-other',
      'points[4].name',
      /ab stops on pq at b, and pq on ab at p; only one of them can. Let both come to one point/,
    ],
    [
      'a level end to be cut parallel to the floor',
      make(l, [ab], [{ at: 'a', how: 'flat' }]),
      'flat-along',
      'joints[0].how',
      /At a: ab runs along the floor/,
    ],
    [
      'a fold of 4°, cut 88° from square',
      make(
        { a: [0, 0, 0], b: [1000, 0, 0], c: [1000 - 1000 * Math.cos(0.0698), 1000 * Math.sin(0.0698), 0] },
        [ab, bc],
      ),
      'too-slanting',
      'points[1].name',
      /would be cut 88.0° from square at b; 85° is the most/,
    ],
    [
      'a member shorter than its miters',
      make({ a: [0, 400, 0], b: [0, 0, 0], c: [30, 0, 0], d: [30, 400, 0] }, [
        ab,
        bc,
        { name: 'cd', from: 'c', to: 'd' },
      ]),
      'too-short',
      'members[1].name',
      /bc is left with no steel on its short side: 10 mm are missing/,
    ],
    [
      'two rules for a point',
      make(
        l,
        [ab, bc],
        [
          { at: 'b', how: 'miter' },
          { at: 'b', how: 'square' },
        ],
      ),
      'two-rules',
      'joints[1].at',
      /Rows 1 and 2 of the joints both say how members meet at b; one is needed/,
    ],
    [
      'a rule at a point that there is not',
      make(l, [ab], [{ at: 'q', how: 'square' }]),
      'unknown-point',
      'joints[0].at',
      /“q” is no point/,
    ],
    [
      'a name of 41 letters',
      make({ ...l, [`k${'x'.repeat(40)}`]: [1, 1, 1] }, [ab]),
      'too-long',
      'points[4].name',
      /given as 41 letters; it can have 40 or fewer/,
    ],
    [
      'a point 51 m away',
      make({ ...l, k: [51_000, 0, 0] }, [ab]),
      'too-great',
      'points[4].x',
      /must be 50000 mm or less: a frame of more than 100 m is a slip/,
    ],
  ]
  test.each(table)('%s', (_, params, code, field, text) => {
    const said = refusals(params)
    expect(said.map((each) => [each.code, each.field])).toContainEqual([code, `build.params.${field}`])
    expect(said.find((each) => each.code === code)!.text).toMatch(text)
  })

  test('everything that is wrong is said at once: a name, a length and a point', () =>
    expect(
      refusals(make(l, [ab, { name: 'x', from: 'k', to: 'a' }, { name: 'aa', from: 'a', to: 'a' }])).map(
        ({ code }) => code,
      ),
    ).toEqual(['unknown-point', 'no-length']))

  test('601 members are a slip', () => {
    const many = Array.from({ length: 601 }, (_, at) => ({ name: `m${at}`, from: 'a', to: 'b' }))
    expect(refusals(make(l, many))[0]).toMatchObject({ code: 'too-many' })
  })

  test('rules on a point that no member comes to are kept, not refused: it may be drawn next', () =>
    expect(refusals(make(l, [ab], [{ at: 'c', how: 'miter' }]))).toEqual([]))
})

describe('names', () => {
  test('spaces and capitals do not matter, and a number in a file is a name', () => {
    const made = frame(
      make({ '1': [0, 0, 0], 'Far End': [500, 0, 0] }, [{ name: '  Long   Rail ', from: 1, to: 'far end' }]),
    )
    expect(made.frame.members[0]).toMatchObject({ id: 'frame/long-rail', name: 'Long Rail' })
  })

  test('a member called 2 is Member 2, so that its part has a name', () =>
    expect(
      frame(make({ a: [0, 0, 0], b: [500, 0, 0] }, [{ name: 2, from: 'a', to: 'b' }])).parts[0]!.name,
    ).toBe('Member'))

  test('every member says how far apart its points are, and what the rounded length makes of it', () => {
    const made = frame({}, inches)
    const size = made.sizes.find(({ name }) => name === 'Top, c to d')!
    expect(size.exact / 25.4).toBeCloseTo(18.5, 9)
    const top = partOf(made, 'Top')
    expect(size.built - size.exact).toBeCloseTo(top.printed.length.mm - top.longPoint, 9)
  })
})
