import { describe, expect, test } from 'vitest'
import { landingsOf } from '../../../src/core/frame/landing.ts'
import { area } from '../../../src/core/geometry/polygon.ts'
import { framed, metric, partOf, problems, sizeOf, tube } from './framed.ts'

// Two bays in a line: 40 uprights, 30 rails; every figure is worked out beside it.
const params = { section: tube(40, 3), railSection: tube(30, 2), braceSection: tube(25, 2) }

describe('a rack', () => {
  test('rails fit between the uprights: 1200 − 2 · 40 = 1120 long, 500 − 2 · 40 = 420 across, four tiers', () => {
    const made = framed('rack', params, metric)
    expect(partOf(made, 'Front rail')).toMatchObject({ count: 8, shape: 'square' })
    expect(partOf(made, 'Front rail').longPoint).toBeCloseTo(1120, 9)
    expect(partOf(made, 'Cross rail').longPoint).toBeCloseTo(420, 9)
    // 1500 − 15 leveler − 10 cap.
    expect(partOf(made, 'Upright')).toMatchObject({ count: 4 })
    expect(partOf(made, 'Upright').longPoint).toBeCloseTo(1475, 9)
    expect(made.frame.size.map((each) => +each.toFixed(6))).toEqual([1200, 500, 1500])
  })

  test('tiers from 150 to 1450 in four: 433⅓ apart, marked on the uprights from their lower end', () => {
    const made = framed('rack', params, metric)
    const on = landingsOf(made.frame).filter(
      (each) => each.on === 'uprights/front-1' && each.by.endsWith('/front-1'),
    )
    // From the cap's upper face at 25: the rail's lower face at 150 − 30.
    expect(on.map(({ near }) => near)).toEqual(
      [0, 1, 2, 3].map((k) => expect.closeTo(150 - 30 - 25 + (k * 1300) / 3, 6)),
    )
  })

  test('three bays: six rails a tier lengthwise, four pairs of uprights, (1200 − 4 · 40) / 3 between them', () => {
    const made = framed('rack', { ...params, bays: 3 }, metric)
    expect(partOf(made, 'Front rail').longPoint).toBeCloseTo(1040 / 3, 9)
    expect(partOf(made, 'Upright').count).toBe(8)
    expect(sizeOf(made, 'length').exact).toBeCloseTo(1200, 9)
  })

  test('a brace of 25 in a field 1120 clear and (25 + 1120 sin 30°) / cos 30° high is cut 30° from square, ends parallel', () => {
    const rise = (25 + 1120 * Math.sin(Math.PI / 6)) / Math.cos(Math.PI / 6)
    const made = framed(
      'rack',
      { ...params, tiersBy: 'heights', heights: [{ at: 150 }, { at: 150 + 30 + rise }] },
      metric,
    )
    const brace = partOf(made, 'Brace')
    expect(brace).toMatchObject({ count: 1, shape: 'ends parallel' })
    for (const angle of brace.angleFromSquare) expect(angle).toBeCloseTo(30, 9)
    // Its four edges span the clear width at that slope.
    for (const edge of brace.edges) expect(edge).toBeCloseTo(1120 / Math.cos(Math.PI / 6), 6)
  })

  test('leaning to and fro between all tiers: three in the back and three in each end, every one of a kind alike', () => {
    const made = framed('rack', { ...params, braces: 'back and ends', bracesIn: 'every' }, metric)
    const braces = made.parts.filter(({ name }) => name === 'Brace')
    expect(braces.map(({ count }) => count).sort((a, b) => a - b)).toEqual([3, 6])
  })

  test('a shelf is notched at its four corners: 1200 × 500 less four of 42 × 42; level with the uprights it is whole', () => {
    const shelf = (highest: number) =>
      framed('rack', { ...params, shelves: 'sheet', highest }, metric).frame.plates.find(
        ({ id }) => id === 'tier-4/shelf',
      )!
    expect(area(shelf(1450).polygon)).toBeCloseTo(1200 * 500 - 4 * 42 * 42, 6)
    expect(shelf(1450).polygon).toHaveLength(12)
    expect(area(shelf(1500).polygon)).toBeCloseTo(1200 * 500, 6)
  })

  test('between two bays the shelf is notched on its edges too: four corners of 42 × 42, two notches of 44 × 42', () => {
    const made = framed('rack', { ...params, bays: 2, shelves: 'sheet' }, metric)
    const shelf = made.frame.plates.find(({ id }) => id === 'tier-1/shelf')!
    expect(area(shelf.polygon)).toBeCloseTo(1200 * 500 - 4 * 42 * 42 - 2 * 44 * 42, 6)
  })
})

describe('a rack that cannot be', () => {
  test.each([
    [{ length: 80 }, 'build.params.length', /80 mm leaves nothing .* more than 80 mm/],
    [{ railSection: tube(50, 2) }, 'build.params.railSection', /50 mm wide hangs past the uprights, 40 mm/],
    [{ lowest: 40 }, 'build.params.lowest', /40 mm has its rails below the feet; it must be 55 mm or more/],
    [{ highest: 1600 }, 'build.params.highest', /1600 mm stands over the uprights, 1500 mm high/],
    [
      { tierCount: 20, highest: 600 },
      'build.params.tierCount',
      /lie in each other; .* more than 30 mm apart/,
    ],
    [
      { tiersBy: 'heights', heights: [{ at: 150 }, { at: 200 }] },
      'build.params.braceSection',
      /leave 20 mm clear; a brace 25 mm high needs more/,
    ],
  ])('%j', (given, field, text) => {
    const [problem] = problems('rack', { ...params, ...given } as Parameters<typeof problems>[1], metric)
    expect(problem?.field).toBe(field)
    expect(problem?.text).toMatch(text)
  })
})
