import type { Connection, Rows, Written } from './connection.ts'
import { type Change, keep, keepWhole, type Mark, marksIn, replay, wantsWhole } from './copy.ts'
import type { Place } from './place.ts'
import { type Database, isCount, isHead, type LogHead, type RivalRow, type StoreName } from './schema.ts'

/** What the database had lost and was given again from the second copy. */
export interface TakenBack {
  readonly facts: number
  readonly jobs: number
  /** Entries of the copy that could not be read, and may have held more. */
  readonly unread: number
}

export interface SecondCopy {
  /** Lays a write down once more. Never rejects, and does not wait for ever: the write itself is on disk. */
  keep(done: Written): Promise<void>
  /** Writes what the copy holds beyond the database into it; null where that is nothing. Rejects as a write does. */
  takeBack(disk: Connection): Promise<TakenBack | null>
  /** Lays down a whole where the row of changes is long, has a hole, or is of another database. Never rejects. */
  tidy(disk: Connection): Promise<void>
  /** In words why there is none; null where all is well. */
  readonly trouble: () => string | null
}

/** Longest wait for the copy of one write, ms. */
const patience = 2000

export function secondCopy(place: Place | undefined): SecondCopy {
  let trouble =
    place === undefined ? 'this browser gives it to safe addresses only (https, or this machine)' : null
  if (place === undefined)
    return { keep: async () => {}, takeBack: async () => null, tidy: async () => {}, trouble: () => trouble }
  return {
    trouble: () => trouble,

    async keep({ writer, number, rows }) {
      // One write that is not there is a hole, said until the next start lays down a whole.
      const writing = keep(place, { kind: 'change', writer, number }, rows).catch((error: unknown) => {
        trouble = wordsOf(error)
      })
      let waiting: ReturnType<typeof setTimeout> | undefined
      const late = new Promise<void>((end) => {
        waiting = setTimeout(() => {
          trouble = 'the browser did not answer in time'
          end()
        }, patience)
      })
      await Promise.race([writing, late])
      clearTimeout(waiting)
    },

    async takeBack(disk) {
      // Before the database, so that what another tab writes meanwhile is not taken for lost.
      const marks = await marksIn(place).catch((error: unknown) => {
        trouble = wordsOf(error)
        return []
      })
      if (marks.length === 0) return null
      const { head, written } = await stand(disk)
      const missing = marks.filter(({ writer, number }) => writer !== head?.device || number > written)
      if (missing.length === 0) return null
      const { rows, unread } = await replay(place, missing)
      const { facts, jobs, any } = await putBack(disk, rows, missing)
      return any ? { facts, jobs, unread } : null
    },

    async tidy(disk) {
      try {
        const { head, written } = await stand(disk)
        if (!head || !wantsWhole(await marksIn(place), head.device, written)) return
        const { number, rows } = await disk.read(everyRow)
        await keepWhole(place, { kind: 'whole', writer: head.device, number }, rows)
        trouble = null
      } catch (error) {
        trouble = wordsOf(error)
      }
    },
  }
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** Who writes in the database, and how many writes it has had. */
function stand(disk: Connection): Promise<{ readonly head: LogHead | undefined; readonly written: number }> {
  return disk.read(async (db) => {
    const [head, written] = await Promise.all([db.get('meta', 'log'), db.get('meta', 'written')])
    return { head: isHead(head) ? head : undefined, written: isCount(written) ? written : 0 }
  })
}

/** Every row, of one moment. */
async function everyRow(db: Database) {
  const names = [...db.objectStoreNames]
  const tx = db.transaction(names, 'readonly')
  const stores = await Promise.all(
    names.map(async (store) => {
      const [keys, values] = await Promise.all([
        tx.objectStore(store).getAllKeys(),
        tx.objectStore(store).getAll(),
      ])
      return keys.map((key, at): Change => ({ store, key: key as IDBValidKey, value: values[at] }))
    }),
  )
  await tx.done
  const all = stores.flat()
  const written = all.find((row) => row.store === 'meta' && row.key === 'written')?.value
  return {
    number: isCount(written) ? written : 0,
    rows: all.filter(({ store, key }) => store !== 'meta' || key !== 'written'),
  }
}

/** In one write: what is there already and newer stays. */
function putBack(disk: Connection, rows: readonly Change[], missing: readonly Mark[]) {
  const stores: StoreName[] = ['facts', 'nests', 'jobs', 'rivals', 'shop', 'strays', 'meta']
  return disk.putBack(stores, async (tx) => {
    const put = { facts: 0, jobs: 0, any: false }
    const head = await tx.objectStore('meta').get('log')
    const begun = isHead(head) && missing.some(({ writer }) => writer !== head.device)
    for (const { store, key, value } of rows) {
      if (!stores.includes(store as StoreName) || store === 'meta') continue
      const there = tx.objectStore(store as StoreName) as unknown as Rows<'strays'>
      const here = await there.get(key as never)
      if (value === undefined) {
        // Only a second version is ever taken away: the person chose.
        if (here !== undefined && store === 'rivals') await there.delete(key as never)
        continue
      }
      const isDocument = store === 'jobs' || store === 'shop'
      if (isDocument ? revOf(value) <= revOf(here) : here !== undefined) continue
      if (isDocument && begun && here !== undefined) {
        // Its revisions were counted from the start again, so none says which is newer: the person chooses.
        if (!sameBody(here, value)) await tx.objectStore('rivals').put(rivalOf(store, value))
        continue
      }
      await there.put(value as never, ...((store === 'shop' || store === 'strays' ? [key] : []) as never[]))
      put.any = true
      if (store === 'facts') put.facts += 1
      if (store === 'jobs' && !('removed' in (value as object))) put.jobs += 1
    }
    await countBack(tx.objectStore('meta'), rows, missing)
    return put
  })
}

const bodyOf = (row: unknown): unknown => (row as { readonly body?: unknown }).body
/** A job that was removed has no body, and removing it again is no version of its own. */
const sameBody = (here: unknown, row: unknown): boolean =>
  bodyOf(row) === undefined || JSON.stringify(bodyOf(here)) === JSON.stringify(bodyOf(row))

const rivalOf = (store: 'jobs' | 'shop', row: unknown): RivalRow =>
  ({ ...(row as object), document: store === 'jobs' ? 'job' : 'shop' }) as RivalRow

const revOf = (row: unknown): number => {
  const rev = (row as { readonly rev?: unknown } | undefined)?.rev
  return Number.isSafeInteger(rev) ? (rev as number) : -1
}

/** The head goes on from the greatest number that was ever given, so that no name is given twice. */
async function countBack(
  meta: Rows<'meta'>,
  rows: readonly Change[],
  missing: readonly Mark[],
): Promise<void> {
  for (const { store, key, value } of rows)
    if (
      store === 'meta' &&
      key !== 'log' &&
      value !== undefined &&
      (await meta.get(key as string)) === undefined
    )
      await meta.put(value as never, key as string)
  const heads = rows.flatMap(({ store, key, value }) =>
    store === 'meta' && key === 'log' && isHead(value) ? [value] : [],
  )
  const here = await meta.get('log')
  const head = isHead(here) ? here : heads.at(-1)
  if (!head) return
  const facts = rows.flatMap(({ store, value }) =>
    store === 'facts' && value ? [value as Partial<LogHead>] : [],
  )
  const own = [...heads, ...facts].filter(({ device }) => device === head.device)
  const most = (from: number, all: readonly unknown[]): number =>
    all.filter(isCount).reduce((greatest, one) => Math.max(greatest, one), from)
  await meta.put(
    {
      device: head.device,
      seq: most(
        head.seq,
        own.map(({ seq }) => seq),
      ),
      lamport: most(
        head.lamport,
        [...heads, ...facts].map(({ lamport }) => lamport),
      ),
    },
    'log',
  )
  const before = await meta.get('written')
  const numbers = missing.filter(({ writer }) => writer === head.device).map(({ number }) => number)
  await meta.put(most(isCount(before) ? before : 0, numbers), 'written')
}

/** What was found and put back, said to the person. */
export function takenWords({ facts, jobs, unread }: TakenBack): string {
  const what = [countWords(jobs, 'job', 'jobs'), countWords(facts, 'entry of the log', 'entries of the log')]
  const rest =
    unread > 0
      ? ` ${countWords(unread, 'piece', 'pieces')} of the copy could not be read: look through the jobs.`
      : ''
  return `The browser had lost something that it kept here. It was put back from the second copy: ${what.join(', ')}.${rest} Save a backup now, in the Shop station.`
}

const countWords = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`
