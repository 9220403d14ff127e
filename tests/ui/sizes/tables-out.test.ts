import { describe, expect, test } from 'vitest'
import { cutList } from '../../../src/core/builds/cut-list.ts'
import { plan } from '../../../src/core/plan.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { csvOf, plainOf } from '../../../src/ui/fields/table-text.ts'
import { landingsOut, partsOut } from '../../../src/ui/sizes/tables-out.ts'
import { jobOf } from '../shell/fake-app.tsx'
import { readPasted } from './pasted-rows.ts'

describe('a table as CSV', () => {
  // The examples of RFC 4180, section 2, rules 1, 6 and 7.
  test('ends its lines in CR LF, and puts commas, quotes and line ends in quotes', () => {
    expect(csvOf({ heads: ['aaa', 'bbb', 'ccc'], rows: [['zzz', 'b"bb', 'c,c\r\nc']] })).toBe(
      'aaa,bbb,ccc\r\nzzz,"b""bb","c,c\r\nc"\r\n',
    )
  })
  test('is no formula in a spreadsheet, whatever a part is called; a number below 0 stays a number', () => {
    expect(
      csvOf({
        heads: ['name', 'mm'],
        rows: [
          ['=1+1', -5],
          ['@x', 0],
          ['-2', 1],
        ],
      }),
    ).toBe("name,mm\r\n'=1+1,-5\r\n'@x,0\r\n'-2,1\r\n")
  })
  test('as text has its cells apart by tabs and one line to a row', () => {
    expect(plainOf({ heads: ['a', 'b'], rows: [['x\ny', 2]] })).toBe('a\tb\nx y\t2')
  })
})

// Hexagon, 700 across flats, 40 tube: long point 404.1 mm, six pieces, 30° (regular polygon, by hand).
test('the parts of a hexagon of 700 mm are one row: six pieces of 404, 30° at both ends', () => {
  const planned = plan(jobOf('polygon-frame', { size: 700 }), startShop('mm'))
  if (!planned.ok) throw new Error(planned.problems[0]?.text)
  const { parts, quantity } = planned.value
  const { heads, rows } = partsOut(parts, quantity, startShop('mm').reading)
  expect(rows).toHaveLength(1)
  const row = Object.fromEntries(heads.map((head, at) => [head, rows[0]![at]]))
  expect(row).toMatchObject({ mark: 'A', pieces: 6, 'end A': '30°', 'end B': '30°', 'cut length mm': 404 })
  expect(row['long point']).toMatch(/^404 mm/)
  expect(landingsOut(planned.value).rows).toEqual([])
})

test('a cut list that was saved as CSV is read again where lists are pasted', () => {
  const columns = cutList.params.find(({ name }) => name === 'rows')!.columns!
  const text = csvOf({
    heads: ['Count', 'Length', 'End A', 'End B'],
    rows: [
      [2, '24"', 45, 0],
      [1, `6' 2 1/2"`, 0, 0],
    ],
  })
  expect(readPasted(text, columns, 'in')).toMatchObject({
    ok: true,
    value: [
      { count: 2, length: '24"', a: 45 },
      { count: 1, length: `6' 2 1/2"` },
    ],
  })
})
