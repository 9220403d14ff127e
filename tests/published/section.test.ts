// Masses and areas against printed tables, and each against a cross-section that is drawn and measured here.
// The tables, with the source and the standing of each row, are the JSON files of shared/reference.
import { describe, expect, test } from 'vitest'
import bars from '../../shared/reference/bars.json'
import materials from '../../shared/reference/materials.json'
import metric from '../../shared/reference/sections_metric.json'
import us from '../../shared/reference/sections_us.json'
import sources from '../../shared/reference/sources.json'
import type { SectionGiven } from '../../src/core/job.ts'
import { resolveSection } from '../../src/core/section/given.ts'
import {
  areaOf,
  massPerLength,
  mechanicalMass,
  sharpArea,
  steelDensity,
} from '../../src/core/section/mass.ts'
import type { Section } from '../../src/core/section/section.ts'

/** 1 lb/ft in kg/m: 0.45359237 kg over 0.3048 m, both exact (1959 agreement). */
const poundPerFoot = 0.45359237 / 0.3048

function resolved(given: SectionGiven, units: 'in' | 'mm'): Section {
  const result = resolveSection(given, units)
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join(' '))
  return result.value
}

type Point = readonly [number, number]

/** Area of a polygon by the trapezoids under its sides. */
const enclosed = (outline: readonly Point[]): number =>
  Math.abs(
    outline.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = outline[(at + 1) % outline.length] as Point
      return sum + ((nextX - x) * (nextY + y)) / 2
    }, 0),
  )

/** A rectangle with rounded corners, each an arc of 500 chords. */
function rounded(width: number, height: number, radius: number): Point[] {
  const chords = 500
  const corners = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const
  return corners.flatMap(([right, up], corner) =>
    Array.from({ length: chords + 1 }, (_, at): Point => {
      const turn = ((corner + at / chords) * Math.PI) / 2
      return [
        right * (width / 2 - radius) + radius * Math.cos(turn),
        up * (height / 2 - radius) + radius * Math.sin(turn),
      ]
    }),
  )
}

/** Steel between two outlines, drawn without a look at the formulas. */
function drawnArea({ kind, width, height, wall, cornerRadius }: Section): number {
  const radius = kind.startsWith('round') ? width / 2 : cornerRadius
  if (kind === 'angle')
    return enclosed([
      [0, 0],
      [width, 0],
      [width, wall],
      [wall, wall],
      [wall, height],
      [0, height],
    ])
  const outside = enclosed(rounded(width, height, radius))
  if (wall === 0) return outside
  return outside - enclosed(rounded(width - 2 * wall, height - 2 * wall, Math.max(0, radius - wall)))
}

/** Chords of 500 to a quarter lose 4e-7 of a circle's area. */
const agreesWithDrawing = (section: Section) =>
  expect(Math.abs(areaOf(section) / drawnArea(section) - 1)).toBeLessThan(2e-6)

/** Half a unit of the last digit of a figure printed to three digits, at the least of two decimals. */
const lastDigit = (printed: number): number => 0.5 * 10 ** Math.max(Math.floor(Math.log10(printed)) - 2, -2)

test('each row names a source that is written out, and how it stands', () => {
  for (const { source, status } of [...metric, ...us]) {
    for (const code of source.replace(/ \(.*/, '').split(' + ')) expect(sources.sources).toHaveProperty(code)
    expect(status).toMatch(/^(looked_up|memory)/)
  }
})

test('7850 kg/m³ is the printed density of carbon steel, and of 490 lb/ft³ within 0.02 %', () => {
  const carbon = materials.find(({ mat }) => mat === 'carbon steel')
  expect(steelDensity).toBe(carbon?.kg_m3)
  expect(Math.abs((490 * 0.45359237) / 0.3048 ** 3 / steelDensity - 1)).toBeLessThan(2e-4)
})

describe('EN 10219-2 cold-formed tube, as printed', () => {
  test('there are 15 square, 6 rectangular and 8 round ones', () => {
    const count = (shape: string) => metric.filter((row) => row.shape === shape).length
    expect([count('SHS'), count('RHS'), count('CHS')]).toEqual([15, 6, 8])
  })

  test.each(
    metric.map((row) => [row.D ? `⌀ ${row.D} × ${row.T}` : `${row.H} × ${row.B} × ${row.T}`, row] as const),
  )('%s mm', (_, row) => {
    const given: SectionGiven = row.D
      ? { kind: 'round-tube', width: row.D, wall: row.T }
      : { kind: 'rect-tube', width: row.B ?? 0, height: row.H ?? 0, wall: row.T }
    const section = resolved(given, 'mm')
    expect(Math.abs(massPerLength(section) - row.kg_m)).toBeLessThanOrEqual(0.005 + 1e-9)
    expect(Math.abs(areaOf(section) / 100 - row.A_cm2)).toBeLessThanOrEqual(lastDigit(row.A_cm2) + 1e-9)
    agreesWithDrawing(section)
  })

  test('60 × 40 × 3 and 50 × 50 × 3 are 4.25 kg/m; 50 × 50 × 3 with the corners of another rule is not', () => {
    const mass = (given: SectionGiven) => massPerLength(resolved(given, 'mm')).toFixed(2)
    expect(mass({ kind: 'rect-tube', width: 60, height: 40, wall: 3 })).toBe('4.25')
    expect(mass({ kind: 'square-tube', width: 50, wall: 3 })).toBe('4.25')
    expect(mass({ kind: 'square-tube', width: 50, wall: 3, cornerRadius: 0 })).toBe('4.43')
  })
})

describe('AISC square and rectangular tube: nominal wall, R = 2t, 490 lb/ft³', () => {
  const rows = us.filter(({ family }) => family === 'HSS A500')
  test('there are 15', () => expect(rows).toHaveLength(15))
  test.each(rows.map((row) => [`${row.H} × ${row.B} × ${row.t_nom}`, row] as const))('%s in', (_, row) => {
    const size = { kind: 'rect-tube', width: `${row.B}`, height: `${row.H}` } as const
    const nominal = resolved({ ...size, wall: `${row.t_nom}` }, 'in')
    // 7850 kg/m³ is 0.013 % more than the 490 lb/ft³ of the table.
    expect(Math.abs(massPerLength(nominal) / poundPerFoot - row.lb_ft)).toBeLessThanOrEqual(
      0.005 + 2e-4 * row.lb_ft,
    )
    agreesWithDrawing(nominal)
    // The table's area is that of the design wall, 0.93 of the nominal one (ASTM A500).
    const design = resolved({ ...size, wall: `${row.t_des}` }, 'in')
    expect(Math.abs(areaOf(design) / 25.4 ** 2 - (row.A_in2 ?? 0))).toBeLessThanOrEqual(
      (row.A_in2 ?? 0) < 0.7 ? 0.0005 + 1e-9 : 0.005 + 1e-9,
    )
  })
})

describe('mechanical rectangular tube: sharp corners, 3.4 lb/ft per square inch', () => {
  const rows = us.filter(({ family }) => family.startsWith('mechanical'))
  test('there are 6', () => expect(rows).toHaveLength(6))
  test.each(rows.map((row) => [`${row.H} × ${row.B} × ${row.t}`, row] as const))('%s in', (_, row) => {
    const given = { kind: 'rect-tube', width: `${row.B}`, height: `${row.H}`, wall: `${row.t}` } as const
    const section = resolved(given, 'in')
    expect(Math.abs(sharpArea(section) / 25.4 ** 2 - (row.A_in2 ?? 0))).toBeLessThanOrEqual(0.00006)
    expect(Math.abs(massPerLength(section) / poundPerFoot - row.lb_ft)).toBeLessThanOrEqual(0.00006)
    expect(massPerLength(section)).toBe(mechanicalMass(section))
    agreesWithDrawing(section)
    expect(sharpArea(section)).toBeCloseTo(drawnArea({ ...section, cornerRadius: 0 }), 6)
  })
  test('1 × 2 of 16 ga is the same tube as of 0.065 in: 1.2685 lb/ft', () => {
    const section = resolved({ kind: 'rect-tube', width: '1', height: '2', wall: '16 ga' }, 'in')
    expect((massPerLength(section) / poundPerFoot).toFixed(3)).toBe('1.269')
  })
})

describe('a commercial square tube list, its rounding unknown: within 0.01 lb/ft and 0.1 %', () => {
  const rows = us.filter(({ family }) => family.startsWith('commercial'))
  test('there are 11', () => expect(rows).toHaveLength(11))
  test.each(rows.map((row) => [`${row.H} × ${row.t}`, row] as const))('%s in', (_, row) => {
    const section = resolved({ kind: 'square-tube', width: `${row.H}`, wall: `${row.t}` }, 'in')
    expect(Math.abs(massPerLength(section) / poundPerFoot - row.lb_ft)).toBeLessThanOrEqual(
      0.01 + 1e-3 * row.lb_ft,
    )
    agreesWithDrawing(section)
  })
})

describe('bars', () => {
  // The three published rules: lb/ft = 3.4 w t and 2.67 d², kg/m = 0.00785 b t and 0.006165 d².
  test.each(bars.flat.map((row) => [`${row.w} × ${row.t}`, row] as const))('flat %s in', (_, row) => {
    const section = resolved({ kind: 'flat-bar', width: `${row.w}`, height: `${row.t}` }, 'in')
    expect(Math.abs(massPerLength(section) - row.kg_m)).toBeLessThanOrEqual(0.0005 + 2e-4 * row.kg_m)
    expect(Math.abs(massPerLength(section) / poundPerFoot / row.lb_ft_3_4 - 1)).toBeLessThan(0.002)
    agreesWithDrawing(section)
  })
  test.each(bars.flat_metric.map((row) => [`${row.b} × ${row.t}`, row] as const))('flat %s mm', (_, row) => {
    const section = resolved({ kind: 'flat-bar', width: row.b, height: row.t }, 'mm')
    expect(Math.abs(massPerLength(section) - row.kg_m)).toBeLessThanOrEqual(0.0006)
    agreesWithDrawing(section)
  })
  test.each(bars.round_metric.map((row) => [row.d, row.kg_m] as const))('round %d mm: %d kg/m', (d, mass) => {
    const section = resolved({ kind: 'round-bar', width: d }, 'mm')
    expect(Math.abs(massPerLength(section) - mass)).toBeLessThanOrEqual(0.0006)
    agreesWithDrawing(section)
  })
  // From memory: 1/2 in round 0.668, 3/8 in round 0.376, 1 in round 2.67, 1 in square 3.4, 1/4 × 2 flat 1.70 lb/ft.
  test.each<[SectionGiven, number]>([
    [{ kind: 'round-bar', width: '1/2' }, 0.668],
    [{ kind: 'round-bar', width: '3/8' }, 0.376],
    [{ kind: 'round-bar', width: '1' }, 2.67],
    [{ kind: 'square-bar', width: '1' }, 3.4],
    [{ kind: 'flat-bar', width: '2', height: '1/4' }, 1.7],
  ])('%j: %d lb/ft', (given, pounds) => {
    const section = resolved(given, 'in')
    expect(Math.abs(massPerLength(section) / poundPerFoot / pounds - 1)).toBeLessThan(0.002)
    agreesWithDrawing(section)
  })
  test('an angle of 50 × 30 × 4 has 304 mm², its root and toes taken as sharp', () => {
    const section = resolved({ kind: 'angle', width: 50, height: 30, wall: 4 }, 'mm')
    expect(areaOf(section)).toBe(304)
    agreesWithDrawing(section)
  })
})
