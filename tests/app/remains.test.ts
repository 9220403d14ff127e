import { expect, test } from 'vitest'
import { restOf } from '../../src/app/remains.ts'
import type { Made, Spoiled } from '../../src/core/facts.ts'
import type { Nest, NestPiece, NestSection, NestStick, StickEnd } from '../../src/core/nest.ts'

// A stick of 6000 from the mill, 40 square, kerf 2.5, clean-up 10, from which two pieces of 400 (long point) with 45° ends
// are cut that share the cut between them. By hand: each is 360 on the mid-line, a slanted kerf is 2.5 · √2 = 3.5355.

const slanted = 2.5 * Math.SQRT2
const ends = (x: number, p: number) =>
  [
    { x, p, q: 0 },
    { x: x - 360, p: -p, q: 0 },
  ] as const
const piece = (label: string, x: number, p: number): NestPiece => ({
  piece: label,
  mark: 'A',
  key: 'A of 400',
  job: 'job-1',
  copy: 1,
  turn: 'none',
  ends: ends(x, p),
})
// The wedge of a 45° cut from a square end is 20 on the mid-line, then the clean-up.
const first = 6000 - 20 - 10
const stick: NestStick = {
  id: 'S1',
  from: 'buy',
  length: 6000,
  price: 6000,
  ends: ['mill', 'mill'],
  way: 'from the stick',
  pieces: [piece('A1', first, 1), piece('A2', first - 360 - slanted, -1)],
  drop: 0,
}
const section: NestSection = {
  section: { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 },
  kerf: 2.5,
  trim: 10,
  grip: 0,
  way: 'from the stick',
  demand: [],
  stock: [],
  sticks: [stick],
  cost: 6000,
  bound: 6000,
  proved: false,
}
const nest: Nest = { version: 1, id: 'n', solver: 'by hand', jobs: ['job-1'], sections: [section] }

const made = (label: string) =>
  ({ nest: 'n', from: { stick: 'S1' }, mark: 'A', key: 'A of 400', label, stage: 'piece' }) as unknown as Made
const spoiled = (took: number) =>
  ({ nest: 'n', from: { stick: 'S1' }, mark: 'A', key: 'A of 400', took, left: 0 }) as unknown as Spoiled
const left = (good: readonly Made[], bad: readonly Spoiled[]) =>
  restOf(nest, section, stick, { made: good, spoiled: bad, loaded: {}, opened: {} })

test.each<[string, readonly Made[], readonly Spoiled[], number, StickEnd]>([
  ['one piece', [made('A1')], [], first - 360 - slanted, { p: -1, q: 0 }],
  ['both', [made('A1'), made('A2')], [], first - 720 - 2 * slanted, { p: 1, q: 0 }],
  ['the first went wrong', [], [spoiled(380)], first - 380 - slanted, 'mill'],
  ['one piece, then one went wrong', [made('A1')], [spoiled(350)], first - 710 - 2 * slanted, 'mill'],
])('%s: what is left of a slanted stick', (_, good, bad, mm, end) => {
  const rest = left(good, bad)!
  // Whole steps of 1/1600 mm, rounded down.
  expect(mm - rest.length).toBeGreaterThan(-1e-9)
  expect(mm - rest.length).toBeLessThan(1 / 1600)
  expect(rest.ends).toEqual([end, 'mill'])
})

test('steel of a mark that the nest does not have: nothing is said', () => {
  expect(left([{ ...made('B1'), mark: 'B' }], [])).toBeUndefined()
})
