import { afterEach, describe, expect, test } from 'vitest'
import type { BenchCut } from '../../src/core/plan-shapes.ts'
import { nextCut } from '../../src/core/saw/bench.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, hasRun, rows, type Tablet, tabletOn } from './tablet.ts'

// Figures by hand: sticks of 6000 with a clean-up cut of 10 and a kerf of 2.5; the vise holds 60.

afterEach(closeTabs)

async function opened(): Promise<Tablet> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  return tablet
}

const open = (tablet: Tablet, id: string): readonly BenchCut[] =>
  tablet.view(id).cuts.filter(({ done, lost }) => done === undefined && lost === undefined)

async function cutNext(tablet: Tablet, id: string, times = 1): Promise<void> {
  for (let at = 0; at < times; at++) await tablet.actions.cut(id, open(tablet, id)[0]!)
  expect(tablet.state().trouble).toBeNull()
}

const miscutNext = (tablet: Tablet, id: string, left: number) =>
  tablet.actions.miscut(id, {
    of: { cut: open(tablet, id)[0]! },
    why: 'too short',
    left,
    ends: ['cut', 'cut'],
  })

const made = (tablet: Tablet) => tablet.state().progress.made.filter(({ used }) => !used)

describe('the second of 4 × 600 is cut too short, 580 of it are left', () => {
  async function spoiled(): Promise<{ tablet: Tablet; id: string }> {
    const tablet = await opened()
    const id = await cutListJob(tablet, 4, 600)
    await cutNext(tablet, id)
    expect(await miscutNext(tablet, id, 580)).toBe(true)
    return { tablet, id }
  }

  test('it is said at once, the work goes on with the next piece, and Undo takes it back', async () => {
    const { tablet, id } = await spoiled()
    const view = tablet.view(id)
    expect(view.missing).toEqual(['A2'])
    expect(view.nesting).toMatchObject({ state: 'accepted' })
    expect(view.nesting.rest).toBeUndefined()
    expect(open(tablet, id).map(({ product }) => product.id)).toEqual(['A3', 'A4'])
    expect(tablet.state().progress.rack).toMatchObject([{ length: 580, ends: ['cut', 'cut'] }])
    await cutNext(tablet, id)
    await tablet.actions.undo(id)
    await tablet.actions.undo(id)
    expect(tablet.view(id).missing).toEqual([])
    expect(tablet.state().progress.rack).toEqual([])
    expect(made(tablet)).toHaveLength(1)
  })

  test('the rest is offered as a difference: one more from S1, nothing to buy, nothing written until it is accepted', async () => {
    const { tablet, id } = await spoiled()
    const [before, facts] = [tablet.view(id).nest!, tablet.state().facts.length]
    await tablet.actions.planRest(id)
    const { offer, nest } = tablet.view(id)
    expect(nest).toEqual(before)
    expect(tablet.state().facts).toHaveLength(facts)
    // A × 2 were still to come from S1, now A × 3.
    expect(offer!.difference).toMatchObject({
      changed: [{ stick: 'S1', kind: 'begun', before: 'A × 2', after: 'A × 3' }],
      same: 0,
      buy: [],
      saved: 0,
    })
    // 6000 − clean-up 10 − 2 × (600 + kerf 2.5), and it still is S1, as is painted on it.
    const { sticks } = offer!.nest.sections[0]!
    expect(sticks).toMatchObject([{ id: 'S1', length: 4785, rack: `${before.id}/S1` }])
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).missing).toEqual([])
    await cutNext(tablet, id, 3)
    expect(made(tablet)).toHaveLength(4)
    expect(tablet.view(id).spares).toEqual([])
    expect(open(tablet, id)).toEqual([])
    // What is left of S1 now: 4785 − 3 × 602.5.
    await tablet.actions.keepDrop(id, 'S1', 2977.5)
    expect(tablet.state().progress.rack.map(({ length }) => length)).toEqual([580, 2977.5])
  })

  test('refused, the old plan stays; something cut meanwhile, the offer is gone', async () => {
    const { tablet, id } = await spoiled()
    await tablet.actions.planRest(id)
    tablet.actions.dropRest(id)
    expect(tablet.view(id).offer).toBeUndefined()
    await tablet.actions.planRest(id)
    await cutNext(tablet, id)
    expect(tablet.view(id).offer).toBeUndefined()
    await tablet.actions.acceptRest(id)
    expect(tablet.state().trouble).toContain('Something was cut')
  })
})

test('a full stick: the last of 9 × 650 goes wrong, and a stick must be bought', async () => {
  const tablet = await opened()
  const id = await cutListJob(tablet, 9, 650)
  await cutNext(tablet, id, 8)
  await miscutNext(tablet, id, 640)
  await tablet.actions.planRest(id)
  expect(tablet.view(id).offer!.difference.buy).toMatchObject([{ length: 6000, count: 1 }])
  // S1 is used up, so the stick to buy is S2.
  expect(tablet.view(id).offer!.difference.changed).toMatchObject([{ stick: 'S2', before: '', after: 'A' }])
  // One that lies on the rack already need not be bought.
  const { section } = tablet.view(id).nest!.sections[0]!
  await tablet.actions.bought(section, 6000, 1)
  await tablet.actions.planRest(id)
  expect(tablet.view(id).offer!.difference.buy).toEqual([])
})

test('a piece that was checked off and is found too short counts no more; another is planned', async () => {
  const tablet = await opened()
  const id = await cutListJob(tablet, 2, 600)
  await cutNext(tablet, id, 2)
  const piece = made(tablet)[0]!.id
  await tablet.actions.miscut(id, { of: { piece }, why: 'bad end', left: 0, ends: ['cut', 'cut'] })
  expect(made(tablet)).toHaveLength(1)
  expect(tablet.view(id).missing).toHaveLength(1)
  await tablet.actions.planRest(id)
  await tablet.actions.acceptRest(id)
  expect(open(tablet, id).map(({ product }) => product.id)).toEqual(['A2'])
  await cutNext(tablet, id)
  expect(made(tablet)).toHaveLength(2)
  // The same again, of a piece of the nest before: the plan of now gives one too few, and that is said.
  await tablet.actions.miscut(id, {
    of: { piece: made(tablet)[0]!.id },
    why: 'bad end',
    left: 0,
    ends: ['cut', 'cut'],
  })
  expect(tablet.view(id).nesting).toMatchObject({ rest: true })
  expect(tablet.view(id).nesting.text).toContain('a finished piece was spoiled')
})

test('a miter gone wrong on a blank: the blank is gone, its other end is not asked for, one more blank is planned', async () => {
  const tablet = await opened()
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editParams(id, { rows: rows([2, 600, 45, 45]) })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  await cutNext(tablet, id, 2)
  expect(open(tablet, id).map(({ product }) => product.kind)).toEqual(['half', 'piece', 'half', 'piece'])
  await tablet.actions.miscut(id, {
    of: { cut: open(tablet, id)[0]! },
    why: 'wrong angle',
    left: 500,
    ends: ['cut', 'mill'],
  })
  // The blank that was cut last is in hand, and its first end comes first.
  expect(tablet.view(id).missing).toEqual(['A2'])
  expect(open(tablet, id).map(({ product }) => product.id)).toEqual(['A1.m', 'A1'])
  await tablet.actions.planRest(id)
  expect(tablet.state().trouble).toBeNull()
  await tablet.actions.acceptRest(id)
  expect(
    open(tablet, id)
      .map(({ product }) => product.kind)
      .sort(),
  ).toEqual(['blank', 'half', 'half', 'piece', 'piece'])
  await cutNext(tablet, id, 5)
  expect(made(tablet).map(({ stage }) => stage)).toEqual(['piece', 'piece'])
})

test('more is left than the piece was long: refused in words', async () => {
  const tablet = await opened()
  const id = await cutListJob(tablet, 2, 600)
  expect(await miscutNext(tablet, id, 700)).toBe(false)
  expect(tablet.state().trouble).toContain('700 mm cannot be left of A1: it was to be 600 mm long')
  expect(tablet.state().facts).toEqual([])
})

describe('the real stick', () => {
  test('6030 long: 30 more are left of it, and Undo of the length puts it back on the rack', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    await tablet.actions.load(id, 'S1', 6030, ['mill', 'mill'])
    expect(tablet.view(id).short).toEqual([])
    await tablet.actions.undo(id)
    expect(tablet.state().progress.opened).toEqual({})
    await tablet.actions.load(id, 'S1', 6030, ['mill', 'mill'])
    await cutNext(tablet, id)
    await tablet.actions.editJob(id, { quantity: 2 })
    await tablet.actions.planRest(id)
    // 6030 − 10 − 602.5.
    expect(tablet.view(id).offer!.nest.sections[0]!.sticks[0]).toMatchObject({ length: 5417.5 })
  })

  test('9 × 650 on 5930: that it is 12.5 too short is said before the first cut; one stick that does is planned', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 9, 650)
    await tablet.actions.load(id, 'S1', 5930, ['mill', 'mill'])
    // Clean-up 10, 9 × 650 and 8 kerfs of 2.5, then 60 to hold and the kerf of the last cut: 5942.5.
    expect(tablet.view(id).short).toEqual([{ stick: 'S1', lacks: 12.5 }])
    await tablet.actions.planRest(id)
    expect(tablet.view(id).offer!.difference).toMatchObject({
      changed: [
        { stick: 'S2', before: '', after: 'A × 9' },
        { stick: 'S1', before: 'A × 9', after: '' },
      ],
      buy: [{ length: 6000, count: 1 }],
    })
    await tablet.actions.acceptRest(id)
    expect(tablet.view(id).short).toEqual([])
  })

  test('its rest called scrap is no steel for the rest of the job', async () => {
    const tablet = await opened()
    const id = await cutListJob(tablet, 2, 600)
    await cutNext(tablet, id)
    await tablet.actions.scrap(id, 'S1')
    await tablet.actions.editJob(id, { quantity: 2 })
    await tablet.actions.planRest(id)
    expect(tablet.view(id).offer!.nest.sections[0]!.sticks).toMatchObject([{ id: 'S2', from: 'buy' }])
  })
})

describe('spares', () => {
  async function nineSpares(): Promise<{ tablet: Tablet; id: string }> {
    const tablet = await opened()
    const id = await cutListJob(tablet, 9, 650)
    await cutNext(tablet, id, 9)
    await tablet.actions.editParams(id, { rows: rows([9, 500]) })
    return { tablet, id }
  }

  test('given up for the rest, each of 650 gives one of 500, and nothing is bought', async () => {
    const { tablet, id } = await nineSpares()
    const spares = tablet.view(id).spareSteel.map((one) => one.id)
    expect(spares).toHaveLength(9)
    await tablet.actions.planRest(id)
    expect(tablet.view(id).offer!.difference.buy).toMatchObject([{ count: 1 }])
    await tablet.actions.planRest(id, spares)
    expect(tablet.view(id).offer).toMatchObject({ recut: { length: 9 }, difference: { buy: [] } })
    await tablet.actions.acceptRest(id)
    await cutNext(tablet, id, 9)
    expect(made(tablet)).toHaveLength(9)
    expect(tablet.view(id).spares).toEqual([])
  })

  test('of a copy with a tack are no steel until it is cut apart', async () => {
    const { tablet, id } = await nineSpares()
    await tablet.actions.tick(id, 1, 'corner-1/outside', 'checked')
    expect(tablet.view(id).spares).toHaveLength(9)
    await tablet.actions.tick(id, 1, 'corner-1/outside', 'checked')
    await tablet.actions.tick(id, 1, 'corner-1/outside', 'tacked')
    expect(tablet.view(id).spares).toEqual([])
    await tablet.actions.cutApart(id, 1)
    expect(tablet.view(id).spares).toHaveLength(9)
    await tablet.actions.undo(id)
    expect(tablet.view(id).spares).toEqual([])
  })
})

test('another blade of 4 mm: the accepted plan has no room for it, and the rest is planned with it', async () => {
  const tablet = await opened()
  const saw = handShop.saws[0]!
  const blades = [...saw.blades, { id: 'coarse', name: 'Coarse', kerf: 4 }]
  await tablet.actions.saveShop({ ...handShop, saws: [{ ...saw, blades }] })
  const id = await cutListJob(tablet, 4, 600)
  await cutNext(tablet, id, 2)
  await tablet.actions.changeBlade(id, saw.id, 'coarse')
  expect(tablet.view(id).nesting.rest).toBe(true)
  await tablet.actions.planRest(id)
  await tablet.actions.acceptRest(id)
  expect(tablet.view(id).nest!.sections[0]).toMatchObject({ kerf: 4 })
  expect(open(tablet, id).map(({ program }) => program.kerf)).toEqual([4, 4])
  await cutNext(tablet, id, 1)
  // Undo goes back through the cut to the blade.
  await tablet.actions.undo(id)
  await tablet.actions.undo(id)
  expect(tablet.state().progress.blades).toEqual({})
})

test('a blank of three goes wrong: the halves and pieces of the other two count as cut, the third is missing', async () => {
  const tablet = await opened()
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editParams(id, { rows: rows([3, 600, 45, 45]) })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  await miscutNext(tablet, id, 0)
  for (let at = 0; open(tablet, id).length > 0 && at < 10; at++) await cutNext(tablet, id)
  // Two blanks, two first ends, two pieces.
  expect(tablet.state().progress.made).toHaveLength(6)
  const pieces = tablet.view(id).cuts.filter(({ product }) => product.kind === 'piece')
  expect(pieces.filter(({ done }) => done !== undefined)).toHaveLength(2)
  expect(tablet.view(id).missing).toHaveLength(1)
})

test('a thinner blade asks for a plan of the rest too; once all is cut, no blade changes what is shown', async () => {
  const tablet = await opened()
  const saw = handShop.saws[0]!
  const blades = [...saw.blades, { id: 'thin', name: 'Thin', kerf: 1.8 }]
  await tablet.actions.saveShop({ ...handShop, saws: [{ ...saw, blades }] })
  const id = await cutListJob(tablet, 2, 600)
  await cutNext(tablet, id)
  await tablet.actions.changeBlade(id, saw.id, 'thin')
  expect(tablet.view(id).nesting.rest).toBe(true)
  await tablet.actions.undo(id)
  await cutNext(tablet, id)
  await tablet.actions.changeBlade(id, saw.id, 'thin')
  expect(tablet.view(id)).toMatchObject({ refused: [], nesting: { state: 'accepted' } })
  expect(tablet.view(id).nesting.rest).toBeUndefined()
  expect(tablet.view(id).cuts.every(({ done }) => done !== undefined)).toBe(true)
})

test('a stop that stands 0.8 off holds until something is cut with the head set otherwise', async () => {
  const tablet = await opened()
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editParams(id, { rows: rows([2, 600, 45, 45]) })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  await cutNext(tablet, id)
  const square = tablet.view(id).cuts[0]!.setUp.id
  await tablet.actions.moveStop(id, square, -0.8)
  expect(tablet.view(id).stops).toEqual({ [square]: -0.8 })
  await cutNext(tablet, id)
  expect(tablet.view(id).stops).toEqual({ [square]: -0.8 })
  await cutNext(tablet, id)
  expect(tablet.view(id).stops).toEqual({})
})

test('the hexagon: a first end goes wrong when six blanks and three first ends are cut; each cut of the new plan counts as itself', async () => {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  const id = await tablet.actions.openSample(0)
  tablet.actions.show(id)
  await hasRun(tablet, id)
  await cutNext(tablet, id, 9)
  await miscutNext(tablet, id, 0)
  await tablet.actions.planRest(id)
  await tablet.actions.acceptRest(id)
  const view = tablet.view(id)
  // Five of six have a blank or a half that lies there: nothing of that is too short.
  expect(view.short).toEqual([])
  expect(view.nest!.sections[0]!.sticks).toHaveLength(6)
  const done = () => tablet.view(id).cuts.filter((cut) => cut.done !== undefined)
  const total = view.cuts.length
  for (let before = done().length; before < total; before++) {
    const cut = nextCut(tablet.view(id).cuts)!
    await tablet.actions.cut(id, cut)
    expect(done().map(({ product }) => product.id)).toContain(cut.product.id)
    expect(done()).toHaveLength(before + 1)
  }
  expect(made(tablet).map(({ stage }) => stage)).toEqual(Array(6).fill('piece'))
})
