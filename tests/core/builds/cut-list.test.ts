import { describe, expect, test } from 'vitest'
import { framed, inches, metric, problems, tube } from './framed.ts'

describe('a cut list', () => {
  test('both angles positive: ends opposed, long point as typed, short point less w(tan a + tan b)', () => {
    const rows = [{ count: 4, length: '24', a: 45, b: 30 }]
    const [part] = framed('cut-list', { section: tube('2', '1/8'), rows }, inches).parts
    expect(part).toMatchObject({ count: 4, shape: 'ends opposed', mark: 'A' })
    expect(part!.longPoint / 25.4).toBeCloseTo(24, 9)
    expect(part!.shortPoint / 25.4).toBeCloseTo(24 - 2 * (1 + Math.tan(Math.PI / 6)), 9)
  })

  test('opposite signs: ends parallel; 50 tube, 30°, extent 528.87 has four edges of 500', () => {
    const rows = [{ count: 1, length: 500 + 50 * Math.tan(Math.PI / 6), a: 30, b: -30 }]
    const [part] = framed('cut-list', { section: tube(50, 3), rows }, metric).parts
    expect(part!.shape).toBe('ends parallel')
    expect(part!.longPoint).toBeCloseTo(528.8675, 4)
    for (const edge of part!.edges) expect(edge).toBeCloseTo(500, 9)
    expect(part!.printed).toMatchObject({ primary: 'edge', length: { mm: 500 } })
  })

  test('lengths may be short points or center lines', () => {
    const long = (lengthIs: string) =>
      framed(
        'cut-list',
        { section: tube(40, 3), lengthIs, rows: [{ count: 1, length: 500, a: 45, b: 45 }] },
        metric,
      ).parts[0]!.longPoint
    expect(long('long point')).toBeCloseTo(500, 9)
    expect(long('center line')).toBeCloseTo(540, 9)
    expect(long('short point')).toBeCloseTo(580, 9)
  })

  test('turned over, end for end or rolled a quarter, one geometry has one mark; a mirror image has another', () => {
    const marks = (rows: readonly Readonly<Record<string, number | string>>[], section: unknown) =>
      framed('cut-list', { section, rows } as never, metric).parts.map(({ mark, count }) => [mark, count])
    const square = tube(40, 3)
    expect(
      marks(
        [
          { count: 1, length: 500, a: 30, b: 15 },
          { count: 1, length: 500, a: 15, b: 30 },
          { count: 1, length: 500, a: -15, b: -30 },
        ],
        square,
      ),
    ).toEqual([['A', 3]])
    // Parallel ends of unequal angle on a flat bar: the other hand is another part.
    expect(
      marks(
        [
          { count: 1, length: 500, a: 30, b: -15 },
          { count: 1, length: 500, a: -15, b: 30 },
        ],
        square,
      ),
    ).toEqual([['A', 2]])
  })

  test('rows may name their own section: two sections, two marks', () => {
    const rows = [
      { count: 2, length: 500, a: 0, b: 0 },
      { count: 2, length: 500, a: 0, b: 0, section: { kind: 'flat-bar', width: 40, height: 6 } },
    ]
    const { parts } = framed('cut-list', { section: tube(40, 3), rows } as never, metric)
    expect(parts.map(({ mark, count, section }) => [mark, count, section.kind])).toEqual([
      ['A', 2, 'square-tube'],
      ['B', 2, 'flat-bar'],
    ])
  })
})

describe('bad rows say which row, what was given and what is possible', () => {
  test.each([
    [[], 'build.params.rows', /empty/],
    [[{ count: 2.5, length: 500, a: 0, b: 0 }], 'build.params.rows[0].count', /Row 1: .*2\.5.*whole number/],
    [
      [
        { count: 1, length: 500, a: 0, b: 0 },
        { count: 1, length: '7/0', a: 0, b: 0 },
      ],
      'build.params.rows[1].length',
      /Row 2: .*0/,
    ],
    [[{ count: 1, length: 500, a: 90, b: 0 }], 'build.params.rows[0].a', /90° ?; it must be 85° or less/],
    [
      [{ count: 1, length: 60, a: 45, b: 45 }],
      'build.params.rows[0].length',
      /Row 1: 60 mm .* more than 80 mm/,
    ],
    [
      [
        { count: 1500, length: 60, a: 0, b: 0 },
        { count: 501, length: 60, a: 0, b: 0 },
      ],
      'build.params.rows',
      /2001 pieces .* at most 2000/,
    ],
    [[{ length: 500, a: 0, b: 0 }], 'build.params.rows[0].count', /Row 1: “Count” is missing/],
  ])('%j', (rows, field, text) => {
    const [problem] = problems('cut-list', { section: tube(40, 3), rows } as never, metric)
    expect(problem?.field).toBe(field)
    expect(problem?.text).toMatch(text)
  })
})
