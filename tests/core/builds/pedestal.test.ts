import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import { endOn, landingsOf, landingWarnings } from '../../../src/core/frame/landing.ts'
import { edgesOf } from '../../../src/core/frame/member.ts'
import { plan } from '../../../src/core/plan.ts'
import { framed, inches, metric, onBars, partOf, problems, sizeOf, tube } from './framed.ts'

const in1 = 25.4

describe('a pedestal table', () => {
  test('a foot 4 in high overall on a 1 in arm leaves 3 in clear under the arm (common practice)', () => {
    const made = framed(
      'pedestal',
      { armSection: tube('1', '16 ga'), footHeight: '4', levelers: false },
      inches,
    )
    expect(sizeOf(made, 'clear under the arms').exact / in1).toBeCloseTo(3, 9)
  })

  test('a 1/4 in cap makes the foot tube 1/4 shorter and leaves the overall height (common practice)', () => {
    const at = (caps: boolean) =>
      framed('pedestal', { caps, capThickness: '1/4', levelers: false, footHeight: '4' }, inches)
    const foot = (caps: boolean) => partOf(at(caps), 'Foot').longPoint / in1
    expect(foot(false)).toBeCloseTo(4, 9)
    expect(foot(true)).toBeCloseTo(3.75, 9)
    expect(at(true).frame.size[2]).toBeCloseTo(at(false).frame.size[2], 9)
    expect(at(true).frame.size[2] / in1).toBeCloseTo(30, 9)
  })

  test('the post is solved: 740 − 5 plate − 40 frame − 40 bars − 65 = 590 mm, on levelers at 15', () => {
    const made = framed(
      'pedestal',
      { ...onBars, sides: 10, top: 'plate', topThickness: 5, footHeight: 100 },
      metric,
    )
    // Foot 100 over all on a leveler at 15, arm 50: underside of the arms, and of the post, at 65.
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(590, 9)
    expect(made.frame.size[2]).toBeCloseTo(740, 9)
    expect(made.frame.floor).toBe(0)
  })

  test('crossing arms carry the post on top: it is 50 shorter, one arm runs through with ends opposed', () => {
    const made = framed(
      'pedestal',
      { ...onBars, sides: 10, top: 'plate', topThickness: 5, armsMeet: 'crossing', footHeight: 100 },
      metric,
    )
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(540, 9)
    expect(partOf(made, 'Arm, through')).toMatchObject({ count: 1, shape: 'ends opposed' })
    expect(partOf(made, 'Arm, through').longPoint).toBeCloseTo(600, 9)
    expect(partOf(made, 'Half arm').count).toBe(2)
  })

  test('the clear gap can be given instead: 70 clear on a leveler at 15 under a 50 arm is a foot of 105', () => {
    const made = framed('pedestal', { footGives: 'clear under arm', clearUnder: 70 }, metric)
    expect(sizeOf(made, 'foot, overall').exact).toBeCloseTo(105, 9)
    expect(sizeOf(made, 'clear under the arms').exact).toBeCloseTo(70, 9)
  })

  test('arm and foot meet in a 45° miter, on all four arms one part', () => {
    const made = framed('pedestal', { footHeight: 100 }, metric)
    const arm = partOf(made, 'Arm')
    expect([arm.count, arm.shape]).toEqual([4, 'one end mitered'])
    expect(Math.max(...arm.angleFromSquare)).toBeCloseTo(45, 9)
    // 300 from the middle, less half the 80 post: 260 long point.
    expect(arm.longPoint).toBeCloseTo(260, 9)
    expect(partOf(made, 'Foot').longPoint).toBeCloseTo(90, 9)
  })

  test('bars end inside the ring: 600 across flats of ten sides, square ends of a 40 bar toward a corner at 288.94', () => {
    const made = framed('pedestal', { ...onBars, sides: 10, size: 600 }, metric)
    expect(partOf(made, 'Cross bar').longPoint).toBeCloseTo(600, 6)
    // (300 − 20 sin 18°) / cos 18° − 20: from the side of the through bar to where both corners touch a side.
    const reach = (300 - 20 * Math.sin(Math.PI / 10)) / Math.cos(Math.PI / 10) - 20
    expect(partOf(made, 'Half bar').longPoint).toBeCloseTo(reach, 6)
  })

  test('landings: half bars on the middle of the through bar, arms at the post’s foot, from the A end', () => {
    const made = framed('pedestal', { ...onBars, sides: 10, size: 600 }, metric)
    const landings = landingsOf(made.frame)
    const on = (by: string, member: string) =>
      landings.find((landing) => landing.by === by && landing.on === member)
    expect(on('base/bar-2', 'base/bar-1')).toMatchObject({
      from: 'A',
      near: expect.closeTo(280, 6),
      far: expect.closeTo(320, 6),
    })
    expect(on('base/arm-1', 'base/post')).toMatchObject({
      near: expect.closeTo(0, 6),
      far: expect.closeTo(50, 6),
    })
    expect(on('base/bar-1', 'top/side-1')).toMatchObject({
      near: expect.closeTo(77.476, 3),
      far: expect.closeTo(117.476, 3),
    })
    expect(landings.filter(({ on: member }) => member.startsWith('top/'))).toHaveLength(6)
  })

  test('equal widths make a flare seam: said where 40 lands on a 40 face with R 6, not where 20 does', () => {
    const codes = (barSection: ReturnType<typeof tube>, armSection: ReturnType<typeof tube>) =>
      landingWarnings(
        framed('pedestal', { ...onBars, barSection, armSection, postSection: tube(40, 3) }, metric).frame,
        String,
      ).map(({ code }) => code)
    expect(codes(tube(40, 3), tube(40, 3))).toContain('landing-wider-than-flat')
    expect(codes(tube(60, 3), tube(25, 2))).not.toContain('landing-past-the-face')
  })

  test('the built height counts the rounded post and the rounded foot', () => {
    const made = framed('pedestal', { height: 740.4 }, metric)
    const post = partOf(made, 'Post').printed.length.mm - partOf(made, 'Post').longPoint
    const foot = partOf(made, 'Foot').printed.length.mm - partOf(made, 'Foot').longPoint
    expect(sizeOf(made, 'overall height').built).toBeCloseTo(740.4 + post + foot, 9)
  })
})

const round = (width: number) => ({ kind: 'round-tube', width, wall: 3 }) as const
const member = (made: ReturnType<typeof framed>, id: string) =>
  made.frame.members.find((each) => each.id === id)!
const heading = (made: ReturnType<typeof framed>, id: string) => {
  const { pose } = member(made, id)
  return (Math.atan2(pose[1]!, pose[0]!) * 180) / Math.PI
}

test('a round post under crossing bars hangs past where they cross, unless they are 1/√2 as wide: 76.1 on 50.8 and on 54', () => {
  // Two bars of width w leave the corners beyond w/√2 from the middle open: 35.9 of 50.8, 38.2 of 54; the post reaches 38.05.
  const warned = (width: number) => {
    const params = { ...onBars, postSection: round(76.1), barSection: tube(width, 3), base: 'base plate' }
    const { frame } = framed('pedestal', params, metric)
    return landingWarnings(frame, String).some(({ members }) => members?.includes('base/post'))
  }
  expect([warned(50.8), warned(54)]).toEqual([true, false])
})

describe('arms of any number', () => {
  test('a job that was stored before there were these choices is the same frame as one that holds them', () => {
    const now = startParams(buildOf('pedestal')!, 'mm')
    const late = buildOf('pedestal')!
      .params.filter((spec) => spec.late)
      .map(({ name }) => name)
    expect(late).toContain('base')
    const before = Object.fromEntries(Object.entries(now).filter(([name]) => !late.includes(name)))
    const read = (params: typeof now) => {
      const made = plan(
        { id: 'j', name: 'j', units: 'mm', quantity: 1, build: { kind: 'pedestal', params } },
        metric,
      )
      if (!made.ok) throw new Error(made.problems[0]!.text)
      return made.value.frame
    }
    expect(read(before)).toEqual(read(now))
  })

  test.each(['3', '5', '6'])(
    '%s round arms of 33.7 on a round post of 114.3: saddles, 360°/n apart, all one part',
    (arms) => {
      const made = framed(
        'pedestal',
        { ...onBars, arms, postSection: round(114.3), armSection: round(33.7) },
        metric,
      )
      const n = Number(arms)
      expect(made.frame.joints.filter(({ kind }) => kind === 'saddle')).toHaveLength(n)
      expect(partOf(made, 'Arm').count).toBe(n)
      for (let k = 0; k < n; k++)
        expect((heading(made, `base/arm-${k + 1}`) + 360) % 360).toBeCloseTo((360 * k) / n, 9)
      // Crown of the saddle on the axis: 57.15 from the middle; flanks at sqrt(57.15² − 16.85²) = 54.61, the long point.
      expect(partOf(made, 'Arm').longPoint).toBeCloseTo(300 - Math.sqrt(57.15 ** 2 - 16.85 ** 2), 3)
    },
  )

  test('three arms on a square post: two are cut 30° from square where they meet its sides', () => {
    const made = framed('pedestal', { arms: '3', armSection: tube(25, 2), postSection: tube(80, 3) }, metric)
    const [first, second] = ['base/arm-1', 'base/arm-2'].map((id) => member(made, id).ends[0].normal)
    expect(Math.abs(first![0])).toBeCloseTo(1, 9)
    expect(Math.abs(second![0])).toBeCloseTo(Math.cos(Math.PI / 6), 9)
    // The axis leaves the face at 40 tan 30° from its middle: the footprint, 25/cos 30° wide, ends at 37.53.
    const foot = endOn(member(made, 'base/arm-2'), 'A', member(made, 'base/post'))!
    const across = foot.whole.map(([, v]) => Math.abs(v))
    expect(Math.max(...across)).toBeCloseTo(40 * Math.tan(Math.PI / 6) + 12.5 / Math.cos(Math.PI / 6), 6)
  })

  test('under a hub plate: arms begin where neighbors touch, w/2/tan(180°/n), the post stands on the plate', () => {
    const made = framed('pedestal', { ...onBars, arms: '5', armsMeet: 'hub plate', footHeight: 100 }, metric)
    const inner = 25 / Math.tan(Math.PI / 5)
    expect(partOf(made, 'Arm').count).toBe(5)
    expect(partOf(made, 'Arm').longPoint).toBeCloseTo(300 - inner, 6)
    // 740 − 40 frame − 40 bars − 15 leveler − 100 foot with arm − 10 plate.
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(535, 6)
    expect(made.frame.plates.find(({ id }) => id === 'base/hub')!.pose[14]).toBeCloseTo(115, 9)
  })

  test('arms to the corners of the top: of a hexagon the first points 60° right of the front; the post turns with it', () => {
    const made = framed('pedestal', { arms: '3', armsPoint: 'to a corner', armSection: tube(25, 2) }, metric)
    expect(heading(made, 'base/arm-1')).toBeCloseTo(-60, 9)
    const flats = framed('pedestal', { arms: '3', armsPoint: 'to a side', armSection: tube(25, 2) }, metric)
    expect(heading(flats, 'base/arm-1')).toBeCloseTo(-90, 9)
    // Square to the first face of the post in both.
    for (const each of [made, flats])
      expect(Math.abs(member(each, 'base/arm-1').ends[0].normal[0])).toBeCloseTo(1, 9)
    const along = framed(
      'pedestal',
      { arms: '2', armsPoint: 'at an angle', armsAngle: 20, postFaces: 'with the top' },
      metric,
    )
    expect(Math.abs(member(along, 'base/arm-1').ends[0].normal[0])).toBeCloseTo(Math.cos(Math.PI / 9), 9)
  })

  test('a base plate instead: 740 − 40 − 40 − 10 plate − 15 leveler is a post of 635; four tapped holes at the corners', () => {
    const made = framed('pedestal', { ...onBars, base: 'base plate' }, metric)
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(635, 9)
    expect(made.frame.size[2]).toBeCloseTo(740, 9)
    const plate = made.frame.plates.find(({ id }) => id === 'base/plate')!
    for (const [x, y, drill] of plate.holes) {
      expect(Math.abs(x)).toBeCloseTo(200, 6)
      expect(Math.abs(y)).toBeCloseTo(200, 6)
      // M10: 8.5 tap drill, shared/reference/tap_drills.json.
      expect(drill).toBeCloseTo(8.5, 9)
    }
    expect(made.frame.hardware).toHaveLength(4)
    expect(made.parts.some(({ name }) => name === 'Arm')).toBe(false)
  })

  test('six 50 arms on a 100 post reach past its corner, and are told what fits: 36.6 mm of arm, or 136.6 of post', () => {
    const said = (post: number, arm: number) =>
      framed('pedestal', { arms: '6', postSection: tube(post, 3), armSection: tube(arm, 3) }, metric)
        .frame.warnings.filter(({ code }) => code === 'arm-past-the-corner')
        .map(({ text }) => text)
    // From the drawing: at 30° from square the arm takes w / cos 30° of the face, W/2 tan 30° beside its middle.
    expect(said(100, 50)).toEqual([expect.stringMatching(/about 37 mm of arm .* a post of about 137 mm/)])
    expect(said(137, 50)).toEqual([])
    expect(said(136, 50)).toHaveLength(1)
    expect(said(100, 36)).toEqual([])
  })

  test('a spider: the post runs through to the upper face of its bars, which end under the corners', () => {
    const made = framed(
      'pedestal',
      { bars: 'spider', spiderBars: 3, spiderPoint: 'to a corner', barSection: tube(25, 2) },
      metric,
    )
    // 740 − 40 frame − 65: forty more than under a bar.
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(740 - 40 - (15 + 125 - 50), 6)
    expect([1, 2, 3].map((k) => heading(made, `base/bar-${k}`))).toEqual(
      [-60, 60, 180].map((at) => expect.closeTo(at, 9)),
    )
    // Toward a corner of a hexagon a bar 25 wide reaches (300 − 12.5 sin 30°)/cos 30°.
    const { pose, ends } = member(made, 'base/bar-1')
    expect(Math.hypot(pose[12]!, pose[13]!) + ends[1].point[0]).toBeCloseTo(
      (300 - 6.25) / Math.cos(Math.PI / 6),
      6,
    )
  })
})

describe('arms that cannot be', () => {
  test.each([
    [{ arms: '6', armSection: tube(50, 3) }, /run into each other beside the post: six arms/],
    [{ arms: '6', postSection: round(60.3), armSection: round(48.3) }, /run into each other beside the post/],
    [{ arms: '3', armsMeet: 'crossing' }, /Three arms cannot cross/],
    [{ ...onBars, postSection: round(60.3) }, /Give arms of round tube/],
    [{ armsMeet: 'hub plate', hubSize: 100 }, /100 mm across does not cover .* more than 113 mm/],
    [{ base: 'base plate', baseSize: 100 }, /100 mm across does not carry .* more than 113 mm/],
    [
      { postSection: round(60.3), armSection: round(33.7), bars: 'spider' },
      /Give a square post, or cross bars/,
    ],
  ])('%j', (params, text) => {
    const [problem] = problems('pedestal', params as Parameters<typeof problems>[1], metric)
    expect(problem?.text).toMatch(text)
  })
})

describe('bad input says what was given and what is possible', () => {
  test.each([
    [
      { height: 195, footHeight: 100 },
      'build.params.height',
      /195 mm is less .* more than 195 mm: top and frame 40 mm, bars 40 mm/,
    ],
    [{ levelerSetting: 30 }, 'build.params.levelerSetting', /30 mm; it can stand between 10 mm and 25 mm/],
    [{ footHeight: 60 }, 'build.params.footHeight', /60 mm leaves no foot .* more than 60 mm/],
    [{ spread: 150 }, 'build.params.spread', /150 mm .* more than 180 mm/],
    [{ postSection: { kind: 'round-tube', width: 60, wall: 3 } }, 'build.params.postSection', /round tube/],
    [
      { postSection: tube(40, 3), armSection: tube(50, 3) },
      'build.params.armSection',
      /Four arms 50 mm wide run into each other .* post 40 mm × 40 mm; .* at most 40 mm wide/,
    ],
    [{ barSetBack: -5 }, 'build.params.barSetBack', /−5 mm; it must be 0 mm or more/],
  ])('%j', (params, field, text) => {
    const [problem] = problems('pedestal', params as Parameters<typeof problems>[1], metric)
    expect(problem?.field).toBe(field)
    expect(problem?.text).toMatch(text)
  })

  test('warnings: 3/8-16 in a 1/4 cap holds 4 threads, less than one diameter; a stud longer than its room', () => {
    const made = framed('pedestal', { capThickness: '1/4', levelerStud: '4' }, inches)
    const codes = made.frame.warnings.map(({ code }) => code)
    expect(codes).toEqual(['short-thread', 'stud-too-long'])
    expect(made.frame.warnings[0]?.text).toMatch(/3\/8-16 in a cap of 1\/4 in has 4\.0 threads/)
  })

  test('arms 50 wide on a post of 40: refused for four, said for two; 40 on 40 is fine for both', () => {
    const codes = (arms: string, width: number) =>
      framed(
        'pedestal',
        { arms, postSection: tube(40, 3), armSection: tube(width, 3) },
        metric,
      ).frame.warnings.map(({ code }) => code)
    expect(codes('2', 50)).toContain('arm-wider-than-post')
    expect(codes('2', 40)).not.toContain('arm-wider-than-post')
    expect(codes('4', 40)).not.toContain('arm-wider-than-post')
  })

  test('every foot tube has steel on its short side', () => {
    const made = framed('pedestal', {}, metric)
    for (const member of made.frame.members) expect(Math.min(...edgesOf(member).lengths)).toBeGreaterThan(0)
  })
})
