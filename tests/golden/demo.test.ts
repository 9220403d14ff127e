import { beforeAll, describe, expect, test } from 'vitest'
import type { TubePlan } from '../../src/cli/tube-plan.ts'
import { demoNames, demoText, planOf } from '../cli/shelf.ts'

// What the three sample jobs come to. Every figure is worked out beside it; arrangements are left free.
// Regular polygon of n sides, side s, tube of width w in the plane: miter 180/n, s = 2 r tan(180/n), short point
// s − 2 w tan(180/n): reference tables 1.1 and 1.2, after Machinery's Handbook, 31st ed. (2020), p. 82.

const inch = 25.4
const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)

/** With nest and run, as all three have. */
type Whole = Required<TubePlan>

const plans: Record<string, Whole> = {}
beforeAll(async () => {
  for (const name of demoNames) {
    const said = await planOf(demoText(name), '--json')
    if (said.code !== 0) throw new Error(`${name}: ${said.err}`)
    plans[name] = JSON.parse(said.out) as Whole
  }
})

const partOf = (plan: Whole, member: string) => plan.parts.find((part) => part.members.includes(member))!

/** Every different head angle and stop, as `30.0 352.4`, greatest angle and stop first. */
const settings = (plan: Whole, section?: number) =>
  [
    ...new Set<string>(
      plan.run.setUps
        .filter((setUp) => section === undefined || setUp.section.width === section)
        .map((setUp) => `${Math.abs(setUp.swing).toFixed(1)} ${setUp.stop.toFixed(3)}`),
    ),
  ].sort()

const piecesOn = (nest: { readonly sticks: readonly { readonly pieces: readonly unknown[] }[] }) =>
  nest.sticks.flatMap((stick) => stick.pieces).length

describe('hexagon, 24 in across flats, 2 in tube, plate set in 1/4 in', () => {
  test('six sides of 13.8564 in long, 11.5470 in short, miter 30°, opposed, shown 13 7/8 scant', () => {
    const side = partOf(plans['hexagon-top']!, 'top/side-1')
    expect(side).toMatchObject({ mark: 'A', count: 6, shape: 'ends opposed' })
    for (const angle of side.angleFromSquare) expect(angle).toBeCloseTo(30, 9)
    expect(side.longPoint / inch).toBeCloseTo(13.8564, 4)
    expect(side.shortPoint / inch).toBeCloseTo(11.547, 4)
    expect(side.printed.length).toMatchObject({ text: '13 7/8', lies: 'scant' })
    expect(side.printed.length.mm).toBeCloseTo(13.875 * inch, 9)
  })

  test('a plate of six corners, 23 1/2 in across flats, on the frame of 2 in', () => {
    const plate = plans['hexagon-top']!.frame.plates[0]!
    const ys = plate.polygon.map(([, y]) => y)
    const xs = plate.polygon.map(([x]) => x)
    expect(plate.polygon).toHaveLength(6)
    const spans = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)].sort((a, b) => a - b)
    expect(spans[0]! / inch).toBeCloseTo(23.5, 6)
    expect(spans[1]! / inch).toBeCloseTo(23.5 / Math.cos(Math.PI / 6), 6)
    expect(plate.pose[14]! / inch).toBeCloseTo(2, 9)
    expect(plate.thickness / inch).toBeCloseTo(0.25, 9)
  })

  test('one 240 in stick for $62.00, the cheaper of the two that hold it, proved least', () => {
    const nest = plans['hexagon-top']!.nests[0]!
    expect(plans['hexagon-top']!.nests).toHaveLength(1)
    expect(nest).toMatchObject({ cost: 6200, bound: 6200, proved: true })
    expect(nest.sticks).toHaveLength(1)
    expect(nest.sticks[0]).toMatchObject({ from: 'buy', length: 6096 })
    expect(piecesOn(nest)).toBe(6)
    // 240 in less 1/2 in clean-up, six blanks of 14 in (13 7/8 and 1/8 for the miters) and six kerfs of 3/32 in.
    expect(nest.sticks[0]!.drop / inch).toBeCloseTo(240 - 0.5 - 6 * 14 - (6 * 3) / 32, 3)
  })

  test('three settings: square at 14, then 30° at 13 15/16 for the first end and 13 7/8 for the second', () => {
    expect(settings(plans['hexagon-top']!)).toEqual([
      `0.0 ${(14 * inch).toFixed(3)}`,
      `30.0 ${(13.875 * inch).toFixed(3)}`,
      `30.0 ${(13.9375 * inch).toFixed(3)}`,
    ])
    expect(plans['hexagon-top']!.run.setUps).toHaveLength(3)
    expect(plans['hexagon-top']!.run.setUps.map((setUp) => setUp.pieces.length)).toEqual([6, 6, 6])
  })
})

describe('ten-sided pedestal, 900 across flats, 740 high, three of it', () => {
  test('ten sides of 2 · 450 · tan 18° = 292.428, short 266.434, miter 18°', () => {
    const side = partOf(plans['ten-sided-pedestal']!, 'top/side-1')
    expect(side).toMatchObject({ count: 10, shape: 'ends opposed' })
    expect(side.longPoint).toBeCloseTo(900 * tan(18), 6)
    expect(side.shortPoint).toBeCloseTo(820 * tan(18), 6)
    expect(side.angleFromSquare[0]).toBeCloseTo(18, 9)
    expect(side.printed.length).toMatchObject({ mm: 292, text: '292', lies: 'strong' })
  })

  test('the stack adds up: sheet 3, frame 40, bar 40, post 582, arm underside 75 off the floor, 740 in all', () => {
    const plan = plans['ten-sided-pedestal']!
    // Foot 100 over all from the arm's top to the cap's underside, leveler set to 15: arm underside 15 + 100 − 40 = 75.
    expect(partOf(plan, 'base/post')).toMatchObject({ count: 1, shape: 'square' })
    expect(partOf(plan, 'base/post').longPoint).toBeCloseTo(740 - 3 - 40 - 40 - 75, 6)
    expect(plan.frame.size[2]).toBeCloseTo(740, 6)
    // The cap takes its 10 mm from the foot's tube; the arm reaches from the post's face, (640 − 60) / 2.
    expect(partOf(plan, 'base/foot-1').longPoint).toBeCloseTo(90, 6)
    expect(partOf(plan, 'base/foot-1').shortPoint).toBeCloseTo(50, 6)
    expect(partOf(plan, 'base/arm-1').longPoint).toBeCloseTo(290, 6)
    expect(partOf(plan, 'base/arm-1').shape).toBe('one end mitered')
  })

  test('landings: the bar of 80 across a side of 292.428, from its end 106.214 to 186.214', () => {
    const landing = plans['ten-sided-pedestal']!.landings.find(
      (each) => each.by === 'base/bar-1' && each.on.startsWith('top/'),
    )!
    expect(landing.near).toBeCloseTo((900 * tan(18) - 80) / 2, 6)
    expect(landing.far).toBeCloseTo((900 * tan(18) + 80) / 2, 6)
  })

  test('buys 3 × 6000 of 40 square, 1 × 6000 of 80 × 40 and 1 × 3000 of 60 square, each proved least', () => {
    const { nests } = plans['ten-sided-pedestal']!
    const told = (width: number) => nests.find((nest) => nest.section.width === width)!
    // 30 × 292 + 12 × 290 + 12 × 90 = 13320 and kerfs of 1.2; a 6000 stick gives at most 6000 − 10 − 51.2 = 5938.8:
    // two are too short, and three hold it. 3 × 900 + 6 × 420 = 5220 fit on one; 3 × 582 = 1746 on a 3000.
    expect(told(40)).toMatchObject({ cost: 18000, bound: 18000, proved: true })
    expect(told(80)).toMatchObject({ cost: 6000, bound: 6000, proved: true })
    expect(told(60)).toMatchObject({ cost: 3000, bound: 3000, proved: true })
    expect([40, 80, 60].map((width) => told(width).sticks.length)).toEqual([3, 1, 1])
    expect([40, 80, 60].map((width) => piecesOn(told(width)))).toEqual([54, 9, 3])
  })

  test('settings: three square stops and three miters for 40 square, and the saw reads 72° for 18° from square', () => {
    const plan = plans['ten-sided-pedestal']!
    expect(settings(plan, 40)).toEqual([
      '0.0 290.000',
      '0.0 292.000',
      '0.0 90.000',
      '18.0 292.000',
      '45.0 290.000',
      '45.0 90.000',
    ])
    expect(settings(plan, 80)).toEqual(['0.0 420.000', '0.0 900.000'])
    expect(settings(plan, 60)).toEqual(['0.0 582.000'])
    const miters = plan.run.setUps.filter((setUp) => Math.abs(Math.abs(setUp.swing) - 18) < 1e-9)
    expect(new Set(miters.map((setUp) => setUp.printed.miter.text))).toEqual(new Set(['72°']))
    expect(plan.run.programs.every((program) => program.stopSide === 'right')).toBe(true)
  })

  test('30 sides, 12 arms, 12 feet, 3 posts, 3 bars and 6 half bars leave the saw', () => {
    const counts: Record<string, number> = {}
    const { parts, run } = plans['ten-sided-pedestal']!
    for (const { kind, mark } of run.products) if (kind === 'piece') counts[mark!] = (counts[mark!] ?? 0) + 1
    const wanted = Object.fromEntries(parts.map((part) => [part.mark, part.count * 3]))
    expect(counts).toEqual(wanted)
    expect(Object.values(counts).reduce((a, b) => a + b)).toBe(66)
  })
})

describe('five-sided frame of 60 × 40 tube on edge, side 500, two of it', () => {
  test('five sides of 500 long, 441.877 short, miter 36°, in a circle of 850.65 through the corners', () => {
    const plan = plans['five-sided-frame']!
    const side = partOf(plan, 'top/side-1')
    expect(side).toMatchObject({ count: 5, shape: 'ends opposed' })
    expect(side.longPoint).toBeCloseTo(500, 6)
    expect(side.shortPoint).toBeCloseTo(500 - 80 * tan(36), 6)
    expect(side.angleFromSquare[1]).toBeCloseTo(36, 9)
    // Corner circle 2R = S / sin 36°; table 1.1: R/S 0.8507.
    const corner = Math.max(...plan.frame.joints.map((joint) => Math.hypot(joint.at[0], joint.at[1])))
    expect(corner).toBeLessThan(0.8507 * 500)
    expect(plan.frame.size[2]).toBeCloseTo(60, 6)
  })

  test('one 6000 stick, proved least, 965 left', () => {
    const nest = plans['five-sided-frame']!.nests[0]!
    expect(nest).toMatchObject({ cost: 6000, bound: 6000, proved: true })
    expect(nest.sticks).toHaveLength(1)
    // 6000 − 10 clean-up − 10 blanks of 500 − 10 kerfs of 2.5.
    expect(nest.sticks[0]!.drop).toBeCloseTo(965, 3)
  })

  test('two settings: without an allowance both ends share one, twenty cuts at 36° and 500', () => {
    const { setUps } = plans['five-sided-frame']!.run
    expect(settings(plans['five-sided-frame']!)).toEqual(['0.0 500.000', '36.0 500.000'])
    expect(setUps.map((setUp) => setUp.pieces.length)).toEqual([10, 20])
  })

  test('weighs 5 · 2.00 kg: 4.25 kg/m (EN 10219-2) times the mean of long and short', () => {
    const side = partOf(plans['five-sided-frame']!, 'top/side-1')
    expect(side.mass).toBeCloseTo((4.25 * (500 + 441.877)) / 2 / 1000, 2)
    expect(plans['five-sided-frame']!.frame.mass).toBeCloseTo(5 * side.mass, 9)
  })
})
