import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb'
import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import type { Revision } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'

export const databaseName = 'longpoint'

/** A job that was taken from the list: its revision goes on counting, so that an edit made elsewhere is seen as one. */
export interface Removed {
  readonly id: string
  readonly rev: number
  readonly parent: string | null
  readonly device: string
  readonly removed: true
}

export type JobRow = Revision<Job> | Removed

export type RivalRow =
  | (Revision<Job> & { readonly document: 'job' })
  | (Revision<Shop> & { readonly document: 'shop' })

/** Who writes here, and how far it has counted. `lamport` is the greatest that was seen from anybody. */
export interface LogHead {
  readonly device: string
  readonly seq: number
  readonly lamport: number
}

export const isCount = (value: unknown): value is number =>
  Number.isSafeInteger(value) && (value as number) >= 0

export function isHead(value: unknown): value is LogHead {
  const head = value as LogHead | undefined
  return typeof head?.device === 'string' && isCount(head.seq) && isCount(head.lamport)
}

/** The last backup that was handed to the person, or, with `saved` false, when there was first something to lose. */
export interface BackupMark {
  /** As this device's clock said it. */
  readonly at: string
  readonly saved: boolean
  /** Facts in the log then. */
  readonly facts: number
  /** `document id device:rev` of every job, and the shop, as it was then. */
  readonly documents: readonly string[]
}

/** Something that could not take its place: kept as it came, never read again by this version. */
export interface Stray {
  readonly store: string
  readonly key: string
  readonly why: string
  readonly row: unknown
}

export interface Schema extends DBSchema {
  facts: { key: string; value: Fact }
  nests: { key: string; value: Nest }
  jobs: { key: string; value: JobRow }
  rivals: { key: [string, string, string, number]; value: RivalRow }
  /** One row, under `shopKey`. */
  shop: { key: string; value: Revision<Shop> }
  /**
   * `log`: LogHead. `asked`: true once the browser was asked to keep everything. `backup`: BackupMark; older programs
   * leave it lying. `written`: how many writes this database has had, for the second copy; older programs count none.
   */
  meta: { key: string; value: LogHead | BackupMark | number | true }
  strays: { key: number; value: Stray }
}

export const shopKey = 'shop'

export type Database = IDBPDatabase<Schema>
export type StoreName = StoreNames<Schema>
type Upgrading = IDBPTransaction<Schema, StoreName[], 'versionchange'>

/**
 * Step n takes a database from version n to n + 1. A step that stands in a release is never edited again: what
 * changes is a new step at the end, with a frozen fixture of what came before it under tests/storage/fixtures.
 */
export const migrations: readonly ((db: Database, tx: Upgrading) => void | Promise<void>)[] = [
  (db) => {
    db.createObjectStore('facts', { keyPath: 'id' })
    db.createObjectStore('nests', { keyPath: 'id' })
    db.createObjectStore('jobs', { keyPath: 'id' })
    db.createObjectStore('rivals', { keyPath: ['document', 'id', 'device', 'rev'] })
    db.createObjectStore('shop')
    db.createObjectStore('meta')
    db.createObjectStore('strays', { autoIncrement: true })
  },
]

export const databaseVersion = migrations.length

/** Runs the steps from `from` on, each to its end before the next. */
export async function migrate(db: Database, from: number, tx: Upgrading): Promise<void> {
  for (const step of migrations.slice(from)) await step(db, tx)
}
