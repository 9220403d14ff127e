import { describe, expect, test } from 'vitest'
import type { NestStick } from '../../../src/core/nest.ts'
import type { Run, Step, Turn } from '../../../src/core/plan-shapes.ts'
import { edgeXs, lyingAtCuts, turned, type Workpiece } from '../../../src/ui/drawing/lying.ts'
import { run, squareSet, stick } from './bench-run.ts'

const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)
const sin = (deg: number) => Math.sin((deg * Math.PI) / 180)

const lengths = (work: Workpiece) => {
  const lead = edgeXs(work.lead, work.depth)
  const trail = edgeXs(work.trail, work.depth)
  return [lead[0] - trail[0], lead[1] - trail[1]] as const
}

describe('how the steel lies at each cut', () => {
  const at = lyingAtCuts(run, [stick])

  test('a six-sided part of 404 mm in 40 mm tube has edges of 404 and 357.812 (documents, formula 2·40·tan 30°)', () => {
    const [fence, far] = lengths(at.get('A1')!.keep)
    expect(fence).toBeCloseTo(404, 6)
    expect(far).toBeCloseTo(404 - 2 * 40 * Math.tan(Math.PI / 6), 6)
    expect(far).toBeCloseTo(357.812, 3)
  })

  test('the first end is cut with the square end at the stop: fence edge 404', () => {
    const { keep } = at.get('A1.m')!
    expect(lengths(keep)[0]).toBeCloseTo(404, 6)
    expect(keep.lead.p).toBeCloseTo(0, 9)
  })

  test('after the clean-up of 10 and one cut with kerf 2.5 the stick of 6000 has 5583.5 left', () => {
    expect(lengths(at.get('A1.b')!.rest)[0]).toBeCloseTo(6000 - 10 - 404 - 2.5, 6)
    expect(lengths(at.get('A2.b')!.rest)[0]).toBeCloseTo(6000 - 10 - 2 * (404 + 2.5), 6)
  })

  test('the stop touches the point that reaches farthest: cut 30°, lead 20°, 50 tube, fence edge 400, stop 418.20', () => {
    // Both ends cut at positive swings make a parallelogram-like piece; its leading end reaches past the fence edge.
    const wide = { ...squareSet.section, width: 50, height: 50 }
    const work: Run = {
      ...run,
      setUps: [{ ...squareSet, section: wide }],
      programs: [
        {
          ...run.programs[0]!,
          kerf: 0,
          steps: [
            { head: [-20, 0] },
            { trim: 10 },
            { head: [-30, 0] },
            { stop: 418.2, exact: 418.2 },
            { cut: { keep: 'X', rest: 'on' }, setUp: 'set-1' },
          ],
        },
      ],
    }
    const found = lyingAtCuts(work, [{ ...stick, length: 6000 }]).get('X')!
    const [atFence] = edgeXs(found.keep.lead, 50)
    const [bladeAtFence] = edgeXs(found.keep.trail, 50)
    expect(bladeAtFence).toBeCloseTo(0, 9)
    expect(atFence).toBeCloseTo(418.2 - 50 * Math.tan((20 * Math.PI) / 180), 6)
    expect(atFence).toBeCloseTo(400, 2)
  })

  test('a product laid on a saw with its stop on the other side shows its other end to the stop', () => {
    const other: Run = {
      ...run,
      programs: run.programs.map((program) =>
        program.load === 'A1.b' ? { ...program, stopSide: 'right' } : program,
      ),
    }
    const seen = lyingAtCuts(other, [stick]).get('A1')!
    expect(lengths(seen.keep)[1]).toBeCloseTo(357.812, 3)
  })

  test('rolled 45° a 40 tube is seen 56.57 wide, and after a turn the miter of 20° leans up', () => {
    const tipped = (step: Step): Run => ({
      ...run,
      programs: run.programs.map((program) =>
        program.load === 'A1.b'
          ? { ...program, steps: [{ head: [-20, 0] }, step, ...program.steps.slice(1)] }
          : program,
      ),
    })
    const rolled = lyingAtCuts(tipped({ roll: 45 }), [stick])
    const { keep, stop } = rolled.get('A1.m')!
    expect(keep.depth).toBeCloseTo(40 * Math.SQRT2, 9)
    expect(edgeXs(keep.trail, keep.depth)).toEqual([
      expect.closeTo(0, 9),
      expect.closeTo(40 * Math.SQRT2 * tan(20), 9),
    ])
    expect(keep.lead.x).toBeCloseTo(stop, 9)
    // Laid flat the miter leans on both slopes alike; turned over end for end and rolled again, all of it stands up.
    const half = rolled.get('A1')!.keep.lead
    expect(half.p).toBeCloseTo(0, 9)
    expect(Math.abs(half.q)).toBeCloseTo(tan(20), 9)
  })

  test('raised 10° a square end leads with one edge, and after a turn the cut end stands upright', () => {
    const raised: Run = {
      ...run,
      programs: run.programs.map((program) =>
        program.load === 'A1.b' ? { ...program, steps: [{ ramp: 10 }, ...program.steps] } : program,
      ),
    }
    const found = lyingAtCuts(raised, [stick])
    const { keep, stop } = found.get('A1.m')!
    // Half the height of 40 leans forward by its sine.
    expect(keep.lead.x).toBeCloseTo(stop - 20 * sin(10), 9)
    // Laid flat the cut leans by the wedge; turned over end for end and raised again it stands upright.
    expect(found.get('A1')!.keep.lead.q).toBeCloseTo(0, 9)
  })
})

describe('turnings', () => {
  const work: Workpiece = {
    lead: { x: 100, p: 0.5, q: 0.1 },
    trail: { x: -100, p: -0.2, q: 0.3 },
    depth: 40,
    height: 60,
  }
  const size = (at: Workpiece) => at.lead.x - at.trail.x

  test('each half turn done twice is none', () => {
    for (const turn of ['over', 'end', 'flip'] as const) {
      const twice = turned(turned(work, turn), turn)
      expect(twice, turn).toEqual(work)
    }
  })

  test('a quarter turn four times is none, and one swaps depth and height', () => {
    expect(turned(work, 'quarter+')).toMatchObject({ depth: 60, height: 40 })
    const four = ['quarter+', 'quarter+', 'quarter+', 'quarter+'].reduce(
      (at, turn) => turned(at, turn as Turn),
      work,
    )
    expect(four).toEqual(work)
    expect(turned(turned(work, 'quarter+'), 'quarter-')).toEqual(work)
  })

  test('over after end is flip, as three half turns about three axes are none', () => {
    expect(turned(turned(work, 'end'), 'over')).toEqual(turned(work, 'flip'))
  })

  test('the documents table: slopes (s, u) become (−s, −u) over, (u, s) end, (−u, −s) flip', () => {
    const slopes = (at: Workpiece) => [at.lead.p, at.trail.p]
    expect(slopes(turned(work, 'over'))).toEqual([-0.5, 0.2])
    expect(slopes(turned(work, 'end'))).toEqual([-0.2, 0.5])
    expect(slopes(turned(work, 'flip'))).toEqual([0.2, -0.5])
  })

  test('no turning changes the length', () => {
    for (const turn of ['over', 'end', 'flip', 'quarter+', 'quarter-'] as const)
      expect(size(turned(work, turn)), turn).toBe(200)
  })
})

test('a stick of an angled drop starts at its slope', () => {
  const angled: NestStick = { ...stick, ends: [{ p: 0.5, q: 0 }, 'cut'], length: 1000 }
  const first = lyingAtCuts(
    {
      ...run,
      programs: [
        {
          ...run.programs[0]!,
          steps: [
            { head: [0, 0] },
            { stop: 404, exact: 404 },
            { cut: { keep: 'Y', rest: 'on' }, setUp: 'set-1' },
          ],
        },
      ],
    },
    [angled],
  ).get('Y')!
  const [fence, far] = lengths(first.keep)
  expect(Math.max(fence, far)).toBeCloseTo(404, 6)
  expect(far - fence).toBeCloseTo(20, 6)
})
