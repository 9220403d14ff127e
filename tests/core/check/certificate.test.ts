import { describe, expect, test } from 'vitest'
import { type Certificate, checkCertificate } from '../../../src/core/check/certificate.ts'
import { leastCostFrom } from '../../../src/core/check/stick-sums.ts'
import type { NestPart, NestProblem, StockLength } from '../../../src/core/nest.ts'
import type { Section } from '../../../src/core/section/section.ts'
import { mulberry32 } from '../../prove/seed.ts'

const tube: Section = { kind: 'square-tube', width: 40, height: 40, wall: 2, cornerRadius: 4 }
const part = (mark: string, mid: number, count: number, more: Partial<NestPart> = {}): NestPart => ({
  job: 'j',
  mark,
  key: `key ${mark}`,
  mid,
  ends: [
    { p: 0, q: 0 },
    { p: 0, q: 0 },
  ],
  turns: ['none'],
  count,
  perCopy: count,
  ...more,
})
const bar = (length: number, more: Partial<StockLength> = {}): StockLength => ({
  length,
  ends: ['mill', 'mill'],
  ...more,
})
const problem = (parts: NestPart[], stock: StockLength[], more: Partial<NestProblem> = {}): NestProblem => ({
  section: tube,
  way: 'square first',
  kerf: 0,
  trim: 0,
  grip: 0,
  parts,
  stock,
  keep: 0,
  ...more,
})
const flat = (scale: number, duals: number[], stockDuals: number[] = [0]): Certificate => ({
  scale,
  leaves: [{ branch: [], duals, stockDuals, branchDuals: [] }],
})

describe('a certificate of least cost', () => {
  // Sticks of 10; pieces of 6: no two share a stick, so five pieces need five sticks. Plain arithmetic.
  const five = problem([part('A', 6, 5)], [bar(10)])

  test('five pieces of 6 from sticks of 10 cost five sticks: a piece is worth a whole stick', () =>
    expect(checkCertificate(five, flat(1, [1]), 5, [1])).toBe('holds'))
  test('it does not prove six, and says what it proves', () =>
    expect(checkCertificate(five, flat(1, [1]), 6, [1])).toEqual({
      faults: ['the duals prove a cost of 5 only, not of 6'],
    }))
  test('pieces of 5.0 fit twice, so a whole stick each is too much; at 5.1 it is right', () => {
    const two = checkCertificate(problem([part('A', 5, 4)], [bar(10)]), flat(1, [1]), 4, [1])
    expect(two).toEqual({ faults: [expect.stringContaining('a stick of 10 mm can hold pieces worth 2')] })
    expect(checkCertificate(problem([part('A', 5.1, 4)], [bar(10)]), flat(1, [1]), 4, [1])).toBe('holds')
  })
  test('three halves of a stick round up to two', () =>
    expect(checkCertificate(problem([part('A', 5, 3)], [bar(10)]), flat(2, [1]), 2, [1])).toBe('holds'))

  // design.md 7: a 6000 stick with trim 10 and grip 0 has 5980 for square parts; a piece of 2990 with kerf 0 fits twice.
  test('trim 10 at both ends leaves 5980 of 6000: 2990.0 fits twice, 2990.1 does not', () => {
    const at = (mid: number) =>
      checkCertificate(problem([part('A', mid, 2)], [bar(6000)], { trim: 10 }), flat(1, [1]), 2, [1])
    expect(at(2990)).not.toBe('holds')
    expect(at(2990.1)).toBe('holds')
  })
  // design.md 7: a 1000 drop, both ends cut, grip 60, kerf 2.5 has 937.5.
  test('grip 60 and kerf 2.5 leave 937.5 of a cut drop of 1000, but a piece of 1000 is the drop itself', () => {
    const drop = bar(1000, { ends: ['cut', 'cut'], rack: 'r1', count: 1 })
    const at = (mid: number) =>
      checkCertificate(
        problem([part('A', mid, 1)], [drop, bar(6000)], { kerf: 2.5, grip: 60 }),
        flat(1, [7], [0, 0]),
        7,
        [0, 7],
      )
    expect(at(937.5)).not.toBe('holds')
    expect(at(937.6)).toBe('holds')
    expect(at(999.9)).toBe('holds')
    expect(at(1000)).toEqual({ faults: [expect.stringContaining('one A uncut')] })
  })
  test('kerf 2.5 between neighbors: 997.5 twice needs 1997.5', () => {
    const at = (length: number) =>
      checkCertificate(problem([part('A', 997.5, 2)], [bar(length)], { kerf: 2.5 }), flat(1, [1]), 2, [1])
    expect(at(1997.5)).not.toBe('holds')
    expect(at(1997.4)).toBe('holds')
  })

  test('counted stock: one cheap stick and then dear ones', () => {
    const counted = problem([part('A', 6, 3)], [bar(10, { price: 1, count: 1 }), bar(10, { price: 4 })])
    // 1 + 4 + 4: each piece is worth 4, the one cheap stick saves 3.
    expect(checkCertificate(counted, flat(1, [4], [-3, 0]), 9, [1, 4])).toBe('holds')
    expect(checkCertificate(counted, flat(1, [4], [-2, 0]), 10, [1, 4])).toEqual({
      faults: [expect.stringContaining('can hold pieces worth 4, more than the limit 3')],
    })
    expect(checkCertificate(counted, flat(1, [4], [-3, -1]), 9, [1, 4])).toEqual({
      faults: ['stock 1 has no count, so its dual must be 0, not -1'],
    })
  })

  test('a bound of 7001 is a cost of 12000 where sticks cost 6000 and 7000, and 7000 where it is 6001', () => {
    expect(leastCostFrom(7001, [6000, 7000], 20000)).toBe(12000)
    expect(leastCostFrom(6001, [6000, 7000], 20000)).toBe(7000)
    expect(leastCostFrom(1, [0, 5], 20)).toBe(5)
    expect(leastCostFrom(0, [5], 20)).toBe(0)
    expect(leastCostFrom(2_999_998, [7, 2], 3_000_000)).toBe(2_999_998)
    // Too many sums of seven prices: at least by their common divisor it goes up.
    const prices = [6001, 6007, 6011, 6029, 6037, 6043, 6047].map((price) => 10 * price)
    expect(leastCostFrom(8_000_001, prices, 9_000_000)).toBe(8_000_010)
  })

  test('leaves must cover every count of sticks', () => {
    const leaf = (
      branch: Certificate['leaves'][number]['branch'],
      duals: number[],
      branchDuals: number[],
    ) => ({
      branch,
      duals,
      stockDuals: [0],
      branchDuals,
    })
    const low = leaf([{ stock: 0, atMost: 4 }], [1], [0])
    const high = leaf([{ stock: 0, atLeast: 5 }], [1], [0])
    expect(checkCertificate(five, { scale: 1, leaves: [low, high] }, 5, [1])).toBe('holds')
    expect(checkCertificate(five, { scale: 1, leaves: [low] }, 5, [1])).toEqual({
      faults: ['the leaves do not cover every nest'],
    })
    const higher = leaf([{ stock: 0, atLeast: 6 }], [1], [0])
    expect(checkCertificate(five, { scale: 1, leaves: [low, higher] }, 5, [1])).not.toBe('holds')
    // At least five sticks at a price of 1 each: the branch alone carries the bound.
    const alone = leaf([{ stock: 0, atLeast: 5 }], [0], [1])
    expect(checkCertificate(five, { scale: 1, leaves: [low, alone] }, 5, [1])).toBe('holds')
    expect(
      checkCertificate(five, { scale: 1, leaves: [low, { ...alone, branchDuals: [2] }] }, 5, [1]),
    ).not.toBe('holds')
    const signs = { ...alone, branchDuals: [-1] }
    expect(checkCertificate(five, { scale: 1, leaves: [low, signs] }, 5, [1])).toEqual({
      faults: ['the dual of branch 1 has the wrong sign'],
    })
  })

  test.each([
    ['half a dual', flat(1, [0.5]), 'one whole dual'],
    ['a dual too few', flat(1, []), 'one whole dual'],
    ['no scale', flat(0, [1]), 'the scale is 0'],
    ['no leaf', { scale: 1, leaves: [] }, 'no leaf'],
    ['a stock dual above 0', flat(1, [1], [1]), 'at most 0'],
  ])('%s is refused', (_, certificate, words) =>
    expect(checkCertificate(five, certificate, 5, [1])).toEqual({
      faults: expect.arrayContaining([expect.stringContaining(words)]),
    }),
  )

  test('a search that grows too large says "not checked", never "holds"', () => {
    const roll = mulberry32(3)
    // Even numbers of steps leave one step of an odd stick; but for the odd piece, which is worth next to nothing.
    const even = Array.from({ length: 60 }, (_, k) =>
      part(`P${k}`, 100 + Math.floor(roll() * 80000) / 800, 40),
    )
    const parts = [...even, part('odd', 3000 + 1 / 1600, 1)]
    const duals = [...even.map(({ mid }) => Math.round(mid * 1600) * 1000), 1]
    const answer = checkCertificate(
      problem(parts, [bar(6000 + 1 / 1600)]),
      flat(1, duals),
      1,
      [9_600_000_000],
    )
    expect(answer).toEqual({ faults: [expect.stringContaining('not checked')] })
  })

  test('worths even by length need no search, however many sums they make', () => {
    const roll = mulberry32(3)
    const parts = Array.from({ length: 60 }, (_, k) =>
      part(`P${k}`, 100 + Math.floor(roll() * 159999) / 1600, 40),
    )
    const duals = parts.map(({ mid }) => Math.round(mid * 1600) * 1000)
    // No 6000 mm hold more than 6000 mm; for one unit less than that they hold too much.
    const limit = 9_600_000_000
    const given = problem(parts, [bar(6000)])
    expect(checkCertificate(given, flat(1, duals), 1, [limit])).toBe('holds')
    expect(checkCertificate(given, flat(1, duals), 1, [limit - 1])).toEqual({
      faults: [expect.stringContaining('can hold')],
    })
  })
})

// Mitered octagon sides from the stick, turned over between cuts: design.md 6 "alternating trapezoids":
// N parts take N · mid + (N − 1) · k/cos a + w · tan a between clean-up cuts.
test('angled ends count with the kerf and the wedge that no order undercuts', () => {
  const tan = Math.tan(Math.PI / 6)
  const mid = 404 - 40 * tan
  const part30 = part('A', mid, 15, {
    ends: [
      { p: tan, q: 0 },
      { p: -tan, q: 0 },
    ],
    turns: ['none', 'over', 'end', 'flip'],
  })
  // Fifteen need 5777.1 (design.md 6): they fit a stick of 5777.2, not one of 5777.0.
  const fifteen = (length: number) =>
    checkCertificate(problem([part30], [bar(length)], { kerf: 2.5 }), flat(14, [1]), 2, [1])
  expect(fifteen(5777)).toBe('holds')
  expect(fifteen(5777.2)).toEqual({ faults: [expect.stringContaining('worth 15, more than the limit 14')] })
})

// The answer agrees with trying every stick by hand.
test('every small instance agrees with a search through all sets of pieces', () => {
  const roll = mulberry32(11)
  let refused = 0
  for (let round = 0; round < 600; round += 1) {
    const kinds = 1 + Math.floor(roll() * 4)
    const parts = Array.from({ length: kinds }, (_, k) =>
      part(`P${k}`, 1 + Math.floor(roll() * 30), 1 + Math.floor(roll() * 3)),
    )
    const kerf = Math.floor(roll() * 3)
    const length = 30 + Math.floor(roll() * 20)
    const duals = parts.map(({ mid }) => Math.max(0, mid + Math.floor(roll() * 7) - 3))
    const limit = length + Math.floor(roll() * 4) - 1
    let best = 0
    const walk = (index: number, used: number, worth: number) => {
      best = Math.max(best, worth)
      const here = parts[index]
      if (!here) return
      for (let n = 0; n <= here.count && used + n * (here.mid + kerf) <= length + kerf; n += 1)
        walk(index + 1, used + n * (here.mid + kerf), worth + n * duals[index]!)
    }
    walk(0, 0, 0)
    const answer = checkCertificate(problem(parts, [bar(length)], { kerf }), flat(1, duals), 0, [limit])
    expect(answer === 'holds').toBe(best <= limit)
    if (answer !== 'holds') refused += 1
  }
  expect(refused).toBeGreaterThan(20)
  expect(refused).toBeLessThan(580)
})
