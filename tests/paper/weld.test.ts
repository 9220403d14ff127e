import { describe, expect, test } from 'vitest'
import { jointNames } from '../../src/core/weld/joint-name.ts'
import { weldPlan } from '../../src/core/weld/order.ts'
import { weldRows } from '../../src/paper/weld.ts'
import { framed, metric, tube } from '../core/builds/framed.ts'

const { frame } = framed('polygon-frame', { sides: 6, size: 700, section: tube(40, 3) }, metric)
const rows = (tacking: 'in a jig' | 'piece by piece') =>
  weldRows(weldPlan(frame, { ...metric, tacking }).steps, jointNames(frame))

describe('the rows of the weld sheet', () => {
  test('in a jig each joint is a row: first tack, check, three more tacks', () =>
    expect(rows('in a jig')[2]).toEqual({
      text: 'Tack corner 1:',
      boxes: ['outside', 'check', 'inside', 'top', 'bottom'],
    }))

  test('piece by piece each round is a row: five outside tacks, then the outline, then the last', () => {
    const said = rows('piece by piece')
    expect(said[2]).toEqual({
      text: 'Tack outside:',
      boxes: ['corner 1', 'corner 2', 'corner 3', 'corner 4', 'corner 5'],
    })
    expect(said[3]?.text).toMatch(/outline/)
    expect(said[4]).toEqual({ text: 'Tack corner 6, outside', boxes: [''] })
    expect(said[5]?.boxes).toHaveLength(6)
  })

  test('every step has one box, in the order of the work', () => {
    for (const tacking of ['in a jig', 'piece by piece'] as const) {
      const steps = weldPlan(frame, { ...metric, tacking }).steps
      expect(rows(tacking).reduce((sum, { boxes }) => sum + boxes.length, 0)).toBe(steps.length)
    }
  })

  test('what goes under the pieces stands in the row of the fit', () => {
    const base = framed('pedestal', {}, metric)
    const all = weldRows(weldPlan(base.frame, metric).steps, jointNames(base.frame))
    const block = 'Under Post, Arm 1, 2, 3 and 4: block 75 mm under end A.'
    expect(all.filter(({ text }) => text.includes(block))).toHaveLength(1)
  })

  test('passes of one kind are one row: six outside seams', () =>
    expect(
      rows('in a jig')
        .filter(({ text }) => text === 'Weld outside:')
        .map(({ boxes }) => boxes.length),
    ).toEqual([6]))
})
