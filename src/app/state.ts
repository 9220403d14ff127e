import type { Bodies, Fact, Made, Progress } from '../core/facts.ts'
import type { Job, Params } from '../core/job.ts'
import type { Nest, NestProblem } from '../core/nest.ts'
import type { BenchCut, HandCut, Plan } from '../core/plan-shapes.ts'
import type { Problem, Result } from '../core/result.ts'
import type { Section } from '../core/section/section.ts'
import type { Shop } from '../core/shop.ts'
import type { Codes } from '../door/carried.ts'
import type { Compared } from './compare.ts'
import type { BackupMark, Kept, Revision, Room } from './ports.ts'
import type { Reminder } from './remind.ts'
import type { Offer } from './rest.ts'
import type { Short } from './stick-now.ts'
import type { ComparedWays } from './ways.ts'

/** Where the nest of a job stands. */
export interface Nesting {
  readonly state: 'none' | 'working' | 'found' | 'accepted' | 'failed'
  /** Best so far: cost, bound, and sections solved of all; in words for the person in ui. */
  readonly cost?: number
  readonly bound?: number
  readonly proved?: boolean
  readonly text?: string
  /** The job was changed after this nest was accepted: what is still open waits for `planRest`. */
  readonly rest?: true
  /** With `rest`: every piece that the job now asks for is cut, so that nothing is left to plan. */
  readonly allCut?: true
}

/** A cut that went wrong: one still to be checked off, or a piece that was (its cut fact). */
export interface Wrong {
  readonly of: { readonly cut: BenchCut | HandCut } | { readonly piece: string }
  readonly why: string
  /** What can still be cut from, mm, on its short side; 0 for nothing. */
  readonly left: number
  readonly ends: Bodies['miscut']['ends']
}

/** What the stations of one job show. */
export interface JobView {
  readonly id: string
  readonly job: Job
  /** What is wrong with the job as it is typed; the plan below is then the last good one. */
  readonly problems: readonly Problem[]
  readonly plan: Plan | null
  /** The last good plan is older than the job. */
  readonly stale: boolean
  readonly nesting: Nesting
  /** Nest in use: accepted, else candidate. */
  readonly nest: Nest | null
  /** Other jobs of the nest in use, or of the one that is looked for. */
  readonly together?: readonly string[]
  /** What the nest has to answer for all of them; absent: the plan's own demand. */
  readonly wanted?: readonly NestProblem[]
  /** Every cut of the run, in the order of work, with which are done. Empty while there is no run. */
  readonly cuts: readonly BenchCut[]
  /** Pieces that no saw of the shop finishes, in order, with which are made. */
  readonly byHand: readonly HandCut[]
  /** Faults that a judge found: the plan's run and nest are then not shown, these are. */
  readonly refused: readonly string[]
  /** Labels of pieces cut that this job does not need, or no longer. */
  readonly spares: readonly string[]
  /** The finished ones among them, which may be recut. */
  readonly spareSteel: readonly Made[]
  /** Labels of pieces that the plan no longer gives, since their steel was spoiled: `planRest` finds other steel. */
  readonly missing: readonly string[]
  /** Sticks that lack so much for what is planned on them, mm. */
  readonly short: readonly Short[]
  /** How far the stop of a set-up stands off its scale, mm, by set-up: until the head moves. */
  readonly stops: Readonly<Record<string, number>>
  /** A plan of the rest that waits to be accepted. */
  readonly offer?: Offer
}

export interface AppState {
  readonly phase: 'loading' | 'ready' | 'failed'
  /** A save or read that failed, said until it succeeds or is dismissed. */
  readonly trouble: string | null
  readonly device: string
  readonly shop: Shop
  readonly jobs: readonly Job[]
  readonly views: Readonly<Record<string, JobView>>
  readonly progress: Progress
  readonly facts: readonly Fact[]
  readonly rivals: readonly (Revision<Job> | Revision<Shop>)[]
  /** Rows on disk that cannot be read: kept as they are, said to the person. */
  readonly unread?: Kept['unread']
  /** The shop that was saved cannot be read, and `shop` is what a new one starts with. */
  readonly shopLost?: boolean
  /** Ids and names of the sample jobs. */
  readonly samples: readonly string[]
  readonly backup: BackupMark | null
  /** Null until the browser was asked. */
  readonly room: Room | null
  /** Counts up at each fact that reached the disk: the panel flashes once for each. */
  readonly flash: number
  /** What other stock would have meant, by job, where the person asked. */
  readonly compared?: Readonly<Record<string, Compared>>
  /** What each way of cutting comes to, by job, where the person asked. */
  readonly ways?: Readonly<Record<string, ComparedWays>>
}

export type { Codes }

/** A job file that came from another device, before anybody has said that it should be opened. */
export interface Carried {
  readonly text: string
  readonly job: Job
  /** Facts that come along. */
  readonly facts: number
  readonly shop: string | null
}

/** A backup or a rescue file, before anybody has said that it should be opened. */
export interface CarriedAll {
  readonly text: string
  readonly jobs: number
  readonly facts: number
  readonly shop: string | null
  /** Rows of a rescue file that cannot be read. */
  readonly left: number
}

/** What a file of any of our kinds holds. */
export type Looked = { readonly job: Carried } | { readonly all: CarriedAll }

/** Bytes of a file that are read at most. */
export { mostCharacters as mostBytes } from '../door/json.ts'

/** What came of a backup. */
export interface Opened {
  readonly jobs: readonly string[]
  readonly ownShop: boolean
  readonly rivals: readonly string[]
  readonly left: readonly string[]
  readonly problems: readonly Problem[]
}

/** What a person can do. Each resolves when it is on disk; each returns the problems in words, or an empty list. */
export interface Actions {
  open(): Promise<void>
  newJob(kind: string): Promise<string>
  /** The copy learns from this job, until the person refuses. */
  copyJob(id: string): Promise<string>
  removeJob(id: string): Promise<void>
  /** Name, quantity, note, seam, way, what welds draw in, what it learns from, what shares a stick; an undefined value takes it away. */
  editJob(
    id: string,
    change: Partial<
      Pick<Job, 'name' | 'quantity' | 'note' | 'units' | 'seam' | 'way' | 'shrinkage' | 'from' | 'oneStick'>
    >,
  ): Promise<void>
  editParams(id: string, change: Params): Promise<void>
  /** `from`: what the change was made on; what has been changed since then by somebody else stays. */
  saveShop(shop: Shop, from?: Shop): Promise<readonly Problem[]>
  /**
   * A tube-job file; the result names the job opened, or says what is wrong and changes nothing. `rival`: the job is
   * here already and differs; both versions are kept, and the person chooses. A problem of code `is-backup`: the text
   * is a backup, for `openBackup`.
   */
  openFile(
    text: string,
  ): Promise<{ readonly job?: string; readonly rival?: true; readonly problems: readonly Problem[] }>
  /**
   * What the file of a job carries to another device, in the # part of a link or in a row of codes. `whole`: with its
   * shop, nests and all that was cut; else the job alone.
   */
  linkOf(id: string, whole: boolean): Promise<Result<string>>
  codesOf(id: string, whole: boolean): Promise<Result<readonly string[]>>
  /** What a link or codes carry, to be looked at; `openFile(text)` takes it. Changes nothing. */
  lookAtLink(link: string): Promise<Result<Carried>>
  /** The codes read so far with one more, in any order; in words why it is none of ours. */
  withCode(codes: Codes | null, text: string): Result<Codes>
  lookAtCodes(codes: Codes): Promise<Result<Carried>>
  /** What a given file, or words with a link in them, hold. Changes nothing. */
  lookAtGiven(text: string): Promise<Result<Looked>>
  /** Files that another program of the device shared with the installed app, until they are forgotten. */
  sharedFiles(): Promise<readonly File[]>
  forgetShared(): Promise<void>
  openSample(index: number): Promise<string>
  /** The text of a tube-job file with shop, nests and facts. */
  fileOf(id: string): string
  /**
   * A backup, or a job file, which is a backup of one: all of it is taken, or nothing with the reasons. `ownShop`: the
   * shop of the file is another one, and that of this device stands. `rivals`: names of the documents that now stand
   * here in two versions. `left`: rows of a rescue file that could not be read.
   */
  openBackup(text: string): Promise<Opened>
  /** The text of a file with all that this device keeps. */
  backup(): string
  /** The text that `backup` gave was handed to the person. One that could not be opened again is said, and is no backup. */
  backedUp(text: string): Promise<void>
  /** Why a backup is asked for now, or null while all is well. */
  reminder(): Reminder | null
  /** The text of a file with every row as it lies on the disk, also those that cannot be read. */
  rescue(): Promise<string>
  /** Asks the browser again to keep what is here; the answer stands in `room`. */
  askToKeep(): Promise<void>
  /** Plans the job now and asks the worker for a nest where none is accepted. */
  show(id: string): void
  /** One nest for this job and these others, for one purchase; with none of them the job is bought alone again. */
  nestTogether(id: string, others: readonly string[]): Promise<void>
  /** Looks, in the worker, what other stock would mean for this job. */
  compare(id: string): Promise<void>
  /** Looks, in the worker, what each way of cutting comes to for this job; the way stays as it is. */
  compareWays(id: string): Promise<void>
  stopSolving(id: string): void
  /** This nest is the one to work by: paper is printed, or the first cut made. True when that is on disk. */
  accept(id: string): Promise<boolean>
  /** Plans what is still open on what steel is left, spares in `recut` too, and offers it in the view; nothing is written. */
  planRest(id: string, recut?: readonly string[]): Promise<void>
  /** The offered plan of the rest becomes the one to work by. */
  acceptRest(id: string): Promise<void>
  /** The offered plan is not wanted: work goes on by the accepted one. */
  dropRest(id: string): void
  /**
   * Checks off these cuts as one: one, or those that a stroke makes side by side (accepting the nest and opening the sticks
   * with them where need be).
   */
  cut(id: string, ...cuts: readonly BenchCut[]): Promise<void>
  /** Checks off a piece that is left to the hand. */
  cutByHand(id: string, piece: string): Promise<void>
  /**
   * Takes back the last thing that was done on this job; the pieces of one stroke together, or with `one` only the last of
   * them.
   */
  undo(id: string, one?: boolean): Promise<void>
  /** Takes back the last thing that was done on the rack itself. */
  undoRack(): Promise<void>
  keepDrop(id: string, stick: string, length: number): Promise<void>
  /** What is left of this stick is scrap. */
  scrap(id: string, stick: string): Promise<void>
  /** A stick goes on the saw, this long and with these ends. */
  load(id: string, stick: string, length: number, ends: Bodies['loaded']['ends']): Promise<void>
  /** A cut went wrong; true when that is on disk. */
  miscut(id: string, wrong: Wrong): Promise<boolean>
  /** A measure of a piece that was cut. */
  measure(id: string, measured: Bodies['measured']): Promise<void>
  /** The stop of this set-up stands off its scale by so much, mm. */
  moveStop(id: string, setUp: string, by: number): Promise<void>
  /** Another blade of the shop is put on this saw. */
  changeBlade(id: string, saw: string, blade: string): Promise<void>
  /** What was tacked or welded of this copy is cut apart: its pieces are steel again. */
  cutApart(id: string, copy: number): Promise<void>
  bought(section: Section, length: number, count: number, price?: number): Promise<void>
  found(body: Bodies['found']): Promise<void>
  sheetFound(body: Bodies['sheetFound']): Promise<void>
  sheetCorrected(body: Bodies['sheetCorrected']): Promise<void>
  sheetDiscarded(sheet: string): Promise<void>
  discard(rack: string): Promise<void>
  correct(rack: string, length: number): Promise<void>
  /** Checks a step of the weld list for one copy; again takes it back. */
  tick(id: string, copy: number, step: string, kind: 'tacked' | 'welded' | 'checked'): Promise<void>
  /** What was measured on the bench for one copy, mm or degrees; undefined takes it back. */
  gauge(id: string, copy: number, of: string, value: number | undefined): Promise<void>
  /** What a person writes about a step of one copy, or of all of it (`job`); no words take it back. */
  note(id: string, copy: number, of: string, text: string): Promise<void>
  /** What the welding machine is set to for this copy. */
  setMachine(id: string, copy: number, setting: Bodies['setTo']): Promise<void>
  /** The person chose one of two versions. */
  settle(chosen: Revision<Job> | Revision<Shop>): Promise<void>
  /** Both versions are wanted: the second becomes a job of its own. */
  settleApart(rival: Revision<Job>): Promise<void>
  dismiss(): void
}
