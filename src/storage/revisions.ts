import type { Job } from '../core/job.ts'
import type { Result } from '../core/result.ts'
import { type Revision, revisionName } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'
import { readStoredJob, readStoredShop } from '../door/stored.ts'
import type { Connection, Writing } from './connection.ts'
import { logHead } from './log.ts'
import { type JobRow, type Removed, type RivalRow, shopKey } from './schema.ts'

export type Saved<T> = { readonly saved: Revision<T>; readonly won: boolean }
export type AnyRevision = Revision<Job> | Revision<Shop>

const stores: ['meta', 'jobs', 'shop', 'rivals', 'strays'] = ['meta', 'jobs', 'shop', 'rivals', 'strays']
type Tx = Writing<typeof stores>
type Document = RivalRow['document']

export const isRemoved = (row: JobRow): row is Removed => 'removed' in row

export const isJob = (revision: AnyRevision): revision is Revision<Job> => 'build' in revision.body

export async function saveJob(disk: Connection, job: Job, parent: string | null, makeId: () => string) {
  return disk.write(stores, (tx) => save<Job>(tx, 'job', job, parent, makeId))
}

export async function saveShop(disk: Connection, shop: Shop, parent: string | null, makeId: () => string) {
  return disk.write(stores, (tx) => save<Shop>(tx, 'shop', shop, parent, makeId))
}

/** In one write: the rival goes, unless the person has chosen meanwhile, and its newer body is one in its place. */
export async function saveAside(
  disk: Connection,
  job: Job,
  { id, device, rev, parent }: Revision<Job>,
  makeId: () => string,
): Promise<Revision<Job>> {
  return disk.write(stores, async (tx) => {
    const newest = await nextRev(tx, 'job', id)
    const own = (await logHead(tx.objectStore('meta'), makeId)).device
    const saved = { id, rev: newest, parent, device: own, body: job }
    await tx.objectStore('rivals').delete(['job', id, device, rev])
    await tx.objectStore('rivals').put({ ...saved, document: 'job' })
    return saved
  })
}

/** The row stays without its body and goes on counting; facts and nests are not touched. */
export async function removeJob(disk: Connection, id: string, makeId: () => string): Promise<void> {
  await disk.write(stores, async (tx) => {
    const row = await tx.objectStore('jobs').get(id)
    if (!row || isRemoved(row)) return
    const { device } = await logHead(tx.objectStore('meta'), makeId)
    const rev = await nextRev(tx, 'job', id)
    await tx.objectStore('jobs').put({ id, rev, parent: revisionName(row), device, removed: true })
  })
}

/**
 * The person chose among the versions that they saw: `chosen` becomes the newest, those in `over` go. A version that
 * was not seen (another tab was faster) stays, as a rival.
 */
export async function settle(
  disk: Connection,
  chosen: AnyRevision,
  over: readonly AnyRevision[],
  makeId: () => string,
): Promise<void> {
  const document = isJob(chosen) ? 'job' : 'shop'
  await disk.write(stores, async (tx) => {
    const seen = new Set([chosen, ...over].map(revisionName))
    const row = await currentRow(tx, document, chosen.id)
    const current = row && !('removed' in row) ? (row as AnyRevision) : undefined
    if (!current || revisionName(current) !== revisionName(chosen)) {
      const { device } = await logHead(tx.objectStore('meta'), makeId)
      const rev = await nextRev(tx, document, chosen.id)
      if (current && !seen.has(revisionName(current)))
        await tx.objectStore('rivals').put({ ...current, document } as RivalRow)
      const parent = row ? revisionName(row) : null
      await putCurrent(tx, document, { ...chosen, rev, parent, device })
    }
    for (const rival of await rivalsOf(tx, document, chosen.id))
      if (seen.has(revisionName(rival)))
        await tx.objectStore('rivals').delete([document, rival.id, rival.device, rival.rev])
  })
}

/** Compare and set: `parent` must be the newest; else the given one is kept as a rival. */
async function save<T extends Job | Shop>(
  tx: Tx,
  document: Document,
  body: T,
  parent: string | null,
  makeId: () => string,
): Promise<Saved<T>> {
  const { device } = await logHead(tx.objectStore('meta'), makeId)
  const row = await currentRow(tx, document, body.id)
  const saved = { id: body.id, rev: await nextRev(tx, document, body.id), parent, device, body }
  const unreadable = row && !('removed' in row) ? whyUnreadable(document, row) : undefined
  const free = !row || 'removed' in row || unreadable !== undefined
  const won = parent === null ? free : row !== undefined && !free && revisionName(row) === parent
  if (!won) {
    await tx.objectStore('rivals').put({ ...saved, document } as unknown as RivalRow)
    return { saved, won }
  }
  // A damaged row must not stop the work, but it is not thrown away either.
  if (unreadable !== undefined)
    await tx.objectStore('strays').add({ store: document, key: body.id, why: unreadable, row })
  await putCurrent(tx, document, saved as AnyRevision)
  return { saved, won }
}

const currentRow = (tx: Tx, document: Document, id: string): Promise<JobRow | Revision<Shop> | undefined> =>
  document === 'job' ? tx.objectStore('jobs').get(id) : tx.objectStore('shop').get(shopKey)

const putCurrent = async (tx: Tx, document: Document, revision: AnyRevision): Promise<void> => {
  if (document === 'job') await tx.objectStore('jobs').put(revision as Revision<Job>)
  else await tx.objectStore('shop').put(revision as Revision<Shop>, shopKey)
}

const rivalsOf = (tx: Tx, document: Document, id: string): Promise<readonly RivalRow[]> =>
  // An array is greater than any text or number, so this is every rival of the one document.
  tx.objectStore('rivals').getAll(IDBKeyRange.bound([document, id], [document, id, []]))

/** Greater than every revision of this document here, so that a name is never given twice. */
async function nextRev(tx: Tx, document: Document, id: string): Promise<number> {
  const row = await currentRow(tx, document, id)
  const revs = [row, ...(await rivalsOf(tx, document, id))].map((one) => one?.rev ?? 0)
  return 1 + Math.max(...revs.filter(Number.isSafeInteger), 0)
}

/** A revision as it must stand on disk, or why it cannot be read. */
export function readRevision<T>(row: unknown, read: (body: unknown) => Result<T>): Result<Revision<T>> {
  const { id, rev, parent, device, body } = (row ?? {}) as Partial<Revision<unknown>>
  const whole =
    typeof id === 'string' &&
    Number.isSafeInteger(rev) &&
    typeof device === 'string' &&
    (parent === null || typeof parent === 'string')
  if (!whole) return { ok: false, problems: [{ code: 'damaged', text: 'the row has lost its revision' }] }
  const result = read(body)
  if (!result.ok) return result
  return {
    ok: true,
    value: { id, rev: rev as number, parent: parent as string | null, device, body: result.value },
  }
}

export const whyNot = (result: Result<unknown>): string | undefined =>
  result.ok ? undefined : result.problems.map(({ text }) => text).join(' ')

const whyUnreadable = (document: Document, row: unknown): string | undefined =>
  whyNot(document === 'job' ? readRevision(row, readStoredJob) : readRevision(row, readStoredShop))
