import { afterEach, describe, expect, test, vi } from 'vitest'
import { rackMarks } from '../../src/core/facts/rack-mark.ts'
import type { HandCut } from '../../src/core/plan-shapes.ts'
import type { Shop } from '../../src/core/shop.ts'
import { dropMarks } from '../../src/paper/drop-marks.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, hasRun, rows, type Tablet, tabletOn } from './tablet.ts'

// What is checked off besides single cuts: a stroke that cuts two sticks side by side, and pieces made by hand.
afterEach(closeTabs)

const pairs: Shop = { ...handShop, saws: handShop.saws.map((saw) => ({ ...saw, gang: 2 })) }

async function opened(shop: Shop, name = freshName()): Promise<Tablet> {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  await tablet.actions.saveShop(shop)
  return tablet
}
const kinds = (tablet: Tablet) => tablet.state().facts.map(({ kind }) => kind)
const doneOf = (tablet: Tablet, id: string) =>
  tablet
    .view(id)
    .cuts.filter(({ done }) => done !== undefined)
    .map(({ product }) => product.id)
const strokeAt = (tablet: Tablet, id: string, at: number) => {
  const { cuts } = tablet.view(id)
  return cuts.filter(({ product }) => cuts[at]!.stroke?.includes(product.id))
}

describe('18 × 650 from two sticks of 6000, two side by side', () => {
  test('one stroke is one write: both sticks opened, two pieces, each of its own stick; killed, both are there', async () => {
    const name = freshName()
    const tablet = await opened(pairs, name)
    const id = await cutListJob(tablet, 18, 650)
    expect(strokeAt(tablet, id, 0)).toHaveLength(2)
    const append = vi.spyOn(tablet.disk, 'append')
    await tablet.actions.cut(id, ...strokeAt(tablet, id, 0))
    expect(append).toHaveBeenCalledTimes(1)
    expect(kinds(tablet)).toEqual(['accepted', 'opened', 'opened', 'cut', 'cut'])
    expect(tablet.state().progress.made.map(({ stick }) => stick)).toEqual(['S1', 'S2'])
    const again = tabletOn(name)
    await again.actions.open()
    expect(doneOf(again, id)).toHaveLength(2)
  })

  test('two bought lie on the rack: each stick takes one of its own', async () => {
    const tablet = await opened(pairs)
    const id = await cutListJob(tablet, 18, 650)
    const { section } = tablet.view(id).cuts[0]!.setUp
    await tablet.actions.accept(id)
    await tablet.actions.bought(section, 6000, 2)
    await tablet.actions.cut(id, ...strokeAt(tablet, id, 0))
    expect(tablet.state().progress.rack).toEqual([])
    expect(new Set(Object.values(tablet.state().progress.opened)).size).toBe(2)
  })

  test('Undo takes the stroke back whole, and the sticks with the first', async () => {
    const tablet = await opened(pairs)
    const id = await cutListJob(tablet, 18, 650)
    await tablet.actions.cut(id, ...strokeAt(tablet, id, 0))
    await tablet.actions.cut(id, ...strokeAt(tablet, id, 2))
    await tablet.actions.undo(id)
    expect(doneOf(tablet, id)).toHaveLength(2)
    await tablet.actions.undo(id)
    expect(doneOf(tablet, id)).toEqual([])
    expect(tablet.state().progress.opened).toEqual({})
  })

  test('one by one, Undo takes back the last piece only; the other half of the stroke is then cut alone', async () => {
    const tablet = await opened(pairs)
    const id = await cutListJob(tablet, 18, 650)
    await tablet.actions.cut(id, ...strokeAt(tablet, id, 0))
    await tablet.actions.undo(id, true)
    expect(doneOf(tablet, id)).toHaveLength(1)
    const open = strokeAt(tablet, id, 0).filter(({ done }) => done === undefined)
    await tablet.actions.cut(id, ...open)
    expect(doneOf(tablet, id)).toHaveLength(2)
    await tablet.actions.undo(id)
    expect(doneOf(tablet, id)).toHaveLength(1)
  })

  test('checked off by two tabs at once the stroke is two pieces, not four', async () => {
    const tablet = await opened(pairs)
    const id = await cutListJob(tablet, 18, 650)
    const stroke = strokeAt(tablet, id, 0)
    await Promise.all([1, 2].map(() => tablet.actions.cut(id, ...stroke)))
    await tablet.actions.cut(id, ...stroke)
    expect(tablet.state().progress.made).toHaveLength(2)
  })
})

test('the mark on the rack is the one that the paper said before the drop was kept, on every device', async () => {
  const name = freshName()
  const tablet = await opened(handShop, name)
  const id = await cutListJob(tablet, 4, 600)
  const printed = dropMarks(tablet.view(id).plan!).get('S1')
  for (const at of [0, 1, 2, 3]) await tablet.actions.cut(id, tablet.view(id).cuts[at]!)
  await tablet.actions.keepDrop(id, 'S1', 3500)
  const again = tabletOn(name)
  await again.actions.open()
  for (const one of [tablet, again]) {
    const { rack } = one.state().progress
    expect([...rackMarks(rack).values()]).toEqual([printed])
  }
})

describe('two pieces of 800 with ends of 60° on a saw of 45°, and one square', () => {
  const asked = async () => {
    const tablet = await opened(handShop)
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editParams(id, { rows: rows([2, 800, 60, 60], [1, 500]) })
    tablet.actions.show(id)
    await hasRun(tablet, id)
    return { tablet, id }
  }
  const byHand = (tablet: Tablet, id: string) =>
    tablet.view(id).byHand.map(({ product, done, parent }) => [product.id, !!done, !!parent])
  async function sawAll(tablet: Tablet, id: string) {
    for (const at of tablet.view(id).cuts.keys()) await tablet.actions.cut(id, tablet.view(id).cuts[at]!)
  }

  test('their blanks are cut, then each is made of its blank, and the job is complete', async () => {
    const { tablet, id } = await asked()
    expect(byHand(tablet, id)).toEqual([
      ['A1', false, false],
      ['A2', false, false],
    ])
    await sawAll(tablet, id)
    expect(byHand(tablet, id)).toEqual([
      ['A1', false, true],
      ['A2', false, true],
    ])
    await tablet.actions.cutByHand(id, 'A1')
    await tablet.actions.cutByHand(id, 'A1')
    expect(byHand(tablet, id)).toEqual([
      ['A1', true, false],
      ['A2', false, true],
    ])
    await tablet.actions.cutByHand(id, 'A2')
    const { made } = tablet.state().progress
    expect(made.filter(({ stage }) => stage === 'piece').map(({ label }) => label)).toEqual([
      'B1',
      'A1',
      'A2',
    ])
    expect(made.filter(({ used }) => used).map(({ stage }) => stage)).toEqual(['blank', 'blank'])
    expect(tablet.view(id).spares).toEqual([])
    // Nothing is open: a plan of the rest is refused in words.
    await tablet.actions.planRest(id)
    expect(tablet.state().trouble).toContain('Every piece that this job asks for is cut')
  })

  test('Undo takes it back; its blank lies there again', async () => {
    const { tablet, id } = await asked()
    await sawAll(tablet, id)
    await tablet.actions.cutByHand(id, 'A1')
    await tablet.actions.undo(id)
    expect(byHand(tablet, id)[0]).toEqual(['A1', false, true])
  })

  const miscut = (
    tablet: Tablet,
    id: string,
    piece: { readonly cut: HandCut } | { readonly piece: string },
  ) => tablet.actions.miscut(id, { of: piece, why: 'bad end', left: 600, ends: ['mill', 'mill'] })

  test('one that goes wrong in the hand takes its blank with it: 600 of it lie on the rack, another is planned', async () => {
    const { tablet, id } = await asked()
    await sawAll(tablet, id)
    expect(await miscut(tablet, id, { cut: tablet.view(id).byHand[0]! })).toBe(true)
    expect(tablet.view(id).missing).toEqual(['A1'])
    expect(tablet.state().progress.rack.map(({ length }) => length)).toEqual([600])
    await tablet.actions.planRest(id)
    await tablet.actions.acceptRest(id)
    await sawAll(tablet, id)
    expect(byHand(tablet, id).map(([, , parent]) => parent)).toEqual([true, true])
    for (const [piece] of byHand(tablet, id)) await tablet.actions.cutByHand(id, String(piece))
    expect(tablet.view(id).missing).toEqual([])
    expect(
      tablet.state().progress.made.filter(({ stage, mark }) => stage === 'piece' && mark === 'A'),
    ).toHaveLength(2)
  })

  test('one that was checked off and is found bad counts no more; Undo gives it back', async () => {
    const { tablet, id } = await asked()
    await sawAll(tablet, id)
    await tablet.actions.cutByHand(id, 'A1')
    expect(await miscut(tablet, id, { piece: tablet.view(id).byHand[0]!.done! })).toBe(true)
    expect(tablet.view(id).missing).toEqual(['A1'])
    await tablet.actions.undo(id)
    expect(byHand(tablet, id)[0]).toEqual(['A1', true, false])
  })

  test('a blank spoiled by a miscut leaves its piece without steel, and that is said', async () => {
    const { tablet, id } = await asked()
    await sawAll(tablet, id)
    const blank = tablet.view(id).cuts.find(({ product }) => product.makes?.includes('A2'))!
    await tablet.actions.miscut(id, {
      of: { piece: blank.done! },
      why: 'bad end',
      left: 0,
      ends: ['cut', 'cut'],
    })
    expect(tablet.view(id).missing).toContain('A2')
  })
})
