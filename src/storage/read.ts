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
import { shopKey } from './schema.ts'

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
}

const stores = ['facts', 'nests', 'jobs', 'rivals', 'shop', 'strays'] as const

export async function readAll(disk: Connection, makeId: () => string): Promise<Everything> {
  const head = await disk.write(['meta'], (tx) => logHead(tx.objectStore('meta'), makeId))
  const raw = await disk.read(async (db) => {
    // One transaction: what is read is one moment of the disk.
    const tx = db.transaction(stores, 'readonly')
    const [facts, nests, jobs, rivals, shop, strays] = await Promise.all([
      tx.objectStore('facts').getAll(),
      tx.objectStore('nests').getAll(),
      tx.objectStore('jobs').getAll(),
      tx.objectStore('rivals').getAll(),
      tx.objectStore('shop').get(shopKey),
      tx.objectStore('strays').getAll(),
      tx.done,
    ])
    return { facts, nests, jobs, rivals, shop, strays }
  })

  const unread: Unread[] = raw.strays.map(({ store, key, why }) => ({ store, key, why }))
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
  const living = raw.jobs.filter((row) => !(typeof row === 'object' && 'removed' in row))
  return {
    device: head.device,
    facts: readable('facts', raw.facts, readStoredFact),
    nests: readable('nests', raw.nests, readStoredNest),
    jobs: readable('jobs', living, job),
    shop: readable('shop', raw.shop === undefined ? [] : [raw.shop], shop)[0] ?? null,
    rivals: [
      ...readable(
        'rivals',
        raw.rivals.filter(({ document }) => document === 'job'),
        job,
      ),
      ...readable(
        'rivals',
        raw.rivals.filter(({ document }) => document !== 'job'),
        shop,
      ),
    ],
    unread,
  }
}

function keyOf(row: unknown): string {
  const id = (row as { readonly id?: unknown } | null)?.id
  return typeof id === 'string' ? id : 'without a name'
}
