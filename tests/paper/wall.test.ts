import { describe, expect, test } from 'vitest'
import { pageSizes } from '../../src/paper/size.ts'
import { wallBlocks } from '../../src/paper/wall.ts'
import { cutsWith, plan, shop } from '../ui/saw/bench-run.ts'

const wordsOf = (change: Partial<typeof shop>) =>
  wallBlocks(plan, cutsWith([]), { ...shop, ...change }, pageSizes.A4).map(({ head }) => head.what.words)

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

  test('a line more makes its block a line higher, so that no page runs over', () => {
    const high = (change: Partial<typeof shop>) =>
      wallBlocks(plan, cutsWith([]), { ...shop, ...change }, pageSizes.A4)[0]!.head.high
    expect(high({ saws: [saw, { ...saw, id: 'other' }] })).toBeGreaterThan(high({}) + 5)
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
    expect(notes[0]).toEqual(['Load length S1, 6000 mm; clean-up cut 10 mm.'])
    expect(notes[1]?.[0]).toBe('Length S1 stays on the saw.')
  })
})
