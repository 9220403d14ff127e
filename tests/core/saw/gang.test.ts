import { describe, expect, test } from 'vitest'
import { checkRun } from '../../../src/core/check/check-run.ts'
import type { Program, Run } from '../../../src/core/plan-shapes.ts'
import { benchCuts } from '../../../src/core/saw/bench.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Saw } from '../../../src/core/shop.ts'
import { damaged } from '../check/documents.ts'
import { nest, nestSection, part, saw, shop, tube } from './sample.ts'

// Square cuts side by side. Every figure below is a sum of this saw's own minutes: load 1.5, cut 0.75, stop 1.
const leg = part({ mark: 'A', length: 900, ends: [0, 0] })
const rail = part({ mark: 'B', length: 400, ends: [0, 0] })
const side = part({ mark: 'M', length: 500, ends: [30, 30] })
const parts = [leg, rail, side]
const alike = ['A', 'A', 'B']

function planned(sticks: readonly (readonly string[])[], change: Partial<Saw>) {
  const set = shop({}, change)
  const on = nest([nestSection(parts, { sticks })])
  const run = planRun(on, parts, set)
  if (!run.ok) throw new Error(run.problems[0]!.text)
  expect(checkRun(run.value, on, parts, set).faults).toEqual([])
  return { run: run.value, on, set }
}
const gangs = ({ programs }: Run) => programs.map(({ load, beside }) => (beside ? `${load}+${beside}` : load))
const names = (cuts: ReturnType<typeof benchCuts>) => cuts.map(({ product }) => product.id)

describe('three sticks of two A and a B, and one of another plan', () => {
  const sticks = [alike, alike, ['A', 'B', 'B'], alike]

  test('one at a time: 4 loads, 16 cuts', () => {
    expect(planned(sticks, {}).run.work).toMatchObject({ loads: 4, cuts: 16 })
    expect(gangs(planned(sticks, {}).run).every((name) => !name.includes('+'))).toBe(true)
  })

  test('two side by side: a stroke for each cut of the pair, clean-up too: 4 loads, 12 strokes', () => {
    const { run } = planned(sticks, { gang: 2 })
    expect(run.work).toMatchObject({ loads: 4, cuts: 12 })
    const pairs = gangs(run).filter((name) => name.includes('+'))
    expect(pairs).toHaveLength(1)
    expect(pairs[0]).not.toContain('S3')
  })

  test('four would fit: the three that are alike lie together, never the one that is not: 8 strokes', () => {
    const { run } = planned(sticks, { gang: 4 })
    expect(run.work).toMatchObject({ loads: 4, cuts: 8 })
    expect(gangs(run).filter((name) => name.includes('+'))).toEqual(['S2+S1', 'S4+S1'])
    expect(run.setUps[0]!.gang).toMatchObject({ count: 3 })
  })

  test('the bench goes stroke by stroke, and says which pieces come off together', () => {
    const { run, on } = planned([alike, alike], { gang: 2 })
    const cuts = benchCuts(run, on, [])
    expect(names(cuts)).toEqual(['A1', 'A3', 'A2', 'A4', 'B1', 'B2'])
    expect(cuts.map(({ stroke }) => stroke?.join(' '))).toEqual([
      'A1 A3',
      'A1 A3',
      'A2 A4',
      'A2 A4',
      'B1 B2',
      'B1 B2',
    ])
    expect(cuts.filter(({ loadFirst }) => loadFirst).map(({ stick }) => stick)).toEqual(['S1', 'S2'])
    expect(run.setUps.map(({ pieces, gang }) => [pieces.join(' '), gang])).toEqual([
      ['A1 A2 A3 A4', { count: 2, saves: 2 * 0.75 }],
      ['B1 B2', { count: 2, saves: 0.75 }],
    ])
  })
})

test('the same pieces in another order along the stick are the same square cuts', () => {
  const { run } = planned(
    [
      ['A', 'B'],
      ['B', 'A'],
    ],
    { gang: 2 },
  )
  expect(gangs(run)).toEqual(['S1', 'S2+S1'])
})

test('miters are cut one by one; their square blanks side by side', () => {
  const { run, on } = planned([['M'], ['M']], { gang: 2 })
  const cuts = benchCuts(run, on, [])
  expect(cuts.filter(({ stroke }) => stroke).map(({ product }) => product.kind)).toEqual(['blank', 'blank'])
  expect(cuts.filter(({ product }) => product.kind === 'piece')).toHaveLength(2)
})

test('round tube rolls: one at a time', () => {
  const round = part({
    mark: 'R',
    length: 700,
    ends: [0, 0],
    section: { kind: 'round-tube', width: 40, height: 40, wall: 2, cornerRadius: 20 },
  })
  const on = nest([nestSection([round], { sticks: [['R'], ['R']] })])
  const run = planRun(on, [round], shop({}, { gang: 2 }))
  expect(run.ok && gangs(run.value)).toEqual(['S1', 'S2'])
})

test('two tubes of other sizes never lie together', () => {
  const thin = part({ mark: 'T', length: 900, ends: [0, 0], section: tube(30) })
  const on = nest([
    nestSection([leg], { sticks: [['A']] }),
    nestSection([thin], { sticks: [['T']], idFrom: 2 }),
  ])
  const run = planRun(on, [leg, thin], shop({}, { gang: 4 }))
  expect(run.ok && gangs(run.value)).toEqual(['S1', 'S2'])
})

describe('the judge refuses', () => {
  const { run, on, set } = planned([alike, alike, ['A', 'B']], { gang: 2 })
  type Mutable = { -readonly [K in keyof Program]: Program[K] }
  const faults = (by: (programs: Mutable[]) => void, at = set) =>
    checkRun(
      damaged(run, (open) => by(open.programs as unknown as Mutable[])),
      on,
      parts,
      at,
    ).faults.join('; ')

  test('more side by side than the saw takes', () => {
    expect(faults(() => undefined, shop({}, { gang: 1 }))).toContain('one of 2; the saw takes 1')
    expect(faults(() => undefined, { ...set, saws: [{ ...saw, gang: 4 }] })).toBe('')
  })

  test('a stick of another plan beside it, or one that does not follow', () => {
    const other = run.programs.findIndex(({ load }) => load === 'S3')
    expect(
      faults((programs) => {
        const at = programs.findIndex(({ beside }) => beside)
        const [moved] = programs.splice(other, 1)
        programs.splice(at, 1, { ...moved!, beside: 'S1' }, { ...programs[at]!, beside: 'S1' })
      }),
    ).toContain('is not cut by the same strokes')
    expect(
      faults((programs) => {
        const at = programs.findIndex(({ beside }) => beside)
        programs[at]!.beside = 'S3'
      }),
    ).toContain('does not follow it')
  })
})
