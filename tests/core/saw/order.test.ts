import { describe, expect, test } from 'vitest'
import type { Run } from '../../../src/core/plan-shapes.ts'
import { sawWarnings } from '../../../src/core/saw/limits.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Saw } from '../../../src/core/shop.ts'
import { leftTexts, nest, nestSection, part, saw, shop, tube } from './sample.ts'

const long = part({ mark: 'A', length: 900, ends: [0, 0] })
const short = part({ mark: 'B', length: 400, ends: [0, 0] })
const sticks = [
  ['A', 'B', 'A', 'B'],
  ['B', 'A', 'B', 'A'],
]
const minutes = (change: Partial<Saw['minutes']>) => ({ minutes: { ...saw.minutes, ...change } })

function planned(sawChange: Partial<Saw>, of = sticks): Run {
  const run = planRun(nest([nestSection([long, short], { sticks: of })]), [long, short], shop({}, sawChange))
  if (!run.ok) throw new Error(run.problems[0]!.text)
  return run.value
}
const loads = ({ programs }: Run) => programs.map(({ load }) => load)
const stops = ({ setUps }: Run) => setUps.map(({ stop }) => stop)

describe('the order of work takes least time by the saw’s own minutes', () => {
  test('loading dear, stop cheap: each stick once; with the stop left for the next stick: 900 400 900, 3 stops', () => {
    const run = planned(minutes({ load: 5, stop: 0.5 }))
    expect(loads(run)).toEqual(['S1', 'S2'])
    expect(stops(run)).toEqual([900, 400, 900])
    // 3 stops · 0.5 + 2 loads · 5 + 10 cuts (two of them clean-up) · 0.75.
    expect(run.work).toEqual({ heads: 0, stops: 3, loads: 2, turns: 0, cuts: 10, minutes: 19 })
  })

  test('moving the stop dear: each stop once; the stick on the saw stays, the other one comes back', () => {
    const run = planned(minutes({ load: 0.5, stop: 5 }))
    expect(loads(run)).toEqual(['S1', 'S2', 'S1.1'])
    expect(stops(run)).toEqual([900, 400])
    expect(run.work).toMatchObject({ stops: 2, loads: 3 })
    const rests = run.products.filter(({ kind }) => kind === 'rest' || kind === 'drop')
    expect(rests.map(({ id, kind, from }) => [id, kind, from])).toEqual([
      ['S1.1', 'rest', 'S1'],
      ['S2.1', 'drop', 'S2'],
      ['S1.2', 'drop', 'S1.1'],
    ])
  })

  test('the longest stop comes first within a stick, so that the short drop is left at the end', () => {
    const run = planned({}, [['B', 'A', 'B']])
    expect(stops(run)).toEqual([900, 400])
  })

  test('like sticks follow each other: A, B, A, B sticks take 2 stops, not 4', () => {
    const run = planned(minutes({ load: 5 }), [['A'], ['B'], ['A'], ['B']])
    expect(loads(run)).toEqual(['S1', 'S3', 'S2', 'S4'])
    expect(run.work.stops).toBe(2)
  })
})

describe('end cuts of several parts', () => {
  const parts = [
    part({ mark: 'A', length: 900, ends: [45, 45] }),
    part({ mark: 'B', length: 500, ends: [30, 30] }),
    part({ mark: 'C', length: 400, ends: [45, 45] }),
  ]
  const marks = [['A', 'B', 'C', 'A', 'B', 'C']]

  test('each head angle once, steepest first, beginning with the blank that is in hand', () => {
    const run = planRun(nest([nestSection(parts, { sticks: marks })]), parts, shop())
    expect(run.ok && run.value.setUps.slice(3).map(({ swing, stop }) => [swing, stop])).toEqual([
      [-45, 400],
      [-45, 900],
      [-30, 500],
    ])
    expect(run.ok && run.value.work.heads).toBe(2)
  })

  test('with an allowance first ends are made together, then second ends: four stops at 45°', () => {
    const run = planRun(
      nest([nestSection(parts, { sticks: marks, allowance: 4 })]),
      parts,
      shop({ blankAllowance: 4 }),
    )
    const sets = run.ok ? run.value.setUps.slice(3).map(({ id, swing, stop }) => [id, swing, stop]) : []
    // Blank C is in hand; the second ends of the last mark follow its first ones.
    expect(sets.map(String).sort()).toEqual(
      [
        ['A/first/1', -45, 902],
        ['A/second/1', -45, 900],
        ['C/first/1', -45, 402],
        ['C/second/1', -45, 400],
        ['B/first/1', -30, 502],
        ['B/second/1', -30, 500],
      ]
        .map(String)
        .sort(),
    )
    expect(run.ok && run.value.work).toMatchObject({ heads: 2, stops: 9 })
  })

  test('two sections on one saw: all square cuts, then each head angle once for both', () => {
    const other = [
      part({ mark: 'D', section: tube(50), length: 600, ends: [45, 45] }),
      part({ mark: 'E', section: tube(50), length: 450, ends: [30, 30] }),
    ]
    const on = nest([
      nestSection(parts, { sticks: marks }),
      nestSection(other, { sticks: [['D', 'E']], idFrom: 2 }),
    ])
    const run = planRun(on, [...parts, ...other], shop())
    expect(run.ok && run.value.work.heads).toBe(2)
    const swings = run.ok ? run.value.setUps.map(({ swing }) => swing) : []
    expect(swings.filter((swing, at) => swing !== swings[at - 1])).toHaveLength(3)
    expect(swings).toHaveLength(10)
  })

  test('two sections on two saws: each program names its saw, each record too', () => {
    const other = part({ mark: 'D', section: tube(50), length: 600, ends: [45, 45] })
    const on = nest([
      nestSection(parts, { sticks: marks }),
      nestSection([other], { sticks: [['D']], idFrom: 2 }),
    ])
    const second = { ...saw, id: 'saw-2', name: 'Saw 2' }
    const set = shop({
      saws: [saw, second],
      sections: [{ section: tube(50), name: '50', saw: 'saw-2', stock: [{ length: 6000 }] }],
    })
    const run = planRun(on, [...parts, other], set)
    if (!run.ok) throw new Error(run.problems[0]!.text)
    expect(run.value.programs.filter((one) => one.saw === 'saw-2').map(({ load }) => load)).toEqual([
      'S2',
      'D1.b',
      'D1.m',
    ])
    for (const { id, saw: on2 } of run.value.setUps) expect(on2).toBe(id.startsWith('D') ? 'saw-2' : 'saw-1')
  })
})

describe('warnings before there is a nest say what the run would say', () => {
  test('a three-sided frame on a saw of 45°, and nothing for a square one', () => {
    const triangle = part({ length: 800, ends: [60, 60] })
    const square = part({ mark: 'B', length: 800, ends: [45, 45] })
    const warnings = sawWarnings([triangle, square], shop())
    expect(warnings.map(({ code, members }) => [code, members])).toEqual([['beyond-the-saw', ['A']]])
    const run = planRun(nest([nestSection([triangle], { sticks: [['A']] })]), [triangle], shop())
    expect(run.ok && leftTexts(run.value)).toEqual(warnings.map(({ text }) => text))
  })

  test('a leg of 700 on a stop of 699 is said, on one of 700 it is not', () => {
    const leg = part({ length: 700, ends: [0, 0] })
    const reach = (longestStop: number) =>
      sawWarnings([leg], shop({}, { limits: { ...saw.limits, longestStop } })).map(({ code }) => code)
    expect(reach(699)).toEqual(['past-longest-stop'])
    expect(reach(700)).toEqual([])
  })
})

test('sticks 292 290 90, 292 290 90 and 290 90: 6 stop moves where stick by stick takes 8', () => {
  const lengths = { A: 292, B: 290, C: 90 }
  const pieces = Object.entries(lengths).map(([mark, length]) => part({ mark, length, ends: [0, 0] }))
  const run = planRun(
    nest([
      nestSection(pieces, {
        sticks: [
          ['A', 'B', 'C'],
          ['A', 'B', 'C'],
          ['B', 'C'],
        ],
      }),
    ]),
    pieces,
    shop(),
  )
  expect(run.ok && run.value.work).toMatchObject({ stops: 6, loads: 3 })
})
