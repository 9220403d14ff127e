import { afterEach, describe, expect, test } from 'vitest'
import { revisionName } from '../../src/core/revision.ts'
import { sampleJob, sampleShop } from '../door/sample.ts'
import { closeTabs, dump, freshName, openTab, plant } from './faulty.ts'

afterEach(closeTabs)

const named = (name: string) => ({ ...sampleJob, name })

describe('compare and set', () => {
  test('three saves, each naming the one before: revisions 1, 2, 3, one job', async () => {
    const disk = openTab(freshName())
    const one = await disk.saveJob(named('one'), null)
    const two = await disk.saveJob(named('two'), revisionName(one.saved))
    const three = await disk.saveJob(named('three'), revisionName(two.saved))
    expect([one, two, three].map(({ won, saved }) => [won, saved.rev, saved.parent])).toEqual([
      [true, 1, null],
      [true, 2, 'device1:1'],
      [true, 3, 'device1:2'],
    ])
    expect(await disk.readAll()).toMatchObject({ jobs: [three.saved], rivals: [] })
  })

  test('two children of one parent: the first wins, the second is a rival with a name of its own', async () => {
    const name = freshName()
    const [one, two] = [openTab(name), openTab(name)]
    const start = await one.saveJob(named('start'), null)
    const parent = revisionName(start.saved)
    const [left, right] = await Promise.all([
      one.saveJob(named('left'), parent),
      two.saveJob(named('right'), parent),
    ])
    expect([left.won, right.won]).toEqual([true, false])
    expect(revisionName(left.saved)).not.toBe(revisionName(right.saved))
    expect(await one.readAll()).toMatchObject({ jobs: [left.saved], rivals: [right.saved] })
  })

  test('the shop: the second of two first versions is a rival', async () => {
    const disk = openTab(freshName())
    const one = await disk.saveShop(sampleShop, null)
    const two = await disk.saveShop({ ...sampleShop, name: 'other' }, null)
    expect([one.won, two.won]).toEqual([true, false])
    expect(await disk.readAll()).toMatchObject({ shop: one.saved, rivals: [two.saved] })
  })
})

describe('the person chooses', () => {
  async function rivals() {
    const disk = openTab(freshName())
    const start = await disk.saveJob(named('start'), null)
    const parent = revisionName(start.saved)
    const won = (await disk.saveJob(named('won'), parent)).saved
    const lost = (await disk.saveJob(named('lost'), parent)).saved
    return { disk, parent, won, lost }
  }

  test('the rival: it becomes the newest and no rival is left', async () => {
    const { disk, won, lost } = await rivals()
    await disk.settle(lost, [won])
    const kept = await disk.readAll()
    expect(kept.rivals).toEqual([])
    expect(kept.jobs).toMatchObject([{ body: named('lost'), parent: revisionName(won), rev: 4 }])
  })

  test('the newest: it stays as it is and no rival is left', async () => {
    const { disk, won, lost } = await rivals()
    await disk.settle(won, [lost])
    expect(await disk.readAll()).toMatchObject({ jobs: [won], rivals: [] })
  })

  test('what was not seen is not thrown away: neither a third rival, nor a newest that came meanwhile', async () => {
    const { disk, parent, won, lost } = await rivals()
    const third = (await disk.saveJob(named('third'), parent)).saved
    const newest = (await disk.saveJob(named('newest'), revisionName(won))).saved
    await disk.settle(lost, [won])
    const kept = await disk.readAll()
    expect(kept.jobs[0]?.body.name).toBe('lost')
    expect(kept.rivals.map(({ body }) => body.name).sort()).toEqual(['newest', 'third'])
    expect(kept.rivals).toEqual(expect.arrayContaining([third, newest]))
  })
})

describe('a removed job', () => {
  test('leaves the list; put back, it counts on; an edit made elsewhere meanwhile is a rival', async () => {
    const disk = openTab(freshName())
    const one = await disk.saveJob(named('one'), null)
    await disk.removeJob(sampleJob.id)
    expect((await disk.readAll()).jobs).toEqual([])
    const edit = await disk.saveJob(named('edit of another tab'), revisionName(one.saved))
    expect(edit.won).toBe(false)
    const back = await disk.saveJob(named('one'), null)
    expect(back.won).toBe(true)
    expect(back.saved.rev).toBeGreaterThan(edit.saved.rev)
    expect(await disk.readAll()).toMatchObject({ jobs: [back.saved], rivals: [edit.saved] })
  })

  test('facts and nests stay', async () => {
    const disk = openTab(freshName())
    await disk.saveJob(named('one'), null)
    await disk.append([{ kind: 'tacked', job: sampleJob.id, copy: 1, body: { step: 's' } }])
    await disk.removeJob(sampleJob.id)
    await disk.removeJob('never was here')
    expect((await disk.readAll()).facts).toHaveLength(1)
  })
})

describe('rows that cannot be read', () => {
  test('are told with their key and why, kept as they are, and do not stop the rest', async () => {
    const name = freshName()
    const disk = openTab(name)
    await disk.saveJob(sampleJob, null)
    await disk.append([{ kind: 'tacked', job: sampleJob.id, copy: 1, body: { step: 's' } }])
    const bent = { id: 'bent', rev: 1, parent: null, device: 'd', body: { ...sampleJob, quantity: 'many' } }
    const rows: readonly [string, unknown, string?][] = [
      ['jobs', bent],
      ['jobs', { id: 'bare' }],
      ['facts', { id: 'd:7', kind: 'cut' }],
      ['nests', { id: 'n', version: 99 }],
      ['shop', { id: 'shop', rev: 1, parent: null, device: 'd', body: {} }, 'shop'],
    ]
    for (const [store, row, key] of rows) await plant(name, store, row, key)
    const kept = await disk.readAll()
    expect(kept.jobs.map(({ id }) => id)).toEqual([sampleJob.id])
    expect(kept.facts).toHaveLength(1)
    expect(kept.shop).toBeNull()
    expect(kept.unread.map(({ store, key }) => [store, key])).toEqual([
      ['facts', 'd:7'],
      ['nests', 'n'],
      ['jobs', 'bare'],
      ['jobs', 'bent'],
      ['shop', 'shop'],
    ])
    expect(kept.unread.find(({ key }) => key === 'bent')?.why).toContain('"many"')
    expect((await dump(name)).jobs?.map(({ value }) => value)).toContainEqual(bent)
  })

  test('a damaged shop does not stop a new one, and is kept aside', async () => {
    const name = freshName()
    const disk = openTab(name)
    await disk.readAll()
    const damaged = { id: 'shop', rev: 3, parent: null, device: 'd', body: {} }
    await plant(name, 'shop', damaged, 'shop')
    const { won, saved } = await disk.saveShop(sampleShop, null)
    expect(won).toBe(true)
    expect(await disk.readAll()).toMatchObject({ shop: saved, unread: [{ store: 'shop' }] })
    expect((await dump(name)).strays?.map(({ value }) => value)).toMatchObject([{ row: damaged }])
  })
})
