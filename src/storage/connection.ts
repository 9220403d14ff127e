import { type IDBPObjectStore, type IDBPTransaction, openDB } from 'idb'
import type { Change } from './copy.ts'
import { failure, said, withoutDisk } from './failure.ts'
import {
  type Database,
  databaseName,
  databaseVersion,
  isCount,
  isHead,
  migrate,
  type Schema,
  type StoreName,
} from './schema.ts'

/** One store within a transaction that writes, whatever others are in it. */
export type Rows<S extends StoreName> = Pick<
  IDBPObjectStore<Schema, [S], S, 'readwrite'>,
  'get' | 'getAll' | 'add' | 'put' | 'delete'
>

/** A transaction that writes; what it did is known when it ends. */
export interface Writing<S extends StoreName[] = StoreName[]> {
  objectStore<N extends S[number]>(name: N): Rows<N>
  /** Nothing more will be asked: the browser need not wait to see. */
  commit(): void
}

/** A write that is on disk: by whose database, which one of its writes, and each row as it left it. */
export interface Written {
  readonly writer: string
  readonly number: number
  readonly rows: readonly Change[]
}

export interface Connection {
  /** One transaction that only reads. */
  read<T>(work: (db: Database) => Promise<T>): Promise<T>
  /**
   * One transaction over these stores. Resolves only when the browser says that it is on disk; rejects with words when
   * it is not, and then nothing of it is. `work` may await nothing but requests of the transaction.
   */
  write<S extends StoreName[], T>(stores: S, work: (tx: Writing<S>) => Promise<T>): Promise<T>
  /** The same, neither counted nor told to `written`. */
  putBack<S extends StoreName[], T>(stores: S, work: (tx: Writing<S>) => Promise<T>): Promise<T>
  close(): Promise<void>
}

/**
 * The one connection of this tab, opened at the first use. It is given up when a newer version of the program wants
 * the database, or when the browser ends it; both are told to `trouble`, and the next use opens it again.
 */
export function connect(
  trouble: (why: string) => void,
  name: string = databaseName,
  /** Hears of each write once it is on disk, before the write resolves. Must not reject. */
  written: (done: Written) => Promise<void> = async () => {},
): Connection {
  let opening: Promise<Database> | undefined

  const forget = (mine: Promise<Database> | undefined) => {
    if (opening === mine) opening = undefined
  }

  function open(): Promise<Database> {
    const mine: Promise<Database> = openDB<Schema>(name, databaseVersion, {
      upgrade: (db, from, _to, tx) => migrate(db, from, tx as Parameters<typeof migrate>[2]),
      blocked: () =>
        trouble('Another tab holds an older version of this program open. Close it, and this one goes on.'),
      blocking: (_old, next, event) => {
        forget(mine)
        const database = event.target as IDBDatabase
        database.close()
        trouble(
          next === null
            ? 'Somebody, or the browser, is deleting what is kept on this device. What this page shows is still here: save a backup in the Shop station now.'
            : 'A newer version of this program was opened in another tab. Load this page again.',
        )
      },
      terminated: () => {
        forget(mine)
        trouble('The browser closed the disk of this page. Nothing that was shown as done is lost.')
      },
    })
    // A failed opening must not stand in the way of the next one.
    mine.catch(() => forget(mine))
    return mine
  }

  async function database(): Promise<Database> {
    if (typeof indexedDB === 'undefined') throw withoutDisk()
    opening ??= open()
    return opening
  }

  /** A connection that was closed under us fails before anything is written, so it may be opened again, once. */
  async function begin<T>(start: (db: Database) => T): Promise<T> {
    const db = await database()
    try {
      return start(db)
    } catch (error) {
      if (!(error instanceof DOMException) || error.name !== 'InvalidStateError') throw error
      opening = undefined
      return start(await database())
    }
  }

  return {
    async read(work) {
      try {
        return await begin(work)
      } catch (error) {
        throw failure(error, 'read')
      }
    },

    async write(stores, work) {
      try {
        const tx = await begin((db) =>
          db.transaction(withMeta(stores), 'readwrite', { durability: 'strict' }),
        )
        const rows: Change[] = []
        const [{ number, writer = writerIn(rows) }, value] = await finish(tx, () =>
          Promise.all([countOn(tx), work(recorded(tx, rows))]),
        )
        // Before there is a head, there is nothing of anybody's to lose.
        if (writer !== undefined) await written({ writer, number, rows })
        return value
      } catch (error) {
        throw failure(error, 'write')
      }
    },

    async putBack(stores, work) {
      try {
        const tx = await begin((db) => db.transaction(stores, 'readwrite', { durability: 'strict' }))
        return await finish(tx as unknown as Transaction, () => work(tx as unknown as Writing<typeof stores>))
      } catch (error) {
        throw failure(error, 'write')
      }
    },

    async close() {
      const last = opening
      opening = undefined
      const db = await last?.catch(() => undefined)
      db?.close()
    },
  }
}

type Transaction = IDBPTransaction<Schema, StoreName[], 'readwrite'>

const withMeta = (stores: readonly StoreName[]): StoreName[] => [...new Set<StoreName>([...stores, 'meta'])]

/**
 * Counts this write in it. Both requests are its first, so that they cost no way of their own to the disk's process and
 * back.
 */
async function countOn(tx: Transaction): Promise<{ readonly writer?: string; readonly number: number }> {
  const meta = tx.objectStore('meta')
  const countOnFrom = async (before: unknown): Promise<number> => {
    const number = (isCount(before) ? before : 0) + 1
    await meta.put(number, 'written')
    return number
  }
  const [number, head] = await Promise.all([meta.get('written').then(countOnFrom), meta.get('log')])
  return isHead(head) ? { writer: head.device, number } : { number }
}

/** Who writes here, as a write that made the head says itself. */
const writerIn = (rows: readonly Change[]): string | undefined =>
  rows
    .map(({ store, key, value }) =>
      store === 'meta' && key === 'log' && isHead(value) ? value.device : undefined,
    )
    .at(-1)

/** The transaction as `work` sees it; each row that it writes is noted as it is answered. */
function recorded<S extends StoreName[]>(tx: Transaction, rows: Change[]): Writing<S> {
  return {
    commit: () => tx.commit(),
    objectStore(name: StoreName) {
      const store = tx.objectStore(name)
      const note = <T>(request: Promise<T>, change: (answer: T) => Change): Promise<T> => {
        request.then(
          (answer) => rows.push(change(answer)),
          () => undefined,
        )
        return request
      }
      const put = (how: 'add' | 'put') => (value: never, key?: never) =>
        note(store[how](value, key), (at) => ({ store: name, key: at as IDBValidKey, value }))
      return {
        get: (key: never) => store.get(key),
        getAll: (query?: never) => store.getAll(query),
        add: put('add'),
        put: put('put'),
        delete: (key: never) => note(store.delete(key), () => ({ store: name, key })),
      }
    },
  } as unknown as Writing<S>
}

async function finish<T>(tx: Transaction, work: () => Promise<T>): Promise<T> {
  // Asked now, so that an abort while `work` runs is never an unhandled rejection.
  const end = tx.done.then(
    () => undefined,
    (error: unknown) => error ?? said('The browser took the write back, so nothing was saved. Do it again.'),
  )
  let value: T
  try {
    value = await work()
  } catch (error) {
    try {
      tx.abort()
    } catch {
      // It has ended by itself: then `end` knows why.
    }
    // When the browser aborted (no room), the requests only say that they were aborted.
    const why = await end
    const aborted = error instanceof DOMException && error.name === 'AbortError'
    throw aborted && why !== undefined ? why : error
  }
  const why = await end
  if (why !== undefined) throw why
  return value
}
