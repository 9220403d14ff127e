// A run written by hand for the tests of the Saw, Stock and Weld stations: two six-sided parts of 404 mm in 40 mm
// tube (issue example: stop 404 with the long side at the fence; formats.md: edges 404 / 357.812), square first.
import type { Nest, NestStick } from '../../../src/core/nest.ts'
import type { BenchCut, Plan, Program, Run, SetUp, Shown } from '../../../src/core/plan-shapes.ts'
import type { Section } from '../../../src/core/section/section.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'

export const shop: Shop = { ...startShop('mm'), leastDrop: 300 }
export const section: Section = {
  kind: 'square-tube',
  width: 40,
  height: 40,
  wall: 3,
  cornerRadius: 6,
}
const mm = (value: number): Shown => ({ mm: value, text: String(value), unit: 'mm' })

const base = { saw: 'saw-1', section, tilt: 0, roll: 0, ramp: 0, stopSide: 'left', faceDown: '-z' } as const

export const squareSet: SetUp = {
  ...base,
  id: 'set-1',
  swing: 0,
  stop: 404,
  exact: 404,
  hold: 'stick',
  longSide: 'fence',
  pieces: ['A1.b', 'A2.b'],
  printed: {
    stop: mm(404),
    miter: { deg: 0, text: '0°' },
    lean: 'square',
    longSide: 'square ends: any side against the fence',
    turn: 'push the stick to the stop, no turning',
  },
}

export const miterSet: SetUp = {
  ...base,
  id: 'set-2',
  swing: -30,
  stop: 404,
  exact: 404.145,
  hold: 'stop',
  longSide: 'fence',
  pieces: ['A1.m', 'A1', 'A2.m', 'A2'],
  printed: {
    stop: mm(404),
    miter: { deg: 30, text: '30°' },
    lean: 'the end of the blade away from the fence leans toward the stop',
    longSide: 'long side against the fence',
    turn: 'either end to the stop; cut one end; turn it over, end for end; cut the other end',
  },
}

export const stick: NestStick = {
  id: 'S1',
  from: 'buy',
  length: 6000,
  price: 0,
  ends: ['mill', 'mill'],
  way: 'square first',
  pieces: [
    ['A1', 5990],
    ['A2', 5583.5],
  ].map(([piece, x]) => ({
    piece: piece as string,
    mark: 'A',
    key: 'key-a',
    job: 'job-1',
    copy: 1,
    turn: 'none',
    ends: [
      { x: x as number, p: 0, q: 0 },
      { x: (x as number) - 404, p: 0, q: 0 },
    ],
    blank: `${piece}.b`,
  })),
  drop: 5177,
}

export const nest: Nest = {
  version: 1,
  id: 'nest-1',
  solver: 'by hand',
  jobs: ['job-1'],
  sections: [
    {
      section,
      kerf: 2.5,
      trim: 10,
      grip: 0,
      way: 'square first',
      demand: [],
      stock: [{ length: 6000, ends: ['mill', 'mill'] }],
      sticks: [stick],
      cost: 6000,
      bound: 6000,
      proved: true,
    },
  ],
}

const fromStick: Program = {
  id: 'P1',
  saw: 'saw-1',
  stopSide: 'left',
  hold: 'stick',
  load: 'S1',
  kerf: 2.5,
  steps: [
    { head: [0, 0] },
    { trim: 10 },
    { stop: 404, exact: 404 },
    { cut: { keep: 'A1.b', rest: 'on' }, setUp: 'set-1' },
    { cut: { keep: 'A2.b', rest: 'on' }, setUp: 'set-1' },
    { unload: 'S1.1' },
  ],
}

const fromBlank = (piece: string): Program => ({
  id: `P-${piece}`,
  saw: 'saw-1',
  stopSide: 'left',
  hold: 'stop',
  load: `${piece}.b`,
  kerf: 2.5,
  steps: [
    { head: [-30, 0] },
    { stop: 404, exact: 404.145 },
    { cut: { keep: `${piece}.m`, rest: 'scrap' }, setUp: 'set-2' },
    { turn: 'flip' },
    { cut: { keep: piece, rest: 'scrap' }, setUp: 'set-2' },
  ],
})

export const run: Run = {
  setUps: [squareSet, miterSet],
  products: ['A1', 'A2'].flatMap((piece) => [
    { id: `${piece}.b`, from: 'S1', kind: 'blank', mark: 'A', key: 'blank', makes: [piece] } as const,
    { id: `${piece}.m`, from: `${piece}.b`, kind: 'half', mark: 'A', key: 'half', makes: [piece] } as const,
    { id: piece, from: `${piece}.m`, kind: 'piece', mark: 'A', key: 'key-a', copy: 1 } as const,
  ]),
  programs: [fromStick, fromBlank('A1'), fromBlank('A2')],
  work: { heads: 1, stops: 1, loads: 3, turns: 2, cuts: 6, minutes: 20 },
}

/** The cuts of the run with these product ids done. */
export function cutsWith(done: readonly string[]): readonly BenchCut[] {
  const product = (id: string) => run.products.find((one) => one.id === id)!
  const fact = (id: string) => (done.includes(id) ? { done: `dev:${id}` } : {})
  const parent = (id: string) => (done.includes(id) ? { parent: `dev:${id}` } : {})
  const ends = (piece: string, index: number): BenchCut[] => [
    {
      index,
      program: fromBlank(piece),
      setUp: miterSet,
      product: product(`${piece}.m`),
      loaded: `${piece}.b`,
      stick: 'S1',
      loadFirst: true,
      turns: [],
      newSetUp: index === 2,
      ...fact(`${piece}.m`),
      ...parent(`${piece}.b`),
    },
    {
      index: index + 1,
      program: fromBlank(piece),
      setUp: miterSet,
      product: product(piece),
      loaded: `${piece}.m`,
      stick: 'S1',
      loadFirst: false,
      turns: ['flip'],
      newSetUp: false,
      ...fact(piece),
      ...parent(`${piece}.m`),
    },
  ]
  const blank = { program: fromStick, setUp: squareSet, loaded: 'S1', stick: 'S1', turns: [] } as const
  return [
    {
      ...blank,
      index: 0,
      product: product('A1.b'),
      loadFirst: true,
      trimFirst: 10,
      newSetUp: true,
      ...fact('A1.b'),
    },
    {
      ...blank,
      index: 1,
      product: product('A2.b'),
      loadFirst: false,
      unload: 'S1.1',
      newSetUp: false,
      ...fact('A2.b'),
    },
    ...ends('A1', 2),
    ...ends('A2', 4),
  ]
}

export const plan: Plan = {
  job: 'job-1',
  name: 'Six-sided top with a long name that goes on over the edge of a phone',
  quantity: 1,
  frame: {
    members: [],
    plates: [],
    joints: [],
    hardware: [],
    assemblies: [],
    measures: [],
    warnings: [],
    size: [808, 700, 40],
    floor: 0,
  },
  parts: [
    {
      mark: 'A',
      name: 'Side',
      count: 2,
      members: [],
      section,
      longPoint: 404.145,
      shortPoint: 357.957,
      edges: [404.145, 357.957, 357.957, 404.145],
      angleFromSquare: [30, 30],
      shape: 'ends opposed',
      mid: 381.05,
      slopes: [
        { p: 0.577, q: 0 },
        { p: -0.577, q: 0 },
      ],
      mass: 1.3,
      key: 'key-a',
      printed: {
        primary: 'long point',
        length: mm(404),
        longPoint: mm(404),
        shortPoint: mm(358),
        angles: [
          { deg: 30, text: '30°' },
          { deg: 30, text: '30°' },
        ],
        mass: '1.30 kg',
      },
    },
  ],
  plates: [],
  landings: [],
  sizes: [],
  mass: 2.6,
  demand: [],
  weld: { seams: [], tacks: [], order: [], round: [], steps: [] },
  warnings: [],
  nest,
  run,
}
