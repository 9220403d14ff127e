import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { SectionGiven } from '../../../src/core/job.ts'
import { resolveSection, resolveSheet } from '../../../src/core/section/given.ts'
import { areaOf, massPerLength, mechanicalMass, steelDensity } from '../../../src/core/section/mass.ts'
import { sectionName, wallName } from '../../../src/core/section/name.ts'
import { flatOf, isHollow, isRound, type Section, sectionKey } from '../../../src/core/section/section.ts'
import type { Reading } from '../../../src/core/shop.ts'

const inchShop: Reading = { kind: 'inch-fraction', denominator: 16 }
const metricShop: Reading = { kind: 'mm', step: 1 }

function resolved(given: SectionGiven, units: 'in' | 'mm'): Section {
  const result = resolveSection(given, units)
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join(' '))
  return result.value
}

describe('a section as chosen', () => {
  test.each<[string, SectionGiven, 'in' | 'mm', Omit<Section, 'kind'>]>([
    [
      'inch tube of 1/8 wall has corners of 2t',
      { kind: 'square-tube', width: '2', wall: '1/8' },
      'in',
      { width: 50.8, height: 50.8, wall: 3.175, cornerRadius: 6.35 },
    ],
    [
      'inch tube of 3/8 wall too, though it is over 6 mm',
      { kind: 'square-tube', width: '4', wall: '3/8' },
      'in',
      { width: 101.6, height: 101.6, wall: 9.525, cornerRadius: 19.05 },
    ],
    [
      'metric tube of 3 mm: 2T',
      { kind: 'rect-tube', width: 60, height: 40, wall: 3 },
      'mm',
      { width: 60, height: 40, wall: 3, cornerRadius: 6 },
    ],
    [
      'metric tube of 6 mm: 2T',
      { kind: 'square-tube', width: 60, wall: 6 },
      'mm',
      { width: 60, height: 60, wall: 6, cornerRadius: 12 },
    ],
    [
      'metric tube of 6.3 mm: 2.5T, typed in an inch shop',
      { kind: 'square-tube', width: '60mm', wall: '6.3 mm' },
      'in',
      { width: 60, height: 60, wall: 6.3, cornerRadius: 15.75 },
    ],
    [
      'metric tube of 12.5 mm: 3T',
      { kind: 'square-tube', width: 150, wall: 12.5 },
      'mm',
      { width: 150, height: 150, wall: 12.5, cornerRadius: 37.5 },
    ],
    [
      'a tube wall of 16 ga is 0.065 in, corners 1.3t',
      { kind: 'square-tube', width: '1', wall: '16 ga' },
      'in',
      { width: 25.4, height: 25.4, wall: 1.651, cornerRadius: 2.1463 },
    ],
    [
      'a corner that is given stands',
      { kind: 'square-tube', width: 40, wall: 3, cornerRadius: 7.5 },
      'mm',
      { width: 40, height: 40, wall: 3, cornerRadius: 7.5 },
    ],
    [
      'a flat bar of 16 ga is sheet, 0.0598 in',
      { kind: 'flat-bar', width: '2', height: '16 ga' },
      'in',
      { width: 50.8, height: 1.51892, wall: 0, cornerRadius: 0 },
    ],
    [
      'round tube',
      { kind: 'round-tube', width: 42.4, wall: 3 },
      'mm',
      { width: 42.4, height: 42.4, wall: 3, cornerRadius: 0 },
    ],
    [
      'round bar',
      { kind: 'round-bar', width: '1/2' },
      'in',
      { width: 12.7, height: 12.7, wall: 0, cornerRadius: 0 },
    ],
    [
      'angle',
      { kind: 'angle', width: 50, height: 30, wall: 4 },
      'mm',
      { width: 50, height: 30, wall: 4, cornerRadius: 0 },
    ],
  ])('%s', (_, given, units, sizes) => {
    const section = resolved(given, units)
    expect(section.kind).toBe(given.kind)
    for (const name of ['width', 'height', 'wall', 'cornerRadius'] as const)
      expect(section[name]).toBeCloseTo(sizes[name], 9)
  })

  test('the same steel is one section, however it was typed', () => {
    const gauge = resolved({ kind: 'square-tube', width: '1 1/2', wall: '16 ga' }, 'in')
    const decimal = resolved({ kind: 'square-tube', width: '1-1/2"', height: '1.5', wall: '0.065' }, 'in')
    const metric = resolved({ kind: 'rect-tube', width: 38.1, height: 38.1, wall: 1.651 }, 'mm')
    expect(sectionKey(decimal)).toBe(sectionKey(gauge))
    expect(sectionKey(metric)).toBe(sectionKey(gauge))
    expect(sectionKey(resolved({ kind: 'square-tube', width: '1 1/2', wall: '14 ga' }, 'in'))).not.toBe(
      sectionKey(gauge),
    )
  })

  test('a grade is kept', () => {
    expect(resolved({ kind: 'square-tube', width: 40, wall: 3, grade: 'S235' }, 'mm').grade).toBe('S235')
    expect('grade' in resolved({ kind: 'square-tube', width: 40, wall: 3 }, 'mm')).toBe(false)
  })

  test.each<[SectionGiven, string, string]>([
    [
      { kind: 'square-tube', width: '2', wall: '1' },
      'wall',
      'A wall of 1 in is given: it must be less than half of the smaller side, 1 in.',
    ],
    [
      { kind: 'rect-tube', width: '4', height: '1', wall: '5/8' },
      'wall',
      'A wall of 5/8 in is given: it must be less than half of the smaller side, 1/2 in.',
    ],
    [
      { kind: 'angle', width: '2', height: '1', wall: '1' },
      'wall',
      'A wall of 1 in is given: it must be less than the shorter leg, 1 in.',
    ],
    [{ kind: 'square-tube', width: '0', wall: '1/8' }, 'width', '0 in is given: it must be more than 0.'],
    [{ kind: 'square-tube', width: '-2', wall: '1/8' }, 'width', '−2 in is given: it must be more than 0.'],
    [{ kind: 'square-tube', width: '2', wall: 0 }, 'wall', '0 in is given: it must be more than 0.'],
    [{ kind: 'square-tube', width: Number.NaN, wall: '1/8' }, 'width', 'NaN is not a length.'],
    [{ kind: 'square-tube', width: '7/0', wall: '1/8' }, 'width', 'a fraction cannot have 0 below.'],
    [
      { kind: 'square-tube', width: '2' },
      'wall',
      'Give the wall: a square tube needs one, as a length or as a gauge such as 16 ga.',
    ],
    [{ kind: 'angle', width: '2' }, 'wall', 'Give the wall: an angle needs one'],
    [
      { kind: 'square-tube', width: '2', wall: '17 ga' },
      'wall',
      '17 ga is in no table of tube gauges here; known are 3, 4, 5,',
    ],
    [
      { kind: 'flat-bar', width: '2', height: '15 ga' },
      'height',
      '15 ga is in no table of sheet gauges here; known are 7, 8,',
    ],
    [
      { kind: 'rect-tube', width: '2', wall: '1/8' },
      'height',
      'the second side of a rectangular tube is missing.',
    ],
    [{ kind: 'flat-bar', width: '2' }, 'height', 'the thickness of the flat bar is missing.'],
    [
      { kind: 'flat-bar', width: '2', height: '1/4', wall: '1/8' },
      'wall',
      'A flat bar is solid: leave the wall out; its thickness is the height.',
    ],
    [{ kind: 'round-bar', width: '1', wall: '1/8' }, 'wall', 'A round bar is solid: leave the wall out.'],
    [
      { kind: 'square-tube', width: '2', height: '3', wall: '1/8' },
      'height',
      '2 in by 3 in is given: a square tube has equal sides',
    ],
    [
      { kind: 'round-tube', width: '2', height: '3', wall: '1/8' },
      'height',
      '2 in by 3 in is given: a round tube has one diameter.',
    ],
    [
      { kind: 'square-tube', width: '2', wall: '1/8', cornerRadius: '1 1/16' },
      'cornerRadius',
      'A corner radius of 1 1/16 in is given: possible is 0 to 1 in, half of the smaller side.',
    ],
    [
      { kind: 'square-tube', width: '2', wall: '1/8', cornerRadius: '-1/16' },
      'cornerRadius',
      'possible is 0 to 1 in',
    ],
  ])('%j is refused at its %s', (given, field, text) => {
    const result = resolveSection(given, 'in')
    if (result.ok) throw new Error('was taken')
    expect(result.problems.map((problem) => problem.field)).toEqual([field])
    expect(result.problems[0]?.text).toContain(text)
  })

  test('a wall just below half the side is taken, half the side is not', () => {
    expect(resolveSection({ kind: 'round-tube', width: 40, wall: 19.99 }, 'mm').ok).toBe(true)
    expect(resolveSection({ kind: 'round-tube', width: 40, wall: 20 }, 'mm').ok).toBe(false)
  })

  test('a wall so thick that its corners would overlap is refused by the corner', () => {
    const result = resolveSection({ kind: 'square-tube', width: 40, wall: 10.1 }, 'mm')
    expect(result).toMatchObject({
      ok: false,
      problems: [{ code: 'corner-too-large', field: 'cornerRadius' }],
    })
  })

  test('all problems are told at once, each under the field of the section', () => {
    const result = resolveSection({ kind: 'rect-tube', width: 'x', wall: '0' }, 'in', 'build.params.bar')
    if (result.ok) throw new Error('was taken')
    expect(result.problems.map(({ field }) => field)).toEqual([
      'build.params.bar.width',
      'build.params.bar.height',
      'build.params.bar.wall',
    ])
  })

  test('a sheet takes a length or a sheet gauge', () => {
    expect(resolveSheet('16 gauge', 'mm')).toEqual({ ok: true, value: 0.0598 * 25.4 })
    expect(resolveSheet('1/4', 'in')).toEqual({ ok: true, value: 6.35 })
    expect(resolveSheet('0', 'in', 'topThickness')).toMatchObject({
      ok: false,
      problems: [{ field: 'topThickness' }],
    })
  })
})

test('what is resolved once resolves to itself from its own mm', () => {
  const walls = fc.constantFrom('16 ga', '11 ga', '1/8', '3/16', '2 mm', '6.3mm', '8 mm')
  fc.assert(
    fc.property(fc.integer({ min: 64, max: 400 }), fc.integer({ min: 64, max: 400 }), walls, (w, h, wall) => {
      const section = resolved({ kind: 'rect-tube', width: w, height: h, wall }, 'in')
      expect(resolved(section, 'mm')).toEqual(section)
    }),
  )
})

test.each<[SectionGiven, 'in' | 'mm', Reading, string]>([
  [{ kind: 'square-tube', width: '2', wall: '1/8' }, 'in', inchShop, '2 × 2 × 1/8 in square tube'],
  // Gauges of tube walls: 0.065 in is 16, 0.120 in is 11 (shared/reference/gauges.json); of flat bar those of sheet.
  [
    { kind: 'square-tube', width: '1 1/2', wall: '16 ga' },
    'in',
    inchShop,
    '1 1/2 × 1 1/2 × 16 ga square tube',
  ],
  [{ kind: 'square-tube', width: '2', wall: '0.12' }, 'in', inchShop, '2 × 2 × 11 ga square tube'],
  [{ kind: 'round-tube', width: '1 1/4', wall: '16 ga' }, 'in', metricShop, '⌀ 1 1/4 in × 16 ga round tube'],
  [{ kind: 'round-tube', width: '1 1/4', wall: '3/32' }, 'in', inchShop, '⌀ 1 1/4 × 3/32 in round tube'],
  [{ kind: 'flat-bar', width: '2', height: '11 ga' }, 'in', inchShop, '2 × 11 ga flat bar'],
  // Neither a fraction nor a gauge: decimals.
  [{ kind: 'square-tube', width: '2', wall: '0.1' }, 'in', inchShop, '2 × 2 × 0.1 in square tube'],
  [
    { kind: 'rect-tube', width: 60, height: 40, wall: 3 },
    'mm',
    metricShop,
    '60 × 40 × 3 mm rectangular tube',
  ],
  // Steel keeps the name that it is sold by, whatever the shop reads.
  [{ kind: 'rect-tube', width: 60, height: 40, wall: 3 }, 'mm', inchShop, '60 × 40 × 3 mm rectangular tube'],
  [{ kind: 'square-tube', width: '2', wall: '3/16' }, 'in', metricShop, '2 × 2 × 3/16 in square tube'],
  [{ kind: 'round-tube', width: 42.4, wall: 2.5 }, 'mm', metricShop, '⌀ 42.4 × 2.5 mm round tube'],
  [{ kind: 'flat-bar', width: '2', height: '1/4' }, 'in', inchShop, '2 × 1/4 in flat bar'],
  [{ kind: 'round-bar', width: '5/8' }, 'in', inchShop, '⌀ 5/8 in round bar'],
  [{ kind: 'square-bar', width: 20, grade: 'S355' }, 'mm', metricShop, '20 × 20 mm square bar, S355'],
  [{ kind: 'square-tube', width: 127, wall: 5 }, 'mm', metricShop, '127 × 127 × 5 mm square tube'],
])('%j is called by its trade name', (given, units, reading, name) => {
  expect(sectionName(resolved(given, units), reading)).toBe(name)
})

// 0.065 in to the next sixteenth would be 1/16, which is another tube.
test.each([
  ['16 ga', inchShop, '16 ga'],
  ['1/8', metricShop, '1/8 in'],
  ['3 mm', inchShop, '3 mm'],
] as const)('a wall of %s by itself is said as it is sold', (wall, reading, said) => {
  expect(wallName(resolved({ kind: 'square-tube', width: '2', wall }, 'in').wall, reading)).toBe(said)
})

test('flats: 50 × 50 × 3 leaves 38, 60 × 40 × 3 leaves 48 and 28, round steel none', () => {
  expect(flatOf(resolved({ kind: 'square-tube', width: 50, wall: 3 }, 'mm'), 'width')).toBe(38)
  const rect = resolved({ kind: 'rect-tube', width: 60, height: 40, wall: 3 }, 'mm')
  expect([flatOf(rect, 'width'), flatOf(rect, 'height')]).toEqual([48, 28])
  expect(flatOf(resolved({ kind: 'round-tube', width: 40, wall: 3 }, 'mm'), 'width')).toBe(0)
})

test('hollow and round', () => {
  const kinds = [
    'square-tube',
    'rect-tube',
    'round-tube',
    'flat-bar',
    'angle',
    'round-bar',
    'square-bar',
  ] as const
  const of = (kind: Section['kind']): Section => ({ kind, width: 40, height: 40, wall: 3, cornerRadius: 0 })
  expect(kinds.filter((kind) => isHollow(of(kind)))).toEqual(['square-tube', 'rect-tube', 'round-tube'])
  expect(kinds.filter((kind) => isRound(of(kind)))).toEqual(['round-tube', 'round-bar'])
})

test('only a gauge-walled tube has the mass of the mechanical lists, and it is the greater one', () => {
  const gauge = resolved({ kind: 'square-tube', width: '2', wall: '11 ga' }, 'in')
  expect(massPerLength(gauge)).toBe(mechanicalMass(gauge))
  expect(massPerLength(gauge)).toBeGreaterThan(areaOf(gauge) * steelDensity * 1e-6)
  const structural = resolved({ kind: 'square-tube', width: '2', wall: '1/8' }, 'in')
  expect(massPerLength(structural)).toBe(areaOf(structural) * steelDensity * 1e-6)
  const round = resolved({ kind: 'round-tube', width: '2', wall: '11 ga' }, 'in')
  expect(massPerLength(round)).toBe(areaOf(round) * steelDensity * 1e-6)
})
