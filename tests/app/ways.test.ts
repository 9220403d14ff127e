import { afterEach, describe, expect, test } from 'vitest'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { hasRun, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

async function hexagon(): Promise<readonly [Tablet, string]> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  const id = await tablet.actions.openSample(0)
  tablet.actions.show(id)
  await hasRun(tablet, id)
  return [tablet, id]
}

describe('the ways of cutting a hexagon', () => {
  // One stick gives all six. Square first: a clean-up cut, 6 blanks, 2 miters each: 1 + 6 + 12 = 19. From the stick each
  // cut ends one piece and begins the next: 1 + 6 = 7. Counted by hand.
  test('square first 19 cuts, from the stick 7; comparing changes nothing of the job or its layout', async () => {
    const [tablet, id] = await hexagon()
    const { job, nest } = tablet.view(id)
    await tablet.actions.compareWays(id)
    const { working, rows } = tablet.state().ways![id]!
    expect(working).toBe(false)
    const cutsOf = Object.fromEntries(
      rows.map(({ way, comes }) => [way, 'not' in comes ? comes.not : comes.work.cuts]),
    )
    expect(cutsOf).toMatchObject({ 'square first': 19, 'from the stick': 7 })
    for (const { way, comes } of rows) expect(comes).toMatchObject({ way, sticks: 1, left: 0 })
    expect(tablet.view(id).job).toBe(job)
    expect(tablet.view(id).nest).toBe(nest)
  })

  test('the way chosen is laid out anew: demand, nest and run are from the stick, and back again', async () => {
    const [tablet, id] = await hexagon()
    await tablet.actions.compareWays(id)
    const { asked } = tablet.state().ways![id]!
    await tablet.actions.editJob(id, { way: 'from the stick' })
    const inWay = (way: string) => () =>
      tablet.view(id).nest?.sections[0]?.way === way && tablet.view(id).cuts.length > 0
    await until(tablet, inWay('from the stick'), 'a run from the stick')
    const view = tablet.view(id)
    expect(view.plan!.demand.map(({ way }) => way)).toEqual(['from the stick'])
    // Six cuts that each give a piece; the clean-up cut is angled.
    expect(view.cuts.map(({ product }) => product.kind)).toEqual(Array(6).fill('piece'))
    expect(view.plan!.run!.work.cuts).toBe(7)
    expect(view.cuts[0]!.trim).toBeDefined()
    // The figures of the ways stand as long as only the way was changed.
    expect(tablet.state().ways![id]!.asked).toBe(asked)
    await tablet.actions.editJob(id, { way: 'square first' })
    await until(tablet, inWay('square first'), 'a run square first')
    expect(tablet.view(id).plan!.run!.work.cuts).toBe(19)
  })
})
