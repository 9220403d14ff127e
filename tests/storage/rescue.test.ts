import { readFileSync } from 'node:fs'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { readBackupFile } from '../../src/door/backup-file.ts'
import { rescue, rescueText } from '../../src/storage/rescue.ts'
import { databaseVersion } from '../../src/storage/schema.ts'
import { answer, closeTabs, dump, freshName, memoryPlace, openTab, plant } from './faulty.ts'

afterEach(async () => {
  vi.restoreAllMocks()
  await closeTabs()
})

const sample = JSON.parse(
  readFileSync(new URL('../../demo-data/hexagon-top.json', import.meta.url), 'utf8'),
) as { job: { id: string; name: string } }

/** A disk with a job, a bent job, a fact and a bent fact. */
async function damaged(): Promise<string> {
  const name = freshName()
  const disk = openTab(name)
  await disk.saveJob(sample.job as never, null)
  await disk.append([{ kind: 'undo', body: { fact: 'x:1' } }])
  await plant(name, 'jobs', { id: 'bent', rev: 1, parent: null, device: 'd', body: { name: 'Bent' } })
  await plant(name, 'facts', { id: 'd:9', half: 'a row', weight: Number.NaN })
  return name
}

/** The browser fails on this row, as on a value that its own disk has lost. */
function failOn(key: string) {
  const get = IDBObjectStore.prototype.get
  const getAll = IDBObjectStore.prototype.getAll
  vi.spyOn(IDBObjectStore.prototype, 'getAll').mockImplementation(function (this: IDBObjectStore, ...given) {
    if (this.name === 'jobs') throw new DOMException('Failed to read large value', 'DataError')
    return getAll.apply(this, given)
  })
  vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (this: IDBObjectStore, asked) {
    if (asked === key) throw new DOMException('Failed to read large value', 'DataError')
    return get.call(this, asked)
  })
}

describe('a rescue file', () => {
  test('holds every row of every store as it lies there, the damaged ones too', async () => {
    const name = await damaged()
    const rescued = await rescue(name)
    expect(rescued).toMatchObject({ format: 'tube-rescue', version: 1, database: databaseVersion, lost: [] })
    expect(rescued.stores).toEqual(await dump(name))
  })

  test('is opened like a backup: the sound rows are taken, the others are told one by one', async () => {
    const read = readBackupFile(rescueText(await rescue(await damaged())))
    if (!read.ok) throw new Error(read.problems[0]?.text)
    expect(read.value.jobs).toEqual([sample.job])
    expect(read.value.facts.map(({ id }) => id)).toEqual(['device1:1'])
    expect(read.value.left).toHaveLength(2)
    expect(read.value.left?.join(' ')).toContain('build is missing')
  })

  test('comes also from a database of a newer version, which the app itself does not open', async () => {
    const name = freshName()
    const opening = indexedDB.open(name, databaseVersion + 7)
    opening.onupgradeneeded = () => opening.result.createObjectStore('from-later', { keyPath: 'id' })
    const db = await answer(opening)
    await answer(
      db.transaction('from-later', 'readwrite').objectStore('from-later').put({ id: 1, odd: true }),
    )
    db.close()
    await expect(openTab(name).readAll()).rejects.toThrow('newer version')
    const rescued = await openTab(name).rescue()
    expect(JSON.parse(rescued)).toMatchObject({
      database: databaseVersion + 7,
      stores: { 'from-later': [{ key: 1, value: { id: 1, odd: true } }] },
    })
  })

  test('where nothing is kept says so, and makes nothing', async () => {
    const name = freshName()
    await expect(rescue(name)).rejects.toThrow('Nothing of Longpoint is kept by this browser at this address')
    expect((await indexedDB.databases()).some((one) => one.name === name)).toBe(false)
  })

  test('where the browser does not open the database says what to do', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      const request = { error: new DOMException('Internal error', 'UnknownError') } as IDBOpenDBRequest
      setTimeout(() => request.onerror?.(new Event('error')))
      return request
    })
    await expect(rescue('any')).rejects.toThrow(/does not open.*Internal error.*do not clear its site data/)
  })

  test('leaves out only the row that the browser itself cannot read, and names it', async () => {
    const name = await damaged()
    failOn('bent')
    const rescued = await rescue(name)
    expect(rescued.stores.jobs?.map(({ key }) => key)).toEqual([sample.job.id])
    expect(rescued.lost).toEqual(['jobs, "bent": Failed to read large value'])
  })

  test('holds as text what JSON has no word for: NaN, a date, a circle', () => {
    const circle: Record<string, unknown> = { when: new Date(0), weight: Number.NaN, big: 3n }
    circle.again = circle
    const stores = { odd: [{ key: 1, value: circle }] }
    const text = rescueText({ format: 'tube-rescue', version: 1, database: 1, stores, lost: [] })
    const value = JSON.parse(text).stores.odd[0].value
    expect(value).toMatchObject({ weight: 'NaN', big: '3' })
    expect(value.again).toContain('circle')
    expect(value.when).toContain('1970')
  })
})

test('a row that the browser itself cannot read does not hide the others', async () => {
  const name = await damaged()
  failOn('bent')
  const kept = await openTab(name).readAll()
  expect(kept.jobs.map(({ id }) => id)).toEqual([sample.job.id])
  expect(kept.facts).toHaveLength(1)
  expect(kept.unread.map(({ key }) => key).sort()).toEqual(['bent', 'd:9'])
  expect(kept.unread.find(({ key }) => key === 'bent')?.why).toContain('Failed to read large value')
})

test('where the browser gives no database any more, the second copy is saved: two facts, and why', async () => {
  const { place, texts } = memoryPlace()
  const frozen = new URL('./fixtures/copy-v1.json', import.meta.url)
  for (const [name, text] of Object.entries(JSON.parse(readFileSync(frozen, 'utf8'))))
    texts.set(name, JSON.stringify(text))
  const saved = await rescue(freshName(), place)
  expect(saved.stores.facts?.map(({ key }) => key)).toEqual(['device1:1', 'device1:2'])
  expect(saved.lost[0]).toContain('Nothing of Longpoint is kept')
  const read = readBackupFile(rescueText(saved))
  expect(read.ok && [read.value.jobs.length, read.value.facts.length]).toEqual([1, 2])
})
