import type { Job } from '../core/job.ts'
import type { CuttingWay, NestSection } from '../core/nest.ts'
import { sealNest } from '../core/nest-seal.ts'
import type { Plan } from '../core/plan-shapes.ts'
import type { WayDemand, WayOffer } from '../core/saw/offer.ts'
import { budget } from './compare.ts'
import { type Desk, searchWords } from './desk.ts'
import { shopNow } from './shop-now.ts'
import type { AppState } from './state.ts'
import { progressFor } from './view.ts'

// The ways of cutting a job side by side, looked for when the person asks. Nothing here changes the way of a job.

/** One way, what it comes to, and what it cannot do for some pieces. */
export interface WayRow {
  readonly way: CuttingWay
  readonly notes: readonly string[]
  readonly comes: WayOffer | { readonly not: string }
}

export interface ComparedWays {
  /** What it was worked out for, as text. */
  readonly asked: string
  readonly working: boolean
  readonly rows: readonly WayRow[]
}

/** All that the figures of the ways hang by, as a text to compare; not the way itself, so that a choice keeps them. */
export const waysAsked = (
  { build, quantity, seam, oneStick }: Job,
  { shop, progress }: Pick<AppState, 'shop' | 'progress'>,
): string =>
  JSON.stringify([build, quantity, seam, oneStick, shop, progress.rack, progress.blades, progress.accepted])

/** The way that the job is laid out in as it stands. */
export const wayNow = ({ way }: Pick<Job, 'way'>): CuttingWay => way ?? 'square first'

/** Plans a job in each way, its nests from the worker. Ends early when a job's own nest is looked for, and then says nothing. */
export async function compareWays(desk: Desk, id: string): Promise<void> {
  const state = desk.store.getState()
  const view = state.views[id]
  if (!view?.plan || view.stale) return
  const { plan } = view
  desk.comparing?.()
  const question = waysAsked(view.job, state)
  const progress = progressFor(desk, state.progress, id)
  const shop = shopNow(state.shop, progress)
  let over = false
  let running: { readonly stop: () => void } | undefined
  const drop = () => {
    over = true
    running?.stop()
  }
  desk.comparing = drop
  const rows: WayRow[] = []
  const tell = (working: boolean) => {
    const { ways } = desk.store.getState()
    desk.store.setState({ ways: { ...ways, [id]: { asked: question, working, rows: [...rows] } } })
  }
  const nestOf = async (demand: WayDemand['demand']) => {
    const sections: NestSection[] = []
    for (const problem of demand) {
      if (over) throw new Error('The worker was wanted for something else.')
      const solving = desk.ports.solver.solve(problem, () => undefined, budget)
      running = solving
      sections.push(await solving.done)
    }
    return sealNest({ sections, jobs: [id], solver: desk.ports.solver.name }, desk.ports.hash)
  }
  /** What is on the screen is not looked for again. */
  const planIn = async ({ way, demand }: WayDemand): Promise<Plan> => {
    if (way === wayNow(view.job) && plan.run) return plan
    const made = desk.planner.plan(view.job, shop, await nestOf(demand), progress)
    if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join(' '))
    return made.value
  }
  const comesTo = async (asks: WayDemand): Promise<WayRow['comes']> => {
    try {
      const made = await planIn(asks)
      return desk.planner.offerOf(made, asks.way, shop) ?? { not: whyNot(made) }
    } catch (error) {
      return { not: searchWords(error, shop.reading) }
    }
  }
  tell(true)
  for (const asks of desk.planner.waysFor(plan, shop, progress)) {
    const comes = await comesTo(asks)
    if (over) break
    rows.push({ way: asks.way, notes: asks.notes.map(({ text }) => text), comes })
    tell(true)
  }
  if (over) {
    const { [id]: _half, ...others } = desk.store.getState().ways ?? {}
    desk.store.setState({ ways: others })
  } else tell(false)
  if (desk.comparing === drop) desk.comparing = null
}

const whyNot = ({ hindered = [], verdict }: Plan): string =>
  [
    ...hindered.map(({ text }) => text),
    ...(verdict ? [...verdict.nest.faults, ...verdict.run.faults] : []),
  ].join(' ')
