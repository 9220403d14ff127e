import { describe, expect, test } from 'vitest'
import { landingsOf, landingWarnings } from '../../../src/core/frame/landing.ts'
import { edgesOf } from '../../../src/core/frame/member.ts'
import { framed, inches, metric, partOf, problems, sizeOf, tube } from './framed.ts'

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
    const made = framed('pedestal', { sides: 10, top: 'plate', topThickness: 5, footHeight: 100 }, metric)
    // Foot 100 over all on a leveler at 15, arm 50: underside of the arms, and of the post, at 65.
    expect(partOf(made, 'Post').longPoint).toBeCloseTo(590, 9)
    expect(made.frame.size[2]).toBeCloseTo(740, 9)
    expect(made.frame.floor).toBe(0)
  })

  test('crossing arms carry the post on top: it is 50 shorter, one arm runs through with ends opposed', () => {
    const made = framed(
      'pedestal',
      { sides: 10, top: 'plate', topThickness: 5, armsMeet: 'crossing', footHeight: 100 },
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
    const made = framed('pedestal', { sides: 10, size: 600 }, metric)
    expect(partOf(made, 'Cross bar').longPoint).toBeCloseTo(600, 6)
    // (300 − 20 sin 18°) / cos 18° − 20: from the side of the through bar to where both corners touch a side.
    const reach = (300 - 20 * Math.sin(Math.PI / 10)) / Math.cos(Math.PI / 10) - 20
    expect(partOf(made, 'Half bar').longPoint).toBeCloseTo(reach, 6)
  })

  test('landings: half bars on the middle of the through bar, arms at the post’s foot, from the A end', () => {
    const made = framed('pedestal', { sides: 10, size: 600 }, metric)
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
        framed('pedestal', { barSection, armSection, postSection: tube(40, 3) }, metric).frame,
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
