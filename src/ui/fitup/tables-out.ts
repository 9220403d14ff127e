import { standsOf } from '../../core/fitup/centering.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import type { TableLayout } from '../../core/fitup/table.ts'
import { fineReading, lengthMay, type Tape } from '../../core/fitup/tapes.ts'
import { centerLines, sayOutermost } from '../../core/fitup/words.ts'
import type { Frame } from '../../core/frame/frame.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading, Shop } from '../../core/shop.ts'
import type { Mm } from '../../core/units.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'

/** What the tape must read, what it may be off by, and what was measured. */
export const tapesOut = (
  tapes: readonly Tape[],
  shop: Shop,
  measured: (name: string) => Mm | undefined,
): TableOut => ({
  heads: ['from', 'must be', 'may be off by', 'allowed by', 'measured'],
  rows: tapes.map(({ name, label, expected }) => {
    const { most, by } = lengthMay(shop, expected)
    const got = measured(name)
    return [
      label,
      showLength(expected, shop.reading),
      showLength(most, fineReading(shop.reading)),
      by,
      got === undefined ? '' : showLength(got, fineReading(shop.reading)),
    ]
  }),
})

/** Lines and blocks on the table, x from the left edge and y from the front one. */
export function layoutOut({ members }: Frame, { lines }: TableLayout, reading: Reading): TableOut {
  const names = new Map(members.map(({ id, name }) => [id, name]))
  const at = ([x, y]: readonly [Mm, Mm]) => [showLength(x, reading), showLength(y, reading)]
  return {
    heads: ['piece', 'what', 'x', 'y', 'to x', 'to y'],
    rows: lines.flatMap(({ member, from, to, blocks }): Cell[][] => [
      [names.get(member) ?? member, 'line', ...at(from), ...at(to)],
      ...blocks.map((block) => [names.get(member) ?? member, 'block', ...at(block), '', '']),
    ]),
  }
}

/** Distances from edge to edge of all that stands on something else. Below 0: it hangs past that edge. */
export function standsOut(plan: Plan, loops: readonly Loop[], reading: Reading): TableOut {
  const names = new Map(plan.frame.members.map(({ id, name }) => [id, name]))
  const row = (by: string, on: string, from: string, mm: Mm | undefined): Cell[][] =>
    mm === undefined ? [] : [[by, on, from, showLength(mm, reading)]]
  return {
    heads: ['piece', 'stands on', 'measured from', 'distance'],
    rows: [
      ...centerLines(plan, loops).flatMap(({ name, within, center }) =>
        center.distance.flatMap((mm, side) =>
          row(name, within, sayOutermost(center.from[side as 0 | 1]), mm),
        ),
      ),
      ...standsOf(plan.frame).flatMap(({ by, on, along, across }) => {
        const [above, under] = [names.get(by)!, names.get(on)!]
        return [
          ...row(above, under, 'along, from end A', along[0]),
          ...row(above, under, 'along, from end B', along[1]),
          ...row(above, under, 'across, from one edge', across[0]),
          ...row(above, under, 'across, from the other edge', across[1]),
        ]
      }),
    ],
  }
}
