import { describe, expect, test } from 'vitest'
import { cutList } from '../../../src/core/builds/cut-list.ts'
import type { Job } from '../../../src/core/job.ts'
import { plan } from '../../../src/core/plan.ts'
import { markingOut } from '../../../src/core/plates/marking-out.ts'
import { showAngle, showLength } from '../../../src/core/reading/show.ts'
import type { Reading, Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { csvOf, plainOf, type TableOut } from '../../../src/ui/fields/table-text.ts'
import { builtOut, landingsOut, markingsOut, partsOut, platesOut } from '../../../src/ui/sizes/tables-out.ts'
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

/** Cells of the first row by their heads, as a spreadsheet has them. */
const firstRow = (table: TableOut): Record<string, string> => {
  const [heads = [], row = []] = csvOf(table)
    .split('\r\n')
    .map((line) => line.split(','))
  return Object.fromEntries(heads.map((head, at) => [head, row[at] ?? '']))
}
const planOf = (job: Job, shop: Shop) => {
  const planned = plan(job, shop)
  if (!planned.ok) throw new Error(planned.problems[0]?.text)
  return planned.value
}
const metric = startShop('mm')

// Hexagon, 700 across flats, 40 tube: long point 404.1 mm, six pieces, 30° (regular polygon, by hand); at 1 mm the ring of
// six times 404 is 404 · √3 = 699.75 across.
test('the parts of a hexagon of 700 mm are one row: six pieces of 404, 30° at both ends; built 0.25 less', () => {
  const hexagon = planOf(jobOf('polygon-frame', { size: 700 }), metric)
  const parts = partsOut(hexagon.parts, hexagon.quantity, metric.reading)
  expect(parts.rows).toHaveLength(1)
  expect(firstRow(parts)).toMatchObject({
    mark: 'A',
    pieces: '6',
    'end A (deg)': '30',
    'end B (deg)': '30',
    'cut length (mm)': '404',
    'long point (mm)': '404',
  })
  expect(plainOf(parts)).toContain('\t404 mm strong\t')
  expect(landingsOut(hexagon).rows).toEqual([])
  const built = builtOut(hexagon, metric.reading)
  const flats = built.rows.find(([, asked]) => asked === 'asked')!
  expect(csvOf({ heads: built.heads, rows: [flats] }).split('\r\n')[1]).toMatch(/,asked,700,699\.7,-0\.3$/)
})

test('fractions of an inch are decimals in CSV, to the last 1/64, and fractions in the text; a minus is an ASCII one', () => {
  const reading: Reading = { kind: 'inch-fraction', denominator: 64 }
  const of = (inches: number) => showLength(inches * 25.4, reading)
  const table: TableOut = {
    heads: ['a', 'b', 'c'],
    rows: [[of(13 + 63 / 64), of(-5 / 8), showAngle(-22.5, reading)]],
  }
  expect(csvOf(table)).toBe('a (in),b (in),c (deg)\r\n13.984375,-0.625,-22.5\r\n')
  expect(plainOf(table)).toBe('a\tb\tc\n13 63/64 in\t−5/8 in\t−22½°')
})

// A rectangle of 300 × 200 with one hole of 10 in its middle, from two edges: by hand. Its diagonals: √(300² + 200²) = 360.56.
test('a plate is marked out by its corners, its hole and its diagonals', () => {
  const polygon = [
    [0, 0],
    [300, 0],
    [300, 200],
    [0, 200],
  ] as const
  const { rows } = markingsOut(
    markingOut({ polygon, holes: [[150, 100, 10]] } as unknown as Parameters<typeof markingOut>[0]),
    metric.reading,
  )
  const numbers = rows.map(([name, x, y, what, size]) =>
    [
      name,
      what,
      ...[x, y, size].map((cell) => (typeof cell === 'object' ? ('mm' in cell ? cell.mm : cell.deg) : cell)),
    ].join(' '),
  )
  expect(numbers).toHaveLength(7)
  expect(numbers).toContain('corner 3 corner 300 200 ')
  expect(numbers).toContain('hole 1 hole, diameter 150 100 10')
  expect(numbers).toContain('corner 1 to 3 check: from corner to corner   361')
})

test('what weighs and is bought beside the tube is a row for each kind', () => {
  const pedestal = planOf(jobOf('pedestal'), metric)
  const { heads, rows } = platesOut(pedestal, 'kg')
  expect(heads.at(-1)).toBe('each (kg)')
  const plates = rows.filter(([mark]) => mark !== '')
  expect(plates.reduce((sum, [, , n]) => sum + Number(n), 0)).toBe(pedestal.plates.length)
  expect(rows.filter(([mark]) => mark === '').length).toBeGreaterThan(0)
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
