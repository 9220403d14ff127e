import { afterEach, describe, expect, test, vi } from 'vitest'
import type { BenchCut } from '../../src/core/plan-shapes.ts'
import { breakWrite, closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, rows, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

async function opened(name = freshName()): Promise<Tablet> {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  return tablet
}

const kinds = (tablet: Tablet) => tablet.state().facts.map(({ kind }) => kind)
const doneOf = (tablet: Tablet, id: string) =>
  tablet.view(id).cuts.filter((cut) => cut.done !== undefined).length
const nth = (tablet: Tablet, id: string, at: number): BenchCut => tablet.view(id).cuts[at]!

describe('the first cut', () => {
  test('accepts the nest, opens the stick and cuts, in one write; the second is one fact', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await cutListJob(tablet, 4, 600)
    const append = vi.spyOn(tablet.disk, 'append')
    await tablet.actions.cut(id, nth(tablet, id, 0))
    expect(append).toHaveBeenCalledTimes(1)
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'cut'])
    const { nest, cuts, nesting } = tablet.view(id)
    expect(nesting.state).toBe('accepted')
    expect(tablet.state().progress.accepted).toEqual({ [id]: nest?.id })
    expect(tablet.state().progress.opened).toEqual({ [`${nest?.id}/${cuts[0]?.stick}`]: null })
    expect(cuts[0]?.done).toBe(tablet.state().progress.made[0]?.id)
    await tablet.actions.cut(id, nth(tablet, id, 1))
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'cut', 'cut'])
    expect(doneOf(tablet, id)).toBe(2)
    expect(tablet.state().flash).toBe(2)

    // Killed and started again: everything that was shown as done is there, with the same nest.
    const again = tabletOn(name)
    await again.actions.open()
    expect(doneOf(again, id)).toBe(2)
    expect(again.view(id).nest).toEqual(nest)
    expect(again.view(id).nesting.state).toBe('accepted')
  })

  test('is on disk before it shows as done', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    const append = tablet.disk.append
    let shownTooEarly = false
    vi.spyOn(tablet.disk, 'append').mockImplementation(async (...given) => {
      const facts = await append(...given)
      shownTooEarly = doneOf(tablet, id) > 0 || tablet.state().flash > 0
      return facts
    })
    await tablet.actions.cut(id, nth(tablet, id, 0))
    expect(shownTooEarly).toBe(false)
    expect(doneOf(tablet, id)).toBe(1)
  })

  test('tapped three times in a row it is one piece; tapped again later, still one', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    const cut = nth(tablet, id, 0)
    await Promise.all([1, 2, 3].map(() => tablet.actions.cut(id, cut)))
    await tablet.actions.cut(id, cut)
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'cut'])
  })

  test('that fails is said and shows nothing; tapped again it is done and the trouble is over', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    const fault = breakWrite(2, 'no room')
    await tablet.actions.cut(id, nth(tablet, id, 0))
    fault.fixed()
    expect(tablet.state().trouble).toContain('no room left')
    expect(doneOf(tablet, id)).toBe(0)
    expect(tablet.state().facts).toEqual([])
    expect(tablet.view(id).nesting.state).toBe('found')
    await tablet.actions.cut(id, nth(tablet, id, 0))
    expect(tablet.state().trouble).toBeNull()
    expect(doneOf(tablet, id)).toBe(1)
  })

  test('of a product that is not in the plan is refused in words', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    const cut = nth(tablet, id, 0)
    await tablet.actions.cut(id, { ...cut, product: { ...cut.product, id: 'Z9' } })
    expect(tablet.state().trouble).toContain('Z9 is not in the plan any more')
    expect(tablet.state().facts).toEqual([])
  })
})

describe('undo', () => {
  test('of the only cut of a stick puts the stick back; the nest stays accepted', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    await tablet.actions.cut(id, nth(tablet, id, 0))
    await tablet.actions.undo(id)
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'cut', 'undo', 'undo'])
    const { progress } = tablet.state()
    expect([progress.made, progress.opened, progress.last]).toEqual([[], {}, {}])
    expect(tablet.view(id).nesting.state).toBe('accepted')
    await tablet.actions.undo(id)
    expect(tablet.state().facts).toHaveLength(5)
    await tablet.actions.cut(id, nth(tablet, id, 0))
    expect(Object.keys(tablet.state().progress.opened)).toHaveLength(1)
  })

  test('of the second of two cuts leaves the stick opened, and goes back one at a time', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 3, 600)
    for (const at of [0, 1]) await tablet.actions.cut(id, nth(tablet, id, at))
    await tablet.actions.undo(id)
    expect(doneOf(tablet, id)).toBe(1)
    expect(Object.keys(tablet.state().progress.opened)).toHaveLength(1)
    await tablet.actions.undo(id)
    expect(doneOf(tablet, id)).toBe(0)
    expect(tablet.state().progress.opened).toEqual({})
  })

  test('two of 6000 bought: the first cut takes one off the rack, undo puts it back', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    await tablet.actions.accept(id)
    const { section } = tablet.view(id).nest!.sections[0]!
    await tablet.actions.bought(section, 6000, 2)
    expect(tablet.state().progress.rack).toHaveLength(2)
    await tablet.actions.cut(id, nth(tablet, id, 0))
    expect(tablet.state().progress.rack).toHaveLength(1)
    await tablet.actions.undo(id)
    expect(tablet.state().progress.rack).toHaveLength(2)
  })

  test('of a drop that was kept', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 1, 600)
    await tablet.actions.cut(id, nth(tablet, id, 0))
    await tablet.actions.keepDrop(id, 'S1', 5387.5)
    expect(tablet.state().progress.rack).toMatchObject([
      { length: 5387.5, ends: ['cut', 'mill'], from: 'drop' },
    ])
    await tablet.actions.undo(id)
    expect(tablet.state().progress.rack).toEqual([])
    expect(doneOf(tablet, id)).toBe(1)
  })
})

describe('mitered pieces', () => {
  test('all of a hexagon cut one after the other: every piece is made, each from a blank that is used up', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('polygon-frame')
    tablet.actions.show(id)
    await until(tablet, ({ views }) => (views[id]?.cuts.length ?? 0) > 0, 'a run')
    const { length } = tablet.view(id).cuts
    for (let at = 0; at < length; at++) {
      const cut = tablet.view(id).cuts.find(({ done }) => done === undefined)!
      await tablet.actions.cut(id, cut)
      expect(tablet.state().trouble).toBeNull()
      expect(doneOf(tablet, id)).toBe(at + 1)
    }
    const { made } = tablet.state().progress
    const pieces = tablet.view(id).plan!.parts.reduce((sum, part) => sum + part.count, 0)
    expect(made.filter(({ stage, used }) => stage === 'piece' && !used)).toHaveLength(pieces)
    expect(made.filter(({ stage, used }) => stage !== 'piece' && !used)).toEqual([])
    expect(made.filter(({ orphan }) => orphan)).toEqual([])
    expect(tablet.view(id).spares).toEqual([])
  })
})

describe('the weld list', () => {
  test('a step ticked on copy 2, again takes it back; ticked by two tablets, one tap takes back both', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await cutListJob(tablet, 2, 600)
    await tablet.actions.tick(id, 2, 'top/square', 'checked')
    expect(Object.keys(tablet.state().progress.ticked)).toEqual([`${id}/2/top/square`])
    await tablet.actions.tick(id, 2, 'top/square', 'checked')
    expect(tablet.state().progress.ticked).toEqual({})
    await tablet.actions.tick(id, 2, 'top/square', 'checked')
    await tablet.disk.append([{ kind: 'checked', job: id, copy: 2, body: { step: 'top/square' } }])
    await tablet.actions.openFile('{}')
    await until(tablet, ({ facts }) => facts.length >= 3, 'three facts')
    const other = tabletOn(name)
    await other.actions.open()
    await other.actions.tick(id, 2, 'top/square', 'checked')
    expect(other.state().progress.ticked).toEqual({})
  })
})

describe('the rack', () => {
  test('what could not be read back is not written', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 1, 600)
    const { section } = tablet.view(id).nest!.sections[0]!
    await tablet.actions.bought(section, Number.NaN, 1)
    expect(tablet.state().trouble).toContain('length')
    await tablet.actions.bought(section, 6000, 2.5)
    expect(tablet.state().trouble).toContain('2.5')
    await tablet.actions.keepDrop(id, 'S1', 5000)
    expect(tablet.state().trouble).toContain('Stick S1 was not on the saw yet')
    expect(tablet.state().facts).toEqual([])
    await tablet.actions.cut(id, nth(tablet, id, 0))
    await tablet.actions.keepDrop(id, 'S1', 7000)
    expect(tablet.state().trouble).toContain('7000 mm cannot be left of stick S1: it was 6000 mm long')
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'cut'])
  })

  test('a drop found on the rack is used by the next nest; corrected to too short, it is not', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 1, 600)
    const { section } = tablet.view(id).nest!.sections[0]!
    await tablet.actions.found({ section, length: 900, ends: ['cut', 'cut'] })
    const rackId = tablet.state().progress.rack[0]!.id
    const uses = (what: string) =>
      until(tablet, () => tablet.view(id).nest?.sections[0]?.sticks[0]?.from === what, `from ${what}`)
    await uses('rack')
    await tablet.actions.correct(rackId, 500)
    await uses('buy')
    await tablet.actions.correct(rackId, 700)
    await uses('rack')
    await tablet.actions.discard(rackId)
    await uses('buy')
  })

  test('a drop that the accepted nest of one job waits for is not offered to another', async () => {
    const tablet = await opened()
    const one = await cutListJob(tablet, 1, 600)
    const { section } = tablet.view(one).nest!.sections[0]!
    await tablet.actions.found({ section, length: 700, ends: ['cut', 'cut'] })
    await until(tablet, () => tablet.view(one).nest?.sections[0]?.sticks[0]?.from === 'rack', 'from the rack')
    const two = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(two, { rows: rows([1, 610]) })
    tablet.actions.show(two)
    await until(tablet, () => tablet.view(two).nest?.sections[0]?.sticks[0]?.from === 'rack', 'from the rack')
    await tablet.actions.accept(one)
    await until(tablet, () => tablet.view(two).nest?.sections[0]?.sticks[0]?.from === 'buy', 'bought')
    await tablet.actions.removeJob(one)
    tablet.actions.show(two)
    await until(tablet, () => tablet.view(two).nest?.sections[0]?.sticks[0]?.from === 'rack', 'free again')
  })
})
