import { describe, expect, test } from 'vitest'
import type { NestPart, NestProblem } from '../../../src/core/nest.ts'
import { demandTogether } from '../../../src/core/parts/together.ts'

const square = { p: 0, q: 0 }
const part = (job: string, mark: string, mid: number): NestPart => ({
  job,
  mark,
  key: `k${mid}`,
  mid,
  ends: [square, square],
  turns: ['none'],
  count: 2,
  perCopy: 2,
})
const problem = (
  width: number,
  parts: readonly NestPart[],
  some: Partial<NestProblem> = {},
): NestProblem => ({
  section: { kind: 'square-tube', width, height: width, wall: 3, cornerRadius: 6 },
  way: 'square first',
  kerf: 2.5,
  trim: 10,
  grip: 60,
  parts,
  stock: [{ length: 6000, ends: ['mill', 'mill'] }],
  keep: 300,
  ...some,
})

describe('the demand of jobs bought together', () => {
  test('one problem for each section, parts called by the place of their job: 1A, 1B, 2A', () => {
    const made = demandTogether([
      { job: 'x', demand: [problem(40, [part('x', 'A', 900), part('x', 'B', 400)])] },
      { job: 'y', demand: [problem(40, [part('y', 'A', 900)]), problem(50, [part('y', 'B', 300)])] },
    ])
    expect(
      made.ok &&
        made.value.map(({ section, parts }) => [section.width, parts.map((one) => [one.job, one.mark])]),
    ).toEqual([
      [
        40,
        [
          ['x', '1A'],
          ['x', '1B'],
          ['y', '2A'],
        ],
      ],
      [50, [['y', '2B']]],
    ])
  })

  test('one job alone keeps its marks', () => {
    const demand = [problem(40, [part('x', 'A', 900)])]
    expect(demandTogether([{ job: 'x', demand }])).toEqual({ ok: true, value: demand })
  })

  test('two ways of cutting one section are refused, in two sections they are not', () => {
    const mitered = { way: 'from the stick' } as const
    const first = { job: 'x', demand: [problem(40, [part('x', 'A', 900)])] }
    const same = demandTogether([first, { job: 'y', demand: [problem(40, [part('y', 'A', 900)], mitered)] }])
    expect(same.ok ? '' : same.problems[0]!.text).toContain('cut one way')
    expect(
      demandTogether([first, { job: 'y', demand: [problem(50, [part('y', 'A', 900)], mitered)] }]).ok,
    ).toBe(true)
  })
})
