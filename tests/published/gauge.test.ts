// Gauge tables. Sheet: Machinery's Handbook, 31st ed. (2020), p. 1453, Table 20 (its 10 ga inch cell is misprinted as
// 0.1395; its own mm cell 3.416 is 0.1345 in). Tube wall: Birmingham wire gauge, as tube specifications print it.
import { describe, expect, test } from 'vitest'
import gauges from '../../shared/reference/gauges.json'
import { gaugeOfWall, gaugesOf, sheetGauge, tubeGauge } from '../../src/core/section/gauge.ts'

const inches = (mm: number | undefined) => (mm === undefined ? undefined : mm / 25.4)

test('16 ga is 0.065 in as tube wall and 0.0598 in as sheet', () => {
  expect(inches(tubeGauge(16))).toBeCloseTo(0.065, 12)
  expect(inches(sheetGauge(16))).toBeCloseTo(0.0598, 12)
})

describe('sheet', () => {
  // The handbook's own mm column, typed here a second time: a check of the inch column, within its rounding.
  const printedMm: Readonly<Record<number, number>> = {
    7: 4.554,
    8: 4.176,
    9: 3.797,
    10: 3.416,
    11: 3.038,
    12: 2.657,
    13: 2.278,
    14: 1.897,
    16: 1.519,
    18: 1.214,
    20: 0.912,
    22: 0.759,
  }
  test.each(Object.entries(printedMm))('%s ga is %d mm', (number, mm) => {
    expect(Math.abs((sheetGauge(Number(number)) ?? 0) - mm)).toBeLessThanOrEqual(0.0006)
  })
  test('each number in the table has a printed mm', () => {
    expect(gaugesOf('sheet')).toEqual(Object.keys(printedMm).map(Number))
  })
  // 41.82 lb/ft² to the inch is how the gauge was made: by weight (looked up, source in the table).
  test.each(Object.entries(gauges.msg_lb_per_ft2.values))('%s ga weighs %d lb/ft²', (number, pounds) => {
    expect(Math.abs((inches(sheetGauge(Number(number))) ?? 0) * 41.82 - pounds)).toBeLessThan(0.005)
  })
})

describe('tube wall', () => {
  // BWG 16, 14, 12, 11, 10, 7, 4: a printed tube specification. 22, 20, 18: an ASTM A513 tolerance table.
  test.each([
    [22, 0.028],
    [20, 0.035],
    [18, 0.049],
    [16, 0.065],
    [14, 0.083],
    [12, 0.109],
    [11, 0.12],
    [10, 0.134],
    [7, 0.18],
    [4, 0.238],
  ])('%d ga is %d in', (number, wall) => expect(inches(tubeGauge(number))).toBeCloseTo(wall, 12))

  test('a wall of a gauge is known again; fractions and metric walls are none', () => {
    for (const number of gaugesOf('tube')) expect(gaugeOfWall(tubeGauge(number) ?? 0)).toBe(number)
    const fractions = [1, 2, 3, 4, 5, 6, 8, 10, 12, 16].map((sixteenths) => (sixteenths / 32) * 25.4)
    const metric = [
      1, 1.2, 1.25, 1.5, 1.6, 2, 2.3, 2.5, 2.6, 2.9, 3, 3.2, 3.6, 4, 4.5, 5, 5.6, 6, 6.3, 7.1, 8, 10, 12.5,
    ]
    for (const wall of [...fractions, ...metric]) expect(gaugeOfWall(wall)).toBeUndefined()
  })
})

test('no number is thicker than the one before it, and a number out of the table is none', () => {
  for (const [product, of] of [
    ['tube', tubeGauge],
    ['sheet', sheetGauge],
  ] as const) {
    const walls = gaugesOf(product).map((number) => of(number) ?? 0)
    expect(walls).toEqual([...walls].sort((a, b) => b - a))
    expect(of(99)).toBeUndefined()
  }
})
