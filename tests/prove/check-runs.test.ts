// Random good runs, planned here by the stop rule of the documents and not by core/saw, are faultless; each of many
// damages to one of them is refused.
import { describe, expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import { checkRun } from '../../src/core/check/check-run.ts'
import type { Nest, NestPiece } from '../../src/core/nest.ts'
import type { Part, Product, Program, Run, SetUp, Step } from '../../src/core/plan-shapes.ts'
import type { Section } from '../../src/core/section/section.ts'
import type { Shop } from '../../src/core/shop.ts'
import {
  blankOf,
  damaged,
  figures,
  type Open,
  partOf,
  saw,
  setUp,
  shop,
  square,
  work,
} from '../core/check/documents.ts'
import { type Dice, dice, seed } from './seed.ts'

const rounds = 400
const limits = { ...saw.limits, towardStop: 60, awayFromStop: 60 }
const anySaw: Shop = { ...shop, saws: [{ ...saw, leastToHold: 20, limits }] }

interface Sample {
  readonly part: Part
  readonly nest: Nest
  readonly run: Run
  /** Slopes of both ends in the program's frame. */
  readonly slopes: readonly [number, number]
}

const degrees = (slope: number) => (Math.atan(slope) * 180) / Math.PI

function sample(roll: Dice): Sample {
  const width = roll.whole(20, 80)
  const tube: Section = {
    kind: 'square-tube',
    width,
    height: width,
    wall: 2,
    cornerRadius: roll.between(0, 8),
  }
  const tan = () => Math.tan((roll.between(5, 55) * Math.PI) / 180) * roll.pick([1, -1])
  const lead = roll() < 0.2 ? 0 : tan()
  const trail = roll.pick([lead, -lead, tan(), roll() < 0.3 ? 0 : tan()]) || tan()
  const part = partOf('A', tube, roll.whole(8 * width, 900), [
    { p: lead, q: 0 },
    { p: trail, q: 0 },
  ])
  const count = roll.whole(1, 3)
  const allowance = roll.pick([0, 1, 1.6])
  // Printed to the whole millimeter; all edges move with it.
  const printed = part.printed.length.mm - (part.printed.primary === 'edge' ? part.edges[0] : part.longPoint)
  const blank = Math.ceil((part.longPoint + printed + allowance) * 1600) / 1600
  const numbers = Array.from({ length: count }, (_, k) => k + 1)
  const pieces = numbers.map((number): NestPiece => {
    const x = 5990 - (number - 1) * (blank + 2.5)
    return {
      piece: `A${number}`,
      mark: 'A',
      key: 'key A',
      job: 'job',
      copy: 1,
      turn: 'none',
      ends: [
        { x, ...square },
        { x: x - blank, ...square },
      ],
      blank: `A${number}.b`,
    }
  })
  const nest: Nest = {
    version: 1,
    id: 'nest',
    solver: 'by dice',
    jobs: ['job'],
    sections: [
      {
        section: tube,
        ...figures,
        demand: [blankOf(part, blank, count)],
        sticks: [
          {
            id: 'S1',
            from: 'buy',
            length: 6000,
            price: 6000,
            ends: ['mill', 'mill'],
            way: 'square first',
            pieces,
            drop: 5990 - count * (blank + 2.5),
          },
        ],
        cost: 6000,
        bound: 6000,
        proved: true,
      },
    ],
  }

  // Pass 2, by design.md 6: S = F + max(0, m · w); with the stop at the right the mirror image in x is planned.
  const side = roll.pick(['left', 'right'] as const)
  const [m, u] = side === 'left' ? [lead, trail] : [-trail || 0, -lead || 0]
  const turn = roll.pick(['flip', 'end'] as const)
  const half = turn === 'flip' ? -m : m
  const first = blank - allowance / 2 - Math.max(0, -half * width)
  const fence = part.mid + printed - ((m - u) * width) / 2
  const second = fence + Math.max(0, m * width)
  const halfSide = half < 0 ? 'outward' : 'fence'
  const kept = fence - (fence + (m - u) * width)
  const wholeSide = Math.abs(kept) > 1e-6 ? (kept > 0 ? 'fence' : 'outward') : m < 0 ? 'fence' : 'outward'
  // Stops follow from the printed length; the exact ones give the part unrounded.
  const record = (id: string, planned: number, made: string[], slope: number, more: Partial<SetUp>) => {
    const swing = -degrees(slope) || 0
    return setUp(id, planned - printed, made, { section: tube, swing, stop: Math.round(planned), ...more })
  }
  const cutting = { saw: 'saw', stopSide: side, hold: 'stop', kerf: 2.5 } as const
  const halves = m !== 0
  const stop = (planned: number): Step => ({ stop: Math.round(planned), exact: planned - printed })
  const head = (slope: number): Step => ({ head: [-degrees(slope) || 0, 0] })
  const programs: Program[] = [
    {
      ...cutting,
      id: 'P1',
      stopSide: 'left',
      hold: 'stick',
      load: 'S1',
      steps: [
        { trim: 10 },
        stop(blank),
        ...numbers.map((n): Step => ({ cut: { keep: `A${n}.b`, rest: 'on' }, setUp: 'blanks' })),
        { unload: 'S1.1' },
      ],
    },
    ...(halves ? numbers : []).map(
      (n): Program => ({
        ...cutting,
        id: `H${n}`,
        load: `A${n}.b`,
        steps: [head(half), stop(first), { cut: { keep: `A${n}.m`, rest: 'scrap' }, setUp: 'first' }],
      }),
    ),
    ...numbers.map(
      (n): Program => ({
        ...cutting,
        id: `F${n}`,
        load: halves ? `A${n}.m` : `A${n}.b`,
        steps: [
          head(u),
          ...(halves ? [{ turn } as const] : []),
          stop(second),
          { cut: { keep: `A${n}`, rest: 'scrap' }, setUp: 'second' },
        ],
      }),
    ),
  ]
  const products = numbers.flatMap((n): Product[] => [
    { id: `A${n}.b`, from: 'S1', kind: 'blank', makes: [`A${n}`] },
    ...(halves ? [{ id: `A${n}.m`, from: `A${n}.b`, kind: 'half' } as const] : []),
    {
      id: `A${n}`,
      from: halves ? `A${n}.m` : `A${n}.b`,
      kind: 'piece',
      mark: 'A',
      key: 'key A',
      copy: 1,
      job: 'job',
    },
  ])
  const at = { hold: 'stop', stopSide: side } as const
  const run: Run = {
    setUps: [
      record(
        'blanks',
        blank,
        numbers.map((n) => `A${n}.b`),
        0,
        {},
      ),
      ...(halves
        ? [
            record(
              'first',
              first,
              numbers.map((n) => `A${n}.m`),
              half,
              { ...at, longSide: halfSide },
            ),
          ]
        : []),
      record(
        'second',
        second,
        numbers.map((n) => `A${n}`),
        u,
        { ...at, longSide: wholeSide },
      ),
    ],
    products: [...products, { id: 'S1.1', from: 'S1', kind: 'drop' }],
    programs,
    work,
  }
  return { part, nest, run, slopes: [m, u] }
}

type Damage = (run: Open<Run>, program: Open<Program>, roll: Dice, sample: Sample) => unknown

const last = (program: Open<Program>) => program.id.startsWith('F')
const stopOf = (program: Open<Program>) =>
  program.steps.find((step): step is { stop: number; exact: number } => 'stop' in step)!

/** Each says false where the run at hand cannot be damaged this way. */
const damages: Readonly<Record<string, Damage>> = {
  'a stop of the last cut moved, in the set-up as well': (run, program, roll) => {
    if (!last(program)) return false
    const by = roll.between(0.001, 20) * roll.pick([1, -1])
    stopOf(program).exact += by
    run.setUps.at(-1)!.exact += by
    return true
  },
  'a head moved, in the set-up as well': (run, program, roll) => {
    if (!last(program)) return false
    const step = program.steps[0] as { head: [number, number] }
    step.head[0] += roll.between(0.01, 5) * roll.pick([1, -1])
    run.setUps.at(-1)!.swing = step.head[0]
    return true
  },
  'the other half turn': (_run, program, _roll, { slopes }) => {
    const step = program.steps[1]
    // Turned over, a piece with one miter is still itself.
    if (!last(program) || !step || !('turn' in step) || slopes[1] === 0) return false
    step.turn = step.turn === 'flip' ? 'end' : 'flip'
    return true
  },
  'no turn': (_run, program) => {
    if (!last(program) || !program.steps.some((step) => 'turn' in step)) return false
    program.steps.splice(1, 1)
    return true
  },
  'the stop on the other side in the program': (_run, program) => {
    program.stopSide = program.stopSide === 'left' ? 'right' : 'left'
  },
  'the other part held': (_run, program) => {
    program.hold = program.hold === 'stop' ? 'stick' : 'stop'
  },
  'another kerf': (_run, program, roll) => {
    program.kerf += roll.between(0.01, 2)
  },
  'a program left out': (run, program) => {
    run.programs.splice(run.programs.indexOf(program), 1)
  },
  'a program twice': (run, program) => {
    run.programs.push(structuredClone(program))
  },
  'the last program first': (run) => {
    run.programs.unshift(run.programs.pop()!)
  },
  'a stick that is not there': (_run, program) => {
    program.load = 'S7'
  },
  'a cut left out': (_run, program) => {
    program.steps.splice(
      program.steps.findIndex((step) => 'cut' in step),
      1,
    )
  },
  'a cut twice': (_run, program) => {
    const at = program.steps.findIndex((step) => 'cut' in step)
    program.steps.splice(at, 0, structuredClone(program.steps[at]!))
  },
  'no clean-up': (run) => {
    run.programs[0]!.steps.shift()
  },
  'a saw that is not there': (_run, program) => {
    program.saw = 'other'
  },
  'a product left out': (run, _p, roll) =>
    void run.products.splice(roll.whole(0, run.products.length - 1), 1),
  'a product from elsewhere': (run, _p, roll) => {
    roll.pick(run.products).from = 'S8'
  },
  'a product of another kind': (run, _p, roll) => {
    const product = roll.pick(run.products)
    product.kind = product.kind === 'drop' ? 'piece' : product.kind === 'piece' ? 'half' : 'drop'
  },
  'a swing in a set-up': (run, _p, roll) => {
    const record = roll.pick(run.setUps)
    record.swing = (record.swing as number) + roll.between(0.001, 3)
  },
  'a stop in a set-up': (run, _p, roll) => {
    roll.pick(run.setUps).stop += roll.pick([-1, 0.1, 1])
  },
  'the digits of a stop': (run, _p, roll) => {
    const { printed } = roll.pick(run.setUps)
    printed.stop.text = `${printed.stop.text}1`
  },
  'a piece missing in a set-up': (run, _p, roll) => {
    roll.pick(run.setUps).pieces.pop()
  },
  'a set-up left out': (run, _p, roll) => {
    run.setUps.splice(roll.whole(0, run.setUps.length - 1), 1)
  },
  'the long side in a set-up': (run) => {
    const record = run.setUps.at(-1)!
    record.longSide = record.longSide === 'fence' ? 'outward' : 'fence'
  },
  'NaN for a stop': (_run, program) => {
    stopOf(program).exact = Number.NaN
  },
}

describe(`runs planned by dice, seed ${seed}`, () => {
  const roll = dice('check-runs')
  const samples = Array.from({ length: rounds }, () => sample(roll))
  const judged = ({ part, nest }: Sample, run: Run) => checkRun(run, nest, [part], anySaw).faults

  test(`${rounds} of them are faultless`, () => {
    for (const each of samples) {
      const faults = [...checkNest(each.nest).faults, ...judged(each, each.run)]
      if (faults.length > 0) expect.fail(`${faults.join('\n')}\n${JSON.stringify(each)}`)
    }
  })

  test.each(Object.entries(damages))('%s is refused every time', (name, damage) => {
    const roll = dice(`check-runs ${name}`)
    let done = 0
    for (const each of samples) {
      let real = true
      const run = damaged(each.run, (copy) => {
        real = damage(copy, roll.pick(copy.programs), roll, each) !== false
      })
      if (!real) continue
      done += 1
      if (judged(each, run).length === 0) expect.fail(JSON.stringify({ ...each, run }))
    }
    expect(done).toBeGreaterThan(rounds / 20)
  })
})
