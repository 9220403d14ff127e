import { readFileSync } from 'node:fs'
import { afterEach, expect, test, vi } from 'vitest'
import { databaseVersion } from '../../src/storage/schema.ts'
import { answer, closeTabs, dump, freshName, openTab } from './faulty.ts'

afterEach(closeTabs)

interface Fixture {
  readonly version: number
  readonly stores: Readonly<
    Record<
      string,
      {
        readonly keyPath: string | readonly string[] | null
        readonly autoIncrement: boolean
        readonly rows: readonly { readonly key: IDBValidKey; readonly value: unknown }[]
      }
    >
  >
}

// Frozen: each is a database as a released version wrote it. A new version adds a file and edits none.
const frozen = [1].map(
  (version) =>
    JSON.parse(
      readFileSync(new URL(`./fixtures/database-v${version}.json`, import.meta.url), 'utf8'),
    ) as Fixture,
)

/** The database of a fixture, made with nothing of ours. */
async function build(name: string, { version, stores }: Fixture): Promise<void> {
  const opening = indexedDB.open(name, version)
  opening.onupgradeneeded = () => {
    for (const [store, { keyPath, autoIncrement }] of Object.entries(stores))
      opening.result.createObjectStore(store, { keyPath: keyPath as string | string[] | null, autoIncrement })
  }
  const db = await answer(opening)
  for (const [store, { keyPath, rows }] of Object.entries(stores))
    for (const { key, value } of rows) {
      const tx = db.transaction(store, 'readwrite')
      await answer(
        keyPath === null ? tx.objectStore(store).put(value, key) : tx.objectStore(store).put(value),
      )
    }
  db.close()
}

async function shape(name: string) {
  const db = await answer(indexedDB.open(name))
  const stores = [...db.objectStoreNames].map((store) => {
    const { keyPath, autoIncrement } = db.transaction(store).objectStore(store)
    return [store, { keyPath, autoIncrement }] as const
  })
  const { version } = db
  db.close()
  return { version, stores: Object.fromEntries(stores) }
}

test('there is a fixture of every version up to this one', () => {
  expect(frozen.map(({ version }) => version)).toEqual(
    Array.from({ length: databaseVersion }, (_, at) => at + 1),
  )
})

test('a new database has the stores of the newest fixture', async () => {
  const name = freshName()
  await openTab(name).readAll()
  const newest = frozen.at(-1)!
  const stores = Object.entries(newest.stores).map(([store, { keyPath, autoIncrement }]) => [
    store,
    { keyPath, autoIncrement },
  ])
  expect(await shape(name)).toEqual({ version: newest.version, stores: Object.fromEntries(stores) })
})

test.each(frozen)(
  'a database of version $version is read to the last row and goes on counting',
  async (fixture) => {
    const name = freshName()
    await build(name, fixture)
    const disk = openTab(name)
    const kept = await disk.readAll()
    const values = (store: string) => fixture.stores[store]!.rows.map(({ value }) => value)
    expect(kept.facts).toEqual(values('facts'))
    expect(kept.nests).toEqual(values('nests'))
    expect(kept.jobs.map(({ body }) => body.name)).toEqual(['Side table'])
    expect(kept.rivals.map(({ body }) => body.name)).toEqual(['Side table, lower'])
    expect(kept.shop?.body.name).toBe('Shop of the fixture')
    expect(kept.unread).toEqual([
      { store: 'facts', key: 'tablet:3', why: 'another fact of this name is here already; both are kept' },
    ])
    const [next] = await disk.append([{ kind: 'undo', job: 'job-1', body: { fact: 'tablet:4' } }])
    expect(next).toMatchObject({ id: 'tablet:6', lamport: 10 })
  },
)

test('a database of a newer version is left alone, with words', async () => {
  const name = freshName()
  const newer = await answer(indexedDB.open(name, databaseVersion + 1))
  newer.close()
  await expect(openTab(name).readAll()).rejects.toThrow('written by a newer version of this program')
  expect((await shape(name)).version).toBe(databaseVersion + 1)
})

test('when a newer version wants the database, this tab gives it up and says so', async () => {
  const name = freshName()
  const disk = openTab(name)
  const trouble = vi.fn()
  disk.onTrouble(trouble)
  await disk.readAll()
  const newer = await answer(indexedDB.open(name, databaseVersion + 1))
  expect(trouble).toHaveBeenCalledWith(expect.stringContaining('A newer version of this program was opened'))
  newer.close()
  await expect(disk.append([])).rejects.toThrow('newer version')
})

test('a connection that the browser closed is opened again at the next write', async () => {
  const name = freshName()
  const disk = openTab(name)
  let last: IDBDatabase | undefined
  const transaction = IDBDatabase.prototype.transaction
  const spy = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (
    this: IDBDatabase,
    ...given: Parameters<typeof transaction>
  ) {
    last = this
    return transaction.apply(this, given)
  })
  await disk.readAll()
  last!.close()
  await disk.append([{ kind: 'undo', body: { fact: 'x:1' } }])
  spy.mockRestore()
  expect((await dump(name)).facts).toHaveLength(1)
})

test('a browser without a disk: a message that says what to do', async () => {
  vi.stubGlobal('indexedDB', undefined)
  await expect(openTab(freshName()).readAll()).rejects.toThrow('keeps nothing on this device')
  vi.unstubAllGlobals()
})

test('the browser is asked once to keep everything, and not again after a no', async () => {
  const name = freshName()
  const persist = vi.fn(async () => false)
  vi.stubGlobal('navigator', { storage: { persist, persisted: async () => false } })
  expect(await openTab(name).persist()).toBe(false)
  expect(await openTab(name).persist()).toBe(false)
  expect(persist).toHaveBeenCalledTimes(1)
  vi.stubGlobal('navigator', { storage: { persist, persisted: async () => true } })
  expect(await openTab(name).persist()).toBe(true)
  vi.unstubAllGlobals()
})
