import { copyName } from '../core/facts/fold.ts'
import type { Made, Progress } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest, NestProblem, NestSection } from '../core/nest.ts'
import { openDemand } from '../core/parts/demand.ts'
import { demandTogether, type JobDemand } from '../core/parts/together.ts'
import type { BenchCut, Plan } from '../core/plan-shapes.ts'
import { bad, good, type Result } from '../core/result.ts'
import { revisionName } from '../core/revision.ts'
import { basisOf } from './basis.ts'
import { type Candidate, type Desk, groupOf } from './desk.ts'
import { stillFits } from './match.ts'
import { forJob } from './rack.ts'
import { restOf } from './remains.ts'
import { asCut, isCut, shopNow } from './shop-now.ts'
import type { AppState, JobView, Nesting } from './state.ts'
import { shortSticks } from './stick-now.ts'
import { standingStops } from './stop-now.ts'

/** What the nest of a job has to answer, as a text to compare. */
export const asked = (demand: readonly NestProblem[]): string => JSON.stringify(demand)

/** Progress as this job may plan with it. */
export function progressFor(desk: Desk, progress: Progress, id: string): Progress {
  const mine = progress.accepted[id]
  const others = [...desk.jobs.keys()].flatMap((job) => {
    const nest = progress.accepted[job]
    return nest === undefined || nest === mine ? [] : [nest]
  })
  return forJob(
    progress,
    [...new Set(others)].flatMap((nest) => desk.nests.get(nest) ?? []),
  )
}

/** plan(), remembered: a check-off changes neither the rack nor what other nests have finished, so it plans nothing. */
export function planOf(desk: Desk, state: AppState, job: Job, nest: Nest | undefined): Result<Plan> {
  const progress = progressFor(desk, state.progress, job.id)
  const beside = nest ? besideOf(desk, state, nest, job.id) : []
  const finished = progress.made.filter(
    (made) => made.job === job.id && made.stage === 'piece' && made.nest !== nest?.id,
  )
  const revision = desk.jobs.get(job.id)
  const history = nest !== undefined && isCut(nest, progress.made)
  const of = JSON.stringify([
    revision && revisionName(revision),
    desk.shop && revisionName(desk.shop),
    nest?.id,
    history,
    beside.map(({ of }) => of),
    progress.rack,
    progress.blades,
    finished.map(({ key }) => key),
  ])
  const name = nest ? job.id : `${job.id} alone`
  const before = desk.planned.get(name)
  if (before?.of === of) return before.plan
  const now = shopNow(state.shop, progress)
  const shop = history ? asCut(now, nest) : now
  const plan = safely(() => desk.planner.plan(job, shop, nest, progress, beside))
  desk.planned.set(name, { of, plan })
  return plan
}

/** The other jobs of a nest as they stand; `of` names the revision. A job that is gone or does not plan is left out. */
function besideOf(desk: Desk, state: AppState, nest: Nest, id: string) {
  return nest.jobs.flatMap((other) => {
    const revision = desk.jobs.get(other)
    if (other === id || !revision) return []
    const planned = planOf(desk, state, revision.body, undefined)
    return planned.ok ? [{ job: other, parts: planned.value.parts, of: revisionName(revision) }] : []
  })
}

/** What the nest of this job has to answer, with that of the jobs which it is bought together with. */
export function wantedOf(desk: Desk, state: AppState, id: string): Result<readonly NestProblem[]> {
  const demands: JobDemand[] = []
  for (const job of groupOf(desk, id)) {
    const planned = planOf(desk, state, desk.jobs.get(job)!.body, undefined)
    if (!planned.ok)
      return job === id
        ? planned
        : bad(
            'together',
            `${desk.jobs.get(job)!.body.name} does not plan as it stands, so it cannot be bought along.`,
          )
    demands.push({ job, demand: planned.value.demand })
  }
  return demandTogether(demands)
}

/**
 * Whether an accepted nest can be worked by: it cuts what each of its jobs still asks for, and they all work by it. A job
 * that is gone or was planned anew leaves the others' sticks as they are cut, and what is left is planned again.
 */
function standing(desk: Desk, state: AppState, nest: Nest, own: Plan): boolean {
  const { accepted, made } = state.progress
  return nest.jobs.every((job) => {
    const revision = desk.jobs.get(job)
    if (!revision || accepted[job] !== nest.id) return false
    const planned = job === own.job ? own : planOk(planOf(desk, state, revision.body, nest))
    return planned !== undefined && stillFits(nest, openDemand(planned.demand, made, job, nest.id), job)
  })
}

const planOk = (result: Result<Plan>): Plan | undefined => (result.ok ? result.value : undefined)

/** A fault of the program is said like any other problem: the last good plan stays on the screen. */
function safely(plan: () => Result<Plan>): Result<Plan> {
  try {
    return plan()
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    return bad(
      'program-fault',
      `The program failed while planning this job (${why}). The job is kept as it is.`,
    )
  }
}

/** What the stations of one job show, from what is on the desk. */
export function viewOf(desk: Desk, state: AppState, id: string): JobView | undefined {
  const job = desk.jobs.get(id)?.body
  if (!job) return undefined
  const { progress } = state
  const acceptedId = progress.accepted[id]
  const accepted = acceptedId === undefined ? undefined : desk.nests.get(acceptedId)
  const candidate = acceptedId === undefined ? candidateOf(desk, state, id) : undefined
  const search = desk.searches.get(id)
  const planned = planOf(desk, state, job, accepted ?? candidate?.nest)
  if (!planned.ok && (accepted ?? candidate)) {
    // The job by itself may be sound, and only the planning with this nest failed: then that is what is said.
    const bare = planOf(desk, state, job, undefined)
    const refused = planned.problems.map(({ text }) => text)
    const nesting: Nesting = { state: accepted ? 'accepted' : 'found' }
    if (bare.ok) return { ...emptyView(job), plan: bare.value, nesting, refused }
  }
  if (!planned.ok) return lastGood(desk, state, { ...emptyView(job), problems: planned.problems })

  const plan = planned.value
  const wanted = acceptedId === undefined ? wantedOf(desk, state, id) : good(plan.demand)
  const others = (accepted?.jobs ?? groupOf(desk, id)).filter((other) => other !== id)
  const view: JobView = {
    ...emptyView(job),
    plan: withoutNest(plan),
    nesting: search?.nesting ?? none,
    ...(others.length > 0 ? { together: others, ...(wanted.ok ? { wanted: wanted.value } : {}) } : {}),
  }
  if (acceptedId !== undefined && !accepted)
    return { ...view, nesting: { state: 'accepted', text: absent, rest: true } }
  if (accepted) {
    if (!standing(desk, state, accepted, plan)) {
      const all = openDemand(plan.demand, progress.made, id, undefined).length === 0
      return {
        ...view,
        nest: accepted,
        nesting: {
          ...(search?.nesting ?? {
            ...costOf(accepted.sections),
            state: 'accepted',
            text: all ? allCut : changedOf(accepted),
          }),
          rest: true,
          ...(all ? { allCut: true } : {}),
        },
        // Without a run nobody knows which blanks will be used, so only finished pieces are said.
        ...sparesIn(desk, state, job, plan, []),
        ...offered(desk, state, id),
      }
    }
    const stands = judged(desk, state, view, plan, accepted, {
      ...costOf(accepted.sections),
      state: 'accepted',
      ...(search ? search.nesting : {}),
    })
    return {
      ...stands,
      short: shortIn(desk, state, accepted),
      stops: standingStops(state, accepted, stands.cuts),
      ...offered(desk, state, id),
    }
  }
  if (candidate)
    return judged(desk, state, view, plan, candidate.nest, {
      ...costOf(candidate.nest.sections),
      state: 'found',
    })
  return view
}

/** The nest found for this job, as long as it answers what is asked now: one of another way of cutting does not. */
function candidateOf(desk: Desk, state: AppState, id: string): Candidate | undefined {
  const candidate = desk.candidates.get(id)
  const job = desk.jobs.get(id)?.body
  if (!candidate || !job) return undefined
  const wanted = wantedOf(desk, state, id)
  const alone = planOf(desk, state, job, undefined)
  const demand = wanted.ok ? wanted.value : alone.ok ? alone.value.demand : undefined
  return demand && candidate.asked === asked(demand) ? candidate : undefined
}

const none: Nesting = { state: 'none' }

const absent =
  'The nest that was accepted for this job is not on this device. Open the file or the backup that has it, or plan the rest again.'
const changed =
  'What is asked for is no longer what the accepted layout cuts: the job or the shop was changed, or a finished piece was spoiled. What is cut stays cut; plan what is left on the steel that is there.'

const allCut = 'Every piece that this job asks for is cut. What was cut beyond that lies there as a spare.'

const changedTogether =
  'This job was laid out together with others, and one of them, the shop or this job has changed or is no longer here, so the common layout cannot be worked by. What is cut stays cut; plan what is left on the steel that is there.'

const changedOf = ({ jobs }: Nest): string => (jobs.length > 1 ? changedTogether : changed)

const emptyView = (job: Job): JobView => ({
  id: job.id,
  job,
  problems: [],
  plan: null,
  stale: false,
  nesting: none,
  nest: null,
  cuts: [],
  byHand: [],
  refused: [],
  spares: [],
  spareSteel: [],
  missing: [],
  short: [],
  stops: {},
})

/** While the job has problems the last good plan stays, with its check-offs up to date. */
function lastGood(desk: Desk, state: AppState, view: JobView): JobView {
  const before = state.views[view.id]
  if (!before?.plan) return view
  const { problems: _problems, job: _job, offer: _offer, ...last } = before
  const { plan, nest } = last
  const work = plan?.run && nest ? workOf(desk, state, plan, nest, view.id) : { cuts: [], byHand: [] }
  return { ...view, ...last, stale: true, ...work, missing: missingIn(work) }
}

const withoutNest = ({
  nest: _nest,
  run: _run,
  hindered: _hindered,
  verdict: _verdict,
  cutParts: _cutParts,
  ...plan
}: Plan): Plan => plan

/** The nest and its run, if both judges found nothing wrong: an unjudged run is not shown either. */
function judged(
  desk: Desk,
  state: AppState,
  view: JobView,
  plan: Plan,
  nest: Nest,
  nesting: Nesting,
): JobView {
  const refused = plan.verdict
    ? [...plan.verdict.nest.faults, ...plan.verdict.run.faults]
    : ['The plan came without its check.']
  if (refused.length > 0) return { ...view, nesting, refused }
  const work = workOf(desk, state, plan, nest, view.id)
  const spares = plan.run ? sparesIn(desk, state, view.job, plan, work.cuts) : {}
  return { ...view, plan, nest, nesting, ...work, missing: missingIn(work), ...spares }
}

const workOf = (
  desk: Desk,
  state: AppState,
  plan: Plan,
  nest: Nest,
  id: string,
): Pick<JobView, 'cuts' | 'byHand'> =>
  plan.run
    ? desk.planner.benchWork(plan.run, nest, state.progress.made, id, state.progress.spoiled)
    : { cuts: [], byHand: [] }

/** Pieces that the accepted plan no longer gives, since their steel was spoiled. */
const missingIn = ({ cuts, byHand }: Pick<JobView, 'cuts' | 'byHand'>): readonly string[] =>
  [...cuts, ...byHand]
    .filter(({ lost, product }) => lost !== undefined && product.kind === 'piece')
    .map(({ product }) => product.id)

/**
 * Steel that nothing asks for. Without a run nobody knows which blanks will be used, so only finished pieces are said. What
 * is tacked or welded in is no steel.
 */
function sparesIn(
  desk: Desk,
  { progress }: AppState,
  job: Job,
  plan: Plan,
  cuts: readonly BenchCut[],
): Pick<JobView, 'spares' | 'spareSteel'> {
  const asks = { id: job.id, parts: plan.parts, quantity: job.quantity }
  const held = (made: Made) => made.stage === 'piece' && progress.joined.includes(copyName(made))
  const all = desk.planner.sparesOf(cuts, progress.made, asks, held)
  const spares = cuts.length > 0 ? all : all.filter(({ stage }) => stage === 'piece')
  return {
    spares: spares.map(({ label }) => label),
    spareSteel: spares.filter(({ stage }) => stage === 'piece'),
  }
}

/** Sticks that are too short for what is planned on them. */
function shortIn(desk: Desk, { progress }: AppState, nest: Nest): JobView['short'] {
  const restNow = (rack: string) => {
    const from = rack.split('/')
    const earlier = desk.nests.get(from[0] ?? '')
    for (const section of earlier?.sections ?? []) {
      const stick = section.sticks.find(({ id }) => id === from[1])
      if (earlier && stick) return restOf(earlier, section, stick, progress)
    }
    return undefined
  }
  return shortSticks(nest, progress, restNow)
}

/** The plan of the rest that waits to be accepted, as long as it answers what is asked now. */
function offered(desk: Desk, { progress }: AppState, id: string): Pick<JobView, 'offer'> {
  const offer = desk.offers.get(id)
  return offer && offer.of === basisOf(desk, progress, id) ? { offer } : {}
}

/** Sections with prices count cents, others mm: a sum is only said where all count the same. */
export function costOf(sections: readonly NestSection[]): Pick<Nesting, 'cost' | 'bound' | 'proved'> {
  const proved = sections.every((section) => section.proved)
  const priced = sections.map(({ stock }) =>
    stock.some(({ price, rack }) => price !== undefined && rack === undefined),
  )
  if (new Set(priced).size > 1) return { proved }
  const sum = (of: 'cost' | 'bound') => sections.reduce((total, section) => total + section[of], 0)
  return { cost: sum('cost'), bound: sum('bound'), proved }
}
