import { readFileSync } from 'node:fs'
import { afterEach, describe, expect, test } from 'vitest'
import { revisionName } from '../../src/core/revision.ts'
import type { Place } from '../../src/storage/place.ts'
import { sampleJob, sampleNest, sampleShop } from '../door/sample.ts'
import { dice } from '../prove/seed.ts'
import { answer, closeTabs, cut, dump, freshName, memoryPlace, openTab, plant } from './faulty.ts'

afterEach(closeTabs)

/** A disk at its first start, its copy laid down whole. */
async function started() {
  const name = freshName()
  const { place, texts } = memoryPlace()
  const disk = openTab(name, { place })
  await disk.readAll()
  await expect.poll(() => [...texts.keys()]).toEqual(['whole 1 device1'])
  return { name, place, texts, disk }
}

/** As a browser does that begins anew: every tab is gone, and the database with them. */
async function lose(name: string): Promise<void> {
  await closeTabs()
  await answer(indexedDB.deleteDatabase(name))
}

test('a database that was begun anew gets everything back: same rows, same device, and goes on counting', async () => {
  const name = freshName()
  const { place } = memoryPlace()
  const disk = openTab(name, { place })
  await disk.readAll()
  await disk.append([cut('A1'), cut('A2')], [sampleNest])
  const one = (await disk.saveJob(sampleJob, null)).saved
  await disk.saveJob({ ...sampleJob, name: 'second' }, revisionName(one))
  await disk.saveJob({ ...sampleJob, name: 'rival' }, revisionName(one))
  await disk.saveShop(sampleShop, null)
  const before = await dump(name)
  await lose(name)

  const again = openTab(name, { place, makeId: () => 'another' })
  const read = await again.readAll()
  expect(read).toMatchObject({ device: 'device1', facts: [{ seq: 1 }, { seq: 2 }], unread: [] })
  expect(read.jobs.map(({ body }) => body.name)).toEqual(['second'])
  expect(read.rivals.map(({ body }) => body.name)).toEqual(['rival'])
  expect(read.shop?.body).toEqual(sampleShop)
  expect(await dump(name)).toEqual(before)
  expect(read.putBack).toBe(
    'The browser had lost something that it kept here. It was put back from the second copy: 1 job, 2 entries of the log. Save a backup now, in the Shop station.',
  )
  expect(await again.append([cut('A3')])).toMatchObject([{ id: 'device1:3', lamport: 3 }])
})

test('a database that lost its last writes gets those back, and nothing that it has is replaced', async () => {
  const name = freshName()
  const { place } = memoryPlace()
  const disk = openTab(name, { place })
  await disk.readAll()
  await disk.append([cut('A1')])
  const early = await dump(name)
  await disk.append([cut('A2')])
  await disk.saveJob(sampleJob, null)
  await lose(name)
  // As it was after the first write.
  await openTab(name, { makeId: () => 'nobody' }).readAll()
  await plant(name, 'facts', early.facts![0]!.value)
  for (const { key, value } of early.meta!) await plant(name, 'meta', value, key as string)

  const again = openTab(name, { place })
  const read = await again.readAll()
  expect(read.facts.map(({ seq }) => seq)).toEqual([1, 2])
  expect(read.putBack).toContain('1 job, 1 entry of the log')
})

test('where work went on in the new database, an older version of a job comes back as a second one', async () => {
  const name = freshName()
  const { place } = memoryPlace()
  const disk = openTab(name, { place })
  await disk.readAll()
  const one = (await disk.saveJob({ ...sampleJob, name: 'old' }, null)).saved
  await disk.saveJob({ ...sampleJob, name: 'older program' }, revisionName(one))
  await disk.append([cut('A1')])
  await lose(name)
  const without = openTab(name, { makeId: () => 'device9' })
  await without.readAll()
  await without.saveJob({ ...sampleJob, name: 'new' }, null)
  await without.append([cut('A2')])
  await closeTabs()
  const read = await openTab(name, { place }).readAll()
  expect(read.device).toBe('device9')
  expect(read.jobs.map(({ body }) => body.name)).toEqual(['new'])
  expect(read.rivals.map(({ body }) => body.name)).toEqual(['older program'])
  expect(read.facts.map(({ id }) => id).sort()).toEqual(['device1:1', 'device9:1'])
})

test('what was chosen against, and what was removed, does not come back', async () => {
  const name = freshName()
  const { place } = memoryPlace()
  const disk = openTab(name, { place })
  await disk.readAll()
  const one = (await disk.saveJob(sampleJob, null)).saved
  const won = (await disk.saveJob({ ...sampleJob, name: 'won' }, revisionName(one))).saved
  const lost = (await disk.saveJob({ ...sampleJob, name: 'lost' }, revisionName(one))).saved
  await disk.settle(won, [lost])
  await disk.saveJob({ ...sampleJob, id: 'job-9' }, null)
  await disk.removeJob('job-9')
  await lose(name)
  const read = await openTab(name, { place }).readAll()
  expect(read.jobs.map(({ body }) => body.name)).toEqual(['won'])
  expect(read.rivals).toEqual([])
})

test('nothing is said where nothing was lost, also when another tab writes at the same time', async () => {
  const name = freshName()
  const { place } = memoryPlace()
  const one = openTab(name, { place })
  await one.readAll()
  const writing = Array.from({ length: 20 }, (_, at) => one.append([cut(`A${at}`)]))
  const two = openTab(name, { place })
  const [{ putBack }] = await Promise.all([two.readAll(), ...writing])
  expect(putBack).toBeNull()
})

test('a place that fails stops nobody: the write is done, the room says why, the next start mends the hole', async () => {
  const name = freshName()
  let full = true
  const { place } = memoryPlace(() => full)
  const disk = openTab(name, { place })
  await disk.readAll()
  await disk.append([cut('A1')])
  expect((await disk.room()).uncopied).toBe('the place failed')
  full = false
  await closeTabs()
  await openTab(name, { place }).readAll()
  await lose(name)
  expect((await openTab(name, { place }).readAll()).facts).toHaveLength(1)
})

test('without a place, the room says that there is no second copy', async () => {
  const disk = openTab(freshName())
  expect((await disk.room()).uncopied).toContain('https')
})

test('after 301 changes the next start lays one whole in their place', async () => {
  const { name, place, texts, disk } = await started()
  for (let at = 0; at < 301; at++) await disk.append([cut(`A${at}`)])
  expect(texts.size).toBe(302)
  await closeTabs()
  await openTab(name, { place }).readAll()
  await expect.poll(() => [...texts.keys()]).toEqual(['whole 302 device1'])
  await lose(name)
  expect((await openTab(name, { place }).readAll()).facts).toHaveLength(301)
})

test('a kill at each step of laying down a whole loses nothing', async () => {
  for (let step = 0; step < 6; step++) {
    const { name, place, texts, disk } = await started()
    await disk.append([cut('A1')])
    // A hole, so that the next start wants a whole.
    await disk.append([cut('A2')])
    const hole = [...texts.keys()].find((key) => key.startsWith('change'))!
    texts.delete(hole)
    await closeTabs()
    let done = 0
    const dying: Place = {
      ...place,
      write: async (to, text) => {
        if (done++ >= step) throw new Error('killed')
        await place.write(to, text)
      },
      remove: async (of) => {
        if (done++ >= step) throw new Error('killed')
        await place.remove(of)
      },
    }
    await openTab(name, { place: dying }).readAll()
    await closeTabs()
    // Another start, with a healthy place, then the loss.
    await openTab(name, { place }).readAll()
    await lose(name)
    expect((await openTab(name, { place }).readAll()).facts, `step ${step}`).toHaveLength(2)
  }
})

test('what a kill left lying from before a whole does not come over what the whole says', async () => {
  const { name, place, texts, disk } = await started()
  const one = (await disk.saveJob(sampleJob, null)).saved
  const won = (await disk.saveJob({ ...sampleJob, name: 'won' }, revisionName(one))).saved
  const lost = (await disk.saveJob({ ...sampleJob, name: 'lost' }, revisionName(one))).saved
  const before = new Map(texts)
  await disk.settle(won, [lost])
  texts.delete('change 5 device1')
  await closeTabs()
  await openTab(name, { place }).readAll()
  await expect.poll(() => [...texts.keys()]).toEqual(['whole 5 device1'])
  for (const [key, text] of before) texts.set(key, text)
  await lose(name)
  const read = await openTab(name, { place }).readAll()
  expect(read.jobs.map(({ body }) => body.name)).toEqual(['won'])
  expect(read.rivals).toEqual([])
})

test('entries that are half written or of a newer program are passed over, and told', async () => {
  const { name, place, texts, disk } = await started()
  await disk.append([cut('A1')])
  await disk.append([cut('A2')])
  const last = [...texts.keys()].at(-1)!
  texts.set(last, texts.get(last)!.slice(0, -5))
  texts.set('not one of ours', 'x')
  await lose(name)
  const again = openTab(name, { place })
  const read = await again.readAll()
  expect(read.facts).toHaveLength(1)
  expect(read.putBack).toContain('1 piece of the copy could not be read')
})

test('whatever was written, in whatever order and over restarts, comes back row by row', async () => {
  for (let round = 0; round < 15; round++) {
    const roll = dice(`second copy ${round}`)
    const name = freshName()
    const { place } = memoryPlace()
    let disk = openTab(name, { place })
    await disk.readAll()
    for (let step = 0; step < 30; step++) {
      const { jobs, rivals, shop } = await disk.readAll()
      const job = jobs[Math.floor(roll() * jobs.length)]
      const what = Math.floor(roll() * 9)
      if (what <= 2) await disk.append([cut(`A${step}`), cut(`B${step}`)], roll() < 0.3 ? [sampleNest] : [])
      else if (what === 3)
        await disk.saveJob(
          { ...sampleJob, id: `job-${step % 3}`, name: `n${step}` },
          job ? revisionName(job) : null,
        )
      else if (what === 4 && job) await disk.removeJob(job.id)
      else if (what === 5)
        await disk.saveShop(
          { ...sampleShop, name: `s${step}` },
          shop && roll() < 0.5 ? revisionName(shop) : null,
        )
      else if (what === 6 && rivals[0]) await disk.settle(rivals[0], roll() < 0.5 ? rivals : [])
      else if (what === 7)
        await disk.merge(
          [{ ...(await disk.append([cut('C1')]))[0]!, id: `other:${step}`, device: 'other', seq: step + 1 }],
          [],
        )
      else if (what === 8) {
        await closeTabs()
        disk = openTab(name, { place })
        await disk.readAll()
      }
    }
    const before = await dump(name)
    await lose(name)
    await openTab(name, { place }).readAll()
    expect(await dump(name), `round ${round}`).toEqual(before)
  }
})

describe('frozen', () => {
  const file = new URL('./fixtures/copy-v1.json', import.meta.url)
  test('a copy of version 1 fills an empty database: two facts, a nest, a job, the shop', async () => {
    const { place, texts } = memoryPlace()
    for (const [key, text] of Object.entries(JSON.parse(readFileSync(file, 'utf8'))))
      texts.set(key, JSON.stringify(text))
    const read = await openTab(freshName(), { place }).readAll()
    expect(read).toMatchObject({ device: 'device1', unread: [], nests: [{ id: sampleNest.id }], rivals: [] })
    expect(read.facts.map(({ id }) => id)).toEqual(['device1:1', 'device1:2'])
    expect(read.jobs.map(({ id }) => id)).toEqual([sampleJob.id])
    expect(read.shop?.body.name).toBe(sampleShop.name)
  })
})
