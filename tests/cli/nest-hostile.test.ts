import { describe, expect, test } from 'vitest'
import { nestCommand } from '../../src/cli/nest-command.ts'
import type { NestResult } from '../../src/cli/nest-result.ts'
import { dice } from '../prove/seed.ts'
import { type Problem, recheck } from './recheck.ts'

// Problems that are nasty on purpose. Every answer is checked once more from the text of the documents.

async function nests(problem: Problem | readonly Problem[], seconds = 10): Promise<NestResult[]> {
  const start = performance.now()
  const { code, out, err } = await nestCommand(['problem.json', '--json', '--seconds', String(seconds)], {
    read: () => JSON.stringify(problem),
    clock: () => (performance.now() - start) / 1000,
  })
  expect([code, err]).toEqual([0, ''])
  const results = JSON.parse(out) as NestResult[]
  for (const [at, each] of (Array.isArray(problem) ? problem : [problem]).entries())
    expect(recheck(each, results[at]!), JSON.stringify(each).slice(0, 300)).toEqual([])
  return results
}

const inch = 25.4

/** Problem, sticks, cost: by hand. */
const known: readonly (readonly [string, Problem, number, number])[] = [
  [
    'twelve of 19 63/64 in and eleven kerfs of 1/64 in fill 239 63/64 in',
    {
      kerf: inch / 64,
      stock: [{ length: (239 + 63 / 64) * inch }],
      parts: [{ length: (19 + 63 / 64) * inch, count: 12 }],
    },
    1,
    (239 + 63 / 64) * inch,
  ],
  [
    'a part as long as its stick',
    { stock: [{ length: 1000 }], parts: [{ length: 1000, count: 3 }] },
    3,
    3000,
  ],
  [
    'a part as long as its stick between two clean-up cuts',
    { kerf: 3, trim: 3, stock: [{ length: 1006 }], parts: [{ length: 1000, count: 2 }] },
    2,
    2012,
  ],
  ['kerf 0: ten of 0.1 in 1', { stock: [{ length: 1 }], parts: [{ length: 0.1, count: 10 }] }, 1, 1],
  [
    'ten of 0.3 in 3, and one in a stick of its own',
    { stock: [{ length: 3 }], parts: [{ length: 0.3, count: 11 }] },
    2,
    6,
  ],
  [
    'the rack alone, worth nothing',
    { stock: [{ length: 700, rack: true, count: 3 }], parts: [{ length: 300, count: 6 }] },
    3,
    0,
  ],
  [
    'the rack alone, at a value: the cheaper piece',
    {
      stock: [
        { length: 900, rack: true, price: 7.5 },
        { length: 900, rack: true, price: 7.49 },
      ],
      parts: [{ length: 400, count: 2 }],
    },
    1,
    7.49,
  ],
  [
    'a rack piece used uncut, though the vise must hold 200 of any other',
    {
      kerf: 2,
      grip: 200,
      stock: [{ length: 500, rack: true }, { length: 1000 }],
      parts: [{ length: 500, count: 2 }],
    },
    2,
    1000,
  ],
  [
    'stock of which there is none beside stock that is dear',
    {
      stock: [
        { length: 2000, price: 1, count: 0 },
        { length: 1000, price: 99.99 },
      ],
      parts: [{ length: 600, count: 2 }],
    },
    2,
    199.98,
  ],
  [
    'the price of a long stick below that of a short one',
    {
      stock: [
        { length: 500, price: 50 },
        { length: 6000, price: 49.99 },
      ],
      parts: [{ length: 400, count: 1 }],
    },
    1,
    49.99,
  ],
  ['steel for nothing', { stock: [{ length: 1000, price: 0 }], parts: [{ length: 600, count: 3 }] }, 3, 0],
  [
    'prices of a million: 2 × 999999.99',
    { stock: [{ length: 1000, price: 999_999.99 }], parts: [{ length: 500, count: 4 }] },
    2,
    1_999_999.98,
  ],
  [
    'four of 600 from one stick of 3000, though two of 1500 hold them for less',
    {
      stock: [
        { length: 3000, price: 40 },
        { length: 1500, price: 15 },
      ],
      parts: [{ length: 600, count: 4, same: 'grain' }],
    },
    1,
    40,
  ],
  [
    'two that share a stick are as long as a rack piece, but for the cut between them',
    {
      kerf: 2,
      grip: 50,
      stock: [{ length: 802, rack: true }, { length: 1000 }],
      parts: [{ length: 400, count: 2, same: 'pair' }],
    },
    1,
    1000,
  ],
  [
    'hexagon sides that share a stick by sevens and fives: 7 × 383.793 and a wedge of 23.094, less a kerf, are 2706.8',
    {
      kerf: 2.5,
      width: 40,
      stock: [{ length: 2707 }, { length: 1940 }],
      parts: [
        { length: 404, count: 7, ends: [30, 30], same: 'one top' },
        { length: 404, count: 5, ends: [30, 30], same: 'another' },
      ],
    },
    2,
    4647,
  ],
  [
    'clean-up as wide as the kerf',
    { kerf: 2.5, trim: 2.5, stock: [{ length: 1000 }], parts: [{ length: 496.25, count: 2 }] },
    1,
    1000,
  ],
  [
    'one end from the mill, one cut',
    { trim: 10, stock: [{ length: 1000, ends: ['mill', 'cut'] }], parts: [{ length: 990, count: 1 }] },
    1,
    1000,
  ],
  [
    'trim 0 and mill ends named: no clean-up',
    { stock: [{ length: 1000, ends: ['mill', 'mill'] }], parts: [{ length: 1000, count: 1 }] },
    1,
    1000,
  ],
  [
    'twice the same stock and twice the same part',
    {
      stock: [{ length: 1000 }, { length: 1000 }],
      parts: [
        { length: 500, count: 1 },
        { length: 500, count: 1 },
      ],
    },
    1,
    1000,
  ],
  [
    'parallelograms that may not be turned share every cut: eleven of edge 500 at 30°, 50 wide',
    {
      width: 50,
      stock: [{ length: 5528.9 }],
      parts: [{ length: 528.8675, count: 11, ends: [30, -30], turns: 'none' }],
    },
    1,
    5528.9,
  ],
  [
    'hexagon sides pinned outside: each takes 404 and two slanted kerfs of 2.887, fourteen to a stick',
    {
      kerf: 2.5,
      trim: 10,
      width: 40,
      stock: [{ length: 6000 }],
      parts: [{ length: 404, count: 30, ends: [30, 30], turns: 'flip' }],
    },
    3,
    18_000,
  ],
  [
    'counted stock with angled ends and pins: one stick of 6000, then dear ones of 3000, seven in each',
    {
      kerf: 2.5,
      trim: 10,
      width: 40,
      stock: [
        { length: 6000, price: 40, count: 1 },
        { length: 3000, price: 39 },
      ],
      parts: [{ length: 404, count: 28, ends: [30, 30], turns: 'flip' }],
    },
    3,
    118,
  ],
  [
    'eight octagon sides of 14.9117 in on one stick: 8 × 14.2904 in, seven slanted kerfs and two wedges',
    {
      kerf: inch / 16,
      width: 1.5 * inch,
      stock: [
        {
          length: (8 * 14.2904 + 7 / 16 / Math.cos(Math.PI / 8) + 1.5 * Math.tan(Math.PI / 8)) * inch + 0.02,
        },
      ],
      parts: [{ length: 14.9117 * inch, count: 8, ends: [22.5, 22.5] }],
    },
    1,
    (8 * 14.2904 + 7 / 16 / Math.cos(Math.PI / 8) + 1.5 * Math.tan(Math.PI / 8)) * inch + 0.02,
  ],
]

describe('nasty problems whose answer is known', () => {
  test.each(known)('%s', async (_, problem, sticks, cost) => {
    const [result] = await nests(problem)
    expect(result).toMatchObject({ sticks, proved: true, provedSticks: true })
    expect(result!.cost).toBeCloseTo(cost, 6)
  })

  test('a third of a step too long for the stick is too long: 2 × 500.0002 in 1000, by whole steps', async () => {
    const [result] = await nests({ stock: [{ length: 1000 }], parts: [{ length: 500.0002, count: 2 }] })
    expect(result!.sticks).toBe(2)
  })

  test('5000 parts of 40 lengths: all pieces placed, and no nest costs less', async () => {
    const roll = dice('5000 parts', 1)
    const parts = Array.from({ length: 40 }, () => ({ length: roll.whole(1000, 30_000) / 10, count: 125 }))
    const stock = [{ length: 6000 }, { length: 7500 }]
    const [result] = await nests({ kerf: 2.5, trim: 10, stock, parts }, 60)
    expect(result).toMatchObject({ proved: true })
  }, 120_000)
})

test('a list of 60 random problems of every kind holds up to a second reckoning', async () => {
  const roll = dice('hostile list', 1)
  const problems = Array.from({ length: 60 }, (): Problem => {
    const width = roll.pick([20, 40, 38.1])
    const angled = roll() < 0.4
    const kerf = roll.pick([0, 0.1, 2.5, inch / 16])
    const money = roll() < 0.5
    const stock = Array.from({ length: roll.whole(1, 3) }, () => ({
      length: roll.whole(2000, 7000) / roll.pick([1, 1.6]),
      ...(money && { price: roll.whole(100, 20_000) / 100 }),
    }))
    const racked = Array.from({ length: roll.whole(0, 3) }, () => ({
      length: roll.whole(500, 2000),
      rack: true,
      ...(roll() < 0.3 && { count: roll.whole(0, 3) }),
      ...(money && roll() < 0.3 && { price: roll.whole(0, 900) / 100 }),
    }))
    const parts = Array.from({ length: roll.whole(1, 8) }, () => ({
      length: roll.whole(1000, 11_000) / 10,
      count: roll.whole(1, 9),
      ...(angled && {
        ends: [roll.pick([0, 30, 45, -30]), roll.pick([0, 30, 45])],
        turns: roll.pick(['all', 'none', 'over', 'end', 'flip']),
      }),
    }))
    // Two short parts that must share a stick, in some of the problems.
    const [one, other] = parts.filter(({ length, count }) => length * count < 900)
    if (one && other && roll() < 0.5) for (const each of [one, other]) Object.assign(each, { same: 'pair' })
    return {
      kerf,
      trim: roll.pick([0, 10]),
      grip: roll.pick([0, 0, 60]),
      ...(angled && { width }),
      stock: [...stock, ...racked],
      parts,
    }
  })
  const results = await nests(problems, 2)
  expect(results.filter(({ proved }) => proved).length).toBeGreaterThan(45)
}, 240_000)
