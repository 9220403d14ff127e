import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Ajv2020 from 'ajv/dist/2020.js'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import problemSchema from '../../docs/schemas/nest-problem.schema.json'
import resultSchema from '../../docs/schemas/nest-result.schema.json'
import { nestCommand } from '../../src/cli/nest-command.ts'
import type { NestResult } from '../../src/cli/nest-result.ts'
import type { Said } from '../../src/cli/said.ts'

const ajv = new Ajv2020({ allErrors: true, strict: true, strictRequired: false })
const isProblem = ajv.compile(problemSchema)
const isResult = ajv.compile(resultSchema)

/** The command on a text, with a clock that ticks a thousandth of a second at each look. */
function run(text: string, ...args: string[]): Promise<Said> {
  let now = 0
  return nestCommand(['problem.json', ...args], {
    read: (file) => {
      if (file !== 'problem.json') throw Object.assign(new Error('no such file'), { code: 'ENOENT' })
      return text
    },
    clock: () => {
      now += 0.001
      return now
    },
  })
}

async function nests(problems: unknown): Promise<NestResult[]> {
  const text = JSON.stringify(problems)
  if (!isProblem(JSON.parse(text))) throw new Error(ajv.errorsText(isProblem.errors))
  const { code, out, err } = await run(text, '--json')
  expect([code, err]).toEqual([0, ''])
  const results: unknown = JSON.parse(out)
  expect(isResult(results), ajv.errorsText(isResult.errors)).toBe(true)
  return results as NestResult[]
}

const plain = { kerf: 2.5, trim: 10, stock: [{ length: 6000 }], parts: [{ length: 1000, count: 10 }] }

describe('nest FILE --json', () => {
  test('ten of 1000 on sticks of 6000: two sticks, 12000 mm, proved, five to a stick', async () => {
    const [nest] = await nests({ ...plain, name: 'legs' })
    expect(nest).toMatchObject({
      name: 'legs',
      sticks: 2,
      cost: 12000,
      bound: 12000,
      proved: true,
      provedSticks: true,
      patterns: [{ stock: 0, count: 2, pieces: [{ part: 0, count: 5 }] }],
    })
    expect(nest?.patterns[0]).not.toHaveProperty('order')
  })

  test('the certificate of a file without prices proves the cost in mm: by hand, five to a stick make each 1200 mm', async () => {
    const { scale, leaves } = (await nests(plain))[0]!.certificate!
    const [dual] = leaves[0]!.duals
    expect((dual! * 10) / scale).toBeCloseTo(12000, 3)
    expect((dual! * 5) / scale).toBeLessThanOrEqual(6000)
  })

  test('one element per problem, in their order', async () => {
    const results = await nests(['c', 'a', 'b'].map((name) => ({ ...plain, name })))
    expect(results.map(({ name }) => name)).toEqual(['c', 'a', 'b'])
  })

  test('prices with cents: 33.49 + 19.95 = 53.44, cost and certificate in money', async () => {
    const stock = [
      { length: 3000, price: 33.49 },
      { length: 1500, price: 19.95 },
    ]
    const [nest] = await nests({ stock, parts: [{ length: 1400, count: 3 }] })
    expect(nest).toMatchObject({ cost: 53.44, bound: 53.44, proved: true, sticks: 2 })
    const { scale, leaves } = nest!.certificate!
    const provedBy = leaves.map(({ duals, branch, branchDuals }) => {
      const limits = branch.map(
        (bound, at) => branchDuals[at]! * ('atMost' in bound ? bound.atMost : bound.atLeast),
      )
      return limits.reduce((sum, limit) => sum + limit, duals[0]! * 3) / scale
    })
    const least = Math.min(...provedBy)
    // Rounded up to a sum of the two prices: 39.90 and 33.49 are the next below 53.44.
    expect(least).toBeGreaterThan(39.9)
    expect(least).toBeLessThanOrEqual(53.44)
  })

  test('a rack piece counts as a stick and costs nothing; two of them with a count', async () => {
    const stock = [{ length: 1000 }, { length: 700, rack: true, count: 2 }]
    const [nest] = await nests({ stock, parts: [{ length: 600, count: 3 }] })
    expect(nest).toMatchObject({ sticks: 3, cost: 1000, proved: true })
  })

  test('angled ends: order and turnings stand in the answer; fifteen of a hexagon to a stick of 6000', async () => {
    const [nest] = await nests({ ...plain, width: 40, parts: [{ length: 404, count: 30, ends: [30, 30] }] })
    expect(nest).toMatchObject({ sticks: 2, proved: true })
    const [first, second] = nest!.patterns[0]!.order!
    expect(first?.turn).not.toBe(second?.turn)
    expect(nest!.patterns.reduce((sum, { order, count }) => sum + count * order!.length, 0)).toBe(30)
  })

  test('square parts of a problem with one angled part stand in the order too', async () => {
    const parts = [
      { length: 404, count: 1, ends: [30, 30] },
      { length: 500, count: 2 },
    ]
    const [nest] = await nests({ ...plain, width: 40, parts })
    expect(nest?.patterns.flatMap(({ order }) => order!.map(({ part }) => part)).sort()).toEqual([0, 1, 1])
  })

  test('turnings: with `flip` or `none` alone a trapezoid shares no cut, with `end` and `over` it does', async () => {
    const sticks: number[] = []
    for (const turns of ['none', 'flip', 'end', 'over', 'all']) {
      const parts = [{ length: 404, count: 30, ends: [30, 30], turns }]
      sticks.push((await nests({ ...plain, width: 40, parts }))[0]!.sticks)
    }
    expect(sticks).toEqual([3, 3, 2, 2, 2])
  })

  test('eleven parallelograms of edge 500 in 50 tube at 30° share their cuts: they fit 5528.9 mm, not 5528.8', async () => {
    // Edge 500 and extent 528.87: design.md 5. 11 × 500 and a wedge of 14.43 at each end make 5528.87.
    const on = async (length: number) => {
      const parts = [{ length: 528.8675, count: 11, ends: [30, -30] }]
      return (await nests({ width: 50, stock: [{ length }], parts }))[0]!.sticks
    }
    expect([await on(5528.9), await on(5528.8)]).toEqual([1, 2])
  })

  test('counted stock that runs out: exit 0, what is left over is named, nothing is proved', async () => {
    const [nest] = await nests({ stock: [{ length: 1000, count: 2 }], parts: [{ length: 600, count: 3 }] })
    expect(nest).toMatchObject({
      sticks: 2,
      proved: false,
      provedSticks: false,
      unplaced: [{ part: 0, count: 1 }],
    })
    expect(nest).not.toHaveProperty('certificate')
  })

  test('0.001 seconds still give a usable nest; the time that it took is measured', async () => {
    const parts = Array.from({ length: 60 }, (_, at) => ({ length: 1711 + 13 * at, count: 3 }))
    const { code, out } = await run(JSON.stringify({ ...plain, parts }), '--json', '--seconds', '0.001')
    const [nest] = JSON.parse(out) as NestResult[]
    expect([code, nest?.proved]).toEqual([0, false])
    expect(nest?.seconds).toBeGreaterThan(0.001)
    const placed =
      nest?.patterns.flatMap(({ count, pieces }) => pieces.map((each) => each.count * count)) ?? []
    expect(placed.reduce((sum, count) => sum + count, 0)).toBe(180)
  })

  test('without --json a person reads sticks, cost and what is cut from them', async () => {
    const { code, out } = await run(JSON.stringify({ ...plain, name: 'legs' }))
    expect(code).toBe(0)
    expect(out).toContain('legs: 2 sticks, cost 12000 mm, proved least')
    expect(out).toContain('2 × 6000: 5 × 1000')
  })

  test('an unknown field is not read, and that is said on standard error', async () => {
    const { code, err } = await run(
      JSON.stringify({ ...plain, kref: 3, parts: [{ length: 10, count: 1, qty: 2 }] }),
    )
    expect(code).toBe(0)
    expect(err).toMatch(/not known and not read: kref, parts\[0\]\.qty\n$/)
  })
})

describe('a bad file: one line on standard error, exit 1, nothing on standard output', () => {
  const stock = [{ length: 6000 }]
  const parts = [{ length: 500, count: 2 }]
  const bad: readonly (readonly [string, string, RegExp, 'schema too' | 'door only'])[] = [
    ['empty', '', /empty/, 'door only'],
    ['no JSON', '{"stock": [', /not JSON/, 'door only'],
    ['NaN', '{"stock":[{"length":NaN}],"parts":[]}', /NaN in line 1 is no number/, 'door only'],
    [
      'Infinity by exponent',
      JSON.stringify({ stock, parts }).replace('500', '1e999'),
      /Infinity/,
      'door only',
    ],
    ['an empty list', '[]', /list of nest problems is empty/, 'schema too'],
    ['a number', '3', /it is 3/, 'schema too'],
    ['null', 'null', /it is null/, 'schema too'],
    ['a list with a text', '["x"]', /Problem 0: .*"x"/, 'schema too'],
    ['no parts', JSON.stringify({ stock, parts: [] }), /parts is an empty list/, 'schema too'],
    ['no stock', JSON.stringify({ stock: [], parts }), /stock is an empty list/, 'schema too'],
    ['parts missing', JSON.stringify({ stock }), /parts is missing/, 'schema too'],
    [
      'a length of text',
      JSON.stringify({ stock, parts: [{ length: '5', count: 1 }] }),
      /parts\[0\]\.length is "5"/,
      'schema too',
    ],
    [
      'a length of 0',
      JSON.stringify({ stock, parts: [{ length: 0, count: 1 }] }),
      /parts\[0\]\.length is 0/,
      'schema too',
    ],
    [
      'a count of 0',
      JSON.stringify({ stock, parts: [{ length: 5, count: 0 }] }),
      /parts\[0\]\.count is 0/,
      'schema too',
    ],
    [
      'a count of 1.5',
      JSON.stringify({ stock, parts: [{ length: 5, count: 1.5 }] }),
      /count is 1\.5/,
      'schema too',
    ],
    ['no count', JSON.stringify({ stock, parts: [{ length: 5 }] }), /count is missing/, 'schema too'],
    ['a negative kerf', JSON.stringify({ kerf: -1, stock, parts }), /kerf is -1/, 'schema too'],
    [
      'a trim of 2 with a kerf of 2.5',
      JSON.stringify({ kerf: 2.5, trim: 2, stock, parts }),
      /clean-up cut is 2 mm/,
      'door only',
    ],
    [
      'an angle of 90',
      JSON.stringify({ width: 40, stock, parts: [{ length: 500, count: 1, ends: [90, 0] }] }),
      /ends\[0\] is 90.*less than 90/,
      'schema too',
    ],
    [
      'an angle of -90',
      JSON.stringify({ width: 40, stock, parts: [{ length: 500, count: 1, ends: [0, -90] }] }),
      /ends\[1\] is -90/,
      'schema too',
    ],
    [
      'one end',
      JSON.stringify({ width: 40, stock, parts: [{ length: 500, count: 1, ends: [30] }] }),
      /ends/,
      'schema too',
    ],
    [
      'an angle and no width',
      JSON.stringify({ stock, parts: [{ length: 500, count: 1, ends: [30, 0] }] }),
      /width is missing; parts\[0\]/,
      'door only',
    ],
    [
      'ends that meet',
      JSON.stringify({ width: 40, stock, parts: [{ length: 40, count: 1, ends: [45, 45] }] }),
      /no steel on its short side/,
      'door only',
    ],
    [
      'a turning of the wrong name',
      JSON.stringify({ stock, parts: [{ length: 500, count: 1, turns: 'back' }] }),
      /turns is "back"/,
      'schema too',
    ],
    [
      'an end of the wrong name',
      JSON.stringify({ stock: [{ length: 6000, ends: ['mill', 'torch'] }], parts }),
      /ends\[1\] is "torch"/,
      'schema too',
    ],
    [
      'a price on one of two',
      JSON.stringify({ stock: [{ length: 6000, price: 40 }, { length: 3000 }], parts }),
      /price on 1 of 2/,
      'door only',
    ],
    [
      'a third of a cent',
      JSON.stringify({ stock: [{ length: 6000, price: 40.333 }], parts }),
      /price is 40\.333.*whole cents/,
      'door only',
    ],
    [
      'a negative price',
      JSON.stringify({ stock: [{ length: 6000, price: -1 }], parts }),
      /price is -1/,
      'schema too',
    ],
    [
      'rack as text',
      JSON.stringify({ stock: [{ length: 6000, rack: 'yes' }], parts }),
      /rack is "yes"/,
      'schema too',
    ],
    [
      'a part longer than any stick',
      JSON.stringify({ trim: 10, stock, parts: [{ length: 6400, count: 1 }] }),
      /Part 0 needs 6400 mm; a stick of 6000 mm gives the most, 5980 mm/,
      'door only',
    ],
    [
      'the second of two',
      JSON.stringify([
        { stock, parts },
        { stock, parts: [{ length: 7000, count: 1 }] },
      ]),
      /problem 1: Part 0 needs 7000/,
      'door only',
    ],
    [
      'a million pieces',
      JSON.stringify({ stock, parts: [{ length: 5, count: 1_000_000 }] }),
      /1000000 pieces.*at most 20000/,
      'door only',
    ],
    [
      'a name of the machinery',
      '{"__proto__": {"kerf": 1}, "stock": [{"length": 6000}], "parts": [{"length": 5, "count": 1}]}',
      /__proto__/,
      'door only',
    ],
  ]

  test.each(bad)('%s', async (_, text, words, who) => {
    const said = await run(text, '--json')
    expect([said.code, said.out]).toEqual([1, ''])
    expect(said.err).toMatch(words)
    expect(said.err).toMatch(/^problem\.json: [^\n]+\n$/)
    if (who === 'schema too') expect(isProblem(JSON.parse(text))).toBe(false)
  })

  test('a file that is not there, no file, two files, a wrong option, no seconds', async () => {
    const outside = {
      read: () => {
        throw Object.assign(new Error('no such file'), { code: 'ENOENT' })
      },
      clock: () => 0,
    }
    for (const [args, words] of [
      [['gone.json'], /gone\.json cannot be read \(ENOENT\)/],
      [[], /no file was given/],
      [['a', 'b'], /two files were given/],
      [['a', '--fast'], /--fast is no option/],
      [['a', '--seconds'], /--seconds is without a number/],
      [['a', '--seconds', '0'], /--seconds is 0/],
      [['a', '--seconds', 'ten'], /--seconds is ten/],
    ] as const) {
      const said = await nestCommand(args, outside)
      expect([said.code, said.out]).toEqual([1, ''])
      expect(said.err).toMatch(words)
      expect(said.err.trim().split('\n')).toHaveLength(1)
    }
  })
})

describe('the command itself', () => {
  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'nest-'))
  })
  afterAll(() => rmSync(folder, { recursive: true }))
  const command = (text: string) => {
    const file = join(folder, 'problem.json')
    writeFileSync(file, text)
    return spawnSync(process.execPath, ['scripts/run.mjs', 'src/cli/nest.ts', file, '--json'], {
      encoding: 'utf8',
    })
  }

  test('prints JSON alone on standard output and exits with 0', async () => {
    const { status, stdout, stderr } = command(JSON.stringify(plain))
    expect([status, stderr]).toEqual([0, ''])
    expect(JSON.parse(stdout)).toMatchObject([{ sticks: 2, proved: true }])
  }, 60_000)

  test('prints one line on standard error, nothing on standard output, and exits with 1', async () => {
    const { status, stdout, stderr } = command('{"stock": []}')
    expect([status, stdout]).toEqual([1, ''])
    expect(stderr.trim().split('\n')).toHaveLength(1)
  }, 60_000)
})
