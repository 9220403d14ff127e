import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { landingsOf } from '../../../src/core/frame/landing.ts'
import { edgesOf, endCorners } from '../../../src/core/frame/member.ts'
import type { Params, SectionGiven } from '../../../src/core/job.ts'
import { weldPlan } from '../../../src/core/weld/order.ts'
import { type Framed, framed, inches, metric, partOf, problems, sizeOf, tube } from './framed.ts'

// Expected numbers are sums and Pythagoras written out here: common practice of laying out a frame.

const kind = 'rect-frame'
const bare: Params = { length: 900, width: 600, section: tube(40, 3), bars: 'none', infill: 'none' }
const frameOf = (params: Params, shop = metric) => framed(kind, { ...bare, ...params }, shop)
const cross = (params: Params): Params => ({ bars: 'evenly', barSection: tube(20, 2), ...params })
const infill = (params: Params): Params => ({
  infill: 'evenly',
  infillSection: { kind: 'square-bar', width: 10 },
  ...params,
})

/** Least and greatest of a member along a world axis: its sharp box. */
function span(made: Framed, id: string, axis: 0 | 1 | 2): [number, number] {
  const member = made.frame.members.find((each) => each.id === id)
  if (!member) throw new Error(`no ${id}`)
  const all = [...endCorners(member, 'A'), ...endCorners(member, 'B')].map((point) => point[axis])
  return [Math.min(...all), Math.max(...all)]
}
const close = (got: readonly number[], wanted: readonly number[]) =>
  wanted.forEach((each, at) => {
    expect(got[at]).toBeCloseTo(each, 9)
  })

describe('rails', () => {
  test('mitered, 900 × 600 of 40 tube: two of 900 and two of 600 at 45°, short points 820 and 520', () => {
    const made = frameOf({})
    const [side, end] = [partOf(made, 'Side rail'), partOf(made, 'End rail')]
    expect([side.count, side.longPoint, end.count, end.longPoint]).toEqual([2, 900, 2, 600])
    close([side.shortPoint, end.shortPoint], [820, 520])
    close([...side.angleFromSquare, ...end.angleFromSquare], [45, 45, 45, 45])
    expect(made.frame.assemblies[0]?.ring).toHaveLength(4)
    close(made.frame.size, [900, 600, 40])
  })

  test('side rails through: 900 square, end rails 600 − 2 · 40 = 520; end rails through: 820 and 600', () => {
    const side = frameOf({ corners: 'side rails through' })
    expect(partOf(side, 'Side rail')).toMatchObject({ longPoint: 900, shape: 'square', count: 2 })
    close([partOf(side, 'End rail').longPoint], [520])
    const end = frameOf({ corners: 'end rails through' })
    close([partOf(end, 'Side rail').longPoint, partOf(end, 'End rail').longPoint], [820, 600])
    for (const made of [side, end]) {
      close(made.frame.size, [900, 600, 40])
      expect(made.frame.joints.map((joint) => joint.kind)).toEqual(['butt', 'butt', 'butt', 'butt'])
      expect(made.frame.assemblies[0]?.ring).toBeUndefined()
    }
  })

  test('a root gap of 1.5 is taken off both ends of the rails that stop: 520 − 3, and of no other', () => {
    const made = frameOf({ corners: 'side rails through' }, { ...metric, rootGap: 1.5 })
    close([partOf(made, 'End rail').longPoint, partOf(made, 'Side rail').longPoint], [517, 900])
    close([sizeOf(made, 'width').exact, made.frame.size[1]], [600, 600])
  })

  test('clear inside 820 × 520 in 40 tube is 900 × 600 outside', () => {
    const made = frameOf({ sizeIs: 'clear inside', length: 820, width: 520 })
    close([sizeOf(made, 'length').exact, sizeOf(made, 'width').exact], [900, 600])
    expect(made.sizes.filter(({ asked }) => asked).map(({ name }) => name)).toEqual([
      'clear length inside',
      'clear width inside',
    ])
  })

  test('60 × 40 tube on edge stands 60 high and takes 40 off each side', () => {
    const section: SectionGiven = { kind: 'rect-tube', width: 60, height: 40, wall: 3 }
    close([partOf(frameOf({ section }), 'Side rail').shortPoint], [900 - 120])
    const edge = frameOf({ section, stands: 'on edge' })
    close([partOf(edge, 'Side rail').shortPoint, edge.frame.size[2]], [900 - 80, 60])
  })

  test('a square of 500 is one mark of four', () =>
    expect(frameOf({ length: 500, width: 500 }).parts.map(({ count }) => count)).toEqual([4]))

  test('the diagonal of 30 × 40 in is 50 (3-4-5); 29 15/16 wide rounds to 30 in eighths, and the diagonal grows by 0.6 of that', () => {
    const inch = { ...bare, length: '40', width: '30', section: tube('2', '1/8') }
    const exact = sizeOf(framed(kind, inch, inches), 'diagonal, corner to corner')
    expect(exact.printed.exact.text).toBe('50')
    const eighths = { ...inches, reading: { kind: 'inch-fraction', denominator: 8 } } as const
    const coarse = sizeOf(framed(kind, { ...inch, width: '29 15/16' }, eighths), 'diagonal, corner to corner')
    // Rounded to 30: the diagonal grows by 1/16 · 0.6.
    expect(coarse.built / 25.4).toBeCloseTo(
      Math.hypot(40, 29.9375) + (0.0625 * 29.9375) / Math.hypot(40, 29.9375),
      9,
    )
  })
})

describe('cross bars', () => {
  test('3 across, 20 wide, in 820 clear: gaps of (820 − 60)/4 = 190, each 520 long, butting on the side rails', () => {
    const made = frameOf(cross({ barCount: 3 }))
    expect(partOf(made, 'Cross bar')).toMatchObject({ count: 3, shape: 'square' })
    close([partOf(made, 'Cross bar').longPoint, sizeOf(made, 'clear between cross bars').exact], [520, 190])
    // From the left outside: 40 + 190, 20 more, 190 more …
    for (const [at, from] of [230, 440, 650].entries())
      close(span(made, `bars/cross-bar-${at + 1}`, 0), [from - 450, from + 20 - 450])
  })

  test('along the length: 820 long, 2 of them in 520 clear leave (520 − 40)/3 = 160', () => {
    const made = frameOf(cross({ barCount: 2, barRun: 'along' }))
    close([partOf(made, 'Cross bar').longPoint, sizeOf(made, 'clear between cross bars').exact], [820, 160])
    close(span(made, 'bars/cross-bar-1', 1), [40 + 160 - 300, 40 + 180 - 300])
  })

  test('middles at 650 and 250 from the left, typed in any order, land at 240–260 and 640–660 from the corner', () => {
    const made = frameOf(cross({ bars: 'centers', barCenters: [{ at: 650 }, { at: 250 }] }))
    const landings = landingsOf(made.frame).map(({ on, by, near, far }) => [on, by, near, far] as const)
    expect(landings).toHaveLength(4)
    // The front rail begins at the left, the back one at the right.
    const wanted = [
      ['frame/side-1', 'bars/cross-bar-1', 240, 260],
      ['frame/side-3', 'bars/cross-bar-1', 640, 660],
      ['frame/side-1', 'bars/cross-bar-2', 640, 660],
      ['frame/side-3', 'bars/cross-bar-2', 240, 260],
    ] as const
    wanted.forEach(([on, by, near, far], at) => {
      expect(landings[at]?.slice(0, 2)).toEqual([on, by])
      close(landings[at]!.slice(2) as number[], [near, far])
    })
  })

  test('on rails that stop between the others, a landing counts from the end of that rail: 40 less', () => {
    const made = frameOf({
      ...cross({ bars: 'centers', barCenters: [{ at: 250 }] }),
      corners: 'end rails through',
    })
    const front = landingsOf(made.frame).find(({ on, by }) => on === 'frame/side-1' && by.startsWith('bars'))
    close([front!.near, front!.far], [200, 220])
  })

  test.each([
    ['on top', 20, 40],
    ['in the middle', 10, 30],
    ['underneath', 0, 20],
  ])('20 high, %s: from %d to %d', (barsLie, from, to) =>
    close(span(frameOf(cross({ barCount: 1, barsLie })), 'bars/cross-bar-1', 2), [from, to]),
  )

  test('flat bar 40 × 6 on edge stands 40 high and is 6 wide', () => {
    const made = frameOf(
      cross({ barCount: 1, barStands: 'on edge', barSection: { kind: 'flat-bar', width: 40, height: 6 } }),
    )
    close(span(made, 'bars/cross-bar-1', 2), [0, 40])
    close(span(made, 'bars/cross-bar-1', 0), [-3, 3])
  })

  test('every seam of every joint is welded once, the ring before the bars', () => {
    const made = frameOf({ ...cross({ barCount: 2 }), ...infill({ infillCount: 2 }) })
    const { seams, order } = weldPlan(made.frame, metric)
    const passes = order.filter((id) => !id.startsWith('turn:'))
    expect([...passes].sort()).toEqual(seams.map(({ id }) => id).sort())
    const firstBar = passes.findIndex((id) => id.startsWith('bars/') || id.startsWith('infill/'))
    expect(passes.slice(0, firstBar).every((id) => id.startsWith('frame/'))).toBe(true)
    expect(passes.slice(firstBar).some((id) => id.startsWith('frame/'))).toBe(false)
  })
})

describe('infill', () => {
  test('with no cross bars it runs from rail to rail: 4 along, 10 wide, in 520 clear leave 96', () => {
    const made = frameOf(infill({ infillCount: 4, infillRun: 'along' }))
    close([partOf(made, 'Infill bar').longPoint, sizeOf(made, 'clear between infill bars').exact], [820, 96])
  })

  test('across one cross bar it is cut in two: 4 bars of (820 − 20)/2 = 400, butting on rail and bar', () => {
    const made = frameOf({ ...cross({ barCount: 1 }), ...infill({ infillCount: 2, infillRun: 'along' }) })
    expect(partOf(made, 'Infill bar').count).toBe(4)
    close(
      [partOf(made, 'Infill bar').longPoint, sizeOf(made, 'clear between infill bars').exact],
      [400, 500 / 3],
    )
    const mates = made.frame.members
      .filter(({ id }) => id.startsWith('infill/'))
      .map((each) => each.mates.join(' to '))
    expect(mates).toEqual([
      'frame/side-4 to bars/cross-bar-1',
      'frame/side-4 to bars/cross-bar-1',
      'bars/cross-bar-1 to frame/side-2',
      'bars/cross-bar-1 to frame/side-2',
    ])
  })

  test('beside one cross bar it fills both fields of 400: 3 in each leave (400 − 30)/4 = 92.5', () => {
    const made = frameOf({ ...cross({ barCount: 1 }), ...infill({ infillCount: 3, infillRun: 'across' }) })
    expect(partOf(made, 'Infill bar').count).toBe(6)
    close([sizeOf(made, 'clear between infill bars').exact], [92.5])
    close(span(made, 'infill/field-2-bar-1', 0), [10 + 92.5, 10 + 102.5])
  })

  test('beside a cross bar that is off the middle no clear length is the same, so none is stated', () => {
    const made = frameOf({
      ...cross({ bars: 'centers', barCenters: [{ at: 300 }] }),
      ...infill({ infillCount: 1, infillRun: 'across' }),
    })
    expect(made.sizes.some(({ name }) => name === 'clear between infill bars')).toBe(false)
    // Fields 40–290 and 310–860.
    close(span(made, 'infill/field-1-bar-1', 0), [160 - 450, 170 - 450])
    close(span(made, 'infill/field-2-bar-1', 0), [580 - 450, 590 - 450])
  })
})

describe('on top', () => {
  test('a plate set in by 10 is 880 × 580 and lies on 40 tube; a sheet hanging over by 12 is 924 × 624', () => {
    const plate = (params: Params) => {
      const [made] = frameOf({ topThickness: 5, ...params }).frame.plates
      return { z: made!.pose[14], polygon: made!.polygon }
    }
    const inset = plate({ top: 'plate', topEdge: 'inset', topEdgeBy: 10 })
    expect(inset.z).toBe(40)
    close(inset.polygon[2]!, [440, 290])
    close(plate({ top: 'top sheet', topEdge: 'overhang', topEdgeBy: 12 }).polygon[0]!, [-462, -312])
  })
})

describe('bad input says what was given and what is possible', () => {
  test.each<[string, Params, string, string, RegExp]>([
    [
      '80 outside',
      { length: 80 },
      'size-too-small',
      'build.params.length',
      /length of 80 mm outside .* more than 80 mm/,
    ],
    [
      '0 clear',
      { sizeIs: 'clear inside', width: 0 },
      'size-too-small',
      'build.params.width',
      /width of 0 mm clear inside .* more than 0 mm/,
    ],
    [
      'round rails',
      { section: { kind: 'round-tube', width: 40, wall: 3 } },
      'section-kind',
      'build.params.section',
      /round tube; its rails take square/,
    ],
    [
      'angle bars',
      cross({ barSection: { kind: 'angle', width: 30, height: 30, wall: 3 } }),
      'section-kind',
      'build.params.barSection',
      /angle was given for the cross bars; they take/,
    ],
    [
      'round cross bars',
      cross({ barSection: { kind: 'round-bar', width: 20 } }),
      'section-kind',
      'build.params.barSection',
      /round bar was given for the cross bars/,
    ],
    [
      'bars higher than the rails',
      cross({ barSection: tube(50, 3) }),
      'bar-too-high',
      'build.params.barSection',
      /50 mm high .* at most 40 mm/,
    ],
    [
      'infill higher than the cross bars that it stops on',
      { ...cross({ barCount: 1 }), ...infill({ infillRun: 'along', infillSection: tube(30, 2) }) },
      'bar-too-high',
      'build.params.infillSection',
      /infill bars are 30 mm high .* at most 20 mm/,
    ],
    ['no bars', cross({ barCount: 0 }), 'too-small', 'build.params.barCount', /0; it must be 1 or more/],
    [
      '41 bars of 20 in 820',
      cross({ barCount: 41 }),
      'bars-too-many',
      'build.params.barCount',
      /41 cross bars 20 mm wide fill 820 mm .* 820 mm clear; at most 40/,
    ],
    [
      'bars wider than the frame is clear',
      { ...cross({ barCount: 1 }), length: 99 },
      'bars-too-many',
      'build.params.barCount',
      /19 mm clear; none fits, so they must be narrower/,
    ],
    [
      'no middles',
      cross({ bars: 'centers', barCenters: [] }),
      'bars-none',
      'build.params.barCenters',
      /at least one row, or choose none/,
    ],
    [
      'a middle in the rail',
      cross({ bars: 'centers', barCenters: [{ at: 300 }, { at: 45 }] }),
      'bar-outside',
      'build.params.barCenters[1].at',
      /Row 2: a middle at 45 mm .* from 50 mm to 850 mm/,
    ],
    [
      'a middle past the frame',
      cross({ bars: 'centers', barCenters: [{ at: 1000 }] }),
      'bar-outside',
      'build.params.barCenters[0].at',
      /1000 mm .* from 50 mm to 850 mm/,
    ],
    [
      'middles 19 apart',
      cross({ bars: 'centers', barCenters: [{ at: 319 }, { at: 300 }] }),
      'bars-overlap',
      'build.params.barCenters[0].at',
      /Rows 2 and 1: middles at 300 mm and 319 mm are 19 mm apart; .* 20 mm/,
    ],
    [
      'infill on a cross bar',
      {
        ...cross({ barCount: 1 }),
        ...infill({ infill: 'centers', infillRun: 'across', infillCenters: [{ at: 450 }] }),
      },
      'bar-outside',
      'build.params.infillCenters[0].at',
      /450 mm .* from 45 mm to 435 mm or from 465 mm to 855 mm/,
    ],
    [
      'too many pieces of infill',
      {
        ...bare,
        length: 5000,
        width: 3000,
        ...cross({ barCount: 50 }),
        ...infill({ infillCount: 100, infillRun: 'along' }),
      },
      'bars-too-many',
      'build.params.infillCount',
      /5100 pieces of infill .* at most 1000/,
    ],
    [
      'an inset of half the width',
      { top: 'plate', topThickness: 5, topEdge: 'inset', topEdgeBy: 300 },
      'inset-too-great',
      'build.params.topEdgeBy',
      /inset of 300 mm .* less than 300 mm/,
    ],
    [
      'corners of no kind',
      { corners: 'round' },
      'choice',
      'build.params.corners',
      /"round"; it can be mitered, side rails through, end rails through/,
    ],
  ])('%s', (_, params, code, field, text) => {
    const [problem] = problems(kind, { ...bare, ...params }, metric)
    expect(problem).toMatchObject({ code, field })
    expect(problem?.text).toMatch(text)
  })

  test('40 bars of 20 fit in 820 clear, gaps of 20/41; middles 20 apart may touch; 80.1 outside is a frame', () => {
    const made = frameOf(cross({ barCount: 40 }))
    close([sizeOf(made, 'clear between cross bars').exact], [20 / 41])
    expect(
      frameOf(cross({ bars: 'centers', barCenters: [{ at: 300 }, { at: 320 }] })).frame.members,
    ).toHaveLength(6)
    expect(frameOf({ length: 80.1 }).frame.members).toHaveLength(4)
  })

  test('a root gap that takes all of an infill bar between cross bars is said with the bar and the length', () => {
    const params = {
      ...cross({ bars: 'centers', barCenters: [{ at: 300 }, { at: 322 }] }),
      ...infill({ infillRun: 'along', infillCount: 1 }),
    }
    expect(problems(kind, { ...bare, ...params }, metric)).toEqual([])
    const [problem] = problems(kind, { ...bare, ...params }, { ...metric, rootGap: 1.6 })
    expect(problem).toMatchObject({ code: 'too-short', field: 'build.params.length' })
    expect(problem?.text).toMatch(
      /Infill bar 2 would be −1 mm long on its short side, the root gaps taken off/,
    )
  })
})

describe('for random frames', () => {
  const cases = fc.record({
    // From 600 on, five bars of 20 leave fields of 70 for five infill bars of 10.
    length: fc.double({ min: 600, max: 3000, noNaN: true }),
    width: fc.double({ min: 600, max: 2000, noNaN: true }),
    corners: fc.constantFrom('mitered', 'side rails through', 'end rails through'),
    barCount: fc.integer({ min: 1, max: 5 }),
    barRun: fc.constantFrom('across', 'along'),
    infillCount: fc.integer({ min: 1, max: 5 }),
    infillRun: fc.constantFrom('across', 'along'),
    barsLie: fc.constantFrom('on top', 'in the middle', 'underneath'),
    gap: fc.constantFrom(0, 1.6),
  })

  test('bars and gaps add up to the clear size, no two parts overlap, and the size outside is what was asked', () => {
    fc.assert(
      fc.property(cases, ({ gap, ...params }) => {
        const made = frameOf({ ...cross({}), ...infill({}), ...params }, { ...metric, rootGap: gap })
        close(made.frame.size, [params.length, params.width, 40])
        const inside = (params.barRun === 'across' ? params.length : params.width) - 80
        const gapClear = sizeOf(made, 'clear between cross bars').exact
        expect((params.barCount + 1) * gapClear + params.barCount * 20).toBeCloseTo(inside, 6)
        // Bars are boxes along the axes: two of them are apart when they are along one axis.
        const bars = made.frame.members.filter(({ id }) => !id.startsWith('frame/'))
        const boxes = bars.map(({ id }) => ([0, 1, 2] as const).map((axis) => span(made, id, axis)))
        boxes.forEach((one, at) => {
          for (const two of boxes.slice(at + 1))
            expect(one.some(([a, b], axis) => b <= two[axis]![0] + 1e-6 || a >= two[axis]![1] - 1e-6)).toBe(
              true,
            )
          // Clear of the rails: within the clear inside, both ways.
          expect(one[0]![0]).toBeGreaterThanOrEqual(40 - params.length / 2 - 1e-6)
          expect(one[0]![1]).toBeLessThanOrEqual(params.length / 2 - 40 + 1e-6)
          expect(one[1]![0]).toBeGreaterThanOrEqual(40 - params.width / 2 - 1e-6)
          expect(one[1]![1]).toBeLessThanOrEqual(params.width / 2 - 40 + 1e-6)
        })
        const fields = params.barCount + 1
        expect(bars).toHaveLength(params.barCount + params.infillCount * fields)
        for (const bar of bars) expect(Math.min(...edgesOf(bar).lengths)).toBeGreaterThan(0)
        // Every end of every bar lands on what it names.
        expect(landingsOf(made.frame).filter(({ by }) => !by.startsWith('frame/'))).toHaveLength(
          2 * bars.length,
        )
      }),
      { numRuns: 60 },
    )
  })
})
