import { checkNest } from './check/check-nest.ts'
import { checkRun } from './check/check-run.ts'
import { enlargedFrame, frameOf } from './draft.ts'
import type { Progress } from './facts.ts'
import { levelerRange } from './finish/leveler-range.ts'
import type { Frame, Warning } from './frame/frame.ts'
import { landingsOf, landingWarnings, touchingOf } from './frame/landing.ts'
import type { Job } from './job.ts'
import type { Nest } from './nest.ts'
import { builtSizes } from './parts/built.ts'
import { longestPiece, openDemand } from './parts/demand.ts'
import { wantedTogether } from './parts/one-stick.ts'
import { partsOf } from './parts/parts.ts'
import { platesOf } from './parts/plates.ts'
import { partsTogether } from './parts/together.ts'
import type { Landing, Part, Plan } from './plan-shapes.ts'
import { say, showLength } from './reading/show.ts'
import { badAll, good, type Problem, type Result } from './result.ts'
import { demandByWay, waysIn } from './saw/demand-by-way.ts'
import { withWays } from './saw/left.ts'
import { sawWarnings } from './saw/limits.ts'
import { planRun } from './saw/run.ts'
import { pinSeams } from './saw/seam.ts'
import type { Shop } from './shop.ts'
import { sameLength } from './tolerance.ts'
import { weldPlan } from './weld/order.ts'
import { enlarged } from './weld/shrinkage.ts'

/** Another job of the same nest, as it plans by itself. */
export type Beside = Pick<Plan, 'job' | 'parts'>

/**
 * The plan of a job: a pure function. Without a nest it holds frame, parts, landings, demand and weld order; with one
 * also the run at the saw, judged by `core/check`; of a nest that serves several jobs the run is the whole of it, and
 * `beside` has the other jobs. Fails with every problem of the job, each naming its field.
 */
export function plan(
  job: Job,
  shop: Shop,
  nest?: Nest,
  progress?: Progress,
  beside: readonly Beside[] = [],
): Result<Plan> {
  const framed = frameOf(job, shop)
  if (!framed.ok) return framed
  const larger = largerFrame(job, shop, framed.value)
  if (!larger.ok) return larger
  const frame = larger.value?.frame ?? framed.value
  const { parts: pinned, warnings: seamWarnings } = pinSeams(partsOf(frame.members, shop), frame, job.seam)
  const parts = wantedTogether(pinned, job)
  const order = { parts, job: job.id, quantity: job.quantity, rack: progress?.rack ?? [] }
  // A nest is judged, and cut, in the way that it was made for.
  const { problems: demand, notes } = demandByWay(
    order,
    shop,
    waysIn(nest?.sections ?? [], job.way ?? 'square first'),
  )
  const tooLong = demand.flatMap((problem): Problem[] => {
    const most = longestPiece(problem)
    return problem.parts
      .filter((part) => part.mid > most + sameLength)
      .map((part) => ({
        code: 'longer-than-any-stick',
        text:
          `Part ${part.mark} needs ${say(part.mid, shop.reading)} of stick; the longest that can be cut is ` +
          `${say(most, shop.reading)}, after the clean-up cut and what the vise must hold. ` +
          'Give a longer stock length in the Shop, or a smaller size.',
        field: 'build.params',
      }))
  })
  if (tooLong.length > 0) return badAll(tooLong)
  const plates = platesOf(frame, shop)
  const touching = touchingOf(frame)
  const landings = landingsOf(frame, touching).map(
    (at): Landing => ({
      ...at,
      printed: { near: showLength(at.near, shop.reading), far: showLength(at.far, shop.reading) },
    }),
  )
  const mass =
    parts.reduce((sum, part) => sum + part.mass * part.count, 0) +
    plates.reduce((sum, plate) => sum + plate.mass, 0)
  const warnings: Warning[] = [
    ...frame.warnings,
    ...landingWarnings(frame, (mm) => say(mm, shop.reading), touching),
    ...sawWarnings(parts, shop),
    ...seamWarnings,
    ...notes,
  ]
  const leveler = levelerRange(job, shop)
  const made: Unwelded = {
    job: job.id,
    name: job.name,
    quantity: job.quantity,
    frame,
    ...(larger.value ? { finished: framed.value } : {}),
    parts,
    plates,
    landings,
    sizes: builtSizes(frame, parts, shop, larger.value?.drawn),
    mass,
    demand,
    ...(leveler ? { leveler } : {}),
    warnings,
  }
  const whole = nest ? withNest(made, partsTogether(nest, [made, ...beside]), shop, nest, progress) : made
  return good(withWeld(whole, () => weldPlan(frame, shop, touching)))
}

type Unwelded = Omit<Plan, 'weld'>

/** A plan whose weld order is found when it is first read, and kept: nobody waits for it while a size is typed. */
function withWeld(plan: Unwelded, find: () => Plan['weld']): Plan {
  let weld: Plan['weld'] | undefined
  return {
    ...plan,
    get weld() {
      weld ??= find()
      return weld
    },
  }
}

/**
 * The frame of a job planned larger by what its welds will draw in, by how much each size is; undefined where nothing is
 * planned for them. Plates stay as they are asked for, since they go on or into what is welded already; so do the sizes.
 */
function largerFrame(job: Job, shop: Shop, asked: Frame) {
  const more = enlarged(asked, job.shrinkage ?? {})
  if (Object.keys(more).length === 0) return good(undefined)
  const made = enlargedFrame(job, shop, more)
  if (!made.ok) return made
  const plates = made.value.plates.map((plate) => {
    const own = asked.plates.find(({ id }) => id === plate.id)
    return own ? { ...own, pose: plate.pose } : plate
  })
  return good({
    frame: { ...made.value, plates, measures: asked.measures },
    drawn: asked.measures.map(({ mm }, at) => made.value.measures[at]!.mm - mm),
  })
}

/** Adds the run of an open nest, and what the judges say of both. A saw that cannot do it is a warning, not a run. */
function withNest(
  plan: Unwelded,
  parts: readonly Part[],
  shop: Shop,
  nest: Nest,
  progress: Progress | undefined,
): Unwelded {
  const open = openDemand(plan.demand, progress?.made ?? [], plan.job, nest.id)
  const nestVerdict = checkNest(nest, open)
  if (nestVerdict.faults.length > 0)
    return { ...plan, nest, verdict: { nest: nestVerdict, run: { faults: [] } } }
  const run = planRun(nest, parts, shop)
  if (!run.ok)
    return {
      ...plan,
      nest,
      hindered: run.problems,
      verdict: { nest: nestVerdict, run: { faults: [] } },
      warnings: [
        ...plan.warnings,
        ...run.problems
          .filter(({ text }) => !plan.warnings.some((warning) => warning.text === text))
          .map(({ code, text }) => ({ code, text })),
      ],
    }
  const runVerdict = checkRun(run.value, nest, parts, shop)
  const said = new Set(plan.warnings.map(({ text }) => text))
  const left = (run.value.left ?? []).flatMap(({ mark, code, why, ways }): Warning[] => {
    const text = withWays(why, ways)
    if (said.has(text)) return []
    said.add(text)
    return [{ code, text, members: parts.find((part) => part.mark === mark)?.members ?? [] }]
  })
  return {
    ...plan,
    nest,
    warnings: [...plan.warnings, ...left],
    ...(nest.jobs.length > 1 ? { cutParts: parts } : {}),
    ...(runVerdict.faults.length === 0 ? { run: run.value } : {}),
    verdict: { nest: nestVerdict, run: runVerdict },
  }
}
