import { expect, test } from 'vitest'
import { layOutOf } from '../../../src/core/saw/lay-out.ts'
import { part, tube } from './sample.ts'

// Marks on the steel by plain right triangles: 40 · tan 60° = 69.28, 40 · tan 45° = 40.
const reading = { kind: 'mm', step: 0.1 } as const
const rows = (of: Parameters<typeof layOutOf>[0]) =>
  layOutOf(of, reading).lines.map(({ from, length }) => `${from.text} ${length.text}`)

test('ends opposed, 60° on 40 tube, 800 long point: two edges 69.3 in and 661.4 long, two at the end and 800 long', () => {
  expect(rows(part({ length: 800, ends: [60, 60] }))).toEqual([
    '69.3 661.4',
    '0.0 800.0',
    '0.0 800.0',
    '69.3 661.4',
  ])
})

test('ends parallel at 45°: every edge is 500, two of them begin 40 in', () => {
  expect(rows(part({ length: 500, ends: [45, -45] }))).toEqual([
    '40.0 500.0',
    '0.0 500.0',
    '0.0 500.0',
    '40.0 500.0',
  ])
})

test('in from the end and along the edge never reach past the long point', () => {
  const of = part({ length: 620, ends: [50, 20], section: tube(60, 40), across: ['width', 'height'] })
  for (const { start, run } of layOutOf(of, reading).lines) {
    expect(start).toBeGreaterThanOrEqual(0)
    expect(start + run).toBeLessThanOrEqual(620 + 1e-6)
  }
})

test('square ends are one length all round', () => {
  const { square, lines } = layOutOf(part({ length: 1200, ends: [0, 0] }), reading)
  expect([square, lines.map(({ length }) => length.text)]).toEqual([
    true,
    ['1200.0', '1200.0', '1200.0', '1200.0'],
  ])
})

test('a round tube of 40 cut at 45° drops 20 a quarter turn from its tip and 40 across from it', () => {
  const round = { kind: 'round-tube', width: 40, height: 40, wall: 2, cornerRadius: 20 } as const
  expect(rows(part({ length: 300, ends: [45, 0], section: round })).map((row) => row.split(' ')[0])).toEqual([
    '40.0',
    '20.0',
    '0.0',
    '20.0',
  ])
})
