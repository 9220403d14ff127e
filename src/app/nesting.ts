import type { NestProblem, NestSection } from '../core/nest.ts'
import { sealNest } from '../core/nest-seal.ts'
import { type Desk, groupOf, searchWords, wordsOf } from './desk.ts'
import { publish } from './publish.ts'
import type { Nesting } from './state.ts'
import { asked, costOf } from './view.ts'

/** What became of a search; `dropped` when nobody asks for it any more. */
export type Found =
  | { readonly how: 'found'; readonly sections: readonly NestSection[] }
  | { readonly how: 'failed'; readonly why: string }
  | { readonly how: 'dropped' }

/**
 * Looks for a nest of these problems in the worker, one section after the other, and keeps the view of the job told.
 * A search of the same job that is under way is dropped. Never rejects.
 */
export async function search(desk: Desk, id: string, problems: readonly NestProblem[]): Promise<Found> {
  desk.searches.get(id)?.drop()
  desk.comparing?.()
  const question = asked(problems)
  let stopped = false
  let over = false
  let running: { readonly stop: () => void } | undefined
  const stop = () => {
    stopped = true
    running?.stop()
  }
  const drop = () => {
    over = true
    running?.stop()
  }
  const tell = (nesting: Nesting) => {
    if (over) return
    desk.searches.set(id, { asked: question, nesting, stop, drop })
    publish(desk, {}, [id])
  }
  const sections: NestSection[] = []
  tell({ state: 'working', text: saySections(0, problems.length) })
  try {
    for (const problem of problems) {
      const solving = desk.ports.solver.solve(problem, (better) => {
        const so = [...sections, better]
        const figures = so.length === problems.length ? costOf(so) : {}
        tell({ ...figures, state: 'working', text: saySections(sections.length, problems.length) })
        // The person wants what there is: the first usable nest of each section that is still to come.
        if (stopped) running?.stop()
      })
      running = solving
      sections.push(await solving.done)
      if (over) return { how: 'dropped' }
    }
  } catch (error) {
    if (over) return { how: 'dropped' }
    const why = searchWords(error, desk.store.getState().shop.reading)
    tell({ state: 'failed', text: why })
    return { how: 'failed', why }
  } finally {
    running = undefined
  }
  return { how: 'found', sections }
}

const saySections = (done: number, of: number): string =>
  of > 1 ? `Section ${Math.min(done + 1, of)} of ${of}.` : ''

/**
 * Sees to it that a job without an accepted nest gets a candidate for what it asks now. Typing only pushes the search
 * back, never the plan; a nest that answers the same demand is not looked for again, one that failed only if `again`.
 */
export function wantNest(desk: Desk, id: string, again = false): void {
  const { progress, views } = desk.store.getState()
  const view = views[id]
  const running = desk.searches.get(id)
  const wanted =
    progress.accepted[id] === undefined && view?.plan && !view.stale ? (view.wanted ?? view.plan.demand) : []
  const question = asked(wanted)
  const working = running?.nesting.state === 'working'
  if (running?.asked === question && (working || !again)) return
  clearTimeout(desk.timers.get(id))
  desk.timers.delete(id)
  // A plan for the rest belongs to an accepted nest and is asked for by the person: it goes on.
  if (running && progress.accepted[id] === undefined) {
    running.drop()
    desk.searches.delete(id)
  }
  if (wanted.length === 0 || desk.candidates.get(id)?.asked === question) return
  desk.timers.set(
    id,
    setTimeout(() => {
      desk.timers.delete(id)
      void propose(desk, id)
    }, desk.pause),
  )
}

/** Finds, seals and shows a candidate. Its failures are told in the view of the job. */
async function propose(desk: Desk, id: string): Promise<void> {
  const { views, progress } = desk.store.getState()
  const view = views[id]
  if (!view?.plan || view.stale || progress.accepted[id] !== undefined) return
  const demand = view.wanted ?? view.plan.demand
  const jobs = view.wanted ? groupOf(desk, id) : [id]
  const question = asked(demand)
  const found = await search(desk, id, demand)
  const mine = desk.searches.get(id)
  if (found.how !== 'found' || mine?.asked !== question) return
  try {
    const input = { sections: found.sections, jobs, solver: desk.ports.solver.name }
    const nest = await sealNest(input, desk.ports.hash)
    if (desk.searches.get(id) !== mine) return
    for (const job of jobs) desk.candidates.set(job, { asked: question, nest })
    desk.searches.delete(id)
    publish(desk, {}, jobs)
    return
  } catch (error) {
    desk.searches.set(id, { ...mine, nesting: { state: 'failed', text: wordsOf(error) } })
  }
  publish(desk, {}, [id])
}
