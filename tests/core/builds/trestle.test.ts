import { describe, expect, test } from 'vitest'
import { framed, metric, partOf, problems, sizeOf, tube } from './framed.ts'

const bare = { caps: false, levelers: false, legSection: tube(50, 3), barSection: tube(50, 3) }
const cos30 = Math.cos(Math.PI / 6)

describe('crossing legs', () => {
  // At a lean of 30°, a leg of 50 cut level is 50 / cos 30° across: 600 rise · sin 30° = spread · cos 30° − 50.
  const spread = (600 * 0.5 + 50) / cos30
  const params = { ...bare, height: 650, feet: spread, upper: spread, barLength: 500 }

  test('a lean of 30°: the leg that runs through is 600/cos 30° on every edge, its ends parallel', () => {
    const leg = partOf(framed('trestle', params, metric), 'Leg, through')
    expect(leg).toMatchObject({ count: 2, shape: 'ends parallel' })
    for (const edge of leg.edges) expect(edge).toBeCloseTo(600 / cos30, 6)
    for (const angle of leg.angleFromSquare) expect(angle).toBeCloseTo(30, 6)
  })

  test('the legs cross at 60°: the halves stop on the other 30° from square, and all four are one part', () => {
    const half = partOf(framed('trestle', params, metric), 'Half leg, lower')
    expect(half.count).toBe(4)
    for (const angle of half.angleFromSquare) expect(angle).toBeCloseTo(30, 6)
    // Half of the whole leg on its axis, less half of the other leg's 50 seen at 60°: 25/cos 30°.
    const axis = half.edges.reduce((sum, edge) => sum + edge, 0) / 4
    expect(axis).toBeCloseTo(300 / cos30 - 25 / cos30, 6)
  })

  test('the stretcher goes between the inner faces of the legs that run through: 1200 − 2 · 50', () => {
    const made = framed('trestle', params, metric)
    expect(partOf(made, 'Stretcher').longPoint).toBeCloseTo(1100, 9)
    expect(made.frame.size.map((each) => +each.toFixed(6))).toEqual([500, 1200, 650])
    expect(sizeOf(made, 'overall height').exact).toBeCloseTo(650, 9)
    expect(framed('trestle', { ...params, pairs: '1' }, metric).frame.members).toHaveLength(4)
  })

  test('caps of 10 under the feet: the feet stay as far apart, measured where the legs end on their caps', () => {
    const made = framed('trestle', { ...params, caps: true, capThickness: 10 }, metric)
    const caps = made.frame.plates.map((plate) => plate.pose[12]!)
    // A cap is as long as the level end, 50 / cos of the lean, which is a little more than 30° now.
    const edge = Math.max(
      ...made.frame.plates[0]!.polygon.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y))),
    )
    expect(Math.max(...caps) + edge).toBeCloseTo(spread / 2, 6)
  })
})

describe('leaning legs', () => {
  const params = { ...bare, style: 'A legs', height: 450, feet: 500, upper: 300, barLength: 320 }

  test('feet 500, upper ends 300, 400 higher: each leans atan(100/400) = 14.036°', () => {
    const made = framed('trestle', params, metric)
    const leg = partOf(made, 'Leg')
    expect(leg.count).toBe(4)
    for (const angle of leg.angleFromSquare) expect(angle).toBeCloseTo((Math.atan(0.25) * 180) / Math.PI, 9)
    for (const edge of leg.edges) expect(edge).toBeCloseTo(Math.hypot(400, 100), 6)
  })

  test('a tie at 250 of 30 tube: outside to outside there 500 − 2 · 250/4, less a leg on each side at its own slant', () => {
    const tie = partOf(framed('trestle', { ...params, tieSection: tube(30, 2) }, metric), 'Tie')
    const inside = (z: number) => 500 - z / 2 - 2 * 50 * Math.sqrt(1 + 0.25 ** 2)
    expect(tie.longPoint).toBeCloseTo(inside(220), 6)
    expect(tie.shortPoint).toBeCloseTo(inside(250), 6)
  })
})

describe('legs that cannot be', () => {
  test.each([
    [{ height: 60 }, 'build.params.height', /60 mm leaves no legs; it must be more than 65 mm/],
    [{ feet: 50 }, 'build.params.feet', /50 mm outside to outside is too little for legs 50 mm wide/],
    [{ feet: 1000, upper: 900 }, 'build.params.feet', /would lean 5\d\.\d° from upright; at most 45°/],
    [
      { barLength: 500 },
      'build.params.barLength',
      /500 mm long does not cover the upper ends of the legs, 560 mm/,
    ],
    [
      { style: 'A legs', feet: 300, upper: 400 },
      'build.params.feet',
      /300 mm stand closer than the upper ends, 400 mm/,
    ],
    [{ style: 'A legs', upper: 90 }, 'build.params.upper', /run into each other at the top/],
    [{ style: 'A legs', tie: 'no' }, 'build.params.stretcher', /goes from tie to tie/],
    [{ length: 90 }, 'build.params.length', /90 mm over both pairs .* more than 160 mm/],
  ])('%j', (given, field, text) => {
    const [problem] = problems('trestle', given as Parameters<typeof problems>[1], metric)
    expect(problem?.field).toBe(field)
    expect(problem?.text).toMatch(text)
  })
})
