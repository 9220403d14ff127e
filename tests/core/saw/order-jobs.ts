// Random small jobs whose order of work is held against every other order.
import { expect } from 'vitest'
import type { Run } from '../../../src/core/plan-shapes.ts'
import { planRun } from '../../../src/core/saw/run.ts'
import type { Saw } from '../../../src/core/shop.ts'
import type { Dice } from '../../prove/seed.ts'
import { leastMinutes, standingsOf } from './brute-order.ts'
import { nestByWay } from './by-way.ts'
import { nest, nestSection, part, saw, shop } from './sample.ts'

/** Orders of more cuts than this take too long to look at all. */
const mostCuts = 12
const mostStandings = 7

export interface OrderJob {
  readonly run: Run
  readonly saws: readonly Saw[]
  readonly say: string
}

/** Up to three sticks of square pieces, blanks to miter and pairs to split; undefined where it is too large. */
export function randomOrderJob(roll: Dice): OrderJob | undefined {
  const per = {
    head: roll.between(0, 4),
    stop: roll.between(0, 4),
    load: roll.between(0, 4),
    turn: 0,
    cut: 0,
  }
  const set = shop(
    { blankAllowance: roll.pick([0, 0, 4]) },
    { minutes: per, leastToHold: 0, limits: { ...saw.limits, towardStop: 60, awayFromStop: 60 } },
  )
  const miter = roll.pick([30, 45])
  const parts = ['A', 'B', 'C'].slice(0, roll.whole(1, 3)).map((mark) => {
    const first = roll.pick([0, miter, miter, 15])
    const second = roll.pick([0, first, miter])
    return part({ mark, length: roll.pick([300, 400, 700]), ends: [first, second] })
  })
  const paired = roll() < 0.4
  const marks = Array.from({ length: roll.whole(1, 3) }, () =>
    Array.from({ length: roll.whole(1, 3) }, () => roll.pick(parts).mark),
  )
  const used = parts.filter(({ mark }) => marks.some((of) => of.includes(mark)))
  const counted = used.map((one) => ({
    ...one,
    count: marks.flat().filter((mark) => mark === one.mark).length,
  }))
  const asked = paired ? nestByWay(counted, { ...set, usualLengths: [1700] }, 'paired', 1, 20_000) : undefined
  if (typeof asked === 'string') return undefined
  const on = asked?.nest ?? nest([nestSection(used, { sticks: marks, allowance: set.blankAllowance })])
  const run = planRun(on, counted, set)
  if (!run.ok) throw new Error(run.problems[0]!.text)
  if (cutsIn(run.value) > mostCuts || standingsOf(run.value) > mostStandings) return undefined
  return {
    run: run.value,
    saws: set.saws,
    say: JSON.stringify({
      per,
      marks,
      paired,
      parts: counted.map(({ mark, longPoint, angleFromSquare }) => [mark, longPoint, angleFromSquare]),
    }),
  }
}

const cutsIn = ({ programs }: Run): number =>
  programs.flatMap(({ steps }) => steps.filter((step) => 'cut' in step)).length

/** Holds so many jobs against every order of their cuts. */
export function againstBrute(jobs: number, next: () => OrderJob | undefined, which = '') {
  const told = { jobs: 0, cuts: 0, standings: 0, heads: 0, stops: 0, loads: 0 }
  for (let tries = 0; told.jobs < jobs && tries < 40 * jobs; tries++) {
    const job = next()
    if (!job) continue
    const { work } = job.run
    expect(work.minutes, `${which} ${job.say}`).toBeCloseTo(leastMinutes(job.run, job.saws), 6)
    told.jobs += 1
    told.cuts += cutsIn(job.run)
    told.standings += standingsOf(job.run)
    told.heads += work.heads
    told.stops += work.stops
    told.loads += work.loads
  }
  return { ...told, text: JSON.stringify(told) }
}
