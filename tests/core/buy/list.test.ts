import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { BarLine } from '../../../src/core/buy/bars.ts'
import { deliveredStock, halfLength } from '../../../src/core/buy/halves.ts'
import { buyList, totalsOf } from '../../../src/core/buy/list.ts'
import {
  barText,
  buyRows,
  halvesText,
  orderText,
  sheetCuts,
  sheetOrder,
  sheetText,
} from '../../../src/core/buy/order-text.ts'
import type { RackPiece, SheetDrop } from '../../../src/core/facts.ts'
import type { Job, Params } from '../../../src/core/job.ts'
import { plan } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import { resolveSection } from '../../../src/core/section/given.ts'
import type { CarriedSheet, Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { readJobFile } from '../../../src/door/job-file.ts'

const empty = { rack: [], opened: {} } as const
const shop = startShop('mm')

function sample(change: Params = {}, more: Partial<Job> = {}): Job {
  const text = readFileSync(new URL('../../../demo-data/ten-sided-pedestal.json', import.meta.url), 'utf8')
  const read = readJobFile(text)
  if (!read.ok) throw new Error(read.problems[0]?.text)
  const { job } = read.value
  return { ...job, ...more, build: { ...job.build, params: { ...job.build.params, ...change } } }
}

function planned(job: Job, given: Shop = shop): Plan {
  const made = plan(job, given)
  if (!made.ok) throw new Error(made.problems[0]?.text)
  return made.value
}

const sheet = (length: number, width: number, more: Partial<CarriedSheet> = {}): CarriedSheet => ({
  thickness: 3,
  length,
  width,
  ...more,
})

// Three pedestals: each a ten-sided top sheet of 3 mm, 900 across flats, four caps 40 × 40 × 10 and four M10 feet.
describe('the buy list of three ten-sided pedestals', () => {
  const three = planned(sample())

  test('12 caps of 40 × 40 × 10 come from flat bar 40 × 10: 12 · 40 + 11 · 2.5 + 10 + 62.5 = 580 mm', () => {
    const { flat } = buyList([three], undefined, shop, empty)
    expect(flat).toHaveLength(1)
    expect(flat[0]).toMatchObject({
      section: { kind: 'flat-bar', width: 40, height: 10 },
      cuts: [{ count: 12, length: 40 }],
      needed: 580,
    })
    expect(flat[0]!.bars).toBeUndefined()
    // 40 × 10 flat bar: 3.14 kg/m (7850 kg/m³).
    expect(flat[0]!.mass).toBeCloseTo(0.58 * 3.14, 6)
  })

  test('a drop of that bar of 580 mm is long enough, one of 579.9 is not', () => {
    const drop = (length: number): RackPiece => ({
      id: 'd:1',
      section: { kind: 'flat-bar', width: 40, height: 10, wall: 0, cornerRadius: 0 },
      length,
      ends: ['cut', 'cut'],
      from: 'drop',
    })
    const on = (length: number) =>
      buyList([three], undefined, shop, { rack: [drop(length)], opened: {} }).flat[0]!
    expect(on(580).onRack?.id).toBe('d:1')
    expect(on(579.9).onRack).toBeUndefined()
    expect(
      orderText('x', buyList([three], undefined, shop, { rack: [drop(600)], opened: {} }), shop),
    ).not.toContain('flat bar')
  })

  test('carried in bars of 500 mm, with 427.5 between clean-up and vise: 10 caps (10 · 40 + 9 · 2.5 = 422.5) to a bar, 2 bars', () => {
    const section = { kind: 'flat-bar', width: 40, height: 10, wall: 0, cornerRadius: 0 } as const
    const carries: Shop = {
      ...shop,
      sections: [{ section, name: 'Cap bar', stock: [{ length: 500, price: 450 }] }],
    }
    const { flat } = buyList([three], undefined, carries, empty)
    expect(flat[0]!.bars).toEqual({ count: 2, length: 500, price: 450 })
  })

  test('12 leveling feet of M10 are bought', () => {
    const { hardware } = buyList([three], undefined, shop, empty)
    expect(hardware.map(({ count }) => count)).toEqual([12])
    expect(hardware[0]!.text).toContain('M10')
  })

  test('a top of 900 × 900/cos 18° = 946.3 comes twice out of 1250 × 2500 and once out of 1000 × 1000: 2 or 3 sheets', () => {
    const of = (...sheets: CarriedSheet[]) =>
      buyList([three], undefined, { ...shop, sheets }, empty).sheets[0]!
    expect(of(sheet(2500, 1250)).from).toMatchObject({ perSheet: 2, sheets: 2, straight: true })
    expect(of(sheet(1000, 1000)).from).toMatchObject({ perSheet: 1, sheets: 3 })
    expect(of(sheet(947, 900)).from).toMatchObject({ perSheet: 1 })
    const small = of(sheet(946, 899))
    expect(small.from).toBeUndefined()
    expect(small.tooSmall).toBe(true)
  })

  test('of two sheets the one is taken that costs less for all three, not the smaller one', () => {
    const sheets = [sheet(1000, 1000, { price: 4000 }), sheet(2500, 1250, { price: 5900 })]
    const [line] = buyList([three], undefined, { ...shop, sheets }, empty).sheets
    expect(line!.from).toMatchObject({ sheets: 2, sheet: { length: 2500 } })
    const few = [sheets[0]!, { ...sheets[1]!, count: 1 }]
    expect(buyList([three], undefined, { ...shop, sheets: few }, empty).sheets[0]!.from).toMatchObject({
      sheets: 3,
    })
  })

  test('a sheet of another thickness is none; none carried is said with what it takes', () => {
    const other = buyList(
      [three],
      undefined,
      { ...shop, sheets: [sheet(2500, 1250, { thickness: 4 })] },
      empty,
    )
    expect(other.sheets[0]!.from).toBeUndefined()
    expect(other.sheets[0]!.tooSmall).toBe(false)
    const text = buyRows(other, shop).join('\n')
    expect(text).toContain('at least 947 mm × 900 mm')
    expect(text).toContain('no sheet of this thickness is carried')
  })

  test('as text: a line each, the sum says what has no price', () => {
    const sheets = [sheet(2500, 1250, { price: 5900 })]
    const list = buyList([three], undefined, { ...shop, sheets }, empty)
    expect(orderText('Ten-sided', list, { ...shop, sheets }).split('\n')).toEqual([
      'Ten-sided',
      '40 × 10 mm flat bar, at least 580 mm, for 12 × 40 mm (P2 Foot cap); 580 mm of it with kerfs, clean-up cuts and what the vise holds',
      '3 mm, 2 sheets 2500 mm × 1250 mm, €59.00 each, for 3 × P1 Top sheet, 10 sides 946 mm × 900 mm over all, 2 to a sheet in rows',
      expect.stringMatching(/^12 × M10 leveling foot/),
      // 2 · 2.5 · 1.25 · 3 · 7.85 = 147.2 kg of sheet and 1.8 kg of bar.
      'In all 149 kg, €118.00, without flat bar, hardware',
    ])
    expect(totalsOf(list).price).toBe(11800)
  })

  test('bought together with another job, plates and feet of both are on the list', () => {
    const other = planned(sample({}, { id: 'other', quantity: 1 }))
    const list = buyList([three, other], undefined, shop, empty)
    expect(list.flat[0]!.cuts.map(({ count }) => count)).toEqual([12, 4])
    expect(list.hardware[0]!.count).toBe(16)
    expect(list.sheets.map(({ cut }) => cut.count)).toEqual([3, 1])
  })
})

describe('in the words of an order', () => {
  const inches = startShop('in')
  const tube = (wall: string) => {
    const made = resolveSection({ kind: 'square-tube', width: '2', wall }, 'in')
    if (!made.ok) throw new Error(made.problems[0]?.text)
    return made.value
  }

  test('2 × 2 × 11 ga, 3 sticks 20 ft', () => {
    expect(barText({ section: tube('11 ga'), length: 240 * 25.4, count: 3 }, inches)).toBe(
      '2 × 2 × 11 ga square tube, 3 sticks 20 ft',
    )
    expect(barText({ section: tube('1/8'), length: 246 * 25.4, count: 1 }, inches)).toBe(
      '2 × 2 × 1/8 in square tube, 1 stick 246 in',
    )
  })

  test('40 × 40 × 3 mm, 2 lengths 6 m, of 6.5 m, of 6050 mm', () => {
    const section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 } as const
    const said = (length: number) => barText({ section, length, count: 2 }, shop)
    expect(said(6000)).toBe('40 × 40 × 3 mm square tube, 2 lengths 6 m')
    expect(said(6500)).toBe('40 × 40 × 3 mm square tube, 2 lengths 6.5 m')
    expect(said(6050)).toBe('40 × 40 × 3 mm square tube, 2 lengths 6050 mm')
  })
})

// The top sheet of each is 900 across flats, ten sides: 900 across both ways lying flush, 946.3 over the corners
// (900 / cos 18°), so that a square of 900 × 900 holds none and 1000 × 950 one.
describe('rests of sheet on the rack', () => {
  const three = planned(sample())
  const rest = (id: string, length: number, width: number) => ({ id, thickness: 3, length, width })
  const lineWith = (sheets: readonly SheetDrop[], given: Shop = shop) =>
    buyList([three], undefined, given, { ...empty, sheets }).sheets[0]!

  test('two rests of 1000 × 950 give two of three tops; one is to buy', () => {
    const line = lineWith([rest('a:1', 1000, 950), rest('a:2', 1000, 950), rest('a:3', 899, 899)])
    expect([line.drops.map(({ drop }) => drop.id), line.open]).toEqual([['a:1', 'a:2'], 1])
    expect(sheetCuts(line, shop)).toMatch(/1 fits the rest of 1000 mm × 950 mm, 1 fits .*, 1 to buy/)
    expect(sheetOrder(line, shop)).toMatch(/for 1 × at least/)
  })

  test('one of 3000 × 1000 gives all three: nothing is bought, and the order leaves it out', () => {
    const sheets = [rest('a:1', 3000, 1000)]
    const line = lineWith(sheets)
    expect([line.open, line.mass, line.tooSmall]).toEqual([0, 0, false])
    expect(sheetOrder(line, shop)).toBe('3 mm: on the rack, 3000 mm × 1000 mm')
    const list = buyList([three], undefined, shop, { ...empty, sheets })
    expect(orderText('x', list, shop)).not.toMatch(/on the rack/)
    expect(totalsOf(list).unpriced).not.toContain('sheet and plate')
  })

  test('the smallest that serves is taken, another thickness is not', () => {
    const line = lineWith([
      rest('a:1', 2000, 1500),
      rest('a:2', 960, 960),
      { ...rest('a:3', 950, 950), thickness: 2 },
    ])
    expect(line.drops.map(({ drop, gives }) => [drop.id, gives])).toEqual([
      ['a:2', 1],
      ['a:1', 2],
    ])
  })
})

// 20 ft cut in half with a cut of 1/8 in: two of 119 15/16 in.
describe('sticks delivered cut in half', () => {
  const inches = startShop('in')
  const section = planned(sample()).frame.members[0]!.section
  const line = (count: number, spare: boolean): BarLine => ({
    section,
    length: 6096,
    count,
    price: 6500,
    mass: 10,
    there: 0,
    halves: { length: halfLength(6096, 3.175), spare },
  })

  test('the order says so, with what each half is and what is left over', () => {
    expect(barText(line(3, false), inches)).toMatch(/, 3 sticks 20 ft, each cut in half$/)
    expect(halvesText(line(3, false), inches)).toBe('halves of 119 15/16 in, the cut in the price')
    expect(halvesText(line(1, true), inches)).toMatch(/; one half is left over$/)
  })

  test('stock is in halves, two for each counted stick, at the price of the stick and the cut', () => {
    const carried = {
      section,
      name: 'x',
      inHalves: { wanted: true, cents: 300, takes: 3.175 },
      stock: [{ length: 6096, price: 6200, count: 2 }],
    }
    expect(deliveredStock(carried)).toEqual([{ length: 3046.4125, halfOf: 6096, price: 6500, count: 4 }])
    expect(deliveredStock({ ...carried, inHalves: { ...carried.inHalves, wanted: false } })).toEqual(
      carried.stock,
    )
  })
})

test('a metric plate keeps its name in an inch shop: 10 mm is no plate of 3/8 in, 0.1 in no 1/8', () => {
  const { reading } = startShop('in')
  expect(sheetText(10, reading)).toBe('10 mm')
  expect(sheetText(9.525, reading)).toBe('3/8 in')
  expect(sheetText(2.38125, reading)).toBe('3/32 in')
  expect(sheetText(2.54, reading)).toBe('0.1 in')
  expect(sheetText(10, startShop('mm').reading)).toBe('10 mm')
})
