// Finishing figures against what is printed elsewhere; the source stands beside each.
import { describe, expect, test } from 'vitest'
import { mil, powderPerSquareMeter, squareMetersPerLiter } from '../../src/core/finish/surface.ts'
import { drillRpm } from '../../src/core/finish/tapping.ts'
import { threads } from '../../src/core/thread.ts'
import { inch } from '../../src/core/units.ts'
import { filletMass } from '../../src/core/weld/metal.ts'
import { leastShade } from '../../src/core/weld/shade.ts'

const squareFoot = (12 * inch) ** 2 / 1e6
const pound = 0.45359237

describe('powder', () => {
  // Powder Coating Coverage Chart, powdercoatingonline.com: SG 1.6, 2 mil: 60.1 ft²/lb at 100 %, 30.05 at 50 %.
  test.each([
    [1.6, 2, 1, 60.1],
    [1.6, 2, 0.5, 30.05],
  ])('SG %f, %f mil, %f of it used: %f ft²/lb', (gravity, mils, use, printed) => {
    const perPound = pound / powderPerSquareMeter(mils * mil * 1000, gravity, use) / squareFoot
    expect(perPound).toBeCloseTo(printed, 1)
  })
  // “Coverage of Powder”, pfonline.com: SG 1.5, 3 mil, 95 %: 8.4 m²/kg. It converts with 39.8 for 39.39: 1 % off.
  test('SG 1.5, 3 mil, 95 %: 8.4 m²/kg to 1 %', () => {
    expect(1 / powderPerSquareMeter(3 * mil * 1000, 1.5, 0.95) / 8.4).toBeGreaterThan(0.985)
    expect(1 / powderPerSquareMeter(3 * mil * 1000, 1.5, 0.95) / 8.4).toBeLessThan(1.015)
  })
})

// 1604 ft²/gal of solids at 1 mil: 231 in³ to the gallon, the figure paint makers print (reference.md 8).
test('paint of 100 % solids at 1 mil covers 1604 ft² to the gallon', () => {
  const liters = (231 * inch ** 3) / 1e6
  expect((squareMetersPerLiter(mil * 1000, 1, 1) * liters) / squareFoot).toBeCloseTo(1604.2, 0)
})

// Flat fillet, lb/ft of leg²/2 × 12 × 0.283, the column of a welding handbook that reference.md 5.6 copies (FILLW), and
// its worked example of 0.424. It reckons with 0.283 lb/in³, we with 490 lb/ft³: 0.2 % apart.
test.each([
  [1 / 8, 0.027, 0.0005],
  [3 / 16, 0.06, 0.0005],
  [1 / 4, 0.106, 0.0005],
  [5 / 16, 0.166, 0.0005],
  [3 / 8, 0.239, 0.0005],
  [7 / 16, 0.325, 0.001],
  [1 / 2, 0.424, 0.0015],
])('a flat fillet of %f in weighs %f lb to the foot', (leg, printed, within) => {
  const perFoot = filletMass(leg * inch, 12 * inch) / pound
  expect(Math.abs(perFoot - printed)).toBeLessThan(within)
})

// Drilling speeds and feeds (EML2322L course notes; machinistpost.com): 80 sfm, 1/2 in: 611; 90 sfm, 3/8 in: 917.
test.each([
  [80, 0.5, 611],
  [90, 0.375, 917],
])('%f ft/min and a %f in drill: %i turns a minute', (speed, diameter, printed) =>
  expect(drillRpm(diameter * inch, speed)).toBe(printed),
)

// Machinery's Handbook, 31st ed. (2020), p. 2168, Table 4: 1/4-20 #7, 5/16-18 F, 3/8-16 5/16, 1/2-13 27/64.
test.each([
  ['1/4-20', '#7', 0.201],
  ['5/16-18', 'F', 0.257],
  ['3/8-16', '5/16', 0.3125],
  ['1/2-13', '27/64', 0.4219],
])('%s is drilled %s', (name, drill, size) => {
  const thread = threads.find((one) => one.name === name)!
  expect(thread.drillName).toBe(drill)
  expect(thread.drill / inch).toBeCloseTo(size, 3)
  expect(thread.source).toContain('Machinery')
})

// 29 CFR 1910.133(a)(5): gas metal arc welding below 60 A shade 7, 60 to 160, 160 to 250 and 250 to 500 A shade 10.
test.each([
  [50, 7],
  [60, 10],
  [125, 10],
  [200, 10],
  [300, 10],
])('%i A asks for shade %i at least', (amps, shade) => expect(leastShade(amps)).toBe(shade))
