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

  test('a saw that reads 90 at square: every set-up says that the miter is as its scale reads', () => {
    for (const words of wordsOf({ saws: [{ ...saw, readsAtSquare: 90 }] }))
      expect(words).toContain('Miter as the scale reads, 90° at square.')
  })

  test('a line more makes its block a line higher, so that no page runs over', () => {
    const high = (change: Partial<typeof shop>) =>
      wallBlocks(plan, cutsWith([]), { ...shop, ...change }, pageSizes.A4)[0]!.head.high
    expect(high({ saws: [{ ...saw, readsAtSquare: 90 }] })).toBeGreaterThan(high({}) + 5)
  })
})
