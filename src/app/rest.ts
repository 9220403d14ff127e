import type { Nest, NestProblem } from '../core/nest.ts'
import { sealNest } from '../core/nest-seal.ts'
import { openDemand } from '../core/parts/demand.ts'
import { begunOf } from './begun.ts'
import { attempt, type Desk, jobOf, Refusal } from './desk.ts'
import { acceptance } from './floor.ts'
import { search } from './nesting.ts'
import { publish, record } from './publish.ts'
import { remainsOf } from './remains.ts'
import { asked, progressFor } from './view.ts'

/**
 * Plans what is still open on the steel that is left: sticks that were begun become drops of their real length, the
 * pieces that are finished and still asked for are taken off the demand, those that are begun need no new steel, and the
 * new nest, with the old one as its parent, is accepted by a fact. The old nest is not touched. Until the end nothing
 * but the drops has changed.
 */
export async function planRest(desk: Desk, id: string): Promise<void> {
  const open = await attempt(desk, undefined, async () => {
    const parent = parentOf(desk, id)
    const { progress, shop } = desk.store.getState()
    const drops = parent ? remainsOf(parent, progress, shop.leastDrop) : []
    if (drops.length > 0) await record(desk, drops)
    return openOf(desk, id)
  })
  if (!open) return

  const parent = parentOf(desk, id)
  const begun = begunOf(open, desk.store.getState().progress.made, id, desk.nests)
  const found = await search(desk, id, begun.left)
  if (found.how !== 'found') return
  await attempt(desk, undefined, async () => {
    // Somebody cut on, or the rack changed, while the worker was thinking: the answer is to an older question.
    const { made } = desk.store.getState().progress
    if (
      asked(openOf(desk, id)) !== asked(open) ||
      asked(begunOf(open, made, id, desk.nests).left) !== asked(begun.left)
    )
      throw new Refusal('Something was cut or put on the rack meanwhile. Plan what is left once more.')
    const nest = await sealNest(
      {
        sections: begun.withBegun(found.sections),
        jobs: [id],
        solver: desk.ports.solver.name,
        ...(parent ? { parent: parent.id } : {}),
      },
      desk.ports.hash,
    )
    mustPass(desk, id, nest)
    desk.searches.delete(id)
    await record(desk, acceptance(desk, nest), [nest])
  })
  // A refusal above leaves the search behind: the view says again where the job stands.
  desk.searches.delete(id)
  publish(desk, {}, [id])
}

function parentOf(desk: Desk, id: string): Nest | undefined {
  const accepted = desk.store.getState().progress.accepted[id]
  return accepted === undefined ? undefined : desk.nests.get(accepted)
}

/** What is left to cut, with the stock it may be cut from. The old nest's own rack pieces are free for it. */
function openOf(desk: Desk, id: string): readonly NestProblem[] {
  const { progress, shop } = desk.store.getState()
  const job = jobOf(desk, id).body
  const planned = desk.planner.plan(job, shop, undefined, progressFor(desk, progress, id))
  if (!planned.ok) throw new Refusal(planned.problems.map(({ text }) => text).join(' '))
  const open = openDemand(planned.value.demand, progress.made, id, undefined)
  if (open.length === 0)
    throw new Refusal('Every piece that this job asks for is cut; there is nothing left to plan.')
  return open
}

/** Both judges see the new nest before anybody works by it. */
function mustPass(desk: Desk, id: string, nest: Nest): void {
  const { progress, shop } = desk.store.getState()
  const planned = desk.planner.plan(jobOf(desk, id).body, shop, nest, progressFor(desk, progress, id))
  if (!planned.ok) throw new Refusal(planned.problems.map(({ text }) => text).join(' '))
  const { verdict } = planned.value
  const faults = verdict ? [...verdict.nest.faults, ...verdict.run.faults] : ['It came without its check.']
  if (faults.length > 0) throw new Refusal(`The new plan failed its check: ${faults.join(' ')}`)
}
