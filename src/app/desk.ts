import type { StoreApi } from 'zustand/vanilla'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import type { Result } from '../core/result.ts'
import { type Revision, revisionName } from '../core/revision.ts'
import type { Reading, Shop } from '../core/shop.ts'
import type { Planner } from './planner.ts'
import type { Ports } from './ports.ts'
import type { Offer } from './rest.ts'
import type { AppState, Nesting } from './state.ts'

/** A sealed nest that nobody has accepted yet, and the demand (as text) that it answers. */
export interface Candidate {
  readonly asked: string
  readonly nest: Nest
}

/** A nest being looked for in the worker. */
export interface Search {
  readonly asked: string
  readonly nesting: Nesting
  /** Takes the best so far. */
  readonly stop: () => void
  /** Whatever it still finds is for a question that nobody asks any more. */
  readonly drop: () => void
}

/** A version that this tab could not save, since another tab was faster: a rival until the person chooses. */
export interface Aside {
  readonly rival: Revision<Job> | Revision<Shop>
  /** Said until the person has chosen. */
  readonly words: string
  /** The person has read the words. */
  readonly dismissed: boolean
}

/** What lies on the desk between the disk and the screen: no screen reads it, all actions share it. */
export interface Desk {
  readonly ports: Ports
  /** Loaded when the disk is read. */
  planner: Planner
  readonly store: StoreApi<AppState>
  /** Milliseconds that a job must rest before its nest is looked for. */
  readonly pause: number
  readonly jobs: Map<string, Revision<Job>>
  shop: Revision<Shop> | null
  readonly nests: Map<string, Nest>
  readonly candidates: Map<string, Candidate>
  readonly searches: Map<string, Search>
  /** Ends the comparison under way: the worker is wanted for something that is worked by. */
  comparing: (() => void) | null
  /** Plans of the rest that wait to be accepted, by job. */
  readonly offers: Map<string, Offer>
  /** Jobs that are bought together, each to all of them in one order; none where a job is bought alone. */
  readonly together: Map<string, readonly string[]>
  /** Searches that wait until the typing rests. */
  readonly timers: Map<string, ReturnType<typeof setTimeout>>
  /** The last plan of each job, and all that it depends on as a text. */
  readonly planned: Map<string, { readonly of: string; readonly plan: Result<Plan> }>
  /** Jobs whose view is older than the rack or the shop: planned again when they are shown. */
  readonly dirty: Set<string>
  shown: string | null
  /** A trouble that no later success ends: said until the person has read it. */
  lasting: string | null
  /** By `jobKey` or `shopKey`: what this tab writes of them goes into its own version, never over the other. */
  readonly asides: Map<string, Aside>
  /** What this tab saved, by `savedKey`: a wish made before one of these was saved still goes on top of it. */
  readonly own: Set<string>
  /** Settles when everything that was begun has ended. */
  queue: Promise<unknown>
}

export const jobKey = (id: string): string => `job ${id}`
export const shopKey = 'shop'
export const savedKey = (revision: Revision<unknown>): string => `${revision.id} ${revisionName(revision)}`

/** A trouble that a success elsewhere does not end. */
export function standingTrouble({ lasting, asides }: Desk): string | null {
  const words = [...asides.values()].filter(({ dismissed }) => !dismissed).map((aside) => aside.words)
  const all = [...words, ...(lasting === null ? [] : [lasting])]
  return all.length > 0 ? all.join(' ') : null
}

/** A wish that cannot be met, in words for the person; nothing was changed. */
export class Refusal extends Error {}

/** Whatever reads or writes the disk goes one after the other, so that no answer is older than what the screen shows. */
export function inTurn<T>(desk: Desk, work: () => Promise<T>): Promise<T> {
  const turn = desk.queue.then(work)
  desk.queue = turn.catch(() => undefined)
  return turn
}

export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** The same of what a search says: it counts in millimeters, and a shop reads its own. */
export const searchWords = (error: unknown, reading: Reading): string =>
  reading.kind === 'mm'
    ? wordsOf(error)
    : wordsOf(error).replace(/(\d+(?:\.\d+)?) mm\b/g, (_, mm: string) => say(Number(mm), reading))

/**
 * What a person asked for, in its turn. What `work` throws is said as trouble and gives `otherwise`, with the state as
 * it was; when it ends well, an older trouble is over.
 */
export async function attempt<T>(desk: Desk, otherwise: T, work: () => Promise<T>): Promise<T> {
  try {
    const value = await inTurn(desk, work)
    const standing = standingTrouble(desk)
    if (desk.store.getState().trouble !== standing) desk.store.setState({ trouble: standing })
    return value
  } catch (error) {
    const words = wordsOf(error)
    const standing = standingTrouble(desk)
    const said = standing === null || standing.includes(words)
    desk.store.setState({ trouble: said ? (standing ?? words) : `${words} ${standing}` })
    return otherwise
  }
}

export function jobOf(desk: Desk, id: string): Revision<Job> {
  const revision = desk.jobs.get(id)
  if (!revision) throw new Refusal('This job is no longer on this device; another tab may have removed it.')
  return revision
}

/** The jobs bought together with this one, itself among them, in one order; itself alone where there are none. */
export const groupOf = (desk: Desk, id: string): readonly string[] => {
  const group = (desk.together.get(id) ?? [id]).filter((job) => desk.jobs.has(job))
  return group.length > 1 ? group : [id]
}
