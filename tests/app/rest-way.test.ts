import { afterEach, describe, expect, test } from 'vitest'
import type { CuttingWay } from '../../src/core/nest.ts'
import type { BenchCut } from '../../src/core/plan-shapes.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { handShop, hasRun, rows, type Tablet, tabletOn } from './tablet.ts'

// A plan of what is left keeps the way in which the job is cut. Sticks of 6000, clean-up 10, kerf 2.5.
afterEach(closeTabs)

async function asked(way: CuttingWay, given: ReturnType<typeof rows>) {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editParams(id, { rows: given })
  await tablet.actions.editJob(id, { way })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  return { tablet, id }
}
const open = (tablet: Tablet, id: string): readonly BenchCut[] =>
  tablet.view(id).cuts.filter(({ done, lost }) => done === undefined && lost === undefined)
const cutNext = (tablet: Tablet, id: string) => tablet.actions.cut(id, open(tablet, id)[0]!)
const spoilNext = (tablet: Tablet, id: string) =>
  tablet.actions.miscut(id, {
    of: { cut: open(tablet, id)[0]! },
    why: 'bad end',
    left: 0,
    ends: ['cut', 'cut'],
  })
const ways = (tablet: Tablet, id: string) => tablet.view(id).nest!.sections.map(({ way }) => way)

async function replanned(tablet: Tablet, id: string) {
  await tablet.actions.planRest(id)
  expect(tablet.state().trouble).toBeNull()
  await tablet.actions.acceptRest(id)
  const view = tablet.view(id)
  expect(view.refused).toEqual([])
  return view
}
async function cutAll(tablet: Tablet, id: string) {
  for (let at = 0; open(tablet, id).length > 0 && at < 100; at++) await cutNext(tablet, id)
  return tablet
    .state()
    .progress.made.filter(({ stage }) => stage === 'piece')
    .map(({ mark }) => mark)
    .sort()
    .join('')
}

describe('six pieces of 404 with ends of 30°, from the stick, the third spoiled', () => {
  test('the rest is cut from the stick too, and six are made in the end', async () => {
    const { tablet, id } = await asked('from the stick', rows([6, 404, 30, 30]))
    expect(ways(tablet, id)).toEqual(['from the stick'])
    await cutNext(tablet, id)
    await cutNext(tablet, id)
    await spoilNext(tablet, id)
    expect(tablet.view(id).missing).toHaveLength(1)
    await replanned(tablet, id)
    expect(ways(tablet, id)).toEqual(['from the stick'])
    expect(await cutAll(tablet, id)).toBe('AAAAAA')
  })
})

describe('eight pieces of 300 mitered at one end, paired', () => {
  test('one blank of a pair spoiled: the rest is paired, the blank that lies there is split, eight are made', async () => {
    const { tablet, id } = await asked('paired', rows([8, 300, 0, 45]))
    expect(ways(tablet, id)).toEqual(['paired'])
    await cutNext(tablet, id)
    await spoilNext(tablet, id)
    const view = await replanned(tablet, id)
    expect(ways(tablet, id)).toEqual(['paired'])
    // The first blank lies there: three more are cut, not four.
    expect(view.cuts.filter(({ product, done }) => product.kind === 'blank' && !done)).toHaveLength(3)
    expect(view.spares).toEqual([])
    // It is used as it lies: nothing must be left of it to hold.
    expect(view.short).toEqual([])
    expect(await cutAll(tablet, id)).toBe('AAAAAAAA')
  })

  test('one half of a pair found bad after the split: a blank of its own for one, the other is kept', async () => {
    const { tablet, id } = await asked('paired', rows([2, 300, 0, 45]))
    for (let at = 0; at < 3; at++) await cutNext(tablet, id)
    const bad = tablet.view(id).cuts.find(({ product }) => product.id === 'A2')!
    await tablet.actions.miscut(id, {
      of: { piece: bad.done! },
      why: 'wrong angle',
      left: 0,
      ends: ['cut', 'cut'],
    })
    const view = await replanned(tablet, id)
    expect(view.cuts.filter(({ product }) => product.kind === 'blank')).toHaveLength(1)
    expect(await cutAll(tablet, id)).toBe('AA')
  })
})

test('the way is that of the accepted layout, also where the job does not say it', async () => {
  const { tablet, id } = await asked('from the stick', rows([4, 404, 30, 30]))
  await cutNext(tablet, id)
  await tablet.actions.editJob(id, { way: undefined })
  await spoilNext(tablet, id)
  await replanned(tablet, id)
  expect(ways(tablet, id)).toEqual(['from the stick'])
})
