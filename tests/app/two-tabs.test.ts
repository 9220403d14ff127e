import { describe, expect, test } from 'vitest'
import type { Job } from '../../src/core/job.ts'
import { freshName } from '../storage/faulty.ts'
import { handShop, type Tablet, tabletOn, until } from './tablet.ts'

const opened = async (name: string): Promise<Tablet> => {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  return tablet
}

/** One job in two tabs; what the first has changed, the second has not heard of when it is asked. */
async function twoTabs() {
  const name = freshName()
  const one = await opened(name)
  const id = await one.actions.newJob('cut-list')
  const two = await opened(name)
  const standing = () => two.state().jobs.find((job) => job.id === id)!
  const rivals = () => two.state().rivals.map(({ body }) => body as Job)
  return { name, one, two, id, standing, rivals }
}

/** The second tab was refused: 7 of the first stands, its own 3 is the rival. */
async function refused() {
  const tabs = await twoTabs()
  const { one, two, id } = tabs
  await Promise.all([one.actions.editJob(id, { quantity: 7 }), two.actions.editJob(id, { quantity: 3 })])
  expect(tabs.standing().quantity).toBe(7)
  expect(tabs.rivals().map(({ quantity }) => quantity)).toEqual([3])
  return tabs
}

const kept = 'Both versions are kept'

describe('one job edited in two tabs at nearly the same moment', () => {
  test('a field that says the same again when it is left does not write over the version of the other tab', async () => {
    const { two, id, standing, rivals } = await refused()
    await two.actions.editJob(id, { quantity: 3 })
    expect(standing().quantity).toBe(7)
    expect(rivals().map(({ quantity }) => quantity)).toEqual([3])
    expect(two.state().trouble).toContain(kept)
  })

  test('typing that goes on changes this tab’s own version, which stays one rival', async () => {
    const { name, two, id, standing, rivals } = await refused()
    await two.actions.editJob(id, { quantity: 34 })
    await two.actions.editJob(id, { note: 'for the porch' })
    expect(standing()).toMatchObject({ quantity: 7 })
    expect(standing().note).toBeUndefined()
    expect(rivals()).toMatchObject([{ quantity: 34, note: 'for the porch' }])
    const again = await opened(name)
    expect(again.state().jobs).toMatchObject([{ quantity: 7 }])
    expect(again.state().rivals).toMatchObject([{ body: { quantity: 34, note: 'for the porch' } }])
  })

  test('two edits asked for before the first is refused: both go into the rival', async () => {
    const { one, two, id, standing, rivals } = await twoTabs()
    await Promise.all([
      one.actions.editJob(id, { quantity: 7 }),
      two.actions.editJob(id, { quantity: 3 }),
      two.actions.editJob(id, { name: 'Mine' }),
    ])
    expect(standing()).toMatchObject({ quantity: 7 })
    expect(rivals()).toMatchObject([{ quantity: 3, name: 'Mine' }])
    expect(two.state().trouble).toContain(kept)
  })

  test('an edit asked for while the other tab’s version is being read is one of the version that was seen', async () => {
    const { one, two, id, standing, rivals } = await twoTabs()
    const heard = new Promise<void>((resolve) => two.disk.onOther(resolve))
    await one.actions.editJob(id, { quantity: 7 })
    await heard
    // The reading that was just begun comes first in the queue.
    await two.actions.editJob(id, { quantity: 3 })
    expect(standing().quantity).toBe(7)
    expect(rivals().map(({ quantity }) => quantity)).toEqual([3])
  })

  test('edits of one tab alone follow each other, however fast', async () => {
    const { two, id, standing, rivals } = await twoTabs()
    await Promise.all([2, 3, 4].map((quantity) => two.actions.editJob(id, { quantity })))
    expect(standing().quantity).toBe(4)
    expect(rivals()).toEqual([])
    expect(two.state().trouble).toBeNull()
  })

  test('what goes well elsewhere does not clear the message; once dismissed it comes back with the next edit', async () => {
    const { two, id } = await refused()
    const other = await two.actions.newJob('cut-list')
    expect(two.state().jobs.map((job) => job.id)).toContain(other)
    expect(two.state().trouble).toContain(kept)
    two.actions.dismiss()
    expect(two.state().trouble).toBeNull()
    await two.actions.editJob(id, { quantity: 4 })
    expect(two.state().trouble).toContain(kept)
  })

  test.each(['this tab', 'the other tab'])(
    'a choice made in %s ends it, and edits are saved again',
    async (where) => {
      const { one, two, id, standing, rivals } = await refused()
      const chooser = where === 'this tab' ? two : one
      await until(chooser, (state) => state.rivals.length === 1, 'the rival')
      await chooser.actions.settle(chooser.state().rivals[0]!)
      await until(two, (state) => state.rivals.length === 0, 'the choice')
      expect(two.state().trouble).toBeNull()
      expect(standing().quantity).toBe(3)
      await two.actions.editJob(id, { quantity: 5 })
      expect(standing().quantity).toBe(5)
      expect(rivals()).toEqual([])
    },
  )
})

test('the shop changed in two tabs: the refused one is the rival, and a second save does not write over', async () => {
  const { one, two } = await twoTabs()
  await Promise.all([
    one.actions.saveShop({ ...handShop, name: 'left' }),
    two.actions.saveShop({ ...handShop, name: 'right' }),
  ])
  expect(await two.actions.saveShop({ ...two.state().shop, name: 'right' })).toHaveLength(1)
  expect(two.state().shop.name).toBe('left')
  expect(two.state().rivals.map(({ body }) => body.name)).toEqual(['right'])
  expect(two.state().trouble).toContain(kept)
})
