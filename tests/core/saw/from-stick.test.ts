import { describe, expect, test } from 'vitest'
import { checkNest } from '../../../src/core/check/check-nest.ts'
import { checkRun } from '../../../src/core/check/check-run.ts'
import type { Part, Run } from '../../../src/core/plan-shapes.ts'
import { benchCuts } from '../../../src/core/saw/bench.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Saw, Shop } from '../../../src/core/shop.ts'
import { nestByWay } from './by-way.ts'
import { part, saw, shop, tube } from './sample.ts'

const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)
const cos = (deg: number) => Math.cos((deg * Math.PI) / 180)

/** Planned from the stick, and both judges agree. */
function planned(parts: readonly Part[], set: Shop = shop()) {
  const asked = nestByWay(parts, set, 'from the stick')
  if (typeof asked === 'string') throw new Error(asked)
  const { nest, demand } = asked
  expect(checkNest(nest, demand.problems).faults).toEqual([])
  const run = planRun(nest, parts, set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join(' '))
  expect(checkRun(run.value, nest, parts, set).faults).toEqual([])
  return { run: run.value, nest }
}
const six = (count: number): Part => ({ ...part({ length: 404, ends: [30, 30] }), count })
const settings = ({ setUps }: Run) => setUps.map(({ swing, stop, longSide }) => [swing, stop, longSide])

describe('trapezoids of 404 mm in 40 tube, kerf 2.5', () => {
  // Each further piece takes (404 + 357.812)/2 + 2.5/cos 30° = 383.793 of stick; fifteen take 5777.1 (formula; the
  // long and short point by reference table 1.2, after Machinery's Handbook, 31st ed., p. 82).
  const { run, nest } = planned([six(15)])
  const { pieces } = nest.sections[0]!.sticks[0]!

  test('fifteen from one stick, 383.793 from piece to piece, 5777.1 in all', () => {
    expect(nest.sections[0]!.sticks).toHaveLength(1)
    for (const [at, piece] of pieces.slice(1).entries())
      expect(pieces[at]!.ends[0].x - piece.ends[0].x).toBeCloseTo(383.793, 3)
    const wedges = 40 * tan(30)
    expect(pieces[0]!.ends[0].x - pieces[14]!.ends[1].x + wedges).toBeCloseTo(5777.1, 1)
  })

  test('one head angle, one stop at the long point, one set-up; the stick is turned over before each further piece', () => {
    expect(settings(run)).toEqual([[-30, 404, 'fence']])
    expect(run.work).toMatchObject({ heads: 1, stops: 1, loads: 1, cuts: 16 })
    expect(run.setUps[0]!.printed.turn).toContain('before each further piece, roll the piece over')
    const turns = benchCuts(run, nest, []).map((cut) => cut.turns)
    expect(turns.slice(1)).toEqual(Array(14).fill(['over']))
  })

  test('the mill end is cleaned up at the miter, by its 10 mm, kerf included; the bench says how', () => {
    const [first, second] = benchCuts(run, nest, [])
    expect(first).toMatchObject({ trimFirst: 10, loadFirst: true, trim: { miter: { text: '30°' } } })
    expect(second!.trim).toBeUndefined()
    expect(run.trims).toHaveLength(1)
  })
})

test('an octagon of 36 in across flats in 1 1/2 tube: mid-length 14.2904 where the long point is 14.9117', () => {
  // Long point 36·tan 22.5° = 14.9117, less 1.5·tan 22.5° for the mid-length (formula; reference table 1.1).
  const inch = 25.4
  const side = {
    ...part({ section: tube(1.5 * inch), length: 36 * inch * tan(22.5), ends: [22.5, 22.5] }),
    count: 8,
  }
  const exact = {
    ...side,
    printed: { ...side.printed, length: { ...side.printed.length, mm: side.longPoint } },
  }
  const asked = nestByWay([exact], shop({ reading: { kind: 'inch-decimal', places: 3 } }), 'from the stick')
  if (typeof asked === 'string') throw new Error(asked)
  expect(asked.demand.problems[0]!.parts[0]!.mid / inch).toBeCloseTo(14.2904, 4)
})

describe('other ends from the stick', () => {
  test('parallelograms: the same cut again and again, no turning, 500 + 2.5/cos 30° each', () => {
    const { run, nest } = planned([
      { ...part({ section: tube(50), length: 500, ends: [30, -30] }), count: 4 },
    ])
    expect(run.work).toMatchObject({ heads: 1, stops: 1, turns: 0, cuts: 5 })
    const [one, two] = nest.sections[0]!.sticks[0]!.pieces
    expect(one!.ends[0].x - two!.ends[0].x).toBeCloseTo(500 + 2.5 / cos(30), 6)
  })

  test('unequal ends 20° and 30°, fence edge 400: its stop is 418.20 with the 20° end touching outward', () => {
    // S = F + max(0, m·w) = 400 + 50·tan 20° (rule of the documents).
    const w = 50
    const long = 400 + w * tan(20)
    const leaning = part({ section: tube(w), length: long, printed: long, ends: [-20, 30] })
    const asked = planned([{ ...leaning, count: 2 }], shop({ reading: { kind: 'mm', step: 0.1 } }))
    const stops = asked.run.setUps.map(({ exact }) => exact)
    expect(stops.some((stop) => Math.abs(stop - 418.2) < 0.01)).toBe(true)
  })

  test('a square piece and a mitered one in one stick: the head goes to 0 for the square end only', () => {
    const { run } = planned([six(2), { ...part({ mark: 'B', length: 500, ends: [0, 0] }), count: 1 }])
    expect(new Set(run.setUps.map(({ swing }) => Math.abs(swing)))).toEqual(new Set([0, 30]))
  })

  test('a compound end comes off as a blank where the saw does not bevel, and from the stick where it does', () => {
    const leg = part({ length: 400, ends: [10, 10] })
    const splayed = {
      ...leg,
      slopes: [
        { p: -0.2, q: 0.1 },
        { p: 0.2, q: 0.1 },
      ] as const,
      shape: 'ends crossed' as const,
    }
    const demandOf = (bevel: number) => {
      const asked = nestByWay([splayed], shop({}, { limits: { ...saw.limits, bevel } }), 'from the stick')
      return typeof asked === 'string' ? asked : asked.demand.problems[0]!.parts[0]!.finished
    }
    expect(demandOf(0)).toBeUndefined()
    expect(demandOf(45)).toBe(true)
  })
})

describe('what holds the stick', () => {
  const sides = (change: Partial<Saw>) =>
    planned([six(15)], shop({}, change)).run.programs.map(({ stopSide, hold }) => [stopSide, hold])

  test('a vise on the stick’s side: as it stands; on the stop’s side: the stop is set up across', () => {
    expect(sides({ viseHolds: 'stick' })).toEqual([['left', 'stick']])
    expect(sides({ viseHolds: 'stop' })).toEqual([['right', 'stick']])
    expect(sides({ viseHolds: 'stick', stopSide: 'right' })).toEqual([['right', 'stick']])
  })

  test('a head that swings 29.9° toward the stop and 50° away has the long side outward', () => {
    const limits = { ...saw.limits, towardStop: 29.9, awayFromStop: 50 }
    expect(settings(planned([six(3)], shop({}, { limits })).run)).toEqual([[30, 381, 'outward']])
  })
})

describe('pinned seams', () => {
  const pinned = (faces: readonly ('+z' | '-z' | '-y' | '+y')[]): Part => ({
    ...six(6),
    seam: Array.from({ length: 6 }, () => faces),
  })

  test('on top: a half turn brings the side onto itself, so it is alternated, and the judge follows the seam', () => {
    const { run, nest } = planned([pinned(['+z', '-z'])])
    expect(run.setUps).toHaveLength(1)
    expect(run.setUps[0]!.printed.seam).toMatch(
      /weld seam (up|down, on the table) at the first piece of each stick/,
    )
    // The record turned round is refused.
    const wrong = { up: 'fence', down: 'fence', fence: 'up', outward: 'up' } as const
    const lying = { ...run, setUps: run.setUps.map((each) => ({ ...each, seam: wrong[each.seam!] })) }
    expect(checkRun(lying, nest, [pinned(['+z', '-z'])], shop()).faults.join(' ')).toContain('weld seam')
  })

  test('outside costs a third stick, and why is said; on top, and free, there are two and nothing to say', () => {
    const of = (...faces: readonly ('+z' | '-z' | '-y')[]) => {
      const six30: Part = { ...six(30), seam: Array.from({ length: 30 }, () => faces) }
      const asked = nestByWay([six30], shop(), 'from the stick')
      if (typeof asked === 'string') throw new Error(asked)
      return [asked.nest.sections[0]!.sticks.length, asked.demand.notes.map(({ code }) => code)]
    }
    expect(of('-y')).toEqual([3, ['seam-keeps-cuts']])
    expect(of('+z', '-z')).toEqual([2, []])
    expect(of()).toEqual([2, []])
  })

  test('outside: never turned over, so each piece has its own two cuts', () => {
    const { nest } = planned([pinned(['-y'])])
    const turns = new Set(nest.sections[0]!.sticks[0]!.pieces.map(({ turn }) => turn))
    expect([...turns].filter((turn) => turn !== 'none' && turn !== 'flip')).toEqual([])
  })
})
