import { describe, expect, test } from 'vitest'
import { shortPiece } from '../../src/core/saw/caution.ts'
import { pageSizes } from '../../src/paper/size.ts'
import { startBlock, wallBlocks } from '../../src/paper/wall.ts'
import { cutsWith, plan, shop } from '../ui/saw/bench-run.ts'

/** All sentences of a set-up: those with its pictures, and those below. */
const said = ({ head, strips }: ReturnType<typeof wallBlocks>[number]): string[] => [
  ...head.what.words,
  ...strips.flatMap(({ what }) => (what.kind === 'words' ? what.text.split(/(?<=[.]) /) : [])),
]

const wordsOf = (change: Partial<typeof shop>) =>
  wallBlocks(plan, cutsWith([]), { ...shop, ...change }, pageSizes.A4).map(said)

const saw = shop.saws[0]!

describe('the wall cut sheet', () => {
  test('one saw that reads 0 at square: neither its name nor its scale is said', () => {
    const words = wordsOf({}).flat().join(' ')
    expect(words).not.toContain(saw.name)
    expect(words).not.toContain('scale')
  })

  test('of two saws, every set-up says on which it is', () => {
    for (const words of wordsOf({ saws: [saw, { ...saw, id: 'other', name: 'Other saw' }] }))
      expect(words[0]).toBe(`On ${saw.name}.`)
  })

  test('a saw that reads 90 at square: each miter says so, a square cut need not', () => {
    const [square, ...miters] = wordsOf({ saws: [{ ...saw, readsAtSquare: 90 }] })
    expect(square).not.toContain('The scale reads 90° at square.')
    expect(miters.length).toBeGreaterThan(0)
    for (const words of miters) expect(words).toContain('The scale reads 90° at square.')
  })

  test('words beyond those that stand beside the picture make their block higher, so that no page runs over', () => {
    const high = (name: string) => {
      const saws = [
        { ...saw, name },
        { ...saw, id: 'other' },
      ]
      const [block] = wallBlocks(plan, cutsWith([]), { ...shop, saws }, pageSizes.A4)
      return block!.strips.reduce((sum, strip) => sum + strip.high, block!.head.high)
    }
    expect(high('Saw 12')).toBe(high('Saw'))
    expect(high(`Saw${' of a very long name'.repeat(10)}`)).toBeGreaterThan(high('Saw') + 5)
  })

  test('what stands before the first set-up names the saw, its blade and its kerf once', () => {
    const { words } = startBlock(cutsWith([]), shop, pageSizes.A4).head.what
    expect(words[0]).toBe('Saw 1, Blade 1, kerf 3 mm, stop on the left.')
  })

  test('a stick is drawn where it is loaded for the first time, and not again', () => {
    const drawn = wallBlocks(plan, cutsWith([]), shop, pageSizes.A4).flatMap(({ strips }) =>
      strips.flatMap(({ what }) => (what.kind === 'load' && what.stick ? [what.stick.id] : [])),
    )
    expect(drawn).toEqual(['S1'])
  })

  test('one set-up for both ends is drawn twice, once at each end; a set-up of blanks once', () => {
    const drawn = wallBlocks(plan, cutsWith([]), shop, pageSizes.A4).map(({ head }) =>
      head.what.setting?.drawn.map(({ product }) => product.id),
    )
    expect(drawn).toEqual([['A1.b'], ['A1.m', 'A1']])
  })

  test('a blank of 404 mm in 40 mm tube is not short; a piece of 79 mm is, and the sheet says how to hold it', () => {
    const cut = cutsWith([])[0]!
    const of = (length: number) =>
      said(wallBlocks(plan, [{ ...cut, product: { ...cut.product, length } }], shop, pageSizes.A4)[0]!)
    expect(of(404)).not.toContain(shortPiece)
    expect(of(80)).not.toContain(shortPiece)
    expect(of(79)).toContain(shortPiece)
  })

  test('a stick that stays on the saw between two set-ups is not loaded again', () => {
    const [first, second] = cutsWith([])
    if (!first || !second) throw new Error('two blanks are needed')
    // The same visit of stick S1, its second piece under another stop.
    const moved = { ...second, setUp: { ...second.setUp, id: 'another stop' } }
    const notes = wallBlocks(
      plan,
      [{ ...first, unload: undefined } as typeof first, moved],
      shop,
      pageSizes.A4,
    ).map(({ strips }) => strips.flatMap(({ what }) => (what.kind === 'load' ? [what.text] : [])))
    expect(notes[0]).toEqual(['Load S1, 6000 mm; clean up 10 mm.'])
    expect(notes[1]?.[0]).toBe('S1 stays on the saw.')
  })
})
