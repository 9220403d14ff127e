import { marksIn, replay } from './copy.ts'
import { cachePlace, type Place } from './place.ts'
import { databaseName, databaseVersion } from './schema.ts'

// The way out when nothing else works: it asks the browser itself, knows no shape and no version, and leaves every row
// as it is. Nothing here may lean on the connection or the shapes, which may be what is broken.

/** Everything that a browser still gives of a database, as it lies there. */
export interface Rescued {
  readonly format: 'tube-rescue'
  readonly version: 1
  /** Version of the database on the disk. */
  readonly database: number
  readonly stores: Readonly<Record<string, readonly { readonly key: unknown; readonly value: unknown }[]>>
  /** What the browser would not give, in its own words. */
  readonly lost: readonly string[]
}

const words = (error: unknown): string => (error instanceof Error ? error.message : String(error))

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('the browser gave no reason'))
  })

/**
 * Opens the database of any version, an older or a newer program's too. Rejects in words where there is none (it is
 * then not made) or where the browser does not open it.
 */
function openAsItIs(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    if (typeof indexedDB === 'undefined')
      return reject(new Error('This browser gives the page no storage: a private window, or site data off.'))
    const opening = indexedDB.open(name)
    let isNew = false
    opening.onupgradeneeded = () => {
      // Only a database that is not there is upgraded here: it must not come to be, empty, by our looking.
      isNew = true
      opening.transaction?.abort()
    }
    opening.onsuccess = () => resolve(opening.result)
    opening.onerror = (event) => {
      event.preventDefault()
      const why = isNew
        ? 'Nothing of Longpoint is kept by this browser at this address. Look in the browser, and at the address, where the jobs were made.'
        : `The browser does not open what it keeps (${words(opening.error)}). Close its other tabs, start the browser again, and make room on the device; do not clear its site data.`
      reject(new Error(why))
    }
  })
}

type Row = { readonly key: unknown; readonly value: unknown }

/** One row after the other, each in a transaction of its own: where one cannot be read, the rest still comes. */
async function rowByRow(db: IDBDatabase, name: string, lost: string[]): Promise<readonly Row[]> {
  const store = () => db.transaction(name).objectStore(name)
  const rows: Row[] = []
  for (const key of await answer(store().getAllKeys())) {
    try {
      rows.push({ key, value: await answer(store().get(key)) })
    } catch (error) {
      lost.push(`${name}, ${JSON.stringify(key)}: ${words(error)}`)
    }
  }
  return rows
}

async function rowsOf(db: IDBDatabase, name: string, lost: string[]): Promise<readonly Row[]> {
  try {
    const store = db.transaction(name).objectStore(name)
    const [keys, values] = await Promise.all([answer(store.getAllKeys()), answer(store.getAll())])
    return keys.map((key, at) => ({ key, value: values[at] }))
  } catch {
    try {
      return await rowByRow(db, name, lost)
    } catch (error) {
      lost.push(`${name}, all of it: ${words(error)}`)
      return []
    }
  }
}

/**
 * Reads all rows of all stores; those of the second copy where the database does not open. Rejects in words
 * only where there is neither.
 */
export async function rescue(
  name: string = databaseName,
  place: Place | undefined = cachePlace(name),
): Promise<Rescued> {
  let db: IDBDatabase
  try {
    db = await openAsItIs(name)
  } catch (error) {
    const stores = place && (await copiedStores(place).catch(() => undefined))
    if (!stores) throw error
    return {
      format: 'tube-rescue',
      version: 1,
      database: databaseVersion,
      stores,
      lost: [`the database: ${words(error)}`],
    }
  }
  try {
    const lost: string[] = []
    const stores: Record<string, readonly Row[]> = {}
    for (const store of db.objectStoreNames) stores[store] = await rowsOf(db, store, lost)
    return { format: 'tube-rescue', version: 1, database: db.version, stores, lost }
  } finally {
    db.close()
  }
}

/** The rows that the second copy holds, as the database had them; undefined where it holds none. */
async function copiedStores(place: Place): Promise<Rescued['stores'] | undefined> {
  const { rows } = await replay(place, await marksIn(place))
  const stores: Record<string, Row[]> = {}
  for (const { store, key, value } of rows)
    if (value !== undefined) stores[store] = [...(stores[store] ?? []), { key, value }]
  return rows.length > 0 ? stores : undefined
}

/** As a file. What JSON cannot hold (a disk can: NaN, a date, a circle) is written as text, and the rest stays. */
export function rescueText(rescued: Rescued): string {
  const open = new Set<unknown>()
  const plain = (value: unknown): unknown => {
    if (typeof value === 'number' && !Number.isFinite(value)) return String(value)
    if (typeof value === 'bigint' || typeof value === 'symbol' || typeof value === 'function')
      return String(value)
    if (typeof value !== 'object' || value === null) return value
    if (open.has(value)) return 'a circle: what stands here holds itself'
    if (open.size > 200) return 'deeper than 200 levels'
    open.add(value)
    const copy = Array.isArray(value)
      ? value.map(plain)
      : value instanceof Date
        ? String(value)
        : Object.fromEntries(Object.entries(value).map(([key, one]) => [key, plain(one)]))
    open.delete(value)
    return copy
  }
  return `${JSON.stringify(plain(rescued), null, 1)}\n`
}
