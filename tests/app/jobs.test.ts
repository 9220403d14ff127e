import { afterEach, describe, expect, test, vi } from 'vitest'
import { KEPT } from '../../src/app/kept.ts'
import { answer, breakWrite, closeTabs, freshName, plant } from '../storage/faulty.ts'
import { cutListJob, handShop, hasRun, rows, type Tablet, tabletOn, until } from './tablet.ts'

afterEach(closeTabs)

async function opened(name = freshName()): Promise<Tablet> {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  return tablet
}

describe('jobs', () => {
  test('new, renamed, twice as many, copied, removed: the list is the same after a restart', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await tablet.actions.newJob('polygon-frame')
    const second = await tablet.actions.newJob('polygon-frame')
    const names = () => tablet.state().jobs.map((job) => job.name)
    expect(new Set(names()).size).toBe(2)
    await tablet.actions.editJob(id, { name: 'Porch table', quantity: 2 })
    const copy = await tablet.actions.copyJob(id)
    await tablet.actions.removeJob(second)
    expect(names()).toEqual(['Porch table', 'Porch table copy'])
    expect(tablet.view(copy).job).toMatchObject({ quantity: 2, name: 'Porch table copy' })
    expect(tablet.state().views[second]).toBeUndefined()
    const again = await opened(name)
    expect(again.state().jobs).toEqual(tablet.state().jobs)
    expect(Object.keys(again.state().views).sort()).toEqual([copy, id].sort())
  })

  test('a seam pinned underneath is kept; taken away again, the job is as it was, without an empty field', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await tablet.actions.newJob('polygon-frame')
    const before = tablet.view(id).job
    await tablet.actions.editJob(id, { seam: 'bottom' })
    expect((await opened(name)).view(id).job.seam).toBe('bottom')
    await tablet.actions.editJob(id, { seam: undefined })
    expect(Object.keys(tablet.view(id).job)).toEqual(Object.keys(before))
  })

  test('ten edits at once, each built on the one before', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('cut-list')
    await Promise.all([
      ...Array.from({ length: 9 }, (_, at) => tablet.actions.editJob(id, { quantity: at + 2 })),
      tablet.actions.editParams(id, { rows: rows([5, 321]) }),
    ])
    expect(tablet.view(id).job).toMatchObject({
      quantity: 10,
      build: { params: { rows: [{ length: 321 }] } },
    })
    expect(tablet.state().rivals).toEqual([])
  })

  test('sizes that give no frame are kept as typed, and the last good plan stays, marked as older', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('polygon-frame')
    const good = tablet.view(id).plan
    await tablet.actions.editParams(id, { sides: 2 })
    const view = tablet.view(id)
    expect(view.problems.length).toBeGreaterThan(0)
    expect(view.plan?.parts).toEqual(good?.parts)
    expect(view.stale).toBe(true)
    expect(tablet.state().jobs[0]?.build.params.sides).toBe(2)
    await tablet.actions.editParams(id, { sides: 6 })
    expect(tablet.view(id)).toMatchObject({ stale: false, problems: [] })
  })

  test('a quantity that is no number is not saved: it could not be read back', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await tablet.actions.newJob('cut-list')
    await tablet.actions.editJob(id, { quantity: Number.NaN })
    expect(tablet.view(id).problems[0]?.field).toBe('quantity')
    expect(tablet.view(id).job.quantity).toBe(1)
    expect((await opened(name)).state()).toMatchObject({ jobs: [{ id, quantity: 1 }], unread: [] })
  })

  test('a build that is not known, and a job that is gone, are said', async () => {
    const tablet = await opened()
    expect(await tablet.actions.newJob('spiral stair')).toBe('')
    expect(tablet.state().trouble).toContain('spiral stair')
    await tablet.actions.editJob('gone', { quantity: 2 })
    expect(tablet.state().trouble).toContain('no longer on this device')
    tablet.actions.dismiss()
    expect(tablet.state().trouble).toBeNull()
  })

  test('an edit that does not reach the disk is said, and the job stays as it was; again, it is there', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('cut-list')
    const fault = breakWrite(0, 'throw')
    await tablet.actions.editJob(id, { quantity: 4 })
    fault.fixed()
    expect(tablet.state().trouble).toContain('nothing was saved')
    expect(tablet.view(id).job.quantity).toBe(1)
    await tablet.actions.editJob(id, { quantity: 4 })
    expect(tablet.state().trouble).toBeNull()
    expect(tablet.view(id).job.quantity).toBe(4)
  })
})

describe('the shop', () => {
  test('a kerf of 3.2: every job is planned with it, and it is there after a restart', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await cutListJob(tablet, 2, 600)
    const [saw] = handShop.saws
    const shop = { ...handShop, saws: [{ ...saw!, blades: [{ ...saw!.blades[0]!, kerf: 3.2 }] }] }
    expect(await tablet.actions.saveShop(shop)).toEqual([])
    await hasRun(tablet, id)
    expect(tablet.view(id).nest?.sections[0]?.kerf).toBe(3.2)
    expect((await opened(name)).state().shop).toEqual(shop)
  })

  test('with no saw is refused, naming what is missing, and nothing changes', async () => {
    const tablet = await opened()
    const before = tablet.state().shop
    const problems = await tablet.actions.saveShop({ ...handShop, saws: [] })
    expect(problems[0]?.field).toBe('saws')
    expect(tablet.state().shop).toEqual(before)
  })
})

describe('two tabs', () => {
  test('see each other’s jobs, check-offs and undos', async () => {
    const name = freshName()
    const one = await opened(name)
    const two = await opened(name)
    await one.actions.saveShop(handShop)
    const id = await cutListJob(one, 3, 600)
    await until(two, ({ jobs }) => jobs.length === 1 && jobs[0]?.build.params.rows !== undefined, 'the job')
    await one.actions.cut(id, one.view(id).cuts[0]!)
    await until(two, ({ progress }) => progress.made.length === 1, 'the cut')
    expect(two.view(id).cuts.map(({ done }) => done !== undefined)).toEqual([true, false, false])
    two.actions.show(id)
    await two.actions.cut(id, two.view(id).cuts[1]!)
    await until(one, ({ progress }) => progress.made.length === 2, 'the second cut')
    expect(one.view(id).nest?.id).toBe(two.view(id).nest?.id)
    await one.actions.undo(id)
    await until(two, ({ progress }) => progress.made.length === 1, 'the undo')
    expect(two.state().facts).toEqual(one.state().facts)
  })

  test('that cut the same piece at the same moment have made two, and one is a spare', async () => {
    const name = freshName()
    const one = await opened(name)
    await one.actions.saveShop(handShop)
    const id = await cutListJob(one, 3, 600)
    await one.actions.accept(id)
    const two = await opened(name)
    await Promise.all([
      one.actions.cut(id, one.view(id).cuts[0]!),
      two.actions.cut(id, two.view(id).cuts[0]!),
    ])
    await until(one, ({ progress }) => progress.made.length === 2, 'both cuts')
    const done = one.view(id).cuts.filter((cut) => cut.done !== undefined).length
    expect(done + one.view(id).spares.length).toBe(2)
  })

  test('that edit one job at the same moment keep both; the person chooses', async () => {
    const name = freshName()
    const one = await opened(name)
    const id = await one.actions.newJob('cut-list')
    const two = await opened(name)
    await Promise.all([one.actions.editJob(id, { name: 'left' }), two.actions.editJob(id, { name: 'right' })])
    const loser = [one, two].find((tablet) => tablet.state().trouble !== null)!
    expect(loser.state().trouble).toContain('Both versions are kept')
    expect(loser.state().rivals).toHaveLength(1)
    const rival = loser.state().rivals[0]!
    expect([loser.view(id).job.name, rival.body.name].sort()).toEqual(['left', 'right'])
    await loser.actions.settle(rival)
    expect(loser.state()).toMatchObject({ rivals: [], trouble: null, jobs: [{ name: rival.body.name }] })
    const other = loser === one ? two : one
    await until(other, ({ jobs }) => jobs[0]?.name === rival.body.name, 'the chosen name')
  })
})

describe('the disk', () => {
  test('that cannot be read: the app says so instead of showing nothing, and opens when it can', async () => {
    const tablet = tabletOn(freshName())
    vi.stubGlobal('indexedDB', undefined)
    await tablet.actions.open()
    vi.unstubAllGlobals()
    expect(tablet.state()).toMatchObject({ phase: 'failed' })
    expect(tablet.state().trouble).toContain('keeps nothing on this device')
    await tablet.actions.open()
    expect(tablet.state()).toMatchObject({ phase: 'ready', trouble: null })
  })

  test('with a damaged job beside a sound one: the sound one opens, the other is told', async () => {
    const name = freshName()
    const first = await opened(name)
    const id = await first.actions.newJob('cut-list')
    await plant(name, 'jobs', { id: 'bent', rev: 1, parent: null, device: 'd', body: { name: 'Bent' } })
    const tablet = await opened(name)
    expect(tablet.state().jobs.map((job) => job.id)).toEqual([id])
    expect(tablet.state().unread).toMatchObject([{ store: 'jobs', key: 'bent' }])
  })
})

test('a disk that the browser clears while the page is open is written again from what the page knows, and that is said', async () => {
  const name = freshName()
  const tablet = await opened(name)
  await tablet.actions.saveShop(handShop)
  const id = await cutListJob(tablet, 3, 600)
  await tablet.actions.cut(id, tablet.view(id).cuts[0]!)
  // As a browser does it: the connection is gone, and what is opened next is empty.
  await answer(indexedDB.deleteDatabase(name))
  await tablet.actions.cut(id, tablet.view(id).cuts[1]!)
  expect(tablet.state().trouble).toContain('cleared what it kept')
  expect(tablet.view(id).cuts.map(({ done }) => done !== undefined)).toEqual([true, true, false])
  // Said until it was read, also after something that went well.
  await tablet.actions.editJob(id, { note: 'x' })
  expect(tablet.state().trouble).toContain('save a backup now')
  tablet.actions.dismiss()
  expect(tablet.state().trouble).toBeNull()
  const again = await opened(name)
  expect(again.state().jobs).toMatchObject([{ id, note: 'x' }])
  expect(again.state().shop).toEqual(handShop)
  expect(again.state().progress.made).toHaveLength(2)
})

test('an edit after the disk was cleared is kept beside what the page knew before', async () => {
  const name = freshName()
  const tablet = await opened(name)
  const id = await tablet.actions.newJob('cut-list')
  await answer(indexedDB.deleteDatabase(name))
  expect(tablet.state().trouble).toContain('is deleting what is kept')
  await tablet.actions.editJob(id, { name: 'Edited after' })
  const names = [...tablet.state().jobs, ...tablet.state().rivals.map(({ body }) => body)].map(
    (one) => one.name,
  )
  expect(names).toContain('Edited after')
  expect(tablet.state().jobs).toHaveLength(1)
  expect(tablet.state().trouble).toContain('cleared what it kept')
})

test('KEPT names every key of the state, and what it calls disk is there after a restart', async () => {
  const name = freshName()
  const tablet = await opened(name)
  await tablet.actions.saveShop(handShop)
  const id = await cutListJob(tablet, 2, 600)
  await tablet.actions.cut(id, tablet.view(id).cuts[0]!)
  await tablet.actions.backedUp(tablet.actions.backup())
  const before = tablet.state()
  expect(Object.keys(KEPT).sort()).toEqual(Object.keys(before).sort())
  const after = (await opened(name)).state()
  for (const [key, { where }] of Object.entries(KEPT) as [keyof typeof KEPT, { where: string }][]) {
    if (where !== 'memory') expect(after[key], key).toEqual(before[key])
  }
  expect([before.flash, after.flash]).toEqual([1, 0])
})

describe('what is kept of the making', () => {
  test('a note and the settings of the machine: kept over a restart, written anew, taken back by Undo', async () => {
    const name = freshName()
    const tablet = await opened(name)
    const id = await tablet.actions.newJob('polygon-frame')
    const note = (on: Tablet) => on.state().progress.notes[`${id}/2/job`]?.text
    await tablet.actions.note(id, 2, 'job', '  clamp the long side ')
    // Left as it was: no second fact.
    const facts = tablet.state().facts.length
    await tablet.actions.note(id, 2, 'job', 'clamp the long side')
    expect(tablet.state().facts).toHaveLength(facts)
    expect(note(tablet)).toBe('clamp the long side')
    await tablet.actions.note(id, 2, 'job', 'clamp both')
    const setting = {
      process: 'wire',
      wall: 2,
      joint: 'outside',
      wire: '.030',
      gas: '75/25',
      volts: 17,
      wireSpeed: 190,
    }
    await tablet.actions.setMachine(id, 2, setting)
    const again = await opened(name)
    expect(note(again)).toBe('clamp both')
    expect(again.state().progress.settings[`${id}/2/outside, 2`]).toEqual(setting)
    await again.actions.undo(id)
    expect(again.state().progress.settings).toEqual({})
    await again.actions.undo(id)
    expect(note(again)).toBe('clamp the long side')
    await again.actions.note(id, 2, 'job', '')
    expect(note(again)).toBeUndefined()
  })

  test('a copy names the job that it learns from; refused, it does not', async () => {
    const tablet = await opened()
    const id = await tablet.actions.newJob('polygon-frame')
    const copy = await tablet.actions.copyJob(id)
    expect(tablet.view(copy).job.from).toBe(id)
    await tablet.actions.editJob(copy, { from: undefined })
    expect(tablet.view(copy).job).not.toHaveProperty('from')
  })
})

test('two changes of the shop made before the first is on the disk are both kept, also for the next start', async () => {
  const name = freshName()
  const tablet = tabletOn(name)
  await tablet.actions.open()
  const { shop } = tablet.store.getState()
  const saws = shop.saws.map((saw) => ({ ...saw, cleanUp: 12 }))
  const said = await Promise.all([
    tablet.actions.saveShop({ ...shop, daylight: true }, shop),
    tablet.actions.saveShop({ ...shop, saws }, shop),
  ])
  expect(said).toEqual([[], []])
  const again = tabletOn(name)
  await again.actions.open()
  for (const one of [tablet, again])
    expect(one.store.getState().shop).toMatchObject({ daylight: true, saws: [{ cleanUp: 12 }] })
})
