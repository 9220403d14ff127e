import type { Bodies, Made, Progress } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { plan } from '../core/plan.ts'
import type { BenchCut, Part, Plan, Run } from '../core/plan-shapes.ts'
import type { Result } from '../core/result.ts'
import { benchCuts, cutFact, sparesOf } from '../core/saw/bench.ts'
import type { Shop } from '../core/shop.ts'

/** What the app asks of core; tests may give one that fails. */
export interface Planner {
  plan(job: Job, shop: Shop, nest?: Nest, progress?: Progress): Result<Plan>
  benchCuts(run: Run, nest: Nest, made: readonly Made[], job?: string): readonly BenchCut[]
  cutFact(cut: BenchCut): Bodies['cut']
  sparesOf(
    cuts: readonly BenchCut[],
    made: readonly Made[],
    job: { readonly id: string; readonly parts: readonly Part[]; readonly quantity: number },
  ): readonly Made[]
}

export const planner: Planner = { plan, benchCuts, cutFact, sparesOf }
