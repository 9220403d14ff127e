import { describe, expect, test } from 'vitest'
import { dropSign, rackMarks } from '../../src/core/facts/rack-mark.ts'
import { listBlocks } from '../../src/paper/list-sheet.tsx'
import { pageSizes } from '../../src/paper/size.ts'
import { inOrder, tagBlocks } from '../../src/paper/tags.ts'
import { cutsWith, nest, plan, shop, stick } from '../ui/saw/bench-run.ts'

const tags = (cuts = cutsWith([])) =>
  tagBlocks(plan, cuts, shop, pageSizes.A4).flatMap(({ strips }) => strips.map(({ what }) => what))

// The rack will say it of the drop of S1, whenever it is kept.
const mark = rackMarks([{ id: 'kept:1', sign: dropSign(nest.id, 'S1') }]).get('kept:1')

describe('tags', () => {
  test('a stick says what it is, what comes out of it in which order, and which mark is painted on what is left', () => {
    const [first] = tags()
    expect(first).toMatchObject({
      kind: 'stick',
      tag: {
        title: '40 × 40 × 3 mm square tube, 6000 mm',
        pieces: 'In order: A1 to A2',
        rest: `Then offcut ${mark}: 5177 mm`,
      },
    })
  })

  test('a drop that is kept has a tag with the mark to paint, its length and where it is from', () => {
    expect(tags()[1]).toEqual({
      kind: 'drops',
      tags: [
        {
          id: mark,
          length: '5177 mm',
          section: '40 × 40 × 3 mm square tube',
          from: `${plan.name}, S1`,
        },
      ],
    })
  })

  test('what is scrap has no tag', () => {
    const cuts = cutsWith([]).map((cut) => (cut.unload ? { ...cut, unload: 'scrap' } : cut))
    expect(tags(cuts)).toHaveLength(1)
    expect(tags(cuts)[0]).toMatchObject({ tag: { rest: 'What is left is scrap.' } })
  })

  test('pieces are named in the order of the stick, runs of one mark closed up', () => {
    const pieces = ['A1', 'A2', 'A3', 'B1', 'A5', 'A4'].map((piece) => ({
      ...stick.pieces[0]!,
      piece,
      mark: piece[0]!,
    }))
    expect(inOrder({ ...stick, pieces })).toBe('A1 to A3, B1, A5, A4')
  })
})

describe('the cut list', () => {
  const rows = (quantity: number, count = 2) =>
    listBlocks({ ...plan, quantity, parts: [{ ...plan.parts[0]!, count }] }, shop, pageSizes.A4)[0]!

  test('every piece of every copy has its box: 3 copies of 2 are 1, 2 · 3, 4 · 5, 6, as the nest counts them', () => {
    expect(rows(3).strips.map(({ what }) => [what.label, what.numbers])).toEqual([
      ['Copy 1', ['1', '2']],
      ['Copy 2', ['3', '4']],
      ['Copy 3', ['5', '6']],
    ])
    expect(rows(3).head.what.text).toBe(
      'Side, 40 × 40 × 3 mm square tube, long point 404 mm: 6 pieces, 2 for each copy.',
    )
  })

  test('one copy needs no word for it; 30 pieces of it take more than a row', () => {
    const { strips } = rows(1, 30)
    expect(strips.every(({ what }) => what.label === '')).toBe(true)
    expect(strips.length).toBeGreaterThan(1)
    expect(strips.flatMap(({ what }) => what.numbers)).toEqual(
      Array.from({ length: 30 }, (_, k) => String(k + 1)),
    )
  })
})
