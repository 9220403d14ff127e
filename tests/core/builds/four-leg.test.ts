import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Member } from '../../../src/core/frame/frame.ts'
import { landingsOf } from '../../../src/core/frame/landing.ts'
import { edgesOf, endCorners, endPlane } from '../../../src/core/frame/member.ts'
import { toLocal, toWorld } from '../../../src/core/geometry/pose.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Params } from '../../../src/core/job.ts'
import { platesOf } from '../../../src/core/parts/plates.ts'
import { dice } from '../../prove/seed.ts'
import { randomParams } from '../../solids/params/four-leg.ts'
import { type Framed, framed, inches, metric, partOf, problems, sizeOf, tryFrame, tube } from './framed.ts'

const kind = 'four-leg'
const table = (params: Params) => framed(kind, params, metric)
const flatTube = { kind: 'rect-tube', width: 40, height: 20, wall: 2 } as const
const member = ({ frame }: Framed, id: string): Member => {
  const found = frame.members.find((each) => each.id === id)
  if (!found) throw new Error(`no member ${id}`)
  return found
}
const tan = (angle: number) => Math.tan((angle * Math.PI) / 180)

describe('a straight table, 1200 × 600 × 740', () => {
  test('leg 740 − 5 top − 40 frame − 10 cap − 15 leveler = 670, sides 1200 and 600 at 45°', () => {
    const made = table({ top: 'plate', topThickness: 5 })
    expect(partOf(made, 'Leg')).toMatchObject({ count: 4, shape: 'square' })
    expect(partOf(made, 'Leg').longPoint).toBeCloseTo(670, 9)
    expect(partOf(made, 'Long side').longPoint).toBeCloseTo(1200, 9)
    expect(partOf(made, 'Short side').longPoint).toBeCloseTo(600, 9)
    expect(partOf(made, 'Short side').angleFromSquare[0]).toBeCloseTo(45, 9)
    expect(made.frame.size[2]).toBeCloseTo(740, 9)
    expect(sizeOf(made, 'corner to corner').exact).toBeCloseTo(Math.hypot(1200, 600), 9)
  })

  test('butted, long sides through: 1200 and 600 − 2 × 40; a root gap of 2 takes 4 more off the short ones', () => {
    const butted = { upper: 'frame, long sides through' }
    expect(partOf(table(butted), 'Long side').longPoint).toBeCloseTo(1200, 9)
    expect(partOf(table(butted), 'Short side').longPoint).toBeCloseTo(520, 9)
    const gaps = framed(kind, butted, { ...metric, rootGap: 2 })
    expect(partOf(gaps, 'Short side').longPoint).toBeCloseTo(516, 9)
    expect(sizeOf(gaps, 'width').exact).toBeCloseTo(600, 9)
    const across = table({ upper: 'frame, short sides through' })
    expect(partOf(across, 'Short side').longPoint).toBeCloseTo(600, 9)
    expect(partOf(across, 'Long side').longPoint).toBeCloseTo(1120, 9)
  })

  test('legs inside the corners reach the upper face, 715, and lie on both sides from 40 in', () => {
    const made = table({ legsMeet: 'inside the corners', upper: 'frame, long sides through' })
    expect(partOf(made, 'Leg').longPoint).toBeCloseTo(715, 9)
    const on = landingsOf(made.frame).filter(({ by }) => by === 'legs/leg-1')
    expect(on.map(({ on }) => on)).toEqual(['top/side-1', 'top/side-4'])
    expect(on[0]).toMatchObject({ near: expect.closeTo(40, 9), far: expect.closeTo(80, 9) })
    expect(sizeOf(made, 'feet, along the length').exact).toBeCloseTo(1120, 9)
  })

  test('rails between 40 legs are 1120 and 520 long; flush ones of 20 stand 10 farther out than middle ones', () => {
    const rails = (railsSit: string) =>
      table({ upper: 'rails between the legs', section: flatTube, stands: 'on edge', railsSit })
    expect(partOf(rails('middle'), 'Long rail').longPoint).toBeCloseTo(1120, 9)
    expect(partOf(rails('middle'), 'Short rail').longPoint).toBeCloseTo(520, 9)
    const y = (railsSit: string) => member(rails(railsSit), 'rails/long-1').pose[13]!
    expect(y('middle')).toBeCloseTo(-280, 9)
    expect(y('flush')).toBeCloseTo(-290, 9)
  })

  test('H: end stretchers 520, the middle one 1200 − 40 − 30 = 1130, all with the upper face at 150', () => {
    const made = table({ stretchers: 'H' })
    expect(partOf(made, 'Short stretcher').longPoint).toBeCloseTo(520, 9)
    expect(partOf(made, 'Middle stretcher').longPoint).toBeCloseTo(1130, 9)
    expect(sizeOf(made, 'clear under the stretchers').exact).toBeCloseTo(120, 9)
    // Leg from 25 up: the stretcher covers 95 to 125 of it, from the foot.
    expect(landingsOf(made.frame).find(({ by }) => by === 'stretchers/short-1')).toMatchObject({
      on: 'legs/leg-2',
      from: 'A',
      near: expect.closeTo(95, 9),
      far: expect.closeTo(125, 9),
    })
  })

  test('a shelf on stretchers all around is 1190 × 590 over all, cut out 2 clear of the 40 legs', () => {
    const shelf = table({ stretchers: 'around', shelf: true }).frame.plates.find(
      ({ name }) => name === 'Shelf',
    )
    expect(shelf?.polygon).toHaveLength(12)
    const xs = shelf!.polygon.map(([x]) => x)
    const ys = shelf!.polygon.map(([, y]) => y)
    expect(Math.max(...xs)).toBeCloseTo(600 - 20 + 15, 9)
    expect(Math.max(...ys)).toBeCloseTo(300 - 20 + 15, 9)
    expect(xs.some((x) => Math.abs(x - (600 - 40 - 2)) < 1e-9)).toBe(true)
    expect(shelf!.pose[14]).toBeCloseTo(150, 9)
    // On an H it goes between front and back legs.
    const onH = table({ stretchers: 'H', shelf: true }).frame.plates.find(({ name }) => name === 'Shelf')
    expect(onH?.polygon).toHaveLength(4)
    expect(Math.max(...onH!.polygon.map(([, y]) => y))).toBeCloseTo(300 - 40 - 2, 9)
  })

  test('assemblies: the top frame as a ring, and two ends where stretchers join two legs', () => {
    expect(table({}).frame.assemblies.map(({ id }) => id)).toEqual(['top'])
    const { assemblies } = table({ stretchers: 'ends' }).frame
    expect(assemblies.map(({ id, members }) => [id, members.length])).toEqual([
      ['top', 4],
      ['left-end', 3],
      ['right-end', 3],
    ])
    expect(assemblies[0]?.ring).toHaveLength(4)
  })
})

describe('splayed', () => {
  test('feet given 1360 and 760: the leg ends stand 1360 and 760 over all, and the lean is what that makes', () => {
    const made = table({ splay: 'feet', feetLength: 1360, feetWidth: 760 })
    const low = [1, 2, 3, 4].flatMap((n) => endCorners(member(made, `legs/leg-${n}`), 'A'))
    const span = (axis: 0 | 1) =>
      Math.max(...low.map((point) => point[axis])) - Math.min(...low.map((point) => point[axis]))
    expect(span(0)).toBeCloseTo(1360, 9)
    expect(span(1)).toBeCloseTo(760, 9)
    // 80 each way over 740 − 40 − 25 = 675.
    expect(partOf(made, 'Leg').angleFromSquare[0]).toBeCloseTo(
      (Math.atan(Math.hypot(80, 80) / 675) * 180) / Math.PI,
      9,
    )
    expect(sizeOf(made, 'feet, corner to corner').exact).toBeCloseTo(Math.hypot(1360, 760), 9)
  })

  test('8° along the length: long stretchers get 8° plain miters, short ones stay square', () => {
    const made = table({ splay: 'angles', leanLength: 8, leanWidth: 0, stretchers: 'around' })
    expect(partOf(made, 'Long stretcher').angleFromSquare[0]).toBeCloseTo(8, 9)
    expect(partOf(made, 'Short stretcher').shape).toBe('square')
  })

  test('8° and 12°: long stretchers keep a plain 8° miter, the short ones get the compound cut of the leg’s face', () => {
    const made = table({ splay: 'angles', leanLength: 8, leanWidth: 12, stretchers: 'around' })
    const plane = (id: string) => endPlane(member(made, id).ends[1])
    expect(Math.abs(plane('stretchers/long-1').q)).toBeCloseTo(tan(8), 9)
    expect(plane('stretchers/long-1').p).toBeCloseTo(0, 9)
    // Trace upright: tan 12°; trace level: tan 8° tan 12° / (1 + tan² 8°), from the leg's face by hand.
    expect(Math.abs(plane('stretchers/short-1').q)).toBeCloseTo(tan(12) / (1 + tan(8) ** 2), 9)
    expect(Math.abs(plane('stretchers/short-1').p)).toBeCloseTo((tan(8) * tan(12)) / (1 + tan(8) ** 2), 9)
    expect(partOf(made, 'Short stretcher').count).toBe(2)
  })

  test('the four caps of a two-way splay are one plate, two of them turned over', () => {
    const made = table({ splay: 'angles', leanLength: 8, leanWidth: 12 })
    const caps = platesOf(made.frame, metric).filter(({ id }) => id.startsWith('legs/cap'))
    expect(new Set(caps.map(({ mark }) => mark)).size).toBe(1)
    expect(made.frame.plates.map(({ pose }) => Math.sign(pose[10]!))).toEqual([1, -1, 1, -1])
  })

  test('built height and spread count the rounded leg: 0.4 longer edges are 0.4 cos(lean) of height', () => {
    const made = table({ splay: 'angles', leanLength: 8, leanWidth: 12 })
    const leg = partOf(made, 'Leg')
    const more = leg.printed.length.mm - leg.edges[0]
    const cos = Math.cos(Math.atan(Math.hypot(tan(8), tan(12))))
    expect(sizeOf(made, 'overall height').built).toBeCloseTo(740 + more * cos, 9)
    const spread = sizeOf(made, 'feet, along the width')
    expect(spread.built - spread.exact).toBeCloseTo(2 * more * cos * tan(12), 9)
  })

  test('a stud of 100 in a leg that leans 20° meets its wall: the room is that of the inside, less half the thread', () => {
    const leaning = { splay: 'angles', leanLength: 20, leanWidth: 0, levelerStud: 100 } as const
    const text = table(leaning).frame.warnings.find(({ code }) => code === 'stud-too-long')?.text
    // (20 − 3 wall − 5 half of M10) / sin 20° = 35.09.
    expect(text).toMatch(/reaches 98 mm into the foot; there is room for 35 mm/)
    expect(table({ levelerStud: 100 }).frame.warnings).toEqual([])
  })
})

describe('for random frames', () => {
  const upright = (params: Params) => params.upper !== 'rails between the legs'
  const made = fc
    .integer({ min: 1, max: 1e9 })
    .map((seed) => ({ seed, params: randomParams(dice('four-leg', seed)) }))
    .map((each) => ({ ...each, result: tryFrame(kind, each.params, metric) }))

  test('feet in one plane, height met, length and width met, all within 1e-6', () => {
    fc.assert(
      fc.property(made, ({ params, result }) => {
        fc.pre(result.ok)
        const { frame, sizes } = result.value
        const legs = frame.members.filter(({ id }) => id.startsWith('legs/leg-'))
        const lows = legs.flatMap((leg) => endCorners(leg, 'A').map((point) => point[2]))
        expect(Math.max(...lows) - Math.min(...lows)).toBeLessThan(1e-6)
        expect(frame.size[2]).toBeCloseTo(params.height as number, 6)
        const tops = upright(params)
          ? frame.members.filter(({ id }) => id.startsWith('top/'))
          : legs.map((leg) => ({ ...leg, upperEnd: true }))
        const points = tops.flatMap((each) =>
          'upperEnd' in each ? endCorners(each, 'B') : [...endCorners(each, 'A'), ...endCorners(each, 'B')],
        )
        const span = (axis: 0 | 1) =>
          Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]))
        expect(span(0)).toBeCloseTo(params.length as number, 6)
        expect(span(1)).toBeCloseTo(params.width as number, 6)
        for (const size of sizes) expect(Number.isFinite(size.built)).toBe(true)
        for (const each of frame.members) expect(Math.min(...edgesOf(each).lengths)).toBeGreaterThan(0)
      }),
    )
  })

  test('ends of rails and stretchers lie in the face of what they stop on, no corner off by 1e-6', () => {
    fc.assert(
      fc.property(made, ({ result }) => {
        fc.pre(result.ok)
        const { frame } = result.value
        const of = new Map(frame.members.map((each) => [each.id, each]))
        for (const { kind: how, members, ends } of frame.joints) {
          if (how !== 'butt' || !/^(rails|stretchers)\//.test(members[0] ?? '')) continue
          const runs = of.get(members[1] ?? '')!
          const corners = endCorners(of.get(members[0] ?? '')!, ends[0] === 'A' ? 'A' : 'B')
          const local = corners.map((corner) => toLocal(runs.pose, corner))
          const onFace = ([1, 2] as const).some((axis) =>
            local.every(
              (point) =>
                Math.abs(
                  Math.abs(point[axis]) - (axis === 1 ? runs.section.width : runs.section.height) / 2,
                ) < 1e-6,
            ),
          )
          expect(onFace).toBe(true)
        }
      }),
    )
  })

  test('left is the mirror image of right, and front of back', () => {
    const key = (points: readonly Vec3[]) =>
      points
        .map((point) => point.map((part) => (Math.round(part * 1e5) / 1e5 || 0).toFixed(5)).join(' '))
        .sort()
        .join(' | ')
    const cornersOf = (of: Member) => [...endCorners(of, 'A'), ...endCorners(of, 'B')]
    fc.assert(
      fc.property(made, ({ result }) => {
        fc.pre(result.ok)
        const { frame, parts } = result.value
        const legs = frame.members.filter(({ id }) => id.startsWith('legs/leg-'))
        const all = new Set(legs.map((leg) => key(cornersOf(leg))))
        for (const leg of legs)
          for (const [sx, sy] of [
            [-1, 1],
            [1, -1],
          ] as const)
            expect(all).toContain(key(cornersOf(leg).map(([x, y, z]): Vec3 => [sx * x, sy * y, z])))
        // Parallel ends: the mirror image is the same piece, so one mark does for all four.
        expect(parts.find(({ name }) => name === 'Leg')?.count).toBe(4)
      }),
    )
  })

  test('the levelers stand under the middle of the caps', () => {
    fc.assert(
      fc.property(made, ({ params, result }) => {
        fc.pre(result.ok && params.levelers === true && params.caps === true)
        if (!result.ok) return
        const { frame } = result.value
        expect(frame.hardware).toHaveLength(4)
        for (const [at, { at: point }] of frame.hardware.entries()) {
          const cap = frame.plates.find(({ id }) => id === `legs/cap-${at + 1}`)!
          const [x, y] = cap.holes[0] ?? [Number.NaN, Number.NaN]
          const [wx, wy] = toWorld(cap.pose, [x, y, 0])
          expect(point[0]).toBeCloseTo(wx, 6)
          expect(point[1]).toBeCloseTo(wy, 6)
        }
      }),
    )
  })
})

describe('bad input says what was given and what is possible', () => {
  const bare = { upper: 'rails between the legs', section: flatTube, stands: 'on edge' } as const
  const both = { splay: 'angles', leanLength: 8, leanWidth: 12 } as const
  test.each<[Params, string, RegExp]>([
    [{ length: 80 }, 'length', /length was given as 80 mm; it must be more than 80 mm, two tubes of 40 mm/],
    [
      { ...bare, width: 80 },
      'width',
      /80 mm leaves nothing between the legs, which take 80 mm .* more than that/,
    ],
    [
      { height: 65 },
      'height',
      /65 mm leaves no leg; it must be more than 65 mm: top 0 mm, frame or rails 40 mm, cap 10 mm, leveler 15 mm/,
    ],
    [
      { splay: 'angles', leanLength: 40, leanWidth: 40 },
      'leanWidth',
      /lean of 49\.9°; a leg can lean 45°: with 40° along the length, 28\.5° along the width/,
    ],
    [{ splay: 'angles', leanLength: 50, leanWidth: 0 }, 'leanLength', /50°; it must be 45° or less/],
    [{ splay: 'angles', leanLength: -5, leanWidth: 0 }, 'leanLength', /-5°; it must be 0° or more/],
    [
      { splay: 'feet', feetLength: 1100 },
      'feetLength',
      /1100 mm apart .* inward; it must be 1200 mm or more/,
    ],
    [
      { splay: 'feet', feetLength: 1200, feetWidth: 2000 },
      'feetWidth',
      /2000 mm apart make the legs lean 46\.0°; they can lean 45°, with the feet 1950 mm apart/,
    ],
    [
      { stretchers: 'H', stretcherHeight: 54 },
      'stretcherHeight',
      /54 mm; it can lie between 55 mm, .* and 700 mm/,
    ],
    [
      { stretchers: 'H', stretcherHeight: 701 },
      'stretcherHeight',
      /701 mm; it can lie between 55 mm, .* and 700 mm/,
    ],
    [
      { stretchers: 'H', stretcherSection: tube(80, 3), height: 140 },
      'stretcherSection',
      /80 mm high have no room on these legs: 75 mm are free/,
    ],
    [{ ...both, legTurned: 'to the lean', stretchers: 'H' }, 'stretchers', /an edge, not a face/],
    [
      { ...bare, ...both, legTurned: 'to the lean' },
      'upper',
      /Turn the tube of the legs square to the frame/,
    ],
    [{ ...both, legsMeet: 'inside the corners' }, 'legsMeet', /lean both ways .* go under the frame/],
    [
      { ...bare, ...both, section: tube(40, 3) },
      'section',
      /Rails 40 mm wide and 40 mm high .* can be 32 mm wide/,
    ],
    [{ legInset: 41 }, 'legInset', /tube is 40 mm wide, and touch none of it/],
    [{ legInset: -1 }, 'legInset', /−1 mm; it must be 0 mm or more/],
    [
      { stretchers: 'H', shelf: true, stretcherHeight: 699 },
      'shelfThickness',
      /3 mm thick; it must be more than 0 and no more than 1 mm/,
    ],
    [{ legSection: { kind: 'round-tube', width: 40, wall: 3 } }, 'legSection', /round tube/],
    [{ capThickness: 0 }, 'capThickness', /0 mm; it must be more than 0/],
    [{ levelerSetting: 30 }, 'levelerSetting', /30 mm; it can stand between 10 mm and 25 mm/],
    [{ top: 'plate', topEdge: 'inset', topEdgeBy: 300 }, 'topEdgeBy', /300 mm .* must be less than 300 mm/],
  ])('%j', (params, field, text) => {
    const [problem] = problems(kind, params, metric)
    expect(problem?.field).toBe(`build.params.${field}`)
    expect(problem?.text).toMatch(text)
  })

  test('a 60 leg under a 40 frame hangs open in the corner: said with how much of it lies on steel', () => {
    const warning = (legSection: ReturnType<typeof tube>) =>
      table({ legSection }).frame.warnings.find(({ code }) => code === 'leg-past-the-frame')?.text
    // 60² less the 20² inside the corner.
    expect(warning(tube(60, 3))).toMatch(/Only 88 % of a leg's upper end/)
    expect(warning(tube(40, 3))).toBeUndefined()
  })

  test('in inches: 48 × 24 × 30 with legs of 30 − 1 1/2 − 3/8 − 1/2 = 27 5/8', () => {
    expect(partOf(framed(kind, {}, inches), 'Leg').printed.length.text).toBe('27 5/8')
  })
})
