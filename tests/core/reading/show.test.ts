import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseAngle, parseLength } from '../../../src/core/reading/parse.ts'
import { decimals, fixed, nearest } from '../../../src/core/reading/round.ts'
import {
  fractionOf,
  readingStep,
  roundLength,
  say,
  sayMeasure,
  showAngle,
  showLength,
  showMass,
} from '../../../src/core/reading/show.ts'
import type { Reading } from '../../../src/core/shop.ts'

const inches = (denominator: 8 | 16 | 32 | 64): Reading => ({ kind: 'inch-fraction', denominator })
const places = (count: 2 | 3): Reading => ({ kind: 'inch-decimal', places: count })
const metric = (step: 1 | 0.5 | 0.1): Reading => ({ kind: 'mm', step })
const readings: readonly Reading[] = [
  ...([8, 16, 32, 64] as const).map(inches),
  ...([2, 3] as const).map(places),
  ...([1, 0.5, 0.1] as const).map(metric),
]

describe('a length as the shop reads it', () => {
  test.each<[number, Reading, string, string?]>([
    // Octagon of 18 in across corners: side 18 sin 22.5° = 6.8883 in. 6 7/8 is common practice.
    [18 * Math.sin(Math.PI / 8), inches(8), '6 7/8', '6 7/8 in strong (+1/64)'],
    [18 * Math.sin(Math.PI / 8), inches(16), '6 7/8', '6 7/8 in strong (+1/64)'],
    [18 * Math.sin(Math.PI / 8), inches(64), '6 57/64', '6 57/64 in'],
    [18 * Math.sin(Math.PI / 8), places(2), '6.89', '6.89 in'],
    [18 * Math.sin(Math.PI / 8), places(3), '6.888', '6.888 in'],
    [13.8564, inches(8), '13 7/8', '13 7/8 in scant (−1/64)'],
    [14.9117, inches(8), '14 7/8', '14 7/8 in strong (+1/32)'],
    [14.9117, inches(16), '14 15/16', '14 15/16 in scant (−1/32)'],
    [0.625, inches(16), '5/8', '5/8 in'],
    [0, inches(16), '0', '0 in'],
    [0.02, inches(8), '0', '0 in strong (+1/64)'],
    [6.5, inches(64), '6 1/2', '6 1/2 in'],
    [6.99, inches(8), '7', '7 in scant (−1/64)'],
    [-0.625, inches(8), '−5/8', '−5/8 in'],
    [-2.25, inches(8), '−2 1/4', '−2 1/4 in'],
    [6.5, places(3), '6.500', '6.500 in'],
  ])('%d in reads %s', (length, reading, text, said) => {
    const shown = showLength(length * 25.4, reading)
    expect(shown.text).toBe(text)
    expect(shown.unit).toBe('in')
    expect(sayMeasure(shown)).toBe(said)
  })

  test.each<[number, Reading, string, string]>([
    // Hexagon of 700 mm across flats: side 700 tan 30° = 404.145 mm.
    [700 * Math.tan(Math.PI / 6), metric(1), '404', '404 mm strong (+0.1)'],
    [700 * Math.tan(Math.PI / 6), metric(0.5), '404.0', '404.0 mm strong (+0.1)'],
    [700 * Math.tan(Math.PI / 6), metric(0.1), '404.1', '404.1 mm'],
    [380.906, metric(1), '381', '381 mm'],
    [380.75, metric(1), '381', '381 mm scant (−0.3)'],
    [380.74, metric(0.5), '380.5', '380.5 mm strong (+0.2)'],
    [174.6, metric(0.1), '174.6', '174.6 mm'],
    [-3.2, metric(1), '−3', '−3 mm scant (−0.2)'],
  ])('%d mm reads %s', (length, reading, text, said) => {
    const shown = showLength(length, reading)
    expect(shown.text).toBe(text)
    expect(shown.unit).toBe('mm')
    expect(sayMeasure(shown)).toBe(said)
  })

  test('strong from 1/128 in, not below; from 0.1 mm, not at 0.09', () => {
    expect(showLength((1 + 1 / 128) * 25.4, inches(16)).lies).toBe('strong')
    expect(showLength((1 + 1 / 129) * 25.4, inches(16)).lies).toBeUndefined()
    expect(showLength((1 - 1 / 128) * 25.4, inches(16)).lies).toBe('scant')
    expect(showLength(100.1, metric(1)).lies).toBe('strong')
    expect(showLength(100.09, metric(1)).lies).toBeUndefined()
    expect(showLength(99.9, metric(1)).lies).toBe('scant')
  })

  test('a tie goes away from zero, typed as 9 9/16 at 1/8, as 404.5 at 1 mm, as 244.475 at 2 decimals', () => {
    expect(say(9.5625 * 25.4, inches(8))).toBe('9 5/8 in')
    expect(say(-9.5625 * 25.4, inches(8))).toBe('−9 5/8 in')
    expect(say(404.5, metric(1))).toBe('405 mm')
    expect(say(-404.5, metric(1))).toBe('−405 mm')
    expect(decimals(9.625 * 25.4, 2)).toBe('244.48')
    expect(fixed(1.005, 2)).toBe('1.01')
    expect(nearest(-0.4)).toBe(0)
    expect(Object.is(nearest(-0.4), 0)).toBe(true)
  })

  test('the rounded mm is exactly what the text says, and reading the text gives it back, for every reading', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20_000, max: 20_000, noNaN: true }),
        fc.constantFrom(...readings),
        (mm, reading) => {
          const shown = showLength(mm, reading)
          const read = parseLength(`${shown.text} ${shown.unit}`, 'mm')
          if (!read.ok) throw new Error(read.problems[0]?.text)
          expect(read.value.mm).toBeCloseTo(shown.mm, 9)
          expect(shown.mm).toBe(roundLength(mm, reading))
          expect(Math.abs(read.value.mm - mm)).toBeLessThanOrEqual(readingStep(reading) / 2 + 1e-6)
          expect(roundLength(shown.mm, reading)).toBe(shown.mm)
        },
      ),
      { numRuns: 2000 },
    )
  })

  test('text and remainder together come within 1/128 in or 0.05 mm of the length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20_000, noNaN: true }),
        fc.constantFrom(...readings),
        (mm, reading) => {
          const { mm: rounded, unit, lies, remainder } = showLength(mm, reading)
          expect(remainder === undefined).toBe(lies === undefined)
          if (remainder === undefined) {
            const unseen = unit === 'in' ? 25.4 / 128 : 0.1
            expect(Math.abs(mm - rounded)).toBeLessThanOrEqual(unseen + 1e-6)
            return
          }
          const rest = parseLength(`${remainder} ${unit}`, unit)
          if (!rest.ok) throw new Error(rest.problems[0]?.text)
          expect(rest.value.mm > 0).toBe(lies === 'strong')
          const fine = unit === 'in' ? 25.4 / 128 : 0.05
          expect(Math.abs(rounded + rest.value.mm - mm)).toBeLessThanOrEqual(fine + 1e-6)
        },
      ),
      { numRuns: 2000 },
    )
  })
})

describe('an angle as a saw scale shows it', () => {
  test.each<[number, Reading, string, number, string?]>([
    [30, inches(16), '30°', 30],
    [22.5, inches(16), '22½°', 22.5],
    [67.5, inches(16), '67½°', 67.5],
    [11.25, inches(16), '11¼°', 11.25],
    [78.75, inches(16), '78¾°', 78.75],
    [0.5, inches(16), '½°', 0.5],
    [0, inches(16), '0°', 0],
    [-22.5, inches(16), '−22½°', -22.5],
    [-0.25, inches(16), '−¼°', -0.25],
    [11.9, inches(16), '11.9°', 11.9],
    [180 / 7, inches(16), '25.7°', 25.7, '5.779 in 12 in'],
    [180 / 7, metric(1), '25.7°', 25.7, '48.16 in 100 mm'],
    [-180 / 7, inches(16), '−25.7°', -25.7, '−5.779 in 12 in'],
    [180 / 11, places(2), '16.4°', 16.4, '3.524 in 12 in'],
    [360 / 16, metric(1), '22½°', 22.5],
    [29.96, inches(16), '30.0°', 30, '6.917 in 12 in'],
  ])('%d reads %s', (deg, reading, text, read, rise) => {
    expect(showAngle(deg, reading)).toEqual(rise ? { deg: read, text, rise } : { deg: read, text })
  })

  test('what is read back lies within 0.05°, and every rise leads back to the angle within 0.005°', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -85, max: 85, noNaN: true }),
        fc.constantFrom(...readings),
        (deg, reading) => {
          const shown = showAngle(deg, reading)
          const read = parseAngle(shown.text)
          if (!read.ok) throw new Error(read.problems[0]?.text)
          expect(read.value).toBeCloseTo(shown.deg, 9)
          expect(Math.abs(read.value - deg)).toBeLessThanOrEqual(0.05 + 1e-9)
          if (shown.rise === undefined) {
            expect(read.value).toBeCloseTo(deg, 8)
            return
          }
          const [rise = '', , run = ''] = shown.rise.replace('−', '-').split(' ')
          expect(Math.abs((Math.atan2(Number(rise), Number(run)) * 180) / Math.PI - deg)).toBeLessThan(0.005)
        },
      ),
      { numRuns: 1000 },
    )
  })
})

test.each<[number, 'lb' | 'kg', string]>([
  [4.25, 'kg', '4.25 kg'],
  [9.996, 'kg', '10.0 kg'],
  [24.54, 'kg', '24.5 kg'],
  [128.4, 'kg', '128 kg'],
  [0.45359237 * 3.05, 'lb', '3.05 lb'],
  [0.45359237 * 120, 'lb', '120 lb'],
])('%d kg in %s is %s', (kg, unit, text) => expect(showMass(kg, unit)).toBe(text))

test.each<[string, string, string, string]>([
  ['6 7/8', '6', '7', '8'],
  ['5/8', '', '5', '8'],
  ['−5/8', '−', '5', '8'],
  ['−2 1/4', '−2', '1', '4'],
  ['+1/64', '+', '1', '64'],
  ['404', '404', '', ''],
  ['174.6', '174.6', '', ''],
])('%s is set as %j over %j', (text, whole, numerator, denominator) => {
  expect(fractionOf(text)).toEqual({ whole, numerator, denominator })
})
