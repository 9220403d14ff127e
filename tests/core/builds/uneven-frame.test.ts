import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { endCorners } from '../../../src/core/frame/member.ts'
import { axisX } from '../../../src/core/geometry/pose.ts'
import { norm, sub } from '../../../src/core/geometry/vec3.ts'
import type { Params, RowGiven } from '../../../src/core/job.ts'
import { framed, inches, metric, problems, sizeOf, tube } from './framed.ts'

// Expected numbers come from plane trigonometry written out here, not from the outline code.

const kind = 'uneven-frame'
const rad = (deg: number) => (deg * Math.PI) / 180
const deg = (of: number) => (of * 180) / Math.PI
/** Angle of a triangle across from side c, by the law of cosines. */
const across = (a: number, b: number, c: number) => deg(Math.acos((a * a + b * b - c * c) / (2 * a * b)))

/** The first rows carry the corners, the others have none. */
const rowsOf = (sides: readonly number[], corners: readonly number[]) =>
  sides.map((side, at): RowGiven => (at < corners.length ? { side, corner: corners[at]! } : { side }))
const lastSide = (sides: readonly number[], corners: readonly number[]): Params => ({
  way: 'last side open',
  sides: rowsOf(sides, corners),
})
const lastCorners = (sides: readonly number[], corners: readonly number[]): Params => ({
  way: 'last corners open',
  allSides: rowsOf(sides, corners),
})
const through = (points: readonly (readonly [number, number])[]): Params => ({
  way: 'corner points',
  points: points.map(([x, y]) => ({ x, y })),
})

/** Angle of a cut from square at the end of a side, and lengths, by part name. */
function sideOf(made: ReturnType<typeof framed>, at: number) {
  const id = `frame/side-${at}`
  const part = made.parts.find(({ members }) => members.includes(id))
  if (!part) throw new Error(`no ${id}`)
  return part
}

/** The two cuts of a side in the order A, B; a part may be kept end for end. */
function cutsOf(made: ReturnType<typeof framed>, at: number): readonly [number, number] {
  const member = made.frame.members.find(({ id }) => id === `frame/side-${at}`)!
  const [a, b] = member.ends.map(({ normal }) => deg(Math.acos(Math.abs(normal[0]))))
  return [a!, b!]
}

describe('two sides and the corner between them: a triangle', () => {
  test('sides 300 and 400 at 90°: the third is 500, its corners 53.13° and 36.87° (3-4-5)', () => {
    const made = framed(kind, { ...lastSide([300, 400], [90]), section: tube(20, 2) }, metric)
    expect(sizeOf(made, 'side 3').exact).toBeCloseTo(500, 9)
    expect(sizeOf(made, 'side 3').asked).toBe(false)
    expect(sizeOf(made, 'side 1').asked).toBe(true)
    // Corner 2 is the right angle; corner 3 lies across from side 1, corner 1 across from side 2.
    expect(cutsOf(made, 1)[0]).toBeCloseTo(90 - across(300, 500, 400) / 2, 9)
    expect(cutsOf(made, 1)[1]).toBeCloseTo(45, 9)
    expect(cutsOf(made, 2)[1]).toBeCloseTo(90 - across(400, 500, 300) / 2, 9)
    expect(cutsOf(made, 3)[1]).toBeCloseTo(90 - 53.130102 / 2, 5)
  })

  test('the inscribed circle of 3-4-5 has radius 1: in 300-400-500 of 20 tube the inside keeps (100 − 20)/100 of each side', () => {
    const made = framed(kind, { ...lastSide([300, 400], [90]), section: tube(20, 2) }, metric)
    for (const [at, side] of [300, 400, 500].entries()) {
      expect(sideOf(made, at + 1).longPoint).toBeCloseTo(side, 9)
      expect(sideOf(made, at + 1).shortPoint).toBeCloseTo(side * 0.8, 9)
    }
  })

  test('of 99.9 mm tube the 3-4-5 triangle still has steel inside, of 100 mm none: all three sides are named', () => {
    const of = (width: number) =>
      problems(kind, { ...lastSide([300, 400], [90]), section: tube(width, 3) }, metric)
    expect(of(99.9)).toEqual([])
    expect(of(100).map(({ code }) => code)).toEqual(['side-too-short', 'side-too-short', 'side-too-short'])
    expect(of(100)[2]?.text).toMatch(/Side 3 comes to 500 mm; .* more than 500 mm/)
    expect(of(100)[0]?.field).toBe('build.params.sides[0].side')
  })
})

describe('sides and corners, the last side open', () => {
  test('five sides of 400 at 120°: the sixth is 400 too, one mark of six, 800 and 692.82 across', () => {
    const made = framed(kind, lastSide([400, 400, 400, 400, 400], [120, 120, 120, 120]), metric)
    expect(sizeOf(made, 'side 6').exact).toBeCloseTo(400, 9)
    expect(made.parts.map(({ count }) => count)).toEqual([6])
    // Across corners 2 s, across the short diagonal √3 s.
    expect(sizeOf(made, 'corner 1 to corner 4').exact).toBeCloseTo(800, 9)
    expect(sizeOf(made, 'corner 1 to corner 3').exact).toBeCloseTo(400 * Math.sqrt(3), 9)
  })

  test('a right trapezoid 800, 300, 500 at 90°: the last side is √(300² + 300²), corners 135° and 45°', () => {
    const made = framed(kind, lastSide([800, 300, 500], [90, 90]), metric)
    expect(sizeOf(made, 'side 4').exact).toBeCloseTo(300 * Math.SQRT2, 9)
    expect(cutsOf(made, 4)[0]).toBeCloseTo(90 - 135 / 2, 9)
    expect(cutsOf(made, 4)[1]).toBeCloseTo(90 - 45 / 2, 9)
    expect(made.frame.size[0]).toBeCloseTo(800, 9)
    expect(made.frame.size[1]).toBeCloseTo(300, 9)
  })

  test('an L of 600 × 400 with legs 200 wide: five corners of 90°, one of 270°, every miter 45°', () => {
    const made = framed(
      kind,
      { ...lastSide([600, 200, 400, 200, 200], [90, 90, 270, 90]), section: tube(40, 3) },
      metric,
    )
    expect(sizeOf(made, 'side 6').exact).toBeCloseTo(400, 9)
    for (let at = 1; at <= 6; at++) for (const cut of cutsOf(made, at)) expect(cut).toBeCloseTo(45, 9)
    // Side 3 runs from an outward corner to the inward one: its cuts lie parallel, inner and outer edge both 400.
    expect(sideOf(made, 3).shape).toBe('ends parallel')
    expect(sideOf(made, 3).edges[0]).toBeCloseTo(400, 9)
    expect(sideOf(made, 1).shortPoint).toBeCloseTo(520, 9)
  })

  test('inches are read as typed: 30, 40 at 90° closes with 50 in', () => {
    const made = framed(
      kind,
      { way: 'last side open', sides: [{ side: '30', corner: '90' }, { side: '40' }] },
      inches,
    )
    expect(sizeOf(made, 'side 3').exact / 25.4).toBeCloseTo(50, 9)
    expect(sizeOf(made, 'side 3').printed.exact.text).toBe('50')
  })
})

describe('all sides, the last three corners open', () => {
  test('a triangle of 520, 610, 450: each miter is half of what the law of cosines leaves of 180°', () => {
    const made = framed(kind, lastCorners([520, 610, 450], []), metric)
    expect(cutsOf(made, 1)[0]).toBeCloseTo(90 - across(520, 450, 610) / 2, 9)
    expect(cutsOf(made, 1)[1]).toBeCloseTo(90 - across(520, 610, 450) / 2, 9)
    expect(cutsOf(made, 2)[1]).toBeCloseTo(90 - across(610, 450, 520) / 2, 9)
  })

  test('a quadrilateral 700, 500, 600, 400 with 95° between the first two: corners by two triangles on its diagonal', () => {
    const made = framed(kind, lastCorners([700, 500, 600, 400], [95]), metric)
    const diagonal = Math.sqrt(700 ** 2 + 500 ** 2 - 2 * 700 * 500 * Math.cos(rad(95)))
    expect(sizeOf(made, 'corner 1 to corner 3').exact).toBeCloseTo(diagonal, 9)
    const at1 = across(700, diagonal, 500) + across(400, diagonal, 600)
    const at3 = across(500, diagonal, 700) + across(600, diagonal, 400)
    const at4 = across(600, 400, diagonal)
    expect(at1 + 95 + at3 + at4).toBeCloseTo(360, 9)
    expect(cutsOf(made, 1)[0]).toBeCloseTo(90 - at1 / 2, 9)
    expect(cutsOf(made, 3)[0]).toBeCloseTo(90 - at3 / 2, 9)
    expect(cutsOf(made, 4)[0]).toBeCloseTo(90 - at4 / 2, 9)
    ;[700, 500, 600, 400].forEach((side, at) => {
      expect(sizeOf(made, `side ${at + 1}`).exact).toBeCloseTo(side, 9)
    })
  })

  test('side 4 of 300, 300, 200 at 60° closes a gap of 300: 499.9 does, 500.1 does not', () => {
    const of = (side: number) =>
      problems(kind, { ...lastCorners([300, 300, 200, side], [60]), section: tube(10, 1) }, metric)[0]
    // At 499.9 it closes, but sides 3 and 4 lie nearly on each other: a corner below 10°.
    expect(of(499.9)?.code).toBe('corner')
    expect(of(500.1)?.code).toBe('does-not-close')
    expect(of(500.1)?.text).toMatch(/gap of 300 mm; .* more than 100 mm and less than 500 mm/)
    expect(of(500.1)?.field).toBe('build.params.allSides[3].side')
  })
})

describe('corner points', () => {
  test('a 3-4-5 triangle by its points has the parts of the one by its sides, either way round', () => {
    const bySides = framed(kind, { ...lastSide([300, 400], [90]), section: tube(20, 2) }, metric)
    const corners = [
      [0, 0],
      [300, 0],
      [300, 400],
    ] as const
    const keys = (made: typeof bySides) => made.parts.map(({ key }) => key)
    expect(keys(framed(kind, { ...through(corners), section: tube(20, 2) }, metric))).toEqual(keys(bySides))
    const back = framed(kind, { ...through([...corners].reverse()), section: tube(20, 2) }, metric)
    expect(keys(back)).toEqual(keys(bySides))
    expect(sizeOf(back, 'side 1').exact).toBeCloseTo(400, 9)
  })

  test('the top of a 600 × 400 rectangle by points is 620 × 420 with an overhang of 10, whichever way round', () => {
    for (const points of [
      [
        [0, 0],
        [600, 0],
        [600, 400],
        [0, 400],
      ],
      [
        [0, 0],
        [0, 400],
        [600, 400],
        [600, 0],
      ],
    ] as const) {
      const made = framed(
        kind,
        { ...through(points), top: 'plate', topThickness: 5, topEdge: 'overhang', topEdgeBy: 10 },
        metric,
      )
      const [plate] = made.frame.plates
      const xs = plate!.polygon.map(([x]) => x)
      const ys = plate!.polygon.map(([, y]) => y)
      expect([Math.min(...xs), Math.max(...xs)]).toEqual([-10, 610])
      expect([Math.min(...ys), Math.max(...ys)]).toEqual([-10, 410])
      expect(made.frame.size[2]).toBeCloseTo(45, 9)
      // Shoelace: positive is counterclockwise seen from above.
      let twice = 0
      plate!.polygon.forEach(([x, y], at) => {
        const [u, v] = plate!.polygon[(at + 1) % 4]!
        twice += x * v - u * y
      })
      expect(twice).toBeCloseTo(2 * 620 * 420, 6)
    }
  })

  test('a U whose legs are 150 wide over all: 74 mm tube goes round their ends, 76 mm does not', () => {
    const u = [
      [0, 0],
      [400, 0],
      [400, 500],
      [250, 500],
      [250, 200],
      [150, 200],
      [150, 500],
      [0, 500],
    ] as const
    // Two tubes side by side take 2 × 75.
    const of = (width: number) => problems(kind, { ...through(u), section: tube(width, 2) }, metric)[0]
    expect(of(74)).toBeUndefined()
    expect(of(76)?.code).toBe('side-too-short')
    expect(of(76)?.text).toMatch(/Side 3 is given as 150 mm; .* more than 152 mm/)
  })

  test('a waist 90 mm wide: of 44 mm tube both sides pass it, of 46 mm they run into each other', () => {
    const waist = [
      [0, 0],
      [500, 0],
      [295, 300],
      [500, 600],
      [0, 600],
      [205, 300],
    ] as const
    const of = (width: number) => problems(kind, { ...through(waist), section: tube(width, 2) }, metric)[0]
    // At the waist the tubes stand corner to corner; half of 90 less what the bend adds along x.
    const bend = Math.hypot(205, 300) / 300
    expect(of(45 / bend - 0.5)).toBeUndefined()
    expect(of(45 / bend + 0.5)?.code).toBe('sides-meet')
    expect(of(45 / bend + 5)?.text).toMatch(/run into each other in tube .* less than 37 mm wide/)
  })
})

describe('built size from rounded lengths', () => {
  test('3-4-5 of 300.4, 400.4: each side is built to its rounded long point, a diagonal shares what is left open', () => {
    const made = framed(
      kind,
      through([
        [0, 0],
        [600.4, 0],
        [600.4, 400.4],
        [0, 400.4],
      ]),
      metric,
    )
    expect(sizeOf(made, 'side 1').built).toBeCloseTo(600, 9)
    expect(sizeOf(made, 'side 2').built).toBeCloseTo(400, 9)
    const d = Math.hypot(600.4, 400.4)
    expect(sizeOf(made, 'corner 1 to corner 3').built).toBeCloseTo(d - (0.4 * 600.4 + 0.4 * 400.4) / d, 9)
    expect(sizeOf(made, 'corner 1 to corner 3').built).toBeCloseTo(Math.hypot(600, 400), 3)
  })
})

describe('bad input says what was given and what is possible', () => {
  test.each<[string, Params, string, string, RegExp]>([
    ['one side', lastSide([300], []), 'rows', 'build.params.sides', /1 sides were given; 2 to 39/],
    [
      'no rows',
      { way: 'last corners open', allSides: [] },
      'rows',
      'build.params.allSides',
      /0 sides .* 3 to 40/,
    ],
    [
      'two points',
      through([
        [0, 0],
        [1, 0],
      ]),
      'rows',
      'build.params.points',
      /2 corner points were given; 3 to 40/,
    ],
    [
      'a missing corner',
      lastSide([300, 400, 300], [90]),
      'corner-missing',
      'build.params.sides[1].corner',
      /corner after side 2 is missing; with 3 rows it is given after sides 1 to 2/,
    ],
    [
      'a corner too many',
      lastSide([300, 400], [90, 80]),
      'corner-too-many',
      'build.params.sides[1].corner',
      /after side 2 was given as 80°, but it follows .* after side 1/,
    ],
    [
      'a corner of a triangle of sides',
      lastCorners([300, 400, 500], [90]),
      'corner-too-many',
      'build.params.allSides[0].corner',
      /no corner is given/,
    ],
    [
      'a side of 0',
      lastSide([300, 0], [90]),
      'side',
      'build.params.sides[1].side',
      /given as 0 mm; it must be more/,
    ],
    [
      'a side of −5',
      lastSide([-5, 300], [90]),
      'side',
      'build.params.sides[0].side',
      /−5 mm; it must be more than 0/,
    ],
    [
      'a corner of 5°',
      lastSide([300, 300], [5]),
      'too-small',
      'build.params.sides[0].corner',
      /Row 1: .* 5°; it must be 10° or more: a cut is at most 85°/,
    ],
    [
      'a corner of 351°',
      lastSide([300, 300], [351]),
      'too-great',
      'build.params.sides[0].corner',
      /351°; it must be 350° or less/,
    ],
    [
      'no number',
      { way: 'last side open', sides: [{ side: '7/0', corner: 90 }, { side: 300 }] },
      '',
      'build.params.sides[0].side',
      /Row 1: .*7\/0/,
    ],
    [
      'a straight corner',
      through([
        [0, 0],
        [300, 0],
        [600, 0],
        [300, 400],
      ]),
      'straight-corner',
      'build.params.points',
      /corner 2, between sides 1 and 2, comes to 180°, which is straight/,
    ],
    [
      'a solved corner of 2.86°',
      lastSide([1000, 50], [90]),
      'corner',
      'build.params.sides',
      /corner 1, between sides 3 and 1, comes to 2.86°; it must be from 10° to 350°/,
    ],
    [
      'two points alike',
      through([
        [0, 0],
        [300, 0],
        [300, 0],
        [0, 400],
      ]),
      'zero-side',
      'build.params.points[1].x',
      /Points 2 and 3 are one point, so side 2 has no length/,
    ],
    [
      'last and first point alike',
      through([
        [0, 0],
        [300, 0],
        [0, 400],
        [0, 0],
      ]),
      'zero-side',
      'build.params.points[3].x',
      /Points 4 and 1 are one point/,
    ],
    [
      'a bow tie',
      through([
        [0, 0],
        [400, 300],
        [400, 0],
        [0, 300],
      ]),
      'self-crossing',
      'build.params.points',
      /Sides 1 and 3 cross, 250 mm from the start of side 1 and 250 mm from the start of side 3/,
    ],
    [
      'a corner that touches another side',
      through([
        [0, 0],
        [400, 0],
        [400, 300],
        [200, 0],
        [0, 300],
      ]),
      'self-crossing',
      'build.params.points',
      /Sides 1 and 3 cross, 200 mm from the start of side 1/,
    ],
    [
      'sides that run back over their start',
      lastSide([400, 300, 300, 400], [90, 90, 30]),
      'self-crossing',
      'build.params.sides',
      /cross/,
    ],
    [
      'outside angles',
      lastSide([300, 300, 300], [270, 270]),
      'corners-outside',
      'build.params.sides',
      /angles outside it. Give the angles inside/,
    ],
    [
      'sides that end where they began',
      lastSide([300, 300, 300], [60, 60]),
      'closed-already',
      'build.params.sides',
      /3 sides given end where they began, so nothing is left for side 4/,
    ],
    [
      'nothing for the last two to close',
      lastCorners([300, 300, 300, 200, 200], [60, 60]),
      'closed-already',
      'build.params.allSides',
      /Sides 1 to 3 end where they began/,
    ],
    [
      'a last corner that would point inward',
      lastCorners([300, 1000, 900, 200], [40]),
      'not-convex',
      'build.params.allSides',
      /corner 1, .* would come to .*; where the last three corners are left open, each must come out below 180°/,
    ],
    [
      'round tube',
      { section: { kind: 'round-tube', width: 40, wall: 3 } },
      'section-kind',
      'build.params.section',
      /round tube/,
    ],
    [
      'an inset that uses up a side',
      {
        ...lastSide([300, 400], [90]),
        section: tube(20, 2),
        top: 'plate',
        topThickness: 5,
        topEdge: 'inset',
        topEdgeBy: 101,
      },
      'inset-too-great',
      'build.params.topEdgeBy',
      /inset of 101 mm leaves nothing of side 1 of the top; it must be less than 100 mm/,
    ],
    [
      'an overhang that closes a notch 100 wide',
      {
        ...through([
          [0, 0],
          [400, 0],
          [400, 500],
          [250, 500],
          [250, 200],
          [150, 200],
          [150, 500],
          [0, 500],
        ]),
        section: tube(40, 2),
        top: 'top sheet',
        topThickness: 2,
        topEdge: 'overhang',
        topEdgeBy: 60,
      },
      'overhang-too-great',
      'build.params.topEdgeBy',
      /overhang of 60 mm leaves nothing of side 5 of the top; it must be less than 50 mm/,
    ],
    [
      'a plate of no thickness',
      { top: 'plate', topThickness: 0 },
      'thickness',
      'build.params.topThickness',
      /given as 0 mm; it must be more than 0/,
    ],
  ])('%s', (_, params, code, field, text) => {
    const [problem] = problems(kind, params, metric)
    if (code) expect(problem?.code).toBe(code)
    expect(problem?.text).toMatch(text)
    expect(problem?.field).toBe(field)
  })
})

describe('for random outlines', () => {
  /** Points at random distances round a middle, 3 to 12 of them: simple, often not convex. */
  const star = fc.integer({ min: 3, max: 12 }).chain((n) =>
    fc.record({
      radii: fc.array(fc.double({ min: 350, max: 900, noNaN: true }), { minLength: n, maxLength: n }),
      clockwise: fc.boolean(),
      stands: fc.constantFrom('flat', 'on edge'),
      gap: fc.constantFrom(0, 1.6),
    }),
  )
  const pointsOf = (radii: readonly number[], clockwise: boolean) => {
    const points = radii.map((r, at): [number, number] => {
      const angle = (2 * Math.PI * at) / radii.length
      return [r * Math.cos(angle), r * Math.sin(angle)]
    })
    return clockwise ? points.reverse() : points
  }
  const section = { kind: 'rect-tube', width: 40, height: 20, wall: 2 } as const

  test('the ring closes: parts laid head to tail meet within 1e-6 mm (less the gap), and turn by 360° in all', () => {
    fc.assert(
      fc.property(star, ({ radii, clockwise, stands, gap }) => {
        const points = pointsOf(radii, clockwise)
        const params = { ...through(points), section, stands }
        const said = problems(kind, params, { ...metric, rootGap: gap })
        for (const { code } of said)
          expect(['side-too-short', 'sides-meet', 'corner', 'straight-corner']).toContain(code)
        fc.pre(said.length === 0)
        const made = framed(kind, params, { ...metric, rootGap: gap })
        const { members } = made.frame
        expect(members).toHaveLength(points.length)
        let turning = 0
        members.forEach((member, at) => {
          const next = members[(at + 1) % members.length]!
          const here = endCorners(member, 'B')
          const there = endCorners(next, 'A')
          // The gap stands square to the miter, so every corner of one end is that far from its mate's.
          const apart = here.map((corner, edge) => sub(there[edge]!, corner))
          const { normal } = member.ends[1]
          const slant = Math.abs(normal[0])
          const from = axisX(member.pose)
          const to = axisX(next.pose)
          turning += Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1])
          for (const each of apart) expect(norm(each)).toBeLessThanOrEqual(gap / slant + 1e-6)
          if (gap === 0) for (const each of apart) expect(norm(each)).toBeLessThan(1e-6)
        })
        expect(turning).toBeCloseTo(clockwise ? -2 * Math.PI : 2 * Math.PI, 9)
        // Every side is as long as its points are apart.
        points.forEach(([x, y], at) => {
          const [u, v] = points[(at + 1) % points.length]!
          expect(sizeOf(made, `side ${at + 1}`).exact).toBeCloseTo(Math.hypot(u - x, v - y), 9)
        })
      }),
    )
  })

  test('sides and corners measured off an outline give it back, by the last side and, where convex, by the last corners', () => {
    fc.assert(
      fc.property(star, ({ radii }) => {
        const points = pointsOf(radii, false)
        const n = points.length
        const at = (k: number) => points[((k % n) + n) % n]!
        const side = (k: number) => Math.hypot(at(k + 1)[0] - at(k)[0], at(k + 1)[1] - at(k)[1])
        const heading = (k: number) => Math.atan2(at(k + 1)[1] - at(k)[1], at(k + 1)[0] - at(k)[0])
        const corner = (k: number) => {
          const turn = deg(heading(k) - heading(k - 1))
          return 180 - (turn > 180 ? turn - 360 : turn <= -180 ? turn + 360 : turn)
        }
        const sides = points.map((_, k) => side(k))
        const corners = points.map((_, k) => corner(k))
        const base = { section: tube(15, 1.5) }
        fc.pre(problems(kind, { ...through(points), ...base }, metric).length === 0)
        const given = corners.slice(1, n - 1)
        const byLast = framed(kind, { ...lastSide(sides.slice(0, -1), given), ...base }, metric)
        expect(sizeOf(byLast, `side ${n}`).exact).toBeCloseTo(side(n - 1), 6)
        const byCorners = { ...lastCorners(sides, corners.slice(1, n - 2)), ...base }
        const open = [corner(n - 2), corner(n - 1), corner(0)]
        // The other answer folds the last corner in: where it was folded in, the convex one is another outline.
        if (corner(n - 1) < 179 && open.every((each) => each < 179.5)) {
          const made = framed(kind, byCorners, metric)
          expect(cutsOf(made, 1)[0]).toBeCloseTo(Math.abs(90 - corner(0) / 2), 5)
          expect(cutsOf(made, n)[0]).toBeCloseTo(Math.abs(90 - corner(n - 1) / 2), 5)
        }
      }),
    )
  })
})
