import { describe, expect, test } from 'vitest'
import { pricedStock, stickPrice } from '../../../src/core/buy/rate.ts'
import { stockFor } from '../../../src/core/parts/demand.ts'
import { resolveSection } from '../../../src/core/section/given.ts'
import type { CarriedSection, Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'

const made = resolveSection({ kind: 'square-tube', width: '2', wall: '11 ga' }, 'in')
if (!made.ok) throw new Error('no section')
const section = made.value
const feet = (many: number) => many * 304.8

describe('a price by length or mass', () => {
  test('$3.10 a foot is $62.00 for 20 ft, and $77.50 for 25 ft', () => {
    expect(stickPrice({ per: 'foot', cents: 310 }, section, feet(20))).toBe(6200)
    expect(stickPrice({ per: 'foot', cents: 310 }, section, feet(25))).toBe(7750)
  })

  test('€4.05 a meter is €24.30 for 6 m; half a cent goes up: €0.0425 a meter is 26 cents for 6 m', () => {
    expect(stickPrice({ per: 'meter', cents: 405 }, section, 6000)).toBe(2430)
    expect(stickPrice({ per: 'meter', cents: 4.25 }, section, 6000)).toBe(26)
  })

  test('by the pound: 2 × 2 × 11 ga is listed with 3.07 lb/ft (3.4 · 4 · 0.120 · 1.88), 20 ft at $0.95 a pound about $58.29', () => {
    // Mechanical-tube lists: 3.4 lb/ft for each square inch of sharp-cornered steel.
    const pounds = 3.4 * 4 * 0.12 * (2 - 0.12) * 20
    expect(stickPrice({ per: 'pound', cents: 95 }, section, feet(20))).toBe(Math.round(pounds * 95))
    expect(stickPrice({ per: 'kilogram', cents: 95 / 0.45359237 }, section, feet(20))).toBe(
      Math.round(pounds * 95),
    )
  })

  const carried: CarriedSection = {
    section,
    name: 'two inch',
    rate: { per: 'foot', cents: 310 },
    stock: [{ length: feet(20) }, { length: feet(24), price: 7000 }],
  }

  test('a length with a price of its own keeps it', () => {
    expect(pricedStock(carried).map(({ price }) => price)).toEqual([6200, 7000])
  })

  test('the nest counts with whole cents per stick', () => {
    const shop: Shop = { ...startShop('in'), sections: [carried] }
    expect(stockFor(shop, section, 0, []).map(({ price }) => price)).toEqual([6200, 7000])
  })
})
