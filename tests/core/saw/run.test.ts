import { describe, expect, test } from 'vitest'
import type { Run, Step } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import { barOf, edgesOf, extentOf, replay, sameBar } from './replay.ts'
import { leftTexts, nest, nestSection, part, saw, shop, tube } from './sample.ts'

// Hexagon 700 across flats in 40 tube: side 700·tan 30° = 404.145, printed 404 at a reading of 1 mm (formula).
const hexagon = part({ length: 700 * Math.tan(Math.PI / 6), ends: [30, 30] })
/** The same with a long point of 404 to the last digit, so that printed and exact stops agree. */
const whole = part({ length: 404, ends: [30, 30] })
const six = [['A', 'A', 'A', 'A', 'A', 'A']]

function runOf(...given: Parameters<typeof planRun>): Run {
  const run = planRun(...given)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join('\n'))
  return run.value
}
const textsOf = (...given: Parameters<typeof planRun>): string[] => {
  const run = planRun(...given)
  return run.ok ? [...new Set(leftTexts(run.value))] : run.problems.map(({ text }) => text)
}
const programOf = (run: Run, load: string): readonly Step[] =>
  run.programs.find((program) => program.load === load)!.steps

describe('a hexagon of 404 mm in 40 tube', () => {
  test('long side at the fence: miter 30°, both stops 404, one set-up for both ends', () => {
    const run = runOf(nest([nestSection([hexagon], { sticks: six })]), [hexagon], shop())
    const unrounded = expect.closeTo(404.1452, 4)
    expect(run.setUps.map(({ id, swing, stop, exact }) => [id, swing, stop, exact])).toEqual([
      ['A/blank/1', 0, 404, unrounded],
      ['A/both/1', -30, 404, unrounded],
    ])
    expect(run.setUps[1]!.printed).toMatchObject({
      stop: { text: '404', unit: 'mm' },
      miter: { text: '30°' },
      lean: 'the end of the blade away from the fence leans toward the stop',
      longSide: 'long side against the fence',
      turn: 'either end to the stop; cut one end; turn the piece over, end for end: the same edge stays against the fence, the top goes down; cut the other end',
    })
    // A6 is in hand when its blank is cut.
    expect(run.setUps[1]!.pieces.slice(0, 4)).toEqual(['A6.m', 'A6', 'A1.m', 'A1'])
    expect(programOf(run, 'A1.m')).toEqual([
      { head: [-30, 0] },
      { turn: 'flip' },
      { stop: 404, exact: unrounded },
      { cut: { keep: 'A1', rest: 'scrap' }, setUp: 'A/both/1' },
    ])
    expect(programOf(run, 'S1').slice(0, 4)).toEqual([
      { head: [0, 0] },
      { trim: 10 },
      { stop: 404, exact: unrounded },
      { cut: { keep: 'A1.b', rest: 'on' }, setUp: 'A/blank/1' },
    ])
    expect(programOf(run, 'S1').at(-1)).toEqual({ unload: 'S1.1' })
  })

  test('outward: 404 − 40·tan 30° = 380.906, shown 381, the part is then 404.09; the exact stop is 0.145 beyond', () => {
    const set = shop({ longSide: 'outward' })
    const sticks = nest([nestSection([hexagon], { sticks: six })])
    const run = runOf(sticks, [hexagon], set)
    const miter = run.setUps[1]!
    expect(miter.swing).toBe(30)
    // 404.1452 is printed as 404: from there 380.906; the stop that gives the part unrounded is 381.051.
    expect(miter.exact).toBeCloseTo(380.906 + 0.1452, 3)
    expect(miter.stop).toBe(381)
    // One number to set: nothing says strong or scant at the saw.
    expect(miter.printed.stop).toEqual({ mm: 381, text: '381', unit: 'mm' })
    expect(miter.printed.longSide).toBe('long side away from the fence, toward you')
    expect(miter.printed.lean).toBe('the end of the blade away from the fence leans away from the stop')
    const printed = replay(run, sticks, 'printed').made.get('A1')!
    expect(extentOf(printed)).toBeCloseTo(404.094, 3)
    const exact = replay(run, sticks, 'exact').made.get('A1')!
    expect(edgesOf(exact)[0]).toBeCloseTo(700 * Math.tan(Math.PI / 6), 9)
  })

  test('a saw that reads 90 at square shows 60', () => {
    const run = runOf(
      nest([nestSection([hexagon], { sticks: six })]),
      [hexagon],
      shop({}, { readsAtSquare: 90 }),
    )
    expect(run.setUps.map(({ printed }) => printed.miter.text)).toEqual(['90°', '60°'])
  })

  test('a saw that reads 90 at square shows 67½ for an octagon’s 22½, and the rise of the miter itself for 180/7', () => {
    const octagon = part({ length: 300, ends: [22.5, 22.5] })
    const seven = part({ mark: 'B', length: 300, ends: [180 / 7, 180 / 7] })
    const run = runOf(
      nest([nestSection([octagon, seven], { sticks: [['A', 'B']] })]),
      [octagon, seven],
      shop({}, { readsAtSquare: 90 }),
    )
    const shown = Object.fromEntries(run.setUps.map(({ id, printed }) => [id, printed.miter]))
    expect(shown['A/both/1']).toEqual({ deg: 67.5, text: '67½°' })
    // 100·tan(180/7) = 48.16 (formula).
    expect(shown['B/both/1']).toMatchObject({ text: '64.3°', rise: '48.16 in 100 mm' })
  })

  test('with an allowance of 1/16 in: blank 405.5875, first end 404.79375, second 404, edges 404 / 357.812', () => {
    // A reading of 1/64 in would hide the exact figures; they stand under `exact` with any reading.
    const allowance = 25.4 / 16
    const sticks = nest([nestSection([whole], { sticks: six, allowance })])
    const run = runOf(sticks, [whole], shop({ blankAllowance: allowance }))
    expect(run.setUps.map(({ id, exact }) => [id, exact])).toEqual([
      ['A/blank/1', 405.5875],
      ['A/first/1', 404.79375],
      ['A/second/1', 404],
    ])
    const bar = replay(run, sticks, 'exact').made.get('A5')!
    expect(edgesOf(bar).map((mm) => +mm.toFixed(3))).toEqual([404, 404, 357.812, 357.812])
  })

  test('outward with the allowance: both stops less 40·tan 30°', () => {
    const allowance = 25.4 / 16
    const sticks = nest([nestSection([whole], { sticks: six, allowance })])
    const run = runOf(sticks, [whole], shop({ blankAllowance: allowance, longSide: 'outward' }))
    const less = 40 * Math.tan(Math.PI / 6)
    expect(run.setUps[1]!.exact).toBeCloseTo(404.79375 - less, 9)
    expect(run.setUps[2]!.exact).toBeCloseTo(404 - less, 9)
  })

  test('measured at 40.5 the outward stop is 404 − 40.5·tan 30°, that at the fence stays 404', () => {
    const measured = [
      { section: tube(40), name: '40', measured: { width: 40.5, height: 40.5 }, stock: [{ length: 6000 }] },
    ]
    const sticks = nest([nestSection([whole], { sticks: six })])
    const outward = runOf(sticks, [whole], shop({ sections: measured, longSide: 'outward' }))
    expect(outward.setUps[1]!.exact).toBeCloseTo(404 - 40.5 * Math.tan(Math.PI / 6), 9)
    const fence = runOf(sticks, [whole], shop({ sections: measured }))
    expect(fence.setUps[1]!.exact).toBeCloseTo(404, 9)
    const real = replay(outward, sticks, 'exact', [40.5, 40.5]).made.get('A1')!
    expect(edgesOf(real)[0]).toBeCloseTo(404, 9)
  })
})

describe('other ends', () => {
  test('parallel ends, 50 tube, 30°, edge 500: stop 500 with the point at the fence, 528.87 outward', () => {
    const slant = part({ section: tube(50), length: 500, ends: [30, -30] })
    const sticks = nest([nestSection([slant], { sticks: [['A', 'A']] })])
    const fence = runOf(sticks, [slant], shop())
    // One stop and one head angle; the half's long side lies outward, and then the piece's point at the fence.
    expect(fence.setUps.slice(1).map(({ id, swing, longSide }) => [id, swing, longSide])).toEqual([
      ['A/first/1', 30, 'outward'],
      ['A/second/1', 30, 'fence'],
    ])
    expect(fence.work).toMatchObject({ heads: 1, stops: 2 })
    expect(fence.setUps[2]!.exact).toBeCloseTo(500, 9)
    expect(fence.setUps[2]!.printed.longSide).toBe('the point that touches the stop lies at the fence')
    expect(programOf(fence, 'A1.m')).toContainEqual({ turn: 'end' })
    const outward = runOf(sticks, [slant], shop({ longSide: 'outward' }))
    expect(outward.setUps[2]!.swing).toBe(-30)
    expect(outward.setUps[2]!.exact).toBeCloseTo(500 + 50 * Math.tan(Math.PI / 6), 9)
  })

  test('one end mitered takes one cut, its stop the long point', () => {
    const rafter = part({ length: 500, ends: [0, 45] })
    const run = runOf(nest([nestSection([rafter], { sticks: [['A']] })]), [rafter], shop())
    expect(run.setUps.map(({ id, swing, stop }) => [id, swing, stop])).toEqual([
      ['A/blank/1', 0, 500],
      ['A/end/1', -45, 500],
    ])
    expect(run.products.map(({ id, kind }) => [id, kind])).toEqual([
      ['A1.b', 'blank'],
      ['S1.1', 'drop'],
      ['A1', 'piece'],
    ])
  })

  test('unequal ends 45° and 30°, twice as two marks: the head is moved twice in all', () => {
    const parts = [part({ length: 500, ends: [45, 30] }), part({ mark: 'B', length: 400, ends: [30, 45] })]
    const run = runOf(nest([nestSection(parts, { sticks: [['A', 'B']] })]), parts, shop())
    expect(run.work.heads).toBe(2)
    expect(run.setUps.map(({ id, swing }) => [id, swing])).toEqual([
      ['A/blank/1', 0],
      ['B/blank/1', 0],
      // Blank B is in hand.
      ['B/first/1', -45],
      ['A/first/1', -45],
      ['A/second/1', -30],
      ['B/second/1', -30],
    ])
  })

  test('a rectangular tube 60 × 40 mitered across the 40: a quarter turn, w = 40', () => {
    const section = tube(60, 40)
    const edgewise = part({ section, length: 500, ends: [30, 30], across: ['height', 'height'] })
    const sticks = nest([nestSection([edgewise], { sticks: [['A']] })])
    const run = runOf(sticks, [edgewise], shop({ longSide: 'outward' }))
    expect(programOf(run, 'A1.b')).toContainEqual({ turn: 'quarter+' })
    expect(programOf(run, 'A1.m')).not.toContainEqual({ turn: 'quarter+' })
    expect(run.setUps[1]).toMatchObject({ faceDown: '-y' })
    expect(run.setUps[1]!.exact).toBeCloseTo(500 - 40 * Math.tan(Math.PI / 6), 9)
    expect(sameBar(replay(run, sticks, 'exact').made.get('A1')!, barOf(edgewise, 60, 40))).toBe(true)
  })

  test('a square piece is finished by pass 1, with its own key', () => {
    const leg = part({ length: 700, ends: [0, 0] })
    const run = runOf(nest([nestSection([leg], { sticks: [['A', 'A']] })]), [leg], shop())
    expect(run.setUps.map(({ id, pieces }) => [id, pieces])).toEqual([['A/square/1', ['A1', 'A2']]])
    expect(run.products[0]).toMatchObject({ id: 'A1', kind: 'piece', key: leg.key, from: 'S1' })
  })
})

describe('what holds the steel', () => {
  const sticks = nest([nestSection([hexagon], { sticks: six })])
  const sides = (viseHolds: 'stick' | 'stop' | 'both', stopSide: 'left' | 'right' = 'left') =>
    runOf(sticks, [hexagon], shop({}, { viseHolds, stopSide })).setUps.map((setUp) => [
      setUp.stopSide,
      setUp.hold,
    ])

  test('a vise on the stick’s side: the stop changes sides for the miters, and the kept piece is held', () => {
    expect(sides('stick')).toEqual([
      ['left', 'stick'],
      ['right', 'stop'],
    ])
    expect(sides('stick', 'right')).toEqual([
      ['right', 'stick'],
      ['left', 'stop'],
    ])
  })

  test('a vise on both sides: the stop stays', () => {
    expect(sides('both')).toEqual([
      ['left', 'stick'],
      ['left', 'stop'],
    ])
  })

  test('a vise on the stop’s side: clean-up and blanks with the stop across, so that the stick is held', () => {
    expect(sides('stop')).toEqual([
      ['right', 'stick'],
      ['left', 'stop'],
    ])
  })

  test('a rest of 59.9 mm is too short to hold: the last blank alone is cut from the other side; 60.0 is not', () => {
    const plan = (left: number) => {
      const leg = part({ length: 400, printed: 400, ends: [0, 0] })
      const length = 10 + 3 * 402.5 + left
      const sticks = nest([nestSection([leg], { sticks: [['A', 'A', 'A']], length })])
      const run = runOf(sticks, [leg], shop({}, { viseHolds: 'stick' }))
      return run.programs.map(({ load, hold, steps }) => [
        load,
        hold,
        steps.flatMap((step) => ('cut' in step ? [step.cut.keep] : [])),
      ])
    }
    expect(plan(60)).toEqual([['S1', 'stick', ['A1', 'A2', 'A3']]])
    expect(plan(59.9)).toEqual([
      ['S1', 'stick', ['A1', 'A2']],
      ['S1.1', 'stop', ['A3']],
    ])
  })

  test('held at 60 mm least, a piece with a short side of 60.0 mm is cut, one of 59.9 is refused with a way out', () => {
    const short = (length: number) => part({ length, printed: length, ends: [45, 45] })
    const plan = (of: ReturnType<typeof short>) =>
      textsOf(nest([nestSection([of], { sticks: [['A']] })]), [of], shop())
    expect(plan(short(140))).toEqual([])
    expect(plan(short(139.9))).toEqual([expect.stringMatching(/^A: .*60 mm.*Ways out/)])
  })
})

describe('what the saw cannot do is said, with a way out', () => {
  test('three-sided frame: 60° past a saw of 45°: a 30° block and the head at 30°, or a butt joint (common practice)', () => {
    const side = part({ length: 800, ends: [60, 60] })
    const [text] = textsOf(nest([nestSection([side], { sticks: [['A']] })]), [side], shop())
    expect(text).toContain('A: a miter of 60° from square')
    expect(text).toContain('45°')
    expect(text).toContain('a 30° wedge block against the fence and the head at 30° the other way')
    expect(text).toContain('butt joint')
  })

  test('the other side of the piece is taken where the head swings too little one way: 30° toward, 50° away', () => {
    const limits = { ...saw.limits, towardStop: 29.9, awayFromStop: 50 }
    const run = runOf(nest([nestSection([hexagon], { sticks: six })]), [hexagon], shop({}, { limits }))
    expect(run.setUps[1]).toMatchObject({ swing: 30, longSide: 'outward' })
    const wide = { ...limits, towardStop: 30 }
    expect(
      runOf(nest([nestSection([hexagon], { sticks: six })]), [hexagon], shop({}, { limits: wide })).setUps[1],
    ).toMatchObject({ swing: -30, longSide: 'fence' })
  })

  test('with the stop moved to the other side, what leaned toward it leans away: the limits change places', () => {
    const limits = { ...saw.limits, towardStop: 29.9, awayFromStop: 50 }
    const run = runOf(
      nest([nestSection([hexagon], { sticks: six })]),
      [hexagon],
      shop({}, { limits, viseHolds: 'stick' }),
    )
    expect(run.setUps[1]).toMatchObject({ swing: -30, stopSide: 'right' })
  })

  test('a stop of 404 on a saw that reaches 403, and not on one that reaches 404', () => {
    const reach = (longestStop: number) =>
      textsOf(
        nest([nestSection([hexagon], { sticks: six })]),
        [hexagon],
        shop({}, { limits: { ...saw.limits, longestStop } }),
      )
    expect(reach(404)).toEqual([])
    expect(new Set(reach(403))).toEqual(
      new Set([expect.stringMatching(/^A: the stop would stand at 404 mm.*403 mm.*measure and mark/)]),
    )
  })

  test('of two compound ends the one that the saw cannot reach is said', () => {
    const bothEnds = {
      ...hexagon,
      slopes: [
        { p: -0.2, q: 0.1 },
        { p: 1.2, q: 0.05 },
      ] as const,
    }
    const sticks = nest([nestSection([hexagon], { sticks: six })])
    const [text] = textsOf(sticks, [bothEnds], shop({}, { cradle: false, ramp: false }))
    // atan 1.2 = 50.2° (formula); the other end asks for 11.3° only.
    expect(text).toContain('A: an end is mitered and beveled at once: miter 50.2° with bevel 1.8°')
  })

  test('a compound end where the saw neither bevels nor may use a cradle or a wedge, and a nest of other parts', () => {
    const compound = { ...hexagon, slopes: [{ p: -0.2, q: 0.1 }, hexagon.slopes[1]] as const }
    const sticks = nest([nestSection([hexagon], { sticks: six })])
    const [text] = textsOf(sticks, [compound], shop({}, { cradle: false, ramp: false }))
    // The end (−0.2, 0.1): atan 0.2, asin(0.1/√1.05), atan √0.05, asin(0.2/√1.05), atan 0.1 (formula).
    expect(text).toContain(
      'A: an end is mitered and beveled at once: miter 11.3° with bevel 5.6°, or miter 12.6° from a cradle, or miter 11.3° on a wedge of 5.7°',
    )
    expect(text).toMatch(/does not bevel, no cradle, no wedge.*Ways out: allow a cradle or a wedge.*butt it/)
    expect(textsOf(sticks, [], shop())[0]).toContain('Plan the sticks again')
  })

  test('a nest whose blanks are too short for the parts', () => {
    const sticks = nest([nestSection([hexagon], { sticks: six })])
    const longer = {
      ...hexagon,
      printed: { ...hexagon.printed, length: { mm: 405, text: '405', unit: 'mm' } },
    } as const
    expect(textsOf(sticks, [longer], shop())).toEqual([expect.stringContaining('A needs a blank of 405 mm')])
  })

  test('rounded stops that would use up the stick: 10 blanks of 100.4 shown as 100 fit, of 100.6 shown as 101 do not', () => {
    const plan = (length: number) => {
      const leg = part({ length, printed: length, ends: [0, 0] })
      const total = 10 * length + 9 * 2.5 + 2
      const marks = Array.from({ length: 10 }, () => 'A')
      const section = nestSection([leg], { sticks: [marks], length: total, trim: 0, grip: 0 })
      return textsOf(nest([section]), [leg], shop({}, { leastToHold: 0 }))
    }
    expect(plan(100.4)).toEqual([])
    expect(plan(100.6)).toEqual([expect.stringMatching(/^S1: .* short/)])
  })
})
