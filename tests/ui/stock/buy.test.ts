import { describe, expect, test } from 'vitest'
import { barLines as buyLines } from '../../../src/core/buy/bars.ts'
import { totalsOf } from '../../../src/core/buy/list.ts'
import { sayMoney } from '../../../src/core/buy/money.ts'
import { orderText } from '../../../src/core/buy/order-text.ts'
import type { RackPiece } from '../../../src/core/facts.ts'
import type { Nest, NestSection, NestStick } from '../../../src/core/nest.ts'
import type { Part } from '../../../src/core/plan-shapes.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { stretchesOf } from '../../../src/ui/drawing/stick-layout.ts'
import { farFrom } from '../../../src/ui/saw/waiting.tsx'
import { nest, section, shop, stick } from '../saw/bench-run.ts'

const part = nest.sections[0]!
const withSticks = (sticks: readonly NestStick[], change: Partial<NestSection> = {}): Nest => ({
  ...nest,
  sections: [{ ...part, ...change, sticks }],
})
const many = (count: number, change: Partial<NestStick> = {}): NestStick[] =>
  Array.from({ length: count }, (_, at) => ({ ...stick, id: `S${at + 1}`, ...change }))

const listOf = (bars: ReturnType<typeof buyLines>) => ({ bars, flat: [], sheets: [], hardware: [] })

describe('the buy list', () => {
  test('three lengths of 6000 and one of 4000, longest first, 40 × 40 × 3 at 3.30 kg/m (EN 10219-2 table, r = 2t)', () => {
    const lines = buyLines(withSticks([...many(1, { length: 4000, id: 'S9' }), ...many(3)]), [], {})
    expect(lines.map(({ count, length }) => [count, length])).toEqual([
      [3, 6000],
      [1, 4000],
    ])
    // EN 10219-2 lists 40 × 40 × 3 with 3.30 kg/m.
    expect(lines[0]!.mass).toBeCloseTo(3 * 6 * 3.3, 0)
  })

  test('a stick from the rack is not bought', () => {
    expect(buyLines(withSticks(many(2, { from: 'rack', rack: 'dev:1' })), [], {})).toEqual([])
  })

  test('what lies on the rack as bought, or was opened already, is there', () => {
    const lying: RackPiece = { id: 'dev:7', section, length: 6000, ends: ['mill', 'mill'], from: 'bought' }
    const nestOf3 = withSticks(many(3))
    expect(buyLines(nestOf3, [lying], {})[0]!.there).toBe(1)
    expect(buyLines(nestOf3, [lying], { 'nest-1/S1': null })[0]!.there).toBe(2)
    expect(buyLines(nestOf3, [lying, lying, lying, lying], {})[0]!.there).toBe(3)
    expect(buyLines(nestOf3, [{ ...lying, length: 5999 }], {})[0]!.there).toBe(0)
    expect(buyLines(nestOf3, [{ ...lying, from: 'drop' }], {})[0]!.there).toBe(0)
  })

  test('prices are whole cents, said with the currency, and and the sum says what it leaves out', () => {
    const priced = withSticks(many(2, { price: 4250 }), {
      stock: [{ length: 6000, price: 4250, ends: ['mill', 'mill'] }],
    })
    const lines = buyLines(priced, [], {})
    expect(totalsOf(listOf(lines)).price).toBe(8500)
    expect(sayMoney(8500, '$')).toBe('$85.00')
    expect(sayMoney(5, '€')).toBe('€0.05')
    const both = totalsOf(listOf([...lines, ...buyLines(withSticks(many(1)), [], {})]))
    expect([both.price, both.unpriced]).toEqual([8500, ['the other tube and bar']])
  })

  test('as text: name, a line each, the sum', () => {
    const text = orderText('Bench top', listOf(buyLines(withSticks(many(2)), [], {})), shop)
    expect(text.split('\n')[0]).toBe('Bench top')
    expect(text).toMatch(/^40 × 40 × 3 mm square tube, 2 lengths 6 m$/m)
    expect(text).toMatch(/^In all 2 lengths, /m)
    const lying: RackPiece = { id: 'dev:7', section, length: 6000, ends: ['mill', 'mill'], from: 'bought' }
    const ordered = (there: number) =>
      orderText('Bench top', listOf(buyLines(withSticks(many(3)), Array(there).fill(lying), {})), shop)
    expect(ordered(1)).toMatch(/, 2 lengths 6 m\nIn all 2 lengths, 39\.\d kg$/)
    expect(ordered(3)).toBe('Bench top\nNothing to buy.')
    const inches = orderText(
      'Bench top',
      listOf(buyLines(withSticks(many(1, { length: 6096 })), [], {})),
      startShop('in'),
    )
    expect(inches).toContain('1 stick 20 ft')
    expect(inches).toMatch(/^In all 1 stick, .* lb$/m)
  })
})

describe('how far from the least possible', () => {
  test('proved least is said as such', () => {
    expect(farFrom(6000, 6000, true)).toBe('proved least')
  })
  test('a percentage is rounded up: 12001 over 12000 is at most 0.1 %, 12241 is at most 3 %', () => {
    expect(farFrom(12001, 12000, false)).toBe('at most 0.1 % from the least possible')
    expect(farFrom(12240, 12000, false)).toBe('at most 2 % from the least possible')
    expect(farFrom(12241, 12000, false)).toBe('at most 3 % from the least possible')
  })
  test('equal to its bound and not certified is not called proved', () => {
    expect(farFrom(6000, 6000, false)).toBe('as low as the least possible, not proved')
  })
  test('no bound: not known', () => {
    expect(farFrom(6000, 0, false)).toBe('how far from the least possible is not known')
  })
})

describe('a stick as it is drawn', () => {
  test('clean-up 10, two blanks of 404 with kerf 2.5 between, then the drop to the end of 6000', () => {
    const stretches = stretchesOf(stick, part)
    expect(stretches.map(({ kind, upper }) => [kind, ...upper])).toEqual([
      ['clean-up', 0, 10],
      ['piece', 10, 414],
      ['piece', 416.5, 820.5],
      ['drop', 823, 6000],
    ])
    expect(6000 - 823).toBe(stick.drop)
  })

  test('an angled end is drawn at its slope: 40 wide at 30° leans 23.09', () => {
    const p = Math.tan(Math.PI / 6)
    const angled: NestStick = {
      ...stick,
      pieces: [
        {
          ...stick.pieces[0]!,
          ends: [
            { x: 5950, p, q: 0 },
            { x: 5500, p: -p, q: 0 },
          ],
        },
      ],
    }
    const piece = stretchesOf(angled, part).find(({ kind }) => kind === 'piece')!
    expect(piece.lower[0] - piece.upper[0]).toBeCloseTo(-23.094, 3)
    expect(piece.lower[1] - piece.upper[1]).toBeCloseTo(23.094, 3)
  })

  test('a square blank of 404 shows its miters of 30°: the long side whole, the short 40 · tan 30° = 23.09 less at each end', () => {
    const p = Math.tan(Math.PI / 6)
    const slopes = [
      { p: -p, q: 0 },
      { p, q: 0 },
    ] as const
    const [piece] = stretchesOf(stick, part, [{ key: 'key-a', slopes } as unknown as Part]).filter(
      ({ kind }) => kind === 'piece',
    )
    const sides = [piece!.finished!.upper, piece!.finished!.lower].map(([from, to]) => to - from)
    expect(Math.max(...sides)).toBeCloseTo(404, 6)
    expect(Math.min(...sides)).toBeCloseTo(404 - 2 * 40 * p, 6)
  })

  test('a stick with nothing left has no drop', () => {
    expect(stretchesOf({ ...stick, drop: 0 }, part).some(({ kind }) => kind === 'drop')).toBe(false)
  })
})
