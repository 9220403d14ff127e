// Hexagon, 700 across flats, 40 tube, reading 1 mm (issue table: long point 404, stop 404 with the long side at the
// fence): six sides out of one stick of 6000, square first, 1/16 in allowed per blank. Written out by hand.
import type { Nest, NestPiece } from '../../../src/core/nest.ts'
import type { Program, Run } from '../../../src/core/plan-shapes.ts'
import { blankOf, figures, partOf, setUp, square, tan30, tube40, work } from './documents.ts'

// 700 · tan 30° = 404.145 is drawn here at 404 to the last digit, so that the printed stops are the exact ones.
export const side = partOf(
  'A',
  tube40,
  404 - 40 * tan30,
  [
    { p: -tan30, q: 0 },
    { p: tan30, q: 0 },
  ],
  6,
)

const blank = 405.5875

const at = (number: number, lead: number): NestPiece => ({
  piece: `A${number}`,
  mark: 'A',
  key: 'key A',
  job: 'job',
  copy: 1,
  turn: 'none',
  ends: [
    { x: lead, ...square },
    { x: lead - blank, ...square },
  ],
  blank: `A${number}.b`,
})

export const hexagonNest: Nest = {
  version: 1,
  id: 'nest',
  solver: 'by hand',
  jobs: ['job'],
  sections: [
    {
      section: tube40,
      ...figures,
      demand: [blankOf(side, blank, 6)],
      sticks: [
        {
          id: 'S2',
          from: 'buy',
          length: 6000,
          price: 6000,
          ends: ['mill', 'mill'],
          way: 'square first',
          // 6000 − 10 of clean-up, then each 405.5875 + 2.5 further.
          pieces: [
            at(1, 5990),
            at(2, 5581.9125),
            at(3, 5173.825),
            at(4, 4765.7375),
            at(5, 4357.65),
            at(6, 3949.5625),
          ],
          // 3949.5625 − 405.5875 − 2.5
          drop: 3541.475,
        },
      ],
      cost: 6000,
      bound: 6000,
      proved: true,
    },
  ],
}

const numbers = [1, 2, 3, 4, 5, 6]
const usual = { saw: 'saw', stopSide: 'left', kerf: 2.5 } as const

export const hexagonRun: Run = {
  setUps: [
    setUp(
      'blanks',
      405.5875,
      numbers.map((n) => `A${n}.b`),
    ),
    setUp(
      'first ends',
      404.79375,
      numbers.map((n) => `A${n}.m`),
      { swing: -30, hold: 'stop' },
    ),
    setUp(
      'second ends',
      404,
      numbers.map((n) => `A${n}`),
      { swing: -30, hold: 'stop' },
    ),
  ],
  products: [
    ...numbers.flatMap((n) => [
      { id: `A${n}.b`, from: 'S2', kind: 'blank' as const, mark: 'A', makes: [`A${n}`] },
      { id: `A${n}.m`, from: `A${n}.b`, kind: 'half' as const, mark: 'A', makes: [`A${n}`] },
      { id: `A${n}`, from: `A${n}.m`, kind: 'piece' as const, mark: 'A', key: 'key A', copy: 1, job: 'job' },
    ]),
    { id: 'S2.1', from: 'S2', kind: 'drop', length: 3541.475 },
  ],
  programs: [
    {
      ...usual,
      id: 'P1',
      hold: 'stick',
      load: 'S2',
      steps: [
        { head: [0, 0] },
        { trim: 10 },
        { stop: 406, exact: 405.5875 },
        { cut: { keep: 'A1.b', rest: 'on' }, setUp: 'blanks' },
        { cut: { keep: 'A2.b', rest: 'on' }, setUp: 'blanks' },
        { cut: { keep: 'A3.b', rest: 'on' }, setUp: 'blanks' },
        { cut: { keep: 'A4.b', rest: 'on' }, setUp: 'blanks' },
        { cut: { keep: 'A5.b', rest: 'on' }, setUp: 'blanks' },
        { cut: { keep: 'A6.b', rest: 'on' }, setUp: 'blanks' },
        { unload: 'S2.1' },
      ],
    },
    ...numbers.map(
      (n): Program => ({
        ...usual,
        id: `first ${n}`,
        hold: 'stop',
        load: `A${n}.b`,
        steps: [
          { head: [-30, 0] },
          { stop: 405, exact: 404.79375 },
          { cut: { keep: `A${n}.m`, rest: 'scrap' }, setUp: 'first ends' },
        ],
      }),
    ),
    ...numbers.map(
      (n): Program => ({
        ...usual,
        id: `second ${n}`,
        hold: 'stop',
        load: `A${n}.m`,
        steps: [
          { head: [-30, 0] },
          { turn: 'flip' },
          { stop: 404, exact: 404 },
          { cut: { keep: `A${n}`, rest: 'scrap' }, setUp: 'second ends' },
        ],
      }),
    ),
  ],
  work,
}
