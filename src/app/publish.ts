import { fold } from '../core/facts/fold.ts'
import { newestVersion } from '../core/facts/known.ts'
import { union } from '../core/facts/order.ts'
import type { Fact, FactDraft, Progress } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { Result } from '../core/result.ts'
import { startShop } from '../core/shop-start.ts'
import { readStoredFact, readStoredNest } from '../door/stored.ts'
import { type Desk, groupOf, Refusal, savedKey, standingTrouble } from './desk.ts'
import type { Kept } from './ports.ts'
import type { AppState, JobView } from './state.ts'
import { viewOf } from './view.ts'

/** One change of the state, with the views of these jobs planned anew: the screen never sees the one without the other. */
export function publish(desk: Desk, change: Partial<AppState>, jobs: Iterable<string>): void {
  const state = { ...desk.store.getState(), ...change }
  const views: Record<string, JobView> = {}
  for (const [id, view] of Object.entries(state.views)) if (desk.jobs.has(id)) views[id] = view
  for (const id of withPartners(desk, state, jobs)) {
    const view = viewOf(desk, state, id)
    if (view) views[id] = view
    desk.dirty.delete(id)
  }
  desk.store.setState({ ...change, views })
}

/** With every job whose nest, in use or looked for, is also that of one of these: it stands or falls with them. */
function withPartners(
  desk: Desk,
  { progress, views }: AppState,
  jobs: Iterable<string>,
): ReadonlySet<string> {
  const all = new Set(jobs)
  for (const id of [...all]) {
    const nest = desk.nests.get(progress.accepted[id] ?? '')
    for (const other of [...groupOf(desk, id), ...(nest?.jobs ?? [])]) if (views[other]) all.add(other)
  }
  return all
}

/** Jobs whose view this tab has to keep true at once: the one on the screen, and those named. */
const withShown = (desk: Desk, ids: Iterable<string>): ReadonlySet<string> =>
  new Set(desk.shown === null ? ids : [desk.shown, ...ids])

const anyEnvelope = { id: 'new:1', device: 'new', seq: 1, lamport: 1, at: 'now' } as const

/** What could not be read back is not written. */
function mustRead(result: Result<unknown>): void {
  if (!result.ok) throw new Refusal(result.problems.map(({ text }) => text).join(' '))
}

/** Facts to disk, then to the state. Rejects, with nothing changed, when they did not get there. */
export async function record(
  desk: Desk,
  drafts: readonly FactDraft[],
  nests: readonly Nest[] = [],
): Promise<readonly Fact[]> {
  for (const draft of drafts)
    mustRead(readStoredFact({ ...draft, ...anyEnvelope, v: newestVersion(draft.kind) }))
  for (const nest of nests) mustRead(readStoredNest(nest))
  const facts = await desk.ports.disk.append(drafts, nests)
  for (const nest of nests) desk.nests.set(nest.id, nest)
  const state = desk.store.getState()
  if (facts.some(({ device }) => device !== state.device)) {
    desk.store.setState({ flash: state.flash + 1 })
    await readDisk(desk)
    return facts
  }
  const all = union(state.facts, facts)
  const progress = fold(all)
  if (freeSteel(progress) !== freeSteel(state.progress)) soil(desk)
  const jobs = facts.flatMap(({ job }) => job ?? [])
  publish(desk, { facts: all, progress, flash: state.flash + 1 }, withShown(desk, jobs))
  return facts
}

/** What decides which steel a job may plan with: what lies there, and which nests wait for it. */
const freeSteel = ({ rack, accepted }: Progress): string => JSON.stringify([rack, accepted])

/** Every job is planned again, at the latest when it is shown. */
export function soil(desk: Desk): void {
  for (const id of desk.jobs.keys()) desk.dirty.add(id)
}

/**
 * What is on disk becomes the state. Facts only ever come in addition, so that nothing that was shown as done goes
 * away.
 */
export async function readDisk(desk: Desk): Promise<void> {
  const kept = await notCleared(desk, await desk.ports.disk.readAll())
  lay(desk, kept)
  const state = desk.store.getState()
  const standing = standingTrouble(desk)
  dropSettled(desk, kept)
  if (kept.putBack !== null) desk.lasting = kept.putBack
  const trouble = state.trouble === standing ? standingTrouble(desk) : state.trouble
  const facts = union(state.facts, kept.facts)
  soil(desk)
  // At the start the jobs are planned one after the other, so that the first screen does not wait for all of them.
  const planned = state.phase === 'ready' ? desk.jobs.keys() : []
  publish(
    desk,
    {
      phase: 'ready',
      trouble,
      device: kept.device,
      shop: desk.shop?.body ?? startShop(desk.ports.units ?? 'in'),
      jobs: jobList(desk),
      facts,
      progress: fold(facts),
      rivals: kept.rivals,
      unread: kept.unread,
      shopLost: kept.shop === null && kept.unread.some(({ store }) => store === 'shop'),
      backup: kept.backup,
    },
    withShown(desk, planned),
  )
}

/** The person has chosen, here or in another tab, where the version that stood aside is no rival any more. */
function dropSettled({ asides }: Desk, { rivals }: Kept): void {
  const there = new Set(rivals.map(savedKey))
  for (const [key, { rival }] of asides) if (!there.has(savedKey(rival))) asides.delete(key)
}

/**
 * The disk of this tab does not change its name: when it does, the browser has cleared what it kept while the page was
 * open. What the page still knows is written again, beside whatever was made since.
 */
async function notCleared(desk: Desk, kept: Kept): Promise<Kept> {
  const { device, phase, facts } = desk.store.getState()
  const { disk } = desk.ports
  if (phase !== 'ready' || kept.device === device) return kept
  await disk.merge(facts, [...desk.nests.values()])
  if (desk.shop && kept.shop === null) await disk.saveShop(desk.shop.body, null)
  const there = new Set(kept.jobs.map(({ id }) => id))
  for (const { id, body } of desk.jobs.values()) if (!there.has(id)) await disk.saveJob(body, null)
  desk.lasting = cleared
  desk.store.setState({ trouble: cleared })
  return disk.readAll()
}

const cleared =
  'The browser cleared what it kept on this device while the page was open. What this page knew is written again; save a backup now, and see Backup in the Shop station for how to make the browser keep it.'

function lay(desk: Desk, kept: Kept): void {
  desk.jobs.clear()
  for (const revision of kept.jobs) desk.jobs.set(revision.id, revision)
  desk.shop = kept.shop
  for (const nest of kept.nests) desk.nests.set(nest.id, nest)
}

/** By name, then by id: the same list in every tab. */
export const jobList = (desk: Desk): AppState['jobs'] =>
  [...desk.jobs.values()]
    .map(({ body }) => body)
    .sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1))
