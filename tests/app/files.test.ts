import { afterEach, describe, expect, test } from 'vitest'
import type { Job } from '../../src/core/job.ts'
import { canonical } from '../../src/core/nest-seal.ts'
import type { Revision } from '../../src/core/revision.ts'
import { type BackupFile, readBackupFile } from '../../src/door/backup-file.ts'
import { readJobFile } from '../../src/door/job-file.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, type Tablet, tabletOn } from './tablet.ts'

afterEach(closeTabs)

async function opened(): Promise<Tablet> {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  return tablet
}

/** A tablet on which 2 of 3 pieces are cut, the first by mistake and undone, from a stick that lay on the rack. */
async function worked() {
  const tablet = await opened()
  await tablet.actions.saveShop(handShop)
  const other = await cutListJob(tablet, 1, 333)
  await tablet.actions.cut(other, tablet.view(other).cuts[0]!)
  const id = await cutListJob(tablet, 3, 600)
  await tablet.actions.accept(id)
  await tablet.actions.bought(tablet.view(id).nest!.sections[0]!.section, 6000, 1, 4200)
  await tablet.actions.cut(id, tablet.view(id).cuts[0]!)
  await tablet.actions.undo(id)
  for (const at of [0, 1]) await tablet.actions.cut(id, tablet.view(id).cuts[at]!)
  return { tablet, id, other }
}

describe('a file of a job', () => {
  test('carries shop, nest and its own facts to another tablet, where the work stands as it stood', async () => {
    const { tablet, id, other } = await worked()
    const text = tablet.actions.fileOf(id)
    const read = readJobFile(text)
    if (!read.ok) throw new Error(read.problems[0]?.text)
    expect(read.value.facts?.some(({ job }) => job === other)).toBe(false)

    const second = await opened()
    expect(await second.actions.openFile(text)).toEqual({ job: id, problems: [] })
    second.actions.show(id)
    const { cuts, nest, nesting } = second.view(id)
    expect(nesting.state).toBe('accepted')
    expect(nest).toEqual(tablet.view(id).nest)
    expect(cuts).toEqual(tablet.view(id).cuts)
    expect(second.state().shop).toEqual(handShop)
    // The one stick bought is on the saw there too.
    expect(second.state().progress.rack).toEqual([])
    expect(second.state().progress.unknown).toEqual([])
  })

  test('opened twice changes nothing the second time', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id)
    const second = await opened()
    await second.actions.openFile(text)
    const { facts, jobs, progress } = second.state()
    await second.actions.openFile(text)
    expect(second.state().facts).toEqual(facts)
    expect(second.state().jobs).toEqual(jobs)
    expect(second.state().progress).toEqual(progress)
  })

  test('brought back after more was cut here: the facts of both sides are there', async () => {
    const { tablet, id } = await worked()
    const second = await opened()
    await second.actions.openFile(tablet.actions.fileOf(id))
    second.actions.show(id)
    await second.actions.cut(id, second.view(id).cuts[2]!)
    await tablet.actions.openFile(second.actions.fileOf(id))
    expect(tablet.view(id).cuts.filter(({ done }) => done)).toHaveLength(3)
    expect(tablet.state().jobs).toHaveLength(2)
  })

  test('of a job that is here and was changed: both versions are kept, with what was cut, and the person chooses', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id)
    await tablet.actions.editJob(id, { quantity: 2 })
    expect(await tablet.actions.openFile(text)).toEqual({ job: id, rival: true, problems: [] })
    expect(tablet.view(id).job.quantity).toBe(2)
    expect(tablet.state().rivals.map(({ body }) => (body as Job).quantity)).toEqual([1])
    // Opened again: no third version.
    await tablet.actions.openFile(text)
    expect(tablet.state().rivals).toHaveLength(1)
    await tablet.actions.settle(tablet.state().rivals[0]!)
    expect(tablet.state().rivals).toEqual([])
    expect(tablet.view(id).job.quantity).toBe(1)
    tablet.actions.show(id)
    expect(tablet.view(id).cuts.filter(({ done }) => done !== undefined)).toHaveLength(2)
  })

  test('of a job that was changed here and is wanted too becomes a job of its own, with nothing cut', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id)
    await tablet.actions.editJob(id, { quantity: 2 })
    await tablet.actions.openFile(text)
    await tablet.actions.settleApart(tablet.state().rivals[0] as Revision<Job>)
    expect(tablet.state().rivals).toEqual([])
    const [own] = tablet
      .state()
      .jobs.filter((job) => job.quantity === 1 && job.id !== id && job.name.endsWith(' 2'))
    expect(own).toBeDefined()
    expect(tablet.view(own!.id).cuts.some(({ done }) => done !== undefined)).toBe(false)
    expect(tablet.view(id).job.quantity).toBe(2)
    expect(new Set(tablet.state().jobs.map(({ name }) => name)).size).toBe(3)
  })

  test('with a nest changed by hand is refused whole: its id is the hash of the rest', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id).replace('"solver": "inline 1"', '"solver": "inline 2"')
    const second = await opened()
    const { job, problems } = await second.actions.openFile(text)
    expect(job).toBeUndefined()
    expect(problems[0]?.text).toContain('was changed after it was named')
    expect(second.state()).toMatchObject({ jobs: [], facts: [] })
  })

  test.each([
    ['', 'empty'],
    ['{}', 'format'],
    ['{"format":"tube-job","version":2,"job":{}}', 'version 2'],
  ])('that is none (%j) changes nothing and says why', async (text, why) => {
    const tablet = await opened()
    const { job, problems } = await tablet.actions.openFile(text)
    expect(job).toBeUndefined()
    expect(problems.map((problem) => problem.text).join(' ')).toContain(why)
    expect(tablet.state()).toMatchObject({ jobs: [], facts: [] })
  })

  test('with another shop leaves the shop that was saved here', async () => {
    const { tablet, id } = await worked()
    const second = await opened()
    const own = { ...handShop, name: 'Own shop' }
    await second.actions.saveShop(own)
    await second.actions.openFile(tablet.actions.fileOf(id))
    expect(second.state().shop).toEqual(own)
  })
})

describe('a backup', () => {
  test('brings everything to another device: jobs, progress, and steel on the rack that no job names', async () => {
    const { tablet, id, other } = await worked()
    const { section } = tablet.view(id).nest!.sections[0]!
    await tablet.actions.found({ section, length: 1234, ends: ['cut', 'cut'] })
    await tablet.actions.keepDrop(id, 'S1', 1500)
    await tablet.actions.removeJob(other)
    const second = await opened()
    expect(await second.actions.openBackup(tablet.actions.backup())).toEqual({
      jobs: [id],
      ownShop: false,
      rivals: [],
      left: [],
      problems: [],
    })
    expect(second.state().facts).toEqual(tablet.state().facts)
    expect(second.state().progress).toEqual(tablet.state().progress)
    expect(second.state().progress.rack.map(({ length }) => length)).toEqual([1234, 1500])
    expect(second.state().jobs).toEqual(tablet.state().jobs)
    expect(second.state().shop).toEqual(handShop)
    second.actions.show(id)
    expect(second.view(id).cuts).toEqual(tablet.view(id).cuts)
    // And again: nothing changes, and nothing is told that is not so.
    expect(await second.actions.openBackup(tablet.actions.backup())).toMatchObject({
      jobs: [id],
      ownShop: false,
    })
    expect(second.state().facts).toEqual(tablet.state().facts)
    expect(second.state().jobs).toHaveLength(1)
  })

  test('of a shop alone, before there is any job, is a backup too', async () => {
    const tablet = await opened()
    await tablet.actions.saveShop(handShop)
    const second = await opened()
    expect(await second.actions.openBackup(tablet.actions.backup())).toMatchObject({ jobs: [], problems: [] })
    expect(second.state().shop).toEqual(handShop)
  })

  test('with another shop: the one here stands, the other waits beside it and can be taken', async () => {
    const { tablet } = await worked()
    const second = await opened()
    const own = { ...handShop, name: 'Own shop' }
    await second.actions.saveShop(own)
    expect(await second.actions.openBackup(tablet.actions.backup())).toMatchObject({
      ownShop: true,
      rivals: [handShop.name],
    })
    expect(second.state().shop).toEqual(own)
    await second.actions.settle(second.state().rivals[0]!)
    expect(second.state().shop).toEqual(handShop)
    expect(second.state().rivals).toEqual([])
    expect((await second.actions.saveShop({ ...handShop, leastDrop: 400 })).length).toBe(0)
    expect(second.state().trouble).toBeNull()
  })

  test('holds a second shop that waits for a choice; a new device has both, and one of its own a choice of three', async () => {
    const { tablet } = await worked()
    const other = { ...handShop, leastDrop: 410 }
    const first = await opened()
    await first.actions.saveShop(other)
    await tablet.actions.openBackup(first.actions.backup())
    expect(tablet.state().rivals).toHaveLength(1)

    const second = await opened()
    const taken = await second.actions.openBackup(tablet.actions.backup())
    expect(taken).toMatchObject({ ownShop: false, rivals: [handShop.name], problems: [] })
    expect(second.state().shop).toEqual(handShop)
    expect(second.state().rivals.map(({ body }) => body)).toEqual([other])
    // Opened again: no third version.
    await second.actions.openBackup(tablet.actions.backup())
    expect(second.state().rivals).toHaveLength(1)

    const third = await opened()
    const own = { ...handShop, name: 'Own shop' }
    await third.actions.saveShop(own)
    expect(await third.actions.openBackup(tablet.actions.backup())).toMatchObject({ ownShop: true })
    expect(third.state().shop).toEqual(own)
    expect(new Set(third.state().rivals.map(({ body }) => body))).toEqual(new Set([handShop, other]))

    // A device whose own shop is the second one is asked about the first only.
    await first.actions.openBackup(tablet.actions.backup())
    expect(first.state().shop).toEqual(other)
    expect(first.state().rivals.map(({ body }) => body)).toEqual([handShop])
  })

  test('holds both versions of a job between which nobody has chosen, and so does the device it is opened on', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id)
    await tablet.actions.editJob(id, { quantity: 2 })
    await tablet.actions.openFile(text)
    const second = await opened()
    const { jobs, rivals } = await second.actions.openBackup(tablet.actions.backup())
    expect(jobs).toHaveLength(2)
    expect(rivals).toHaveLength(1)
    expect(second.view(id).job.quantity).toBe(2)
    expect(second.state().rivals.map(({ body }) => (body as Job).quantity)).toEqual([1])
  })

  test('two tablets that exchange backups, in either order, hold the same facts and the same jobs', async () => {
    const { tablet, id } = await worked()
    const second = await opened()
    await second.actions.openBackup(tablet.actions.backup())
    second.actions.show(id)
    await second.actions.cut(id, second.view(id).cuts[2]!)
    await tablet.actions.undo(id)
    const [one, two] = [tablet.actions.backup(), second.actions.backup()]
    await tablet.actions.openBackup(two)
    await second.actions.openBackup(one)
    expect(second.state().facts).toEqual(tablet.state().facts)
    expect(second.state().progress).toEqual(tablet.state().progress)
    // One of the two that were cut was undone there, a third was cut here.
    expect(tablet.state().progress.made.filter((made) => made.job === id)).toHaveLength(2)
  })

  test('with a nest changed by hand is refused whole', async () => {
    const { tablet } = await worked()
    const text = tablet.actions.backup().replace('"solver": "inline 1"', '"solver": "inline 2"')
    const second = await opened()
    const { problems } = await second.actions.openBackup(text)
    expect(problems[0]?.text).toContain('was changed after it was named')
    expect(second.state()).toMatchObject({ jobs: [], facts: [] })
  })
})

describe('sample jobs', () => {
  test('open with their shop on a tablet that has none, and once only', async () => {
    const tablet = await opened()
    expect(tablet.state().samples).toEqual(['Hexagon', 'Pedestal'])
    const id = await tablet.actions.openSample(0)
    expect(await tablet.actions.openSample(0)).toBe(id)
    expect(tablet.state().jobs.map((job) => job.id)).toEqual([id])
    expect(tablet.state().shop.name).toBe('Harbor Street Fabrication')
    expect(tablet.view(id).problems).toEqual([])
    expect(tablet.view(id).plan?.parts.length).toBeGreaterThan(0)
  })

  test('one that was changed stays as it is, and the sample opens beside it', async () => {
    const tablet = await opened()
    const id = await tablet.actions.openSample(0)
    await tablet.actions.editJob(id, { quantity: 7 })
    expect(await tablet.actions.openSample(0)).not.toBe(id)
    expect(tablet.state()).toMatchObject({ rivals: [] })
    expect(
      tablet
        .state()
        .jobs.map((job) => job.quantity)
        .sort(),
    ).toEqual([1, 7])
  })

  test('a third of two is said', async () => {
    const tablet = await opened()
    expect(await tablet.actions.openSample(2)).toBe('')
    expect(tablet.state().trouble).toBe('There is no sample job 3.')
  })
})

describe('what is given from outside', () => {
  test('is looked at and changes nothing: a job, a job in a link among other words, a whole shop', async () => {
    const { tablet, id } = await worked()
    const second = await opened()
    const { lookAtGiven } = second.actions
    const file = tablet.actions.fileOf(id)
    const facts = (JSON.parse(file) as { facts: unknown[] }).facts.length
    expect(await lookAtGiven(file)).toMatchObject({ ok: true, value: { job: { job: { id }, facts } } })
    const link = await tablet.actions.linkOf(id, false)
    if (!link.ok) throw new Error('no link')
    expect(await lookAtGiven(`For Monday: https://shop.example/#/open/${link.value}\nthanks`)).toMatchObject({
      ok: true,
      value: { job: { job: { id }, facts: 0 } },
    })
    const all = tablet.state().facts.length
    expect(await lookAtGiven(tablet.actions.backup())).toMatchObject({
      ok: true,
      value: { all: { jobs: 2, facts: all, left: 0, shop: handShop.name } },
    })
    expect(await lookAtGiven(await tablet.actions.rescue())).toMatchObject({
      ok: true,
      value: { all: { jobs: 2, facts: all, left: 0 } },
    })
    expect(second.state()).toMatchObject({ jobs: [], facts: [], rivals: [] })
  })

  test('a rescue file holds all that a backup does, both versions of a job and of the shop too, and a healthy tablet takes it all', async () => {
    const { tablet, id } = await worked()
    const text = tablet.actions.fileOf(id)
    await tablet.actions.editJob(id, { quantity: 2 })
    await tablet.actions.openFile(text)
    const elsewhere = await opened()
    await elsewhere.actions.saveShop({ ...handShop, leastDrop: 410 })
    await tablet.actions.openBackup(elsewhere.actions.backup())
    expect(tablet.state().rivals).toHaveLength(2)
    const rescued = readBackupFile(await tablet.actions.rescue())
    const backup = readBackupFile(tablet.actions.backup())
    if (!rescued.ok || !backup.ok) throw new Error('not read')
    const inOrder = ({ jobs, nests, ...rest }: BackupFile) => ({
      ...rest,
      jobs: jobs.toSorted((a, b) => canonical(a).localeCompare(canonical(b))),
      nests: nests.toSorted((a, b) => a.id.localeCompare(b.id)),
    })
    expect(inOrder(rescued.value)).toEqual({ ...inOrder(backup.value), left: [] })

    const second = await opened()
    expect(await second.actions.openBackup(await tablet.actions.rescue())).toMatchObject({
      problems: [],
      left: [],
    })
    expect(second.state().facts).toEqual(tablet.state().facts)
    expect(second.state().shop).toEqual(tablet.state().shop)
    expect(second.state().progress).toEqual(tablet.state().progress)
    expect(new Set(second.state().jobs.map((job) => job.id))).toEqual(
      new Set(tablet.state().jobs.map((job) => job.id)),
    )
    expect(second.state().rivals).toHaveLength(2)
  })

  test('a backup opened as a job says what it is, and nothing is taken', async () => {
    const { tablet } = await worked()
    const second = await opened()
    const { job, problems } = await second.actions.openFile(tablet.actions.backup())
    expect(job).toBeUndefined()
    expect(problems.map(({ code }) => code)).toEqual(['is-backup'])
    expect(second.state().jobs).toEqual([])
  })
})
