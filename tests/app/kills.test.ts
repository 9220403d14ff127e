import { afterEach, describe, expect, test } from 'vitest'
import { type Break, closeTabs, freshName } from '../storage/faulty.ts'
import { type Death, dying, reopened } from './killed.ts'
import { cutListJob, handShop, hasRun, rows, type Tablet, tabletOn } from './tablet.ts'

afterEach(closeTabs)

/** A job with a run of three pieces; `cuts` of them done. */
async function begun(cuts: number) {
  const name = freshName()
  const tablet = tabletOn(name)
  await tablet.actions.open()
  await tablet.actions.saveShop(handShop)
  const id = await cutListJob(tablet, 3, 600)
  for (let at = 0; at < cuts; at++) await tablet.actions.cut(id, tablet.view(id).cuts[at]!)
  return { name, tablet, id }
}

const actions: readonly (readonly [string, number, (tablet: Tablet, id: string) => Promise<unknown>])[] = [
  ['the first cut', 0, (tablet, id) => tablet.actions.cut(id, tablet.view(id).cuts[0]!)],
  ['the second cut', 1, (tablet, id) => tablet.actions.cut(id, tablet.view(id).cuts[1]!)],
  ['an undo', 1, (tablet, id) => tablet.actions.undo(id)],
  ['accepting a nest', 0, (tablet, id) => tablet.actions.accept(id)],
  ['keeping a drop', 1, (tablet, id) => tablet.actions.keepDrop(id, 'S1', 4000)],
  ['an edit', 1, (tablet, id) => tablet.actions.editParams(id, { rows: rows([5, 600]) })],
  ['a change of the shop', 1, (tablet) => tablet.actions.saveShop({ ...handShop, leastDrop: 250 })],
  ['taking a job from the list', 1, (tablet, id) => tablet.actions.removeJob(id)],
  [
    'a miscut and the plan of what is left',
    1,
    async (tablet, id) => {
      const cut = tablet.view(id).cuts[1]!
      await tablet.actions.miscut(id, { of: { cut }, why: 'too short', left: 500, ends: ['cut', 'cut'] })
      await tablet.actions.planRest(id)
      await tablet.actions.acceptRest(id)
    },
  ],
  ['a real stick', 0, (tablet, id) => tablet.actions.load(id, 'S1', 6030, ['mill', 'mill'])],
  [
    'opening a file',
    0,
    (tablet, id) => tablet.actions.openFile(tablet.actions.fileOf(id).replace('"Cut list"', '"From a file"')),
  ],
]

const ways: readonly Break[] = ['throw', 'abort']

describe.each(actions)('killed during %s', (_what, cuts, action) => {
  test.each(ways)('by "%s" at any of its writes, the next start shows all that was shown', async (how) => {
    for (let at = 0; at < 12; at++) {
      const { name, tablet, id } = await begun(cuts)
      const shown = await dying(tablet, { at, how }, () => action(tablet, id))
      const failed = shown.trouble !== null
      const again = await reopened(name, shown, `${how} at write ${at}`)
      // Shown and on disk are the same: nothing half done came through, and nothing was shown too early.
      expect(again.state().facts).toEqual(shown.facts)
      again.actions.show(id)
      if (!failed) break
      expect(at, 'no action of one person writes so much').toBeLessThan(11)
    }
  })

  test('after everything was written and before the tab heard of it', async () => {
    const { name, tablet, id } = await begun(cuts)
    const death: Death = 'unheard'
    const before = tablet.state()
    const shown = await dying(tablet, death, () => action(tablet, id))
    expect(shown.facts).toEqual(before.facts)
    await reopened(name, shown, 'unheard')
  })
})

test('a cut that was killed can be made again, and is one piece', async () => {
  const { name, tablet, id } = await begun(1)
  const shown = await dying(tablet, { at: 1, how: 'abort' }, () =>
    tablet.actions.cut(id, tablet.view(id).cuts[1]!),
  )
  expect(shown.trouble).toContain('nothing was saved')
  const again = await reopened(name, shown, 'again')
  again.actions.show(id)
  await hasRun(again, id)
  await again.actions.cut(id, again.view(id).cuts[1]!)
  expect(again.view(id).cuts.filter(({ done }) => done)).toHaveLength(2)
  expect(again.state().progress.made).toHaveLength(2)
})
