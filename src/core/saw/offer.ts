import type { Progress } from '../facts.ts'
import type { Warning } from '../frame/frame.ts'
import type { Job } from '../job.ts'
import type { CuttingWay, NestProblem, NestSection } from '../nest.ts'
import { openDemand } from '../parts/demand.ts'
import type { Plan, Run } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { demandByWay } from './demand-by-way.ts'

// Ways of cutting side by side: what each asks of the nest, what it comes to, and which one to work by.

/** What one way asks of the nest, and what it cannot do for some pieces. */
export interface WayDemand {
  readonly way: CuttingWay
  readonly demand: readonly NestProblem[]
  readonly notes: readonly Warning[]
}

/** What one way comes to: steel in cents, or mm bought where nothing has a price; work by the saws' own minutes. */
export interface WayOffer {
  readonly way: CuttingWay
  readonly sticks: number
  readonly cost: number
  readonly priced: boolean
  /** Length of the drops that are worth keeping, all together, mm. */
  readonly drop: Mm
  readonly work: Run['work']
  /** Pieces left to the hand. */
  readonly left: number
}

const others: readonly CuttingWay[] = ['from the stick', 'paired']

/**
 * The ways in which what is still open of a job can be cut: square first, and each other one that asks for anything else.
 * Each wants a nest of its own; `plan` with that nest gives its run.
 */
export function waysFor(
  { parts, job, quantity }: Pick<Plan, 'parts' | 'job' | 'quantity'>,
  shop: Shop,
  progress?: Pick<Progress, 'rack' | 'made'>,
): readonly WayDemand[] {
  const of = (way: CuttingWay): WayDemand => {
    const { problems, notes } = demandByWay(
      { parts, job, quantity, rack: progress?.rack ?? [] },
      shop,
      () => way,
    )
    return { way, demand: openDemand(problems, progress?.made ?? [], job, undefined), notes }
  }
  const usual = of('square first')
  const asks = ({ demand }: WayDemand) => JSON.stringify(demand.map((problem) => problem.parts))
  return [usual, ...others.map(of).filter((other) => asks(other) !== asks(usual))]
}

const isPriced = ({ stock }: NestSection): boolean =>
  stock.some(({ price, rack }) => price !== undefined && rack === undefined)

/** What the plan's nest and run come to; undefined without a run, or where a judge found a fault. */
export function offerOf({ nest, run, verdict }: Plan, way: CuttingWay, shop: Shop): WayOffer | undefined {
  if (!nest || !run || (verdict && verdict.nest.faults.length + verdict.run.faults.length > 0))
    return undefined
  const sticks = nest.sections.flatMap((section) => section.sticks)
  const drops = sticks.map(({ drop }) => drop).filter((drop) => drop >= shop.leastDrop - sameLength)
  return {
    way,
    sticks: sticks.filter(({ from }) => from === 'buy').length,
    cost: nest.sections.reduce((sum, { cost }) => sum + cost, 0),
    priced: nest.sections.some(isPriced),
    drop: drops.reduce((sum, drop) => sum + drop, 0),
    work: run.work,
    left: run.left?.length ?? 0,
  }
}

/**
 * The way to work by: what the person chose; else square first, unless another one buys fewer sticks, or saves the sum
 * that the shop sets. Of several such the one that costs least, then the quickest. One that leaves more to the hand never.
 */
export function chosenWay({ way }: Pick<Job, 'way'>, shop: Shop, offers: readonly WayOffer[]): CuttingWay {
  if (way) return way
  const usual = offers.find((offer) => offer.way === 'square first')
  if (!usual) return 'square first'
  const saves = shop.otherWaySaves ?? Number.POSITIVE_INFINITY
  const better = offers.filter(
    ({ sticks, cost, left }) =>
      left <= usual.left &&
      cost <= usual.cost + sameLength &&
      (sticks < usual.sticks || usual.cost - cost >= Math.max(saves, sameLength)),
  )
  const [best] = better.toSorted((one, two) => one.cost - two.cost || one.work.minutes - two.work.minutes)
  return best?.way ?? 'square first'
}
