// Any plan, replayed by corners pushed to a plate, gives the parts that were asked for.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Reading } from '../../../src/core/shop.ts'
import { barOf, extentOf, replay, sameBar } from './replay.ts'
import { nest, nestSection, part, shop, tube } from './sample.ts'

const angle = fc.integer({ min: 1, max: 450 }).map((tenths) => tenths / 10)
const sections = [tube(40), tube(50), tube(25.4), tube(60, 40), tube(40, 60)]
const readings: readonly Reading[] = [
  { kind: 'mm', step: 1 },
  { kind: 'mm', step: 0.1 },
  { kind: 'inch-fraction', denominator: 16 },
]

/** Opposed, parallel, one end, unequal either way, crossed, square; across the width or the height. */
const shapes = fc
  .record({
    one: angle,
    two: angle,
    kind: fc.constantFrom(
      'opposed',
      'parallel',
      'one end',
      'unequal',
      'unequal parallel',
      'crossed',
      'square',
    ),
    across: fc.constantFrom('width' as const, 'height' as const),
    steps: fc.integer({ min: 250, max: 900 }),
    reading: fc.constantFrom(...readings),
    section: fc.constantFrom(...sections),
  })
  .map(({ one, two, kind, across, steps, reading, section }) => {
    const printed = reading.kind === 'mm' ? steps * reading.step + 200 : (steps * 25.4) / 16 + 8 * 25.4
    const exact = printed + 0.2 * (reading.kind === 'mm' ? reading.step : 1)
    const ends = ((): readonly [number, number] => {
      if (kind === 'square') return [0, 0]
      if (kind === 'one end') return [0, one]
      if (kind === 'opposed') return [one, one]
      if (kind === 'parallel') return [one, -one]
      return kind === 'unequal parallel' && one !== two ? [one, -two] : [one, two]
    })()
    const other = across === 'width' ? ('height' as const) : ('width' as const)
    const sides = kind === 'crossed' ? ([across, other] as const) : ([across, across] as const)
    // Parts name the greater side of their section first, as they lie in a stick.
    const laid = section.width >= section.height ? section : tube(section.height, section.width)
    return { reading, part: part({ section: laid, length: exact, printed, ends, across: sides }) }
  })

const benches = fc.record({
  stopSide: fc.constantFrom('left' as const, 'right' as const),
  viseHolds: fc.constantFrom('stick' as const, 'stop' as const, 'both' as const),
  longSide: fc.constantFrom('fence' as const, 'outward' as const),
  allowance: fc.constantFrom(0, 0.8, 25.4 / 16, 3),
  onEdge: fc.boolean(),
})

const readingStepOf = (reading: Reading): number => (reading.kind === 'mm' ? reading.step : 25.4 / 16)

function planned(
  { part: of, reading }: { readonly part: Part; readonly reading: Reading },
  bench: {
    readonly stopSide: 'left' | 'right'
    readonly viseHolds: 'stick' | 'stop' | 'both'
    readonly longSide: 'fence' | 'outward'
    readonly allowance: number
    readonly onEdge: boolean
  },
) {
  const { stopSide, viseHolds, longSide, allowance } = bench
  const { width, height } = of.section
  // The same stick, named with its lesser side first: it then lies on edge.
  const section = bench.onEdge ? { ...of.section, width: height, height: width } : of.section
  const sticks = nest([nestSection([of], { section, sticks: [['A', 'A']], allowance })])
  const set = shop({ reading, longSide, blankAllowance: allowance }, { stopSide, viseHolds, leastToHold: 0 })
  const run = planRun(sticks, [of], set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join('\n'))
  return { run: run.value, sticks, width, height }
}

test('with exact stops every part comes off the saw as asked, mirror images told apart (200 parts, all saws)', () => {
  fc.assert(
    fc.property(shapes, benches, (given, bench) => {
      const { run, sticks, width, height } = planned(given, bench)
      const { made, lacking } = replay(run, sticks, 'exact')
      const wanted = barOf(given.part, width, height)
      expect(sameBar(made.get('A1')!, wanted)).toBe(true)
      expect(sameBar(made.get('A2')!, wanted)).toBe(true)
      expect(lacking).toBeLessThan(1e-6)
    }),
    { numRuns: 200, seed: 4 },
  )
})

test('with printed stops the long point lies within half a step of the reading (200 parts)', () => {
  fc.assert(
    fc.property(shapes, benches, (given, bench) => {
      const { run, sticks, width, height } = planned(given, bench)
      const real = extentOf(replay(run, sticks, 'printed').made.get('A1')!)
      const wanted = extentOf(barOf(given.part, width, height, 'printed'))
      expect(Math.abs(real - wanted)).toBeLessThanOrEqual(readingStepOf(given.reading) / 2 + 1e-6)
    }),
    { numRuns: 200, seed: 4 },
  )
})

test('set-up records carry what the programs do: swing, stop, side and hold of every cut (100 parts)', () => {
  fc.assert(
    fc.property(shapes, benches, (given, bench) => {
      const { run } = planned(given, bench)
      for (const program of run.programs) {
        let swing = 0
        let stop: { readonly stop: number; readonly exact: number } | undefined
        for (const step of program.steps) {
          if ('head' in step) swing = step.head[0]
          if ('stop' in step) stop = step
          if (!('cut' in step)) continue
          const setUp = run.setUps.find(({ id }) => id === step.setUp)!
          expect(setUp.pieces).toContain(step.cut.keep)
          expect([setUp.swing, setUp.stop, setUp.stopSide, setUp.hold]).toEqual([
            swing,
            stop!.stop,
            program.stopSide,
            program.hold,
          ])
          expect(setUp.exact).toBeCloseTo(stop!.exact, 9)
        }
      }
    }),
    { numRuns: 100, seed: 4 },
  )
})

test('the replay itself tells a part from its mirror image: crossed ends 30° over 30°', () => {
  const crossed = part({ section: tube(60, 40), length: 500, ends: [30, 20], across: ['width', 'height'] })
  const other = { ...crossed, slopes: [{ p: -crossed.slopes[0].p, q: 0 }, crossed.slopes[1]] as const }
  expect(sameBar(barOf(crossed, 60, 40), barOf(crossed, 60, 40))).toBe(true)
  expect(sameBar(barOf(crossed, 60, 40), barOf(other, 60, 40))).toBe(false)
})
