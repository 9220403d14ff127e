import type { Fact, FactDraft } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest, NestProblem, NestSection } from '../core/nest.ts'
import type { Revision } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'

// What the app needs from outside; main.tsx gives it. Tests give their own.

export type { FactDraft, Revision }

/** What stood here when a backup was last handed out; with `saved` false, when there was first something to lose. */
export interface BackupMark {
  /** As this device's clock said it. */
  readonly at: string
  readonly saved: boolean
  readonly facts: number
  /** `id device:rev` of every job and the shop. */
  readonly documents: readonly string[]
}

/** Where the browser keeps it all. Null where it does not say. */
export interface Room {
  /** It will not be cleared when the device runs short of room. */
  readonly lasting: boolean | null
  /** Bytes. */
  readonly used: number | null
  readonly most: number | null
  /** Why no second copy is kept beside the database; null where one is. */
  readonly uncopied: string | null
}

export interface Kept {
  readonly device: string
  readonly facts: readonly Fact[]
  readonly nests: readonly Nest[]
  readonly jobs: readonly Revision<Job>[]
  readonly shop: Revision<Shop> | null
  /** Second versions of jobs and shop, kept until the person chooses. */
  readonly rivals: readonly (Revision<Job> | Revision<Shop>)[]
  /** Rows that this program cannot read (a newer version's, or damaged): kept as they are, said to the person. */
  readonly unread: readonly { readonly store: string; readonly key: string; readonly why: string }[]
  readonly backup: BackupMark | null
  /** In words, what the browser had lost and was put back from the second copy; null where that is nothing. */
  readonly putBack: string | null
}

/** The disk. Every promise resolves only when the write is on disk, and rejects when it is not. */
export interface Disk {
  readAll(): Promise<Kept>
  /** One transaction: facts get consecutive sequences; nests that they name are stored with them. */
  append(drafts: readonly FactDraft[], nests?: readonly Nest[]): Promise<readonly Fact[]>
  /** Facts and nests from a file or another copy: a union, nothing replaced. */
  merge(facts: readonly Fact[], nests: readonly Nest[]): Promise<void>
  /** Compare and set: false when `parent` is no longer the newest; the given one is then kept as a rival. */
  saveJob(job: Job, parent: string | null): Promise<{ saved: Revision<Job>; won: boolean }>
  /** A newer body of a rival: it takes the place of that one, and stays a rival. */
  saveAside(job: Job, rival: Revision<Job>): Promise<Revision<Job>>
  saveShop(shop: Shop, parent: string | null): Promise<{ saved: Revision<Shop>; won: boolean }>
  /** Takes a job from the list; its facts and nests stay. */
  removeJob(id: string): Promise<void>
  /** The person chose this version over those that they saw beside it; one that they did not see stays a rival. */
  settle(
    chosen: Revision<Job> | Revision<Shop>,
    over: readonly (Revision<Job> | Revision<Shop>)[],
  ): Promise<void>
  /** Something was written by another tab. */
  onOther(listener: () => void): () => void
  /** The connection was lost or had to be given up, said in words; the next call opens it again if it can. */
  onTrouble(listener: (why: string) => void): () => void
  /**
   * Asks the browser not to clear what is kept here when it runs short of room; true when it will not. Once by itself;
   * `again` when the person wants it asked.
   */
  persist(again?: boolean): Promise<boolean>
  /** Never rejects. */
  room(): Promise<Room>
  markBackup(mark: BackupMark): Promise<void>
  /** Every row as it lies there, as the text of a rescue file, whatever is wrong with it. */
  rescue(): Promise<string>
}

/** The nest in the worker. */
export interface Solver {
  /** Calls `better` with usable nests of one section until it resolves with the last; `stop` ends it early. */
  solve(
    problem: NestProblem,
    better: (nest: NestSection) => void,
    /** Absent: as far as is worth waiting for. */
    budget?: { readonly steps: number; readonly seconds: number },
  ): { readonly done: Promise<NestSection>; readonly stop: () => void }
  /** Name and version, written into the nest. */
  readonly name: string
}

/** Files that another program of the device shared with the installed app. */
export interface Shared {
  /** What was shared last, until it is forgotten. */
  files(): Promise<readonly File[]>
  forget(): Promise<void>
}

export interface Clock {
  now(): string
}

export interface Ids {
  /** A new id for a job: short, unique. */
  make(): string
}

export interface Ports {
  readonly disk: Disk
  readonly solver: Solver
  readonly clock: Clock
  readonly ids: Ids
  /** Absent where no service worker takes what is shared. */
  readonly shared?: Shared
  /** SHA-256 of a text, hex. */
  readonly hash: (text: string) => Promise<string>
  /** How a shop that has said nothing yet is taken to measure; absent: inches. */
  readonly units?: 'in' | 'mm'
  /** Sample jobs: texts of tube-job files, read through the door when they are opened. */
  readonly samples: readonly { readonly name: string; readonly text: string }[]
}
