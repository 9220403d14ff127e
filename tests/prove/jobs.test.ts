import { describe, expect, test } from 'vitest'
import { builds } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import type { Job, Params } from '../../src/core/job.ts'
import type { Nest } from '../../src/core/nest.ts'
import { plan } from '../../src/core/plan.ts'
import type { Saw, Shop } from '../../src/core/shop.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { solve } from '../../src/nest/solve.ts'
import { type Dice, dice } from './seed.ts'

// Random jobs in random shops, from parameters to a run at the saw. A job that is refused says why; every other one
// is nested and sawn without a fault that a judge finds.

const jobs = 200

function randomShop(roll: Dice): Shop {
  const units = roll.pick(['in', 'mm'] as const)
  const start = startShop(units)
  const saw = start.saws[0]!
  const limit = roll.pick([45, 50, 60])
  const some: Saw = {
    ...saw,
    blades: [{ ...saw.blades[0]!, kerf: roll.pick([1.2, 2.5, 3.175]) }],
    stopSide: roll.pick(['left', 'right'] as const),
    readsAtSquare: roll.pick([0, 90] as const),
    viseHolds: roll.pick(['stick', 'stop', 'both'] as const),
    cleanUp: roll.pick([0, 10]),
    leastToHold: roll.pick([0, 40, 60]),
    limits: { ...saw.limits, towardStop: limit, awayFromStop: roll.pick([limit, 45]) },
  }
  return {
    ...start,
    reading:
      units === 'in'
        ? { kind: 'inch-fraction', denominator: roll.pick([8, 16, 32, 64] as const) }
        : { kind: 'mm', step: roll.pick([1, 0.5, 0.1] as const) },
    saws: [some],
    usualLengths: roll.pick([[6000], [6000, 7500], [6096, 7315.2]]),
    blankAllowance: roll.pick([0, 0, 1.5875]),
    longSide: roll.pick(['fence', 'outward'] as const),
    rootGap: roll.pick([0, 0, 1.5]),
  }
}

/** Builds that bring their random parameters with them, for the proof on solids too. */
const ownParams = import.meta.glob<{ readonly randomParams: (roll: Dice) => Params }>(
  ['../solids/params/{four-leg,rect-frame,uneven-frame,from-points,rack,trestle,loose-top}.ts'],
  { eager: true },
)

function randomParams(kind: string, roll: Dice): Params {
  const own = ownParams[`../solids/params/${kind}.ts`]
  if (own) return own.randomParams(roll)
  const width = roll.pick([25, 30, 40, 50])
  const square = { kind: 'square-tube', width, wall: 2 } as const
  const rect = { kind: 'rect-tube', width: 60, height: 40, wall: 3 } as const
  const section = roll.pick([square, rect])
  if (kind === 'cut-list') {
    const angle = () => roll.pick([0, 0, 15, 22.5, 30, 36, 45])
    const sign = () => roll.pick([1, -1])
    return {
      section,
      rows: Array.from({ length: roll.whole(1, 4) }, () => ({
        count: roll.whole(1, 9),
        length: roll.whole(180, 1500),
        a: angle(),
        b: angle() * sign(),
        stands: roll.pick(['flat', 'on edge']),
      })),
    }
  }
  const ring: Params = {
    sides: roll.whole(3, 16),
    sizeKind: roll.pick(['across flats', 'across corners', 'side', 'clear inside']),
    size: roll.between(250, 1400),
    section,
    stands: roll.pick(['flat', 'on edge']),
    top: roll.pick(['none', 'plate', 'top sheet']),
    topThickness: 5,
    topEdge: roll.pick(['flush', 'overhang', 'inset']),
    topEdgeBy: 12,
  }
  if (kind === 'polygon-frame') return ring
  return {
    ...ring,
    height: roll.between(400, 1100),
    bars: roll.pick(['one', 'two, crossing']),
    arms: roll.pick(['2', '4']),
    armsMeet: roll.pick(['on the post', 'crossing']),
    spread: roll.between(400, 900),
    footGives: roll.pick(['foot height', 'clear under arm']),
    footHeight: roll.between(70, 150),
    clearUnder: roll.between(40, 120),
    caps: roll.pick([true, false]),
    levelers: roll.pick([true, false]),
  }
}

function nestOf(job: Job, shop: Shop): Nest | string {
  const first = plan(job, shop)
  if (!first.ok) return first.problems.map(({ text }) => text).join(' ')
  const sections = first.value.demand.map((problem) => {
    const solved = solve(problem, { steps: 200_000 })
    if (!solved.ok) throw new Error(solved.problems.map(({ text }) => text).join(' '))
    return solved.value.nest
  })
  let number = 0
  const renamed = sections.map((section) => ({
    ...section,
    sticks: section.sticks.map((stick) => ({ ...stick, id: `S${++number}` })),
  }))
  return { version: 1, id: 'n', solver: 'test', jobs: [job.id], sections: renamed }
}

describe('random jobs in random shops', () => {
  test.each(builds.map(({ kind }) => kind))('%s', (kind) => {
    const roll = dice(`jobs ${kind}`)
    const count = { planned: 0, refused: 0, beyond: 0 }
    for (let at = 0; at < jobs; at++) {
      const shop = randomShop(roll)
      const build = builds.find((each) => each.kind === kind)!
      const start = newJob(build, 'mm', 'j')
      const job: Job = {
        ...start,
        quantity: roll.whole(1, 3),
        build: { kind, params: { ...start.build.params, ...randomParams(kind, roll) } },
      }
      const nest = nestOf(job, shop)
      if (typeof nest === 'string') {
        count.refused += 1
        expect(nest.length).toBeGreaterThan(20)
        continue
      }
      const made = plan(job, shop, nest)
      const said = () => JSON.stringify({ at, job, shop }, null, 1)
      if (!made.ok) throw new Error(`planned without the nest, not with it: ${said()}`)
      const { verdict, run, warnings } = made.value
      const faults = [...(verdict?.nest.faults ?? ['no verdict']), ...(verdict?.run.faults ?? [])]
      if (faults.length > 0) throw new Error(`${faults.slice(0, 5).join('\n')}\n${said()}`)
      if (run) count.planned += 1
      else {
        expect(warnings.length, said()).toBeGreaterThan(0)
        count.beyond += 1
      }
    }
    console.log(
      `${kind}: ${count.planned} planned and judged, ${count.beyond} beyond the saw, ${count.refused} refused`,
    )
    expect(count.planned).toBeGreaterThan(jobs / 10)
  })
})
