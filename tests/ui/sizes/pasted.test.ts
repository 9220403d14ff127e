import { describe, expect, test } from 'vitest'
import { cutList } from '../../../src/core/builds/cut-list.ts'
import { lookAtPasted } from '../../../src/ui/sizes/pasted.ts'
import { readPasted } from './pasted-rows.ts'

const columns = cutList.params.find(({ name }) => name === 'rows')!.columns!
const read = (text: string, units: 'in' | 'mm' = 'in') => readPasted(text, columns, units)

describe('a pasted CSV as RFC 4180 has it', () => {
  test('cells in quotes: two quotes are one, separators within are part of the cell', () => {
    expect(read(`2,"24""",45,0\r\n1,"6' 2 1/2""",0,0\r\n`)).toMatchObject({
      ok: true,
      value: [{ count: 2, length: '24"', a: 45 }, { length: `6' 2 1/2"` }],
    })
    expect(read('2,"404,5",0,0', 'mm')).toMatchObject({ ok: true, value: [{ length: '404,5' }] })
  })
  test('an inch mark that opens no cell stays one', () => {
    expect(read('2,24",45,0')).toMatchObject({ ok: true, value: [{ length: '24"', a: 45 }] })
    expect(read('2,24",0,0\n1,"24,0,0')).toMatchObject({
      ok: false,
      problems: [{ text: expect.stringContaining('Line 2') }],
    })
  })
  test('2000 rows are read, 2001 refused, and half a million letters are the most', () => {
    expect(read('1,24\n'.repeat(2000))).toMatchObject({ ok: true })
    expect(read('1,24\n'.repeat(2001))).toMatchObject({ ok: false, problems: [{ code: 'paste-rows' }] })
    expect(read('"'.repeat(500_001))).toMatchObject({ ok: false, problems: [{ code: 'paste-long' }] })
  })
})

describe('a pasted list', () => {
  test('of a spreadsheet, cells apart by tabs, with a head', () => {
    expect(read('Count\tLength\tA\tB\n6\t13 7/8\t30\t30\n2\t24"\t0\t45\n')).toEqual({
      ok: true,
      value: [
        { count: 6, length: '13 7/8', a: 30, b: 30 },
        { count: 2, length: '24"', a: 0, b: 45 },
      ],
    })
  })
  test('apart by commas; left-out angles are square, a left-out count is one', () => {
    expect(read('4, 9-5/8\n, 12')).toEqual({
      ok: true,
      value: [
        { count: 4, length: '9-5/8', a: 0, b: 0 },
        { count: 1, length: '12', a: 0, b: 0 },
      ],
    })
  })
  test('apart by semicolons keeps a decimal comma: 404,5 mm', () => {
    expect(read('15;404,5;30;30', 'mm')).toEqual({
      ok: true,
      value: [{ count: 15, length: '404,5', a: 30, b: 30 }],
    })
  })
  test('a half degree may be typed as 22½', () => {
    expect(read('8\t6 7/8\t22½\t22 1/2')).toMatchObject({ ok: true, value: [{ a: 22.5, b: 22.5 }] })
  })
  test('which way the miter stands may be said in words', () => {
    expect(read('1,24,45,45,,the lesser side')).toMatchObject({ ok: true, value: [{ stands: 'on edge' }] })
  })
  test('a section of its own stands behind the angles; left out, it is that of the list', () => {
    expect(read('2\t24\t0\t0\t1 1/2 x 1 1/2 x 16 ga\n1\t48')).toEqual({
      ok: true,
      value: [
        {
          count: 2,
          length: '24',
          a: 0,
          b: 0,
          section: { kind: 'square-tube', width: '1 1/2', height: '1 1/2', wall: '16 ga' },
        },
        { count: 1, length: '48', a: 0, b: 0 },
      ],
    })
  })
  test('a section that cannot be is said with its line', () =>
    expect(read('1,24,0,0,2x2x1')).toMatchObject({
      ok: false,
      problems: [{ text: expect.stringMatching(/^Line 1, .*section.*: A wall of 1 in .* less than half/) }],
    }))
  test('nothing is taken when one line is wrong; every wrong cell is named with its line', () => {
    const result = read('6\t13 7/8\t30\t30\n2.5\t7/0\t30\t30')
    expect(result.ok).toBe(false)
    if (result.ok) return
    expect(result.problems.map(({ text }) => text.split(':')[0])).toEqual(['Line 2, count', 'Line 2, length'])
  })
  test.each(['', '\n \n', 'count,length'])('%j holds no row', (text) =>
    expect(read(text)).toMatchObject({ ok: false, problems: [{ code: 'paste-empty' }] }),
  )
  test('too many cells are said, with what is possible', () =>
    expect(read('1,24,0,0,2x1x1/8,flat,7')).toMatchObject({
      ok: false,
      problems: [{ text: expect.stringContaining('Line 1 has 7 cells; 6 are possible') }],
    }))
})

describe('a list as other people write it', () => {
  test('of lengths alone, one to a line, with how many before or not at all', () =>
    expect(read('24\n4 x 13 7/8\n2 pcs of 6\' 2"\n3 @ 9-5/8')).toEqual({
      ok: true,
      value: [
        { count: 1, length: '24', a: 0, b: 0 },
        { count: 4, length: '13 7/8', a: 0, b: 0 },
        { count: 2, length: `6' 2"`, a: 0, b: 0 },
        { count: 3, length: '9-5/8', a: 0, b: 0 },
      ],
    }))
  test('with its columns in another order and under other words; millimeters in an inch shop stay millimeters', () =>
    expect(read('Mark,Long point (mm),Qty,Profile\nA,404,6,2x2x1/8\nB,24 in,2,')).toMatchObject({
      ok: true,
      value: [
        { count: 6, length: '404 mm', section: { kind: 'square-tube' } },
        { count: 2, length: '24 in' },
      ],
    }))
  test('says which heads it did not take, and which line a fault stands in', () => {
    const looked = lookAtPasted('Mark,Length,Qty\nA,24,2\n\nB,7/0,1', columns, 'in')
    expect(looked).toMatchObject({
      ok: true,
      value: {
        head: 'Mark,Length,Qty',
        passed: ['Mark'],
        lines: [
          { number: 2, row: { count: 2, length: '24' } },
          { number: 4, text: 'B,7/0,1', problems: [expect.stringMatching(/^Line 4, length: /)] },
        ],
      },
    })
  })
  test('without a head for the length is refused, since no row can be without one', () =>
    expect(read('Qty,Color\n2,red')).toMatchObject({ ok: false, problems: [{ code: 'paste-heads' }] }))
  test('copied from a drawing, cells apart by spaces', () =>
    expect(read('  4    13 7/8   45   45\n  2    24')).toMatchObject({
      ok: true,
      value: [
        { count: 4, length: '13 7/8', a: 45, b: 45 },
        { count: 2, length: '24' },
      ],
    }))
  test('a spreadsheet’s own first line about its separator is no row', () =>
    expect(read('sep=;\n4;24')).toMatchObject({ ok: true, value: [{ count: 4, length: '24' }] }))
  test('2000 pieces to a row are possible and 85° from square, 2001 and 86° are not, and why is said', () => {
    expect(read('2000,24,85,-85')).toMatchObject({ ok: true })
    const refused = read('2001,24,86')
    expect(refused.ok ? [] : refused.problems.map(({ text }) => text)).toEqual([
      'Line 1, count: 2001 is given; a row holds 1 to 2000 pieces.',
      'Line 1, end A: 86 is given; a cut is at most 85° from square.',
    ])
  })
})
