import type { Progress, RackPiece } from '../core/facts.ts'
import type { CuttingWay, Nest, NestProblem } from '../core/nest.ts'
import { sealNest } from '../core/nest-seal.ts'
import { openDemand } from '../core/parts/demand.ts'
import type { Part } from '../core/plan-shapes.ts'
import { basisOf } from './basis.ts'
import { begunOf, spareBlanks } from './begun.ts'
import { attempt, type Desk, jobOf, Refusal } from './desk.ts'
import { type Difference, differenceOf, named } from './difference.ts'
import { acceptance } from './floor.ts'
import { search } from './nesting.ts'
import { publish, record } from './publish.ts'
import { steelOf } from './recut.ts'
import { remainsOf } from './remains.ts'
import { type Apart, sameStick } from './same-stick.ts'
import { shopNow } from './shop-now.ts'
import { progressFor } from './view.ts'

/** A plan of what is still open, to be looked at before it is accepted. */
export interface Offer {
  readonly nest: Nest
  readonly difference: Difference
  /** Spares that it cuts from, by their cut. */
  readonly recut: readonly string[]
  /** Pieces that come from another stick than those beside which they were wanted. */
  readonly apart: readonly Apart[]
  /** What it was made from: gone once the job, the shop or the steel is another. */
  readonly of: string
}

/**
 * Plans what is still open on the steel that is left: sticks that were begun are taken as long as they are now, the
 * pieces that are finished and still asked for are taken off the demand, those that are begun need no new steel, spares
 * in `recut` are steel. Nothing is written: the new nest, with the old one as its parent, is offered in the view.
 */
export async function planRest(desk: Desk, id: string, recut: readonly string[] = []): Promise<void> {
  desk.offers.delete(id)
  const asked = await attempt(desk, undefined, async () => ({
    of: basisOf(desk, desk.store.getState().progress, id),
    ...openWithBlanks(desk, id, recut),
  }))
  if (!asked) return
  const { of, open, parts } = asked
  const begun = begunOf(open, desk.store.getState().progress.made, id, desk.nests)
  const own = sameStick(begun.left, parts, {
    made: desk.store.getState().progress.made,
    job: id,
    nests: desk.nests,
  })
  const found = await search(desk, id, own.left)
  if (found.how !== 'found') return
  await attempt(desk, undefined, async () => {
    // Somebody cut on, or the rack changed, while the worker was thinking: the answer is to an older question.
    if (basisOf(desk, desk.store.getState().progress, id) !== of)
      throw new Refusal('Something was cut or put on the rack meanwhile. Plan what is left once more.')
    const { progress } = desk.store.getState()
    const chain = chainOf(desk, id)
    const parent = chain[0]
    const sections = named(begun.withBegun(own.withTied(found.sections)), parent, chain, progress)
    const nest = await sealNest(
      {
        sections,
        jobs: [id],
        solver: desk.ports.solver.name,
        named: true,
        ...(parent ? { parent: parent.id } : {}),
      },
      desk.ports.hash,
    )
    mustPass(desk, id, nest)
    const lying = new Set(progress.made.filter(({ stage }) => stage !== 'piece').map((one) => one.id))
    const racks = new Set(sections.flatMap(({ sticks }) => sticks.flatMap(({ rack }) => rack ?? [])))
    desk.offers.set(id, {
      nest,
      difference: differenceOf(parent, nest, progress, lying),
      recut: recut.filter((piece) => racks.has(piece)),
      apart: own.apart(sections),
      of,
    })
  })
  // A refusal above leaves the search behind: the view says again where the job stands.
  desk.searches.delete(id)
  publish(desk, {}, [id])
}

/** The offered plan becomes the one to work by, by a fact; the old nest is not touched. */
export async function acceptRest(desk: Desk, id: string): Promise<void> {
  await attempt(desk, undefined, async () => {
    const offer = desk.offers.get(id)
    if (!offer || offer.of !== basisOf(desk, desk.store.getState().progress, id))
      throw new Refusal('Something was cut or put on the rack meanwhile. Plan what is left once more.')
    await record(desk, acceptance(desk, offer.nest), [offer.nest])
    desk.offers.delete(id)
  })
  publish(desk, {}, [id])
}

export function dropRest(desk: Desk, id: string): void {
  desk.offers.delete(id)
  publish(desk, {}, [id])
}

/** The accepted nest and those that it follows, the newest first. */
export function chainOf(desk: Desk, id: string): readonly Nest[] {
  const chain: Nest[] = []
  let at = desk.store.getState().progress.accepted[id]
  while (at !== undefined && !chain.some((nest) => nest.id === at)) {
    const nest = desk.nests.get(at)
    if (!nest) break
    chain.push(nest)
    at = nest.parent
  }
  return chain
}

/** Steel for the rest of a job: the rack, what is left of its sticks, and the spares that are given up for it. */
export function steelFor(desk: Desk, id: string, recut: readonly string[] = []): readonly RackPiece[] {
  const { progress, shop, views } = desk.store.getState()
  const spares = views[id]?.spareSteel ?? []
  const given = spares
    .filter((one) => recut.includes(one.id))
    .flatMap((one) => steelOf(one, desk.nests) ?? [])
  return [
    ...progressFor(desk, progress, id).rack,
    ...remainsOf(chainOf(desk, id), progress, shop.leastDrop),
    ...given,
  ]
}

interface Open {
  readonly open: readonly NestProblem[]
  /** Parts of the job as it is planned now. */
  readonly parts: readonly Part[]
}

/** What is left to cut, with the stock it may be cut from. The old nest's own rack pieces are free for it. */
function openOf(desk: Desk, id: string, recut: readonly string[], blanks: readonly RackPiece[] = []): Open {
  const { progress, shop } = desk.store.getState()
  const job = jobOf(desk, id).body
  const withSteel: Progress = { ...progress, rack: [...steelFor(desk, id, recut), ...blanks] }
  const now = { ...job, way: job.way ?? wayOf(desk, id) }
  const planned = desk.planner.plan(now, shopNow(shop, progress), undefined, withSteel)
  if (!planned.ok) throw new Refusal(planned.problems.map(({ text }) => text).join(' '))
  const open = openDemand(planned.value.demand, progress.made, id, undefined)
  if (open.length === 0)
    throw new Refusal('Every piece that this job asks for is cut; there is nothing left to plan.')
  return { open, parts: planned.value.parts }
}

/** The same; blanks that lie there and that no part of their length waits for are steel too. */
function openWithBlanks(desk: Desk, id: string, recut: readonly string[]): Open {
  const { made } = desk.store.getState().progress
  const found = openOf(desk, id, recut)
  const blanks = spareBlanks(made, id, desk.nests, begunOf(found.open, made, id, desk.nests).taken)
  return blanks.length > 0 ? openOf(desk, id, recut, blanks) : found
}

/**
 * The way that the rest is cut in: what the person chose, else that of the layout that is accepted. Sections of one nest
 * that differ in their ways count as square first.
 */
function wayOf(desk: Desk, id: string): CuttingWay {
  const [parent] = chainOf(desk, id)
  const ways = new Set((parent?.sections ?? []).map(({ way }) => way))
  const [only] = ways
  return ways.size === 1 && only ? only : 'square first'
}

/** Both judges see the new nest before anybody works by it. */
function mustPass(desk: Desk, id: string, nest: Nest): void {
  const { progress, shop } = desk.store.getState()
  const now = shopNow(shop, progress)
  const planned = desk.planner.plan(jobOf(desk, id).body, now, nest, progressFor(desk, progress, id))
  if (!planned.ok) throw new Refusal(planned.problems.map(({ text }) => text).join(' '))
  const { verdict } = planned.value
  const faults = verdict ? [...verdict.nest.faults, ...verdict.run.faults] : ['It came without its check.']
  if (faults.length > 0) throw new Refusal(`The new plan failed its check: ${faults.join(' ')}`)
}
