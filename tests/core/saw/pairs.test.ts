import { describe, expect, test } from 'vitest'
import { checkNest } from '../../../src/core/check/check-nest.ts'
import { checkRun } from '../../../src/core/check/check-run.ts'
import { piecesIn } from '../../../src/core/nest.ts'
import { openDemand } from '../../../src/core/parts/demand.ts'
import type { Part, StickFace } from '../../../src/core/plan-shapes.ts'
import { benchCuts, cutFact } from '../../../src/core/saw/bench.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { nestByWay } from './by-way.ts'
import { part, shop } from './sample.ts'

const arm = (count: number, change: Partial<Part> = {}): Part => ({
  ...part({ mark: 'B', length: 300, ends: [0, 45] }),
  count,
  ...change,
})
const foot = (count: number, change: Partial<Part> = {}): Part => ({
  ...part({ mark: 'C', length: 250, ends: [0, 45] }),
  count,
  ...change,
})

function planned(parts: readonly Part[], set: Shop = shop()) {
  const asked = nestByWay(parts, set, 'paired')
  if (typeof asked === 'string') throw new Error(asked)
  const { nest, demand } = asked
  expect(checkNest(nest, demand.problems).faults).toEqual([])
  const run = planRun(nest, parts, set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join(' '))
  expect(checkRun(run.value, nest, parts, set).faults).toEqual([])
  return { run: run.value, nest, demand }
}
const made = (parts: readonly Part[], set?: Shop) =>
  planned(parts, set).nest.sections[0]!.sticks.flatMap(({ pieces }) =>
    pieces.map((piece) =>
      piecesIn(piece)
        .map((each) => each.piece)
        .join('+'),
    ),
  )

describe('300 and 250 long, one end at 45°, 40 tube, kerf 2.5', () => {
  // A pair takes long1 + long2 − w·tan a + k/cos a = 300 + 250 − 40 + 3.536 = 513.536 of stick (rule of the documents).
  const { run, nest } = planned([arm(1), foot(1)])

  test('one blank of 513.536, set to 514, split by one cut with the stop at 300', () => {
    const [blank, split] = run.setUps
    expect(blank).toMatchObject({ swing: 0, stop: 514, pieces: ['B1.b'] })
    expect(blank!.exact).toBeCloseTo(513.536, 3)
    expect(split).toMatchObject({
      id: 'B/split/1',
      swing: -45,
      stop: 300,
      longSide: 'fence',
      pieces: ['B1', 'C1'],
    })
    expect(split!.printed.turn).toContain('one cut makes both pieces')
    expect(run.work).toMatchObject({ cuts: 3, heads: 1 })
  })

  test('the bench checks off both pieces, the second of the same blank, with nothing to set', () => {
    const cuts = benchCuts(run, nest, [])
    expect(cuts.map(({ product, splits, newSetUp }) => [product.id, splits, newSetUp])).toEqual([
      ['B1.b', undefined, true],
      ['B1', undefined, true],
      ['C1', true, false],
    ])
    const blank = { ...cutFact(cuts[0]!), id: 'd:1', job: 'job', nest: nest.id, stick: 'S1', used: true }
    const first = {
      ...cutFact({ ...cuts[1]!, parent: 'd:1' }),
      id: 'd:2',
      job: 'job',
      nest: nest.id,
      stick: 'S1',
      used: false,
    }
    const after = benchCuts(run, nest, [blank, first])
    expect(after.map(({ done, parent }) => [done, parent])).toEqual([
      ['d:1', undefined],
      ['d:2', 'd:1'],
      [undefined, 'd:1'],
    ])
  })
})

describe('who goes with whom', () => {
  test('like with like first, then across marks, and what is left over alone: 5 and 3', () => {
    expect(made([arm(5), foot(3)]).sort()).toEqual(['B1+B2', 'B3+B4', 'B5+C3', 'C1+C2'])
    expect(made([arm(3)]).sort()).toEqual(['B1+B2', 'B3'])
  })

  test('45° and 40° share no cut', () => {
    const other = { ...part({ mark: 'D', length: 250, ends: [0, 40] }), count: 1 }
    expect(made([arm(1), other]).sort()).toEqual(['B1', 'D1'])
  })

  test('neither half may be too short to hold: a short side of 60.0 is split, one of 59.9 is not', () => {
    const short = (length: number) => [{ ...part({ length, printed: length, ends: [0, 45] }), count: 2 }]
    const set = shop({ reading: { kind: 'mm', step: 0.1 } })
    expect(made(short(100), set)).toEqual(['A1+A2'])
    const asked = nestByWay(short(99.9), set, 'paired')
    expect(
      typeof asked === 'string' ? asked : asked.demand.problems[0]!.parts.map(({ makes }) => makes),
    ).toEqual([undefined])
  })

  test('a blank of 551 on a stop that reaches 550 is not asked for; on one that reaches 551 it is', () => {
    const reach = (longestStop: number) =>
      made([arm(2)], shop({}, { limits: { towardStop: 45, awayFromStop: 45, bevel: 0, longestStop } }))
    // 300 + 300 − 40 + 3.536 = 563.5, set to 564.
    expect(reach(563).sort()).toEqual(['B1', 'B2'])
    expect(reach(564)).toEqual(['B1+B2'])
  })
})

describe('pinned seams: the halves of a split are related by a half turn about the cut’s normal', () => {
  // As a part lies its long side is on −y: outside of the corner, and +y inside. Walking off along each leg the outside is
  // on the right of one and on the left of the other: +z of both is the top of one and the bottom of the other.
  const pin = (faces: readonly StickFace[]) => ({ seam: [faces] })
  const pair = (one: StickFace, two: StickFace) => {
    const parts = [arm(1, pin([one])), foot(1, pin([two]))]
    return planned(parts).demand
  }

  test('one top and the other bottom, or one outside and the other inside: one split', () => {
    for (const [one, two] of [
      ['+z', '+z'],
      ['-z', '-z'],
      ['-y', '+y'],
      ['+y', '-y'],
    ] as const) {
      const { problems, notes } = pair(one, two)
      expect(problems[0]!.parts.map(({ makes }) => makes?.length)).toEqual([1])
      expect(notes).toEqual([])
    }
  })

  test('both inside, both outside, both on top: refused with the reason, and cut from blanks of their own', () => {
    for (const [one, two] of [
      ['+y', '+y'],
      ['-y', '-y'],
      ['+z', '-z'],
    ] as const) {
      const { problems, notes } = pair(one, two)
      expect(problems[0]!.parts.map(({ makes }) => makes)).toEqual([undefined, undefined])
      expect(notes).toEqual([
        expect.objectContaining({
          code: 'pair-seam',
          text: expect.stringMatching(/^B1, C1 are cut from blanks of their own.*half turn/),
        }),
      ])
    }
  })
})

test('what is left of a pair whose one half is finished is a blank for the other alone', () => {
  const { demand } = planned([arm(4)])
  const done = {
    id: 'd:1',
    job: 'job',
    nest: 'old',
    stage: 'piece',
    key: arm(4).key,
    mark: 'B',
    label: 'B1',
    from: { stick: 'S1' },
    used: false,
  } as const
  const [open] = openDemand(demand.problems, [done], 'job', undefined)
  expect(
    open!.parts.map(({ mark, count, first, mid, makes }) => [
      mark,
      count,
      first,
      mid,
      makes?.map((pair) => pair.map(({ piece }) => piece)),
    ]),
  ).toEqual([
    ['B+B', 1, undefined, 564, [['B3', 'B4']]],
    ['B', 1, 2, 300, undefined],
  ])
})
