import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseAngle, parseCount, parseLength, resolveLength } from '../../../src/core/reading/parse.ts'
import type { Result } from '../../../src/core/result.ts'

const value = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join(' '))
  return result.value
}
const refusal = (result: Result<unknown>): string =>
  result.ok ? `read as ${JSON.stringify(result.value)}` : result.problems.map(({ text }) => text).join(' ')

describe('a length typed in an inch shop', () => {
  test.each<[string, number]>([
    ['9 5/8', 9.625],
    ['9-5/8', 9.625],
    ['9 - 5/8', 8.375],
    ['9.625', 9.625],
    ['.5', 0.5],
    ['9.', 9],
    ['9.625"', 9.625],
    ['9 5/8"', 9.625],
    ['9-5/8″', 9.625],
    ['9 5/8 in', 9.625],
    ['9 5/8 in.', 9.625],
    ['9 5/8 INCHES', 9.625],
    ["9 5/8''", 9.625],
    ['9⅝', 9.625],
    ['9 ⅝”', 9.625],
    ['9-⅝', 9.625],
    ['9 5⁄8', 9.625],
    ['9 5 / 8', 9.625],
    ['5/8', 0.625],
    ['13/8', 1.625],
    ['⅞', 0.875],
    ['6\' 2 1/2"', 74.5],
    ['6\'2"', 74],
    ["6'2", 74],
    ["6' 2", 74],
    ['6\'-2 1/2"', 74.5],
    ["6'-5/8", 72.625],
    ['6′ 2½″', 74.5],
    ['6 ft 2 in', 74],
    ['6.5 feet', 78],
    ["6' - 2", 70],
    ["6' 2 - 1/2", 73.5],
    ['26-5/8', 26.625],
    ['26 - 5/8', 25.375],
    ['26 − 5/8', 25.375],
    ['26 – 5/8', 25.375],
    ['26-5', 21],
    ['26-1.5', 24.5],
    ['26-1 1/2', 24.5],
    ['26 - 2*1 1/2', 23],
    ['26 - 2 × 1-1/2', 23],
    ['26-2x1 1/2', 23],
    ['1 1/2*2', 3],
    ['2*3*4', 24],
    ['26+5/8', 26.625],
    ['1+2+3 - 1/4', 5.75],
    ['-5/8', -0.625],
    ['+3', 3],
    ['0', 0],
    ['-0', 0],
    ['  9   5/8  ', 9.625],
    ['1"+25.4mm', 2],
  ])('%j is %d in', (text, inches) => {
    const read = value(parseLength(text, 'in'))
    expect(read.mm).toBeCloseTo(inches * 25.4, 9)
    expect(read.unit).toBe('in')
    expect(Object.is(read.mm, -0)).toBe(false)
  })

  test.each<[string, number]>([
    ['175mm', 175],
    ['175 MM', 175],
    ['17.5 cm', 175],
    ['1 m', 1000],
    ['1/2 m', 500],
    ['2 1/2 mm', 2.5],
    ['2*60 mm - 3mm', 117],
  ])('%j is %d mm, meant in mm', (text, mm) => {
    const read = value(parseLength(text, 'in'))
    expect(read.mm).toBeCloseTo(mm, 9)
    expect(read.unit).toBe('mm')
  })

  test.each<[string, string]>([
    ['9 5/8', '9 5/8 in = 244.48 mm'],
    ['26 - 2*1 1/2', '23 in = 584.2 mm'],
    ['26 - 5/8', '25 3/8 in = 644.53 mm'],
    ['6.888', '6.888 in = 174.96 mm'],
    ['1/3', '0.3333 in = 8.47 mm'],
    ['175mm', '175 mm = 6.89 in'],
    ['-5/8', '−5/8 in = −15.88 mm'],
    ['0', '0 in = 0 mm'],
  ])('%j is echoed as %s', (text, understood) => {
    expect(value(parseLength(text, 'in')).understood).toBe(understood)
  })
})

describe('a length typed in a metric shop', () => {
  test.each<[string, number, 'in' | 'mm']>([
    ['175', 175, 'mm'],
    ['17,5', 17.5, 'mm'],
    ['17,5 cm', 175, 'mm'],
    [',5', 0.5, 'mm'],
    ['0,125', 0.125, 'mm'],
    ['1250,125', 1250.125, 'mm'],
    ['700 - 2*40', 620, 'mm'],
    ['700-40', 660, 'mm'],
    ['9 5/8', 244.475, 'in'],
    ['9-5/8', 244.475, 'in'],
    ['-5/8', -15.875, 'in'],
    ['½', 12.7, 'in'],
    ['700 - 1/2"', 687.3, 'in'],
    ['1/2 * 300mm', 150, 'mm'],
    ['1 1/2 in + 1/2 in', 50.8, 'in'],
    ["6'", 1828.8, 'in'],
  ])('%j is %d mm', (text, mm, unit) => {
    const read = value(parseLength(text, 'mm'))
    expect(read.mm).toBeCloseTo(mm, 9)
    expect(read.unit).toBe(unit)
  })

  test.each<[string, string]>([
    ['700 - 1/2', '“1/2” at column 7: say its unit: 1/2 in, or 1/2 mm.'],
    ['26 - 2*1 1/2', '“1 1/2” at column 8: say its unit: 1 1/2 in, or 1 1/2 mm.'],
    ['1/2 + 1/4', '“1/2” at column 1: say its unit'],
    ['2*1/2', '“1/2” at column 3: say its unit'],
    ['1 1/2 3', '“3” at column 7: not understood after “1/2”'],
    ['1,200', '“1,200” at column 1: this could be 1.200 or 1200: write it without the comma.'],
    ['1.200,5', '“,5” at column 6: not understood after “1.200”'],
  ])('%j is refused', (text, why) => {
    expect(refusal(parseLength(text, 'mm'))).toContain(why)
  })
})

describe('what no length is', () => {
  test.each<[string, string]>([
    ['', 'Nothing is typed here. Give a length such as 9 5/8.'],
    ['   ', 'Nothing is typed here.'],
    ['7/0', '“7/0” at column 1: a fraction cannot have 0 below.'],
    ['9 7/0', '“7/0” at column 3: a fraction cannot have 0 below.'],
    ['1 1/2 3', '“3” at column 7: not understood after “1/2”: + − or * is needed between lengths.'],
    ['1 2', '“2” at column 3: not understood after “1”'],
    ['1/2 1/4', '“1/4” at column 5: not understood after “1/2”'],
    ['1 3/2', '“3/2” at column 3: a fraction behind a whole number must be less than 1.'],
    ['9-8/8', '“8/8” at column 3: a fraction behind a whole number must be less than 1.'],
    ['NaN', '“NaN” at column 1: not understood here.'],
    ['Infinity', '“Infinity” at column 1: not understood here.'],
    ['1e3', '“e” at column 2: not understood here.'],
    ['abc', '“abc” at column 1: not understood here.'],
    ['9 5/8 yd', '“yd” at column 7: not understood here.'],
    ['in', '“in” at column 1: a number is needed here.'],
    ['"', '“"” at column 1: a number is needed here.'],
    ['-', 'A number is missing after -, at the end.'],
    ['26 -', 'A number is missing after -, at the end.'],
    ['26 - 2*', 'A number is missing after *, at the end.'],
    ['26 + + 1', '“+” at column 6: a number is needed here.'],
    ['*3', '“*” at column 1: a number is needed here.'],
    ['26 -5/8', '“-” at column 4: to subtract, put a space on both sides of the minus'],
    ['26- 5/8', '“-” at column 3: to subtract, put a space on both sides of the minus'],
    ['26 -5', '“-” at column 4: to subtract'],
    ['9.5-1/8', '“1/8” at column 5: a fraction cannot follow 9.5'],
    ['9.5 1/8', '“1/8” at column 5: a fraction cannot follow 9.5'],
    ['26"-5/8"', '“-” at column 4: to subtract'],
    ['1/2-1/4', '“-” at column 4: to subtract'],
    ['5//8', '“/” at column 2: a fraction is one whole number over another, as in 5/8.'],
    ['5/8/2', '“/” at column 2: a fraction is one whole number over another'],
    ['5.5/8', '“/” at column 4: a fraction is one whole number over another'],
    ['5/8.5', '“/” at column 2: a fraction is one whole number over another'],
    ['1.2.3', '“.3” at column 4: not understood after “1.2”'],
    ['2"*3"', '“3"” at column 4: two lengths multiplied are no length'],
    ['(2+3)', '“(” at column 1: sums are read without brackets.'],
    ['30°', '“°” at column 3: a length is needed here, not an angle.'],
    ["6' 2mm", '“mm” at column 5: inches are needed behind feet.'],
    ['17,5', '“17,5” at column 1: write 17.5 with a point, or 175 without the comma.'],
    ['1,200', '“1,200” at column 1: write 1.200 with a point, or 1200 without the comma.'],
    [`${'9'.repeat(400)}`, 'this number is too long.'],
    [`${'9'.repeat(300)}*${'9'.repeat(300)}`, 'is too long a length.'],
    [`1/${'9'.repeat(400)} + ${'9'.repeat(400)}/3`, 'this number is too long.'],
  ])('%j is refused in an inch shop', (text, why) => {
    expect(refusal(parseLength(text, 'in'))).toContain(why)
  })

  test('anything at all is read as a finite length or refused with words', () => {
    const letter = fc.constantFrom(...'0123456789 /.,-+*x\'"′″½⅝°mcinft()e')
    fc.assert(
      fc.property(
        fc.string({ unit: letter, maxLength: 14 }),
        fc.constantFrom('in' as const, 'mm' as const),
        (text, units) => {
          const read = parseLength(text, units)
          if (read.ok) expect(Number.isFinite(read.value.mm)).toBe(true)
          else expect(read.problems[0]?.text).toMatch(/column \d|typed|missing|long/)
        },
      ),
      { numRuns: 3000 },
    )
  })

  test('a mixed number without spaces is never a difference, for every 1/64 up to 100 in', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 63 }), (whole, above) => {
        const joined = value(parseLength(`${whole}-${above}/64`, 'in')).mm
        const apart = value(parseLength(`${whole} - ${above}/64`, 'in')).mm
        expect(joined).toBeCloseTo((whole + above / 64) * 25.4, 9)
        expect(apart).toBeCloseTo((whole - above / 64) * 25.4, 9)
      }),
    )
  })
})

describe('a length of a document', () => {
  test('a number is mm, in an inch job too', () => expect(value(resolveLength(40, 'in'))).toBe(40))
  test('a text is as typed', () => expect(value(resolveLength('1 1/2', 'in'))).toBeCloseTo(38.1, 9))
  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%d is refused, with its field', (given) => {
    const read = resolveLength(given, 'mm', 'build.params.size')
    expect(read).toMatchObject({ ok: false, problems: [{ field: 'build.params.size' }] })
  })
  test('a text that is refused names the field', () => {
    expect(resolveLength('7/0', 'in', 'size')).toMatchObject({ ok: false, problems: [{ field: 'size' }] })
  })
})

describe('an angle', () => {
  test.each<[string, number]>([
    ['22.5', 22.5],
    ['22,5', 22.5],
    ['22½', 22.5],
    ['22 1/2°', 22.5],
    ['22-1/2 deg', 22.5],
    ['180/7', 180 / 7],
    ['-30', -30],
    ['−30°', -30],
    ['0', 0],
    ['-0', 0],
    ['45 degrees', 45],
  ])('%j is %d', (text, deg) => expect(value(parseAngle(text))).toBe(deg))

  test.each<[string, string]>([
    ['', 'Give an angle such as 22.5.'],
    ['22.5 mm', 'an angle is in degrees.'],
    ["22'", 'an angle is in degrees.'],
    ['22 - 1/2', '“-” at column 4: not understood after 22'],
    ['22 30', '“30” at column 4: not understood after 22'],
    ['22/0', 'a fraction cannot have 0 below.'],
    ['NaN', 'not understood here.'],
    ['-', 'A number is missing after the minus, at the end.'],
    ['°', 'a number is needed here.'],
  ])('%j is refused', (text, why) => expect(refusal(parseAngle(text))).toContain(why))
})

describe('a count', () => {
  test.each<[string, number]>([
    ['6', 6],
    [' 12 ', 12],
    ['0', 0],
  ])('%j is %d', (text, count) => expect(value(parseCount(text))).toBe(count))
  test.each(['2.5', '2,5', '-3', '1e3', 'NaN', 'six', '1/2', '9'.repeat(20)])('%j is refused', (text) => {
    expect(refusal(parseCount(text))).toBe(`“${text}” is not a count: a whole number such as 6 is needed.`)
  })
  test('nothing typed is refused', () => expect(refusal(parseCount(' '))).toContain('Nothing is typed here.'))
})
