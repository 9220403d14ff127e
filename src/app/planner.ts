import { buildOf, builds } from '../core/builds/index.ts'
import { newJob } from '../core/builds/start.ts'
import type { Made, Progress, Spoiled } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { type Beside, plan } from '../core/plan.ts'
import type { Part, Plan, Run } from '../core/plan-shapes.ts'
import { bad, good, type Result } from '../core/result.ts'
import { benchWork, cutFact, sparesOf } from '../core/saw/bench.ts'
import { offerOf, waysFor } from '../core/saw/offer.ts'
import type { Shop } from '../core/shop.ts'

/** What the app asks of core, in a piece of its own that is loaded beside the disk; tests may give one that fails. */
export interface Planner {
  /** A new job of a build with its starting values, named as the build is; refused for a kind that there is not. */
  newJob(kind: string, units: 'in' | 'mm', id: string): Result<Job>
  plan(job: Job, shop: Shop, nest?: Nest, progress?: Progress, beside?: readonly Beside[]): Result<Plan>
  /** Every cut of the saws in the order of work, and the pieces that are left to the hand. */
  benchWork(
    run: Run,
    nest: Nest,
    made: readonly Made[],
    job?: string,
    spoiled?: readonly Spoiled[],
  ): ReturnType<typeof benchWork>
  readonly cutFact: typeof cutFact
  sparesOf(
    cuts: Parameters<typeof sparesOf>[0],
    made: readonly Made[],
    job: { readonly id: string; readonly parts: readonly Part[]; readonly quantity: number },
    held?: (made: Made) => boolean,
  ): readonly Made[]
  /** The ways in which a job can be cut, and what a plan in one of them comes to. */
  readonly waysFor: typeof waysFor
  readonly offerOf: typeof offerOf
}

function jobOfKind(kind: string, units: 'in' | 'mm', id: string): Result<Job> {
  const build = buildOf(kind)
  if (build) return good(newJob(build, units, id))
  return bad('unknown-build', `“${kind}” is no build; there are ${builds.map((one) => one.kind).join(', ')}.`)
}

export const planner: Planner = {
  newJob: jobOfKind,
  plan,
  benchWork,
  cutFact,
  sparesOf,
  waysFor,
  offerOf,
}
