import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import type { Result } from '../core/result.ts'
import type { Revision } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'
import { readStoredFact, readStoredJob, readStoredNest, readStoredShop } from '../door/stored.ts'
import type { Connection } from './connection.ts'
import { logHead } from './log.ts'
import { readRevision, whyNot } from './revisions.ts'
import { type BackupMark, type Database, isHead, type Stray } from './schema.ts'

export interface Unread {
  readonly store: string
  readonly key: string
  readonly why: string
}

/** All that is kept here, each row looked at by the door; one that cannot be read stays on disk and is told. */
export interface Everything {
  readonly device: string
  readonly facts: readonly Fact[]
  readonly nests: readonly Nest[]
  readonly jobs: readonly Revision<Job>[]
  readonly shop: Revision<Shop> | null
  readonly rivals: readonly (Revision<Job> | Revision<Shop>)[]
  readonly unread: readonly Unread[]
  readonly backup: BackupMark | null
}

const stores = ['facts', 'nests', 'jobs', 'rivals', 'shop', 'strays', 'meta'] as const
type Rows = Readonly<Record<(typeof stores)[number], readonly unknown[]>>

const rowsBy = (all: readonly (readonly unknown[])[]): Rows =>
  Object.fromEntries(stores.map((store, at) => [store, all[at]!])) as Rows

/** All rows, of one moment of the disk. Where the browser fails on one of them, one by one, and the rest still comes. */
async function readRows(db: Database, broken: Unread[]): Promise<Rows> {
  try {
    const tx = db.transaction(stores, 'readonly')
    const all = await Promise.all([...stores.map((store) => tx.objectStore(store).getAll()), tx.done])
    return rowsBy(all.slice(0, -1) as unknown[][])
  } catch (error) {
    const failed = error instanceof Error || error instanceof DOMException ? error.name : ''
    if (failed === 'InvalidStateError') throw error
    return rowsBy(await Promise.all(stores.map((store) => rowByRow(db, store, broken))))
  }
}

async function rowByRow(db: Database, store: (typeof stores)[number], broken: Unread[]) {
  const rows: unknown[] = []
  for (const key of await db.getAllKeys(store)) {
    try {
      rows.push(await db.get(store, key as never))
    } catch (error) {
      const why = `the browser cannot read this row (${error instanceof Error ? error.message : String(error)})`
      broken.push({ store, key: typeof key === 'string' ? key : JSON.stringify(key), why })
    }
  }
  return rows
}

const isOfJob = (row: unknown): boolean => (row as { readonly document?: unknown } | null)?.document === 'job'

/** Whether anybody ever wrote here. */
export const hasHead = (disk: Connection): Promise<boolean> =>
  disk.read(async (db) => isHead(await db.get('meta', 'log')))

export async function readAll(disk: Connection, makeId: () => string): Promise<Everything> {
  const found = await disk.read((db) => db.get('meta', 'log'))
  const head = isHead(found)
    ? found
    : await disk.write(['meta'], (tx) => logHead(tx.objectStore('meta'), makeId))
  const broken: Unread[] = []
  const raw = await disk.read((db) => readRows(db, broken))
  const strays = raw.strays as readonly Stray[]
  const unread: Unread[] = [...strays.map(({ store, key, why }) => ({ store, key, why })), ...broken]
  function readable<T>(store: string, rows: readonly unknown[], read: (row: unknown) => Result<T>): T[] {
    return rows.flatMap((row) => {
      const result = read(row)
      if (result.ok) return [result.value]
      unread.push({ store, key: keyOf(row), why: whyNot(result)! })
      return []
    })
  }

  const job = (row: unknown) => readRevision(row, readStoredJob)
  const shop = (row: unknown) => readRevision(row, readStoredShop)
  const living = raw.jobs.filter((row) => !(typeof row === 'object' && row !== null && 'removed' in row))
  return {
    device: head.device,
    facts: readable('facts', raw.facts, readStoredFact),
    nests: readable('nests', raw.nests, readStoredNest),
    jobs: readable('jobs', living, job),
    shop: readable('shop', raw.shop, shop)[0] ?? null,
    rivals: [
      ...readable(
        'rivals',
        raw.rivals.filter((row) => isOfJob(row)),
        job,
      ),
      ...readable(
        'rivals',
        raw.rivals.filter((row) => !isOfJob(row)),
        shop,
      ),
    ],
    unread,
    backup: raw.meta.find(isMark) ?? null,
  }
}

function isMark(value: unknown): value is BackupMark {
  const { at, saved, facts, documents } = (value ?? {}) as Partial<BackupMark>
  return (
    typeof at === 'string' &&
    typeof saved === 'boolean' &&
    Number.isSafeInteger(facts) &&
    Array.isArray(documents) &&
    documents.every((one) => typeof one === 'string')
  )
}

function keyOf(row: unknown): string {
  const id = (row as { readonly id?: unknown } | null)?.id
  return typeof id === 'string' ? id : 'without a name'
}
