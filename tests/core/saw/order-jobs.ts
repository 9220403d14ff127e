// Random small jobs whose order of work is held against every other order, and against the naive one.
import { expect } from 'vitest'
import type { CuttingWay, Nest } from '../../../src/core/nest.ts'
import type { Part, Run } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Saw, Shop } from '../../../src/core/shop.ts'
import type { Dice } from '../../prove/seed.ts'
import { actsIn, leastMinutes, naiveMinutes, standingsOf, wholeGangs } from './brute-order.ts'
import { nestByWay } from './by-way.ts'
import { nest, nestSection, part, saw, shop } from './sample.ts'

/** Orders of more cuts than this take too long to look at all. */
const mostCuts = 12
const mostStandings = 7

export const ways: readonly CuttingWay[] = ['square first', 'from the stick', 'paired']

export interface OrderJob {
  readonly nest: Nest
  readonly parts: readonly Part[]
  readonly shop: Shop
  readonly way: CuttingWay
  readonly say: string
}

/** Up to `sticks` sticks with up to `each` pieces of up to `marks` parts; undefined where the stock runs out. */
export function randomOrderJob(
  roll: Dice,
  way: CuttingWay,
  { sticks = 3, each = 3, marks: many = 3 } = {},
): OrderJob | undefined {
  const per = {
    head: roll.between(0, 4),
    stop: roll.between(0, 4),
    load: roll.between(0, 4),
    turn: 0,
    cut: 0,
  }
  const set = shop(
    { blankAllowance: roll.pick([0, 0, 4]), longSide: roll.pick(['fence', 'fence', 'outward'] as const) },
    { minutes: per, leastToHold: 0, limits: { ...saw.limits, towardStop: 60, awayFromStop: 60 } },
  )
  const miter = roll.pick([30, 45])
  const parts = ['A', 'B', 'C', 'D', 'E'].slice(0, roll.whole(1, many)).map((mark) => {
    const first = roll.pick([0, miter, miter, 15])
    const second = roll.pick([0, first, -first, miter])
    return part({ mark, length: roll.pick([300, 400, 700]), ends: [first, second] })
  })
  const marks = Array.from({ length: roll.whole(1, sticks) }, () =>
    Array.from({ length: roll.whole(1, each) }, () => roll.pick(parts).mark),
  )
  const used = parts.filter(({ mark }) => marks.some((of) => of.includes(mark)))
  const counted = used.map((one) => ({
    ...one,
    count: marks.flat().filter((mark) => mark === one.mark).length,
  }))
  const asked =
    way === 'square first'
      ? undefined
      : nestByWay(counted, { ...set, usualLengths: [500 * each + 200] }, way, 1, 20_000)
  if (typeof asked === 'string') return undefined
  const on = asked?.nest ?? nest([nestSection(used, { sticks: marks, allowance: set.blankAllowance })])
  const listed = counted.map(({ mark, longPoint, angleFromSquare }) => [mark, longPoint, angleFromSquare])
  return { nest: on, parts: counted, shop: set, way, say: JSON.stringify({ way, per, marks, listed }) }
}

/** The job on a saw that takes so many side by side, where a cut takes so long; both 1 and 0 if not said. */
export function runOf({ nest: on, parts, shop: set, say }: OrderJob, gang = 1, cut = 0) {
  const saws = set.saws.map((one): Saw => ({ ...one, gang, minutes: { ...one.minutes, cut } }))
  const run = planRun(on, parts, { ...set, saws })
  if (!run.ok) throw new Error(`${run.problems[0]!.text} ${say}`)
  return { run: run.value, saws }
}

const small = (run: Run): boolean => actsIn(run) <= mostCuts && standingsOf(run) <= mostStandings

/** Holds so many jobs against every order of their cuts. */
export function againstBrute(jobs: number, next: () => OrderJob | undefined, which = '') {
  const told = { jobs: 0, cuts: 0, standings: 0, heads: 0, stops: 0, loads: 0 }
  for (let tries = 0; told.jobs < jobs && tries < 40 * jobs; tries++) {
    const job = next()
    if (!job) continue
    const { run, saws } = runOf(job)
    if (!small(run)) continue
    const least = leastMinutes(run, saws, job.way === 'from the stick')
    expect(run.work.minutes, `${which} ${job.say}`).toBeCloseTo(least, 6)
    told.jobs += 1
    told.cuts += actsIn(run)
    told.standings += standingsOf(run)
    told.heads += run.work.heads
    told.stops += run.work.stops
    told.loads += run.work.loads
  }
  return { ...told, text: JSON.stringify(told) }
}

/**
 * Holds so many jobs on a saw that takes two or three side by side against the best order one by one; where sticks lie
 * together in all their cuts, against every order of these strokes too.
 */
export function gangsAgainstBrute(jobs: number, roll: Dice, which = '') {
  const told = { jobs: 0, gangs: 0, whole: 0, saved: 0 }
  for (let tries = 0; told.jobs < jobs && tries < 40 * jobs; tries++) {
    const job = randomOrderJob(roll, 'square first', { marks: 2 })!
    const cut = roll.between(0, 2)
    const one = runOf(job, 1, cut)
    if (!small(one.run)) continue
    const { run, saws } = runOf(job, roll.pick([2, 3]), cut)
    const say = `${which} ${cut} ${job.say}`
    const singly = leastMinutes(one.run, one.saws, false) + one.run.work.cuts * cut
    expect(run.work.minutes, say).toBeLessThanOrEqual(singly + 1e-6)
    told.jobs += 1
    if (!run.programs.some(({ beside }) => beside !== undefined)) continue
    told.gangs += 1
    if (singly - run.work.minutes > 1e-6) told.saved += 1
    if (!wholeGangs(run)) continue
    told.whole += 1
    expect(run.work.minutes, say).toBeCloseTo(leastMinutes(run, saws, false) + run.work.cuts * cut, 6)
  }
  return { ...told, text: JSON.stringify(told) }
}

/** Holds so many larger jobs, too, against the naive order. */
export function againstNaive(jobs: number, next: () => OrderJob | undefined, which = '') {
  const told = { jobs: 0, acts: 0, quicker: 0 }
  for (let tries = 0; told.jobs < jobs && tries < 40 * jobs; tries++) {
    const job = next()
    if (!job) continue
    const { run, saws } = runOf(job)
    const marks = job.parts.map(({ mark }) => mark)
    const naive = naiveMinutes(run, saws, marks, job.way === 'from the stick')
    expect(run.work.minutes, `${which} ${job.say}`).toBeLessThanOrEqual(naive + 1e-6)
    told.jobs += 1
    told.acts += actsIn(run)
    if (run.work.minutes < naive - 1e-6) told.quicker += 1
  }
  return { ...told, text: JSON.stringify(told) }
}
