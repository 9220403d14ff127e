import { describe, expect, test } from 'vitest'
import type { BuyList } from '../../../src/core/buy/list.ts'
import type { RackPiece } from '../../../src/core/facts.ts'
import { tappingsOf } from '../../../src/core/finish/tapping.ts'
import { loadsOf, lyingsOf, usualLying } from '../../../src/core/fitup/blocks.ts'
import { loopsOf } from '../../../src/core/fitup/loops.ts'
import { layoutOf } from '../../../src/core/fitup/table.ts'
import { tapesOf } from '../../../src/core/fitup/tapes.ts'
import { plan as planned } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { type Cell, csvOf, plainOf, type TableOut } from '../../../src/ui/fields/table-text.ts'
import { drillingOut, finalCheckOut, recordOut } from '../../../src/ui/finish/tables-out.ts'
import { layoutOut, standsOut, tapesOut } from '../../../src/ui/fitup/tables-out.ts'
import { byHandOut, setUpsOut } from '../../../src/ui/saw/tables-out.ts'
import { stationsOf } from '../../../src/ui/saw/work.ts'
import { buyOut, rackOut, sheetDropsOut, sticksOut } from '../../../src/ui/stock/tables-out.ts'
import { orderOut } from '../../../src/ui/weld/order-out.ts'
import { part } from '../../core/saw/sample.ts'
import { cutsWith, nest, run, section, shop } from '../saw/bench-run.ts'
import { jobOf } from '../shell/fake-app.tsx'
import { plan as weldPlan } from '../weld/weld-plan.ts'

const lines = (table: TableOut) => csvOf(table).trimEnd().split('\r\n')
const number = (cell: Cell | undefined): number =>
  typeof cell === 'object' ? ('mm' in cell ? cell.mm : cell.deg) : Number(cell)
const metric = startShop('mm')
function planOf(kind: string, params = {}): Plan {
  const result = planned(jobOf(kind, params), metric)
  if (!result.ok) throw new Error(result.problems[0]?.text)
  return result.value
}

describe('Stock', () => {
  test('the buy list in numbers: 3 of 6000 at 42.50, 3.30 kg/m (EN 10219-2 table), one of them there', () => {
    const list: BuyList = {
      bars: [{ section, length: 6000, count: 3, price: 4250, mass: 59.4, there: 1 }],
      flat: [],
      sheets: [],
      hardware: [{ text: 'M8 leveling foot', count: 4 }],
    }
    expect(lines(buyOut(list, { ...shop, currency: '$' }))).toEqual([
      'what,pieces,there already,length (mm),width,each ($),mass (kg),note',
      '40 × 40 × 3 mm square tube,3,1,6000,,42.5,59.4,',
      'M8 leveling foot,4,0,,,,,',
    ])
  })

  test('what is needed at least is rounded up, never down: 554.2 is 555, 946.3 × 900 is 947 × 900', () => {
    const cut = { mark: 'P1', name: 'Top', count: 1, long: 946.3, short: 900, thickness: 3 }
    const bar = { kind: 'flat-bar', width: 40, height: 10, wall: 0, cornerRadius: 0 } as const
    const list = {
      bars: [],
      flat: [{ section: bar, needed: 554.2, mass: 1.74, cuts: [{ mark: 'P2', count: 12 }] }],
      sheets: [{ cut, drops: [], open: 1, tooSmall: false, mass: 15.5 }],
      hardware: [],
    } as unknown as BuyList
    const [, flat, sheet] = lines(buyOut(list, shop))
    expect(flat).toMatch(/^40 × 10 mm flat bar,1,0,555,,,1.74,for 12 × P2$/)
    expect(sheet).toMatch(/^3 mm sheet or plate,1,0,947,900,,15.5,for 1 × P1$/)
  })

  test('every piece by its stick, then what is left of it', () => {
    const rows = lines(sticksOut(nest, 'job-1', [part({ mark: 'A', length: 404, ends: [30, 30] })], shop))
    expect(rows).toEqual([
      'length,whole length (mm),section,from,piece,copy,cut length (mm)',
      'S1,6000,40 × 40 × 3 mm square tube,bought,A1,1,404',
      'S1,6000,40 × 40 × 3 mm square tube,bought,A2,1,404',
      'S1,6000,40 × 40 × 3 mm square tube,bought,offcut,,5177',
    ])
  })

  test('the rack and the rests of sheet, one by one', () => {
    const drop: RackPiece = { id: 'dev:3', section, length: 1234, ends: ['cut', 'mill'], from: 'drop' }
    const [, row] = lines(rackOut([drop], shop))
    expect(row).toMatch(/^[A-Z3-9]{3},40 × 40 × 3 mm square tube,1234,offcut,$/)
    expect(lines(sheetDropsOut([{ id: 'd:1', thickness: 5, length: 800, width: 300.5 }], shop))).toEqual([
      'sheet,length (mm),width (mm)',
      '5 mm,800,301',
    ])
  })
})

describe('Saw', () => {
  test('two set-ups: the blanks square at 404, then their miters at 30°, what is cut counted', () => {
    const stations = stationsOf(cutsWith(['A1.b']))
    const [heads, square, miter] = lines(setUpsOut(stations, run.products, shop))
    expect(heads).toContain('miter (deg),miter leans')
    expect(square).toMatch(/^1,.*,0,square,.*,404,.*,2,1,"A1 blank, A2 blank"$/)
    expect(miter).toMatch(
      /^2,.*,30,the end of the blade.*,4,0,"A1 first end, A1 second end, A2 first end, A2 second end"$/,
    )
  })

  // 40 · tan 60° = 69.28: to 1 mm 69 in from the end, 800 − 2 · 69.28 = 661 along.
  test('what is left to the hand, edge by edge', () => {
    const left = { piece: 'A1', mark: 'A', code: 'beyond-the-saw', why: 'A: 60° is too much', ways: [] }
    const piece = {
      left,
      product: { id: 'A1', from: 'A1.b', kind: 'piece', mark: 'A' },
      stick: 'S1',
    } as const
    const table = byHandOut([piece], [part({ mark: 'A', length: 800, ends: [60, 60] })], shop)
    expect(lines(table)[1]).toBe('A,A1,1,69,661,A: 60° is too much')
    expect(table.rows).toHaveLength(4)
  })
})

describe('Fit-up', () => {
  const frame = planOf('rect-frame', { length: 900, width: 600 })
  const loops = loopsOf(frame.frame)

  // √(900² + 600²) = 1081.67 from corner to corner, by hand.
  test('the tapes of a frame of 900 × 600 must read 1082, both ways', () => {
    const tapes = tapesOf(loops[0]!, frame.parts)
    const { rows } = tapesOut(tapes, metric, (name) => (name === tapes[0]!.name ? 1080 : undefined))
    const corners = rows.filter(([from]) => String(from).startsWith('Corner'))
    expect(corners.map(([, must]) => number(must))).toEqual([1082, 1082])
    expect(
      rows
        .map((row) => row[4])
        .filter((cell) => cell !== '')
        .map(number),
    ).toEqual([1080])
  })

  test('lines and blocks on the table span the 900 × 600, a row for each', () => {
    const load = loadsOf(frame.frame)[0]!
    const up = lyingsOf(frame.frame, load).get(usualLying(frame.frame, load))!
    const layout = layoutOf(frame.frame, load, up, loops, frame.parts, 50)
    const { rows } = layoutOut(frame.frame, layout, metric.reading)
    expect(rows.filter(([, what]) => what === 'line')).toHaveLength(layout.lines.length)
    expect(rows.filter(([, what]) => what === 'block')).toHaveLength(
      layout.lines.flatMap(({ blocks }) => blocks).length,
    )
    const xs = rows.flatMap(([, , x, , to]) => [x, to].filter((cell) => cell !== '').map(number))
    expect(Math.max(...xs) - Math.min(...xs)).toBe(900)
  })

  test('a post in the middle of its base stands as far from both edges', () => {
    const pedestal = planOf('pedestal')
    const { rows } = standsOut(pedestal, loopsOf(pedestal.frame), metric.reading)
    expect(rows.length).toBeGreaterThan(0)
    for (const row of rows) expect(Number.isFinite(number(row[3]))).toBe(true)
  })
})

test('Weld: every step once, in its order, with joint, seam and what is done', () => {
  const rows = lines(orderOut(weldPlan, shop.reading, ({ id }) => id === 'tack:3'))
  expect(rows).toHaveLength(1 + weldPlan.weld.steps.length)
  expect(rows[0]).toBe('step,stage,work,joint,what,seam,seam length (mm),wall (mm),done')
  expect(rows[2]).toMatch(
    /^2,.*,Tack,2,"Tack corner 3, outside","Upright seam, outside of the corner",40,3,tacked$/,
  )
  expect(rows[8]).toMatch(/^8,.*,Weld,1,.*,40,3,to go$/)
})

describe('Finish', () => {
  test('four M8 holes: drill 6.8 (ISO coarse thread, pitch 1.25: 8 − 1.25 = 6.75, sold as 6.8)', () => {
    const plates = [0, 1, 2, 3].map(() => ({ thread: 'M8', thickness: 8, holes: [[0, 0, 6.8]] }))
    const rows = tappingsOf({ plates } as unknown as Parameters<typeof tappingsOf>[0])
    const [heads, row] = lines(drillingOut(rows, metric.reading))
    expect(heads).toMatch(/^tap,holes,drill,drill diameter \(mm\),turns a minute,/)
    expect(row).toMatch(/^M8,4,6\.8 mm,6\.8,\d+,8,8,/)
  })

  test('a size that came out 1.5 short is off by −1.5, with an ASCII minus', () => {
    const frame = planOf('rect-frame', { length: 900, width: 600 })
    const asked = frame.sizes.find((size) => size.asked && size.exact === 900)!
    const table = finalCheckOut(frame, metric.reading, (of) =>
      of === `size:${asked.name}` ? 898.5 : undefined,
    )
    const row = lines(table).find((line) => line.startsWith(`${asked.name},`))
    expect(row).toMatch(/,asked,900,900,,898\.5,-1\.5$/)
    expect(plainOf(table)).toContain('898.5 mm\t−1.5 mm')
  })

  test('the record in figures with their units, and in words where it has none', () => {
    const table = recordOut([
      { title: 'Sizes', columns: ['asked', 'off'], rows: [['Length', '35 7/16 in', '1/64 in less']] },
      { title: 'Times', columns: ['by the clock', 'minutes'], rows: [['saw', '12 min', '14']] },
      { title: 'Notes', rows: [['The job', '=2 in a row']] },
      {
        title: 'Angles',
        rows: [
          ['angle: 1', '89.7°'],
          ['ends: 2', ''],
        ],
      },
    ])
    expect(lines(table)).toEqual([
      'part of the record,of,what,value,unit',
      'Sizes,Length,asked,35.4375,in',
      'Sizes,Length,off,-0.015625,in',
      'Times,saw,by the clock,12,min',
      'Times,saw,minutes,14,',
      "Notes,The job,,'=2 in a row,",
      'Angles,angle: 1,,89.7,deg',
    ])
  })
})
