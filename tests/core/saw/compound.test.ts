// How compound and crossed ends are said and turned; the numbers themselves stand in tests/published/compound.test.ts.
import { describe, expect, test } from 'vitest'
import { checkRun } from '../../../src/core/check/check-run.ts'
import { cutEnd, member } from '../../../src/core/frame/member.ts'
import type { Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Nest, NestPiece } from '../../../src/core/nest.ts'
import { partsOf } from '../../../src/core/parts/parts.ts'
import type { Run, Turn } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Section } from '../../../src/core/section/section.ts'
import type { Saw } from '../../../src/core/shop.ts'
import { nest, nestSection, part, saw, shop, tube } from './sample.ts'

const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)
const pipe: Section = { kind: 'round-tube', width: 42.4, height: 42.4, wall: 2.6, cornerRadius: 21.2 }

function planned(section: Section, a: Vec3, b: Vec3, change: Partial<Saw> = {}) {
  const set = shop({ reading: { kind: 'mm', step: 0.1 } }, change)
  const bar = member('m', 'M', section, [0, 0, 0], [700, 0, 0], [0, 0, 1])
  const ended = cutEnd(cutEnd(bar, 'A', [0, 0, 0], a, 'open'), 'B', [700, 0, 0], b, 'open')
  const parts = partsOf([ended], set)
  const on = nest([nestSection(parts, { sticks: [['A']], step: 0.1 })])
  const run = planRun(on, parts, set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join('\n'))
  expect(checkRun(run.value, on, parts, set).faults).toEqual([])
  return { run: run.value, judged: (of: Run) => checkRun(of, on, parts, set).faults }
}

const ends = (run: Run) => run.setUps.filter(({ id }) => !id.includes('blank'))
/** A leg leaning 8° one way and 12° the other: the normal of floor and top in the leg's own frame. */
const front = tan(12) * Math.cos((8 * Math.PI) / 180)
const floor: Vec3 = [1, tan(8) * Math.hypot(1, front), front]

describe('words for what is set', () => {
  test('a bevel: its angle, and which way the top of the blade leans', () => {
    const [first] = ends(planned(tube(50), floor, floor, { limits: { ...saw.limits, bevel: 45 } }).run)
    expect(first!.printed.bevel!.text).toBe('8°')
    expect(first!.printed.bevelLean).toBe(
      `the top of the blade leans ${first!.tilt < 0 ? 'toward' : 'away from'} the stop`,
    )
    expect(first!.printed.roll).toBeUndefined()
  })

  test('a cradle: the top of the tube toward the fence or you, and a block cut to the angle', () => {
    const { run } = planned(tube(50), floor, floor, { ramp: false })
    for (const { roll, printed } of ends(run))
      expect(printed.roll).toBe(
        `top of the tube toward ${roll > 0 ? 'the fence' : 'you'} by 34.3°, in a cradle: a block cut to 34.3°; a plain V-block holds 45° only; its lower edge on the table, its near edge at the fence`,
      )
  })

  test('rolled 45° the cradle is a plain V-block', () => {
    const [first] = ends(planned(tube(50), [1, 0.2, 0.2], [1, 0, 0], { ramp: false }).run)
    expect(Math.abs(first!.roll)).toBe(45)
    expect(first!.printed.roll).toContain('in a plain V-block')
  })

  test('a wedge: which end is raised, and its rise', () => {
    const [first] = ends(planned(tube(50), [1, 0, 0], floor, { cradle: false }).run)
    expect(first!.printed.ramp).toMatch(
      first!.ramp > 0
        ? /^raise the end away from the stop on a wedge of 11.9°/
        : /^raise the end at the stop/,
    )
  })

  test('round tube is turned by its line, no block; the end that needs no turn is cut first', () => {
    const { run } = planned(pipe, [1, 0.5, 0], [1, 0.3, 0.3], { cradle: false, ramp: false })
    const [first, second] = ends(run)
    expect(first!.roll).toBe(0)
    // Planes 45° apart about the axis.
    expect(Math.abs(second!.roll)).toBeCloseTo(45, 6)
    expect(second!.printed.roll).toMatch(
      /^scribe a line along the top, then turn the tube by 45°, the line toward/,
    )
  })
})

describe('between the two ends', () => {
  const turnsOf = (run: Run): Turn[] =>
    run.programs
      .filter(({ load }) => load.endsWith('.m'))
      .flatMap(({ steps }) => steps.flatMap((step) => ('turn' in step ? [step.turn] : [])))

  test('ends crossed, 30° across and 20° up: a quarter turn of one hand; the other gives the mirror image', () => {
    const { run, judged } = planned(tube(40), [1, tan(30), 0], [1, 0, tan(20)])
    expect(ends(run).map(({ tilt, roll, ramp }) => [tilt, roll, ramp])).toEqual([
      [0, 0, 0],
      [0, 0, 0],
    ])
    expect(turnsOf(run)).toContain('quarter+')
    const programs = run.programs.map((program) => ({
      ...program,
      steps: program.steps.map((step) =>
        'turn' in step && step.turn === 'quarter+' ? { turn: 'quarter-' as const } : step,
      ),
    }))
    expect(judged({ ...run, programs })[0]).toMatch(/mirror image/)
  })

  test('a compound end with the cradle turned the other way is refused', () => {
    const { run, judged } = planned(tube(50), [1, tan(20), 0], [1, 0.2, 0.3], { ramp: false })
    const turned = run.programs.map((program) => ({
      ...program,
      steps: program.steps.map((step) => ('roll' in step ? { roll: -step.roll } : step)),
    }))
    const setUps = run.setUps.map((setUp) => ({ ...setUp, roll: -setUp.roll }))
    expect(judged({ ...run, programs: turned, setUps }).length).toBeGreaterThan(0)
  })
})

test('a drop with a slanted end is squared with no loss beyond its short corner: 0 at the short side, kerf in the air', () => {
  const leg = part({ length: 400, ends: [0, 0] })
  const slope = tan(30)
  const section = nestSection([leg], { sticks: [['A']], length: 1000, trim: 10, grip: 0 })
  const lead = 1000 - 20 * slope
  const piece: NestPiece = {
    ...section.sticks[0]!.pieces[0]!,
    ends: [
      { x: lead, p: 0, q: 0 },
      { x: lead - 400, p: 0, q: 0 },
    ],
  }
  const stick = {
    ...section.sticks[0]!,
    from: 'rack' as const,
    rack: 'drop-1',
    price: 0,
    ends: [{ p: -slope, q: 0 }, 'cut'] as const,
    pieces: [piece],
    drop: lead - 402.5,
  }
  const on: Nest = nest([{ ...section, sticks: [stick] }])
  const run = planRun(on, [leg], shop())
  if (!run.ok) throw new Error(run.problems[0]!.text)
  expect(run.value.programs[0]!.steps).toContainEqual({ trim: 0 })
  expect(checkRun(run.value, on, [leg], shop()).faults).toEqual([])
})
