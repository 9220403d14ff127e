import 'fake-indexeddb/auto'
import type { FactDraft } from '../../src/core/facts.ts'
import { type Disk, type DiskOptions, openDisk } from '../../src/storage/disk.ts'
import type { Place } from '../../src/storage/place.ts'
import { sampleNest } from '../door/sample.ts'

// A disk in memory (fake-indexeddb is a separate implementation of the W3C Indexed Database API), and ways to break it.

let names = 0
export const freshName = (): string => `test-${process.pid}-${++names}`

const open: Disk[] = []

/** A disk as one tab has it; a second one of the same name is a second tab. */
export function openTab(name: string, options: Omit<DiskOptions, 'name'> = {}): Disk {
  let made = 0
  const disk = openDisk({
    name,
    now: () => '2030-01-01T08:00:00.000Z',
    makeId: () => `device${++made}`,
    ...options,
  })
  open.push(disk)
  return disk
}

/** For `afterEach`: connections and channels would keep the process alive. */
export async function closeTabs(): Promise<void> {
  await Promise.all(open.splice(0).map((disk) => disk.close()))
}

export type Break = 'throw' | 'abort' | 'no room'

const writes = ['add', 'put', 'delete'] as const
type Method = (this: IDBObjectStore, ...given: unknown[]) => unknown

/**
 * Breaks the n-th write from now on (the first is 0) and counts them all: it throws, the transaction is aborted just
 * after it as by a kill, or the browser says that there is no room. `fixed` puts the disk right again.
 */
export function breakWrite(
  n: number,
  how: Break,
): { readonly writes: () => number; readonly fixed: () => void } {
  const prototype = IDBObjectStore.prototype as unknown as Record<string, Method>
  const whole = writes.map((name) => [name, prototype[name]!] as const)
  let count = 0
  for (const [name, write] of whole)
    prototype[name] = function (...given) {
      const breaks = count++ === n
      if (breaks && how === 'throw') throw new DOMException('the disk failed', 'UnknownError')
      if (breaks && how === 'no room') throw new DOMException('full', 'QuotaExceededError')
      const request = write.apply(this, given)
      if (breaks) this.transaction.abort()
      return request
    }
  return {
    writes: () => count,
    fixed() {
      for (const [name, write] of whole) prototype[name] = write
    },
  }
}

/** What lies in a database, store by store, read with nothing of ours. */
export async function dump(
  name: string,
): Promise<Readonly<Record<string, readonly { key: unknown; value: unknown }[]>>> {
  const db = await answer(indexedDB.open(name))
  const stores: Record<string, { key: unknown; value: unknown }[]> = {}
  for (const store of db.objectStoreNames) {
    const rows = db.transaction(store).objectStore(store)
    const [keys, values] = await Promise.all([answer(rows.getAllKeys()), answer(rows.getAll())])
    stores[store] = keys.map((key, at) => ({ key, value: values[at] }))
  }
  db.close()
  return stores
}

export const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })

/** Puts a row in place by hand, as damage or another program would. */
export async function plant(name: string, store: string, value: unknown, key?: IDBValidKey): Promise<void> {
  const db = await answer(indexedDB.open(name))
  const tx = db.transaction(store, 'readwrite')
  await answer(key === undefined ? tx.objectStore(store).put(value) : tx.objectStore(store).put(value, key))
  db.close()
}

/** A piece of the sample nest, cut. */
export const cut = (label: string): FactDraft => ({
  kind: 'cut',
  job: 'job-1',
  nest: sampleNest.id,
  copy: 1,
  body: { stage: 'blank', key: 'k', mark: 'A', label, from: { stick: 'S1' } },
})

/** A place in memory. `fails` is asked before each write and removal, with how many there were. */
export function memoryPlace(fails: (count: number) => boolean = () => false) {
  const texts = new Map<string, string>()
  let count = 0
  const may = () => {
    if (fails(count++)) throw new Error('the place failed')
  }
  const place: Place = {
    names: async () => [...texts.keys()],
    read: async (name) => texts.get(name),
    async write(name, text) {
      may()
      texts.set(name, text)
    },
    async remove(name) {
      may()
      texts.delete(name)
    },
  }
  return { place, texts }
}
