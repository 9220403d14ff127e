import type { Fact, FactDraft } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import type { Revision } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'
import { connect } from './connection.ts'
import { append, merge } from './log.ts'
import { cachePlace, type Place } from './place.ts'
import { type Everything, hasHead, readAll } from './read.ts'
import { rescue, rescueText } from './rescue.ts'
import { type AnyRevision, removeJob, type Saved, saveAside, saveJob, saveShop, settle } from './revisions.ts'
import { lookAtRoom, type Room } from './room.ts'
import { type BackupMark, databaseName } from './schema.ts'
import { secondCopy, takenWords } from './second-copy.ts'
import { openTabs } from './tabs.ts'

/**
 * The disk of this device. Each write is one transaction that asks for strict durability (browsers default to relaxed:
 * a power loss may undo a finished transaction), and each promise resolves only when the browser says that it is there.
 */
export interface Disk {
  readAll(): Promise<Everything & { readonly putBack: string | null }>
  append(drafts: readonly FactDraft[], nests?: readonly Nest[]): Promise<readonly Fact[]>
  merge(facts: readonly Fact[], nests: readonly Nest[]): Promise<void>
  saveJob(job: Job, parent: string | null): Promise<Saved<Job>>
  saveAside(job: Job, rival: Revision<Job>): Promise<Revision<Job>>
  saveShop(shop: Shop, parent: string | null): Promise<Saved<Shop>>
  removeJob(id: string): Promise<void>
  settle(chosen: AnyRevision, over: readonly AnyRevision[]): Promise<void>
  onOther(listener: () => void): () => void
  onTrouble(listener: (why: string) => void): () => void
  persist(again?: boolean): Promise<boolean>
  room(): Promise<Room>
  markBackup(mark: BackupMark): Promise<void>
  rescue(): Promise<string>
  /** Gives up the connection and the channel to other tabs. */
  close(): Promise<void>
}

export interface DiskOptions {
  readonly name?: string
  readonly now?: () => string
  readonly makeId?: () => string
  /** Where the second copy lies; absent: in the browser's cache storage, where it gives one. */
  readonly place?: Place
}

/** Opens nothing yet: the first call does, and fails in words where the browser has no disk for this page. */
export function openDisk(options: DiskOptions = {}): Disk {
  const { name = databaseName, now = () => new Date().toISOString(), makeId = randomId } = options
  const listeners = new Set<(why: string) => void>()
  const trouble = (why: string) => {
    for (const listener of [...listeners]) listener(why)
  }
  const copy = secondCopy(options.place ?? cachePlace(name))
  const disk = connect(trouble, name, copy.keep)
  const tabs = openTabs(name)

  /** Other tabs hear of it only when it is on disk. */
  async function told<T>(writing: Promise<T>): Promise<T> {
    const value = await writing
    tabs.tell()
    return value
  }

  let first = true
  let tidying = Promise.resolve()
  /** In words, what was lost and put back. */
  async function takeBack(): Promise<string | null> {
    try {
      const taken = await copy.takeBack(disk)
      return taken && takenWords(taken)
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error)
      return `The second copy on this device holds more than its database, and it could not be put back. ${why}`
    }
  }

  return {
    async readAll() {
      const putBack = first || !(await hasHead(disk)) ? await takeBack() : null
      const everything = await readAll(disk, makeId)
      if (first) tidying = copy.tidy(disk)
      first = false
      return { ...everything, putBack }
    },
    append: (drafts, nests = []) => told(append(disk, drafts, nests, { now, makeId })),
    merge: (facts, nests) => told(merge(disk, facts, nests, makeId)),
    saveJob: (job, parent) => told(saveJob(disk, job, parent, makeId)),
    saveAside: (job, rival) => told(saveAside(disk, job, rival, makeId)),
    saveShop: (shop, parent) => told(saveShop(disk, shop, parent, makeId)),
    removeJob: (id) => told(removeJob(disk, id, makeId)),
    settle: (chosen, over) => told(settle(disk, chosen, over, makeId)),
    onOther: tabs.listen,
    onTrouble(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    room: async () => ({ ...(await lookAtRoom()), uncopied: copy.trouble() }),
    markBackup: (mark) =>
      told(
        disk.write(['meta'], async (tx) => {
          await tx.objectStore('meta').put(mark, 'backup')
        }),
      ),
    rescue: async () => rescueText(await rescue(name)),
    async persist(again = false) {
      const storage = globalThis.navigator?.storage
      if (!storage?.persist) return false
      if (await storage.persisted()) return true
      // Some browsers ask the person, who answers once.
      const asked = await disk.write(['meta'], async (tx) => {
        const before = await tx.objectStore('meta').get('asked')
        if (!before) await tx.objectStore('meta').put(true, 'asked')
        return before !== undefined
      })
      return asked && !again ? false : storage.persist()
    },
    async close() {
      tabs.close()
      await tidying
      await disk.close()
    },
  }
}

/** Ten letters and digits of 128 random bits: short in every fact, and no two devices of a shop will share it. */
const randomId = (): string =>
  BigInt(`0x${crypto.randomUUID().replaceAll('-', '')}`)
    .toString(36)
    .slice(0, 10)
