// One random job of a build, from its parameters to the steel: frame, saw and what comes off it, on exact solids.
import { buildOf } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { valuesOf } from '../../src/core/builds/values.ts'
import type { Job, Params } from '../../src/core/job.ts'
import { type Nest, type NestSection, piecesIn } from '../../src/core/nest.ts'
import { plan } from '../../src/core/plan.ts'
import type { Plan } from '../../src/core/plan-shapes.ts'
import { readingStep, say } from '../../src/core/reading/show.ts'
import type { Reading, Saw, Shop } from '../../src/core/shop.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { solve } from '../../src/nest/solve.ts'
import type { Dice } from '../prove/seed.ts'
import { askedFaults } from './asked.ts'
import {
  bodiesOf,
  edgeFaults,
  footFaults,
  massFaults,
  outlineFaults,
  overlapFaults,
  sizeFaults,
} from './frame-checks.ts'
import { scope } from './kernel.ts'
import { builtFaults, leftOf, pieceFaults, recordFaults } from './run-checks.ts'
import { saw } from './saw.ts'

const paramsFiles = import.meta.glob<{ readonly randomParams?: (roll: Dice) => Params }>('./params/*.ts', {
  eager: true,
})

/** The random parameters of a kind of build; every build brings its own file. */
export function paramsOf(kind: string): (roll: Dice) => Params {
  const found = paramsFiles[`./params/${kind}.ts`]?.randomParams
  if (!found) throw new Error(`tests/solids/params/${kind}.ts must export randomParams(roll)`)
  return found
}

/** A shop whose saw stands anywhere, swings far, and makes compound cuts in some way. */
export function anyShop(roll: Dice): Shop {
  const start = startShop('mm')
  const first = start.saws[0]!
  const some: Saw = {
    ...first,
    blades: [{ ...first.blades[0]!, kerf: roll.pick([1.2, 2.5, 3.175]) }],
    stopSide: roll.pick(['left', 'right'] as const),
    readsAtSquare: roll.pick([0, 90] as const),
    swings: roll.pick(['head', 'vise'] as const),
    viseHolds: roll.pick(['stick', 'stop', 'both'] as const),
    cleanUp: roll.pick([0, 10]),
    leastToHold: 0,
    cradle: roll() < 0.7,
    ramp: true,
    limits: { towardStop: 75, awayFromStop: 75, bevel: roll.pick([0, 0, 60]), longestStop: 12_000 },
  }
  const readings: readonly Reading[] = [
    { kind: 'mm', step: 1 },
    { kind: 'mm', step: 0.1 },
    { kind: 'inch-fraction', denominator: 16 },
    { kind: 'inch-decimal', places: 3 },
  ]
  return {
    ...start,
    reading: roll.pick(readings),
    saws: [some],
    usualLengths: [6000, 12_000],
    blankAllowance: roll.pick([0, 1.5875]),
    longSide: roll.pick(['fence', 'outward'] as const),
    rootGap: roll.pick([0, 0, 1.6]),
  }
}

export interface Told {
  readonly job: Job
  readonly shop: Shop
  /** Why the job cannot be; the rest is then empty. */
  readonly refused?: string
  readonly faults: readonly string[]
  /** Pieces that came off the saw and were compared with the frame. */
  readonly pieces: number
  readonly compound: number
  /** Pieces that the shop's saw cannot make, and why. */
  readonly left: readonly string[]
}

/** Rolls one job and shop of this kind and proves it. */
export function proveOne(kind: string, roll: Dice): Told {
  const build = buildOf(kind)
  if (!build) throw new Error(`no build ${kind}`)
  const start = newJob(build, 'mm', 'j')
  const params = paramsOf(kind)(roll)
  const job: Job = { ...start, build: { kind, params: { ...start.build.params, ...params } } }
  const shop = anyShop(roll)
  const way = roll.pick(['square first', 'from the stick', 'paired'] as const)
  const seam = roll.pick([undefined, undefined, 'top', 'bottom', 'inside', 'outside'] as const)
  return prove({ ...job, way, ...(seam ? { seam } : {}) }, shop)
}

export function prove(job: Job, shop: Shop): Told {
  const none = { job, shop, faults: [], pieces: 0, compound: 0, left: [] }
  const drawn = plan(job, shop)
  if (!drawn.ok) return { ...none, refused: drawn.problems.map(({ text }) => text).join(' ') }
  const nest = nestOf(drawn.value)
  if (typeof nest === 'string') return { ...none, refused: nest }
  const made = plan(job, shop, nest)
  if (!made.ok) return { ...none, faults: ['planned without the nest, not with it'] }
  const { verdict } = made.value
  const judged = [...(verdict?.nest.faults ?? ['no verdict']), ...(verdict?.run.faults ?? [])]
  const told = scope(() => onSolids(made.value, job, shop, nest))
  return { ...none, ...told, faults: [...judged.map((fault) => `the judge: ${fault}`), ...told.faults] }
}

function onSolids(
  made: Plan,
  job: Job,
  shop: Shop,
  nest: Nest,
): Pick<Told, 'faults' | 'pieces' | 'compound' | 'left'> {
  const { frame, parts, plates, warnings, run } = made
  const bodies = bodiesOf(frame)
  const build = buildOf(job.build.kind)!
  const values = valuesOf(build, job.build.params, { units: 'mm', say: (mm) => say(mm, shop.reading) })
  if (!values.ok) throw new Error('the values of a planned job cannot be read')
  const faults = [
    // A list is laid out only to be seen.
    ...(job.build.kind === 'cut-list' ? [] : overlapFaults(bodies)),
    ...outlineFaults(frame, bodies, warnings),
    ...edgeFaults(frame, parts),
    ...sizeFaults(frame, bodies),
    ...footFaults(frame, bodies),
    ...massFaults(frame, parts, plates),
    ...askedFaults(job.build.kind, values.value, frame, bodies),
  ]
  if (!run) return { faults, pieces: 0, compound: 0, left: (made.hindered ?? []).map(({ text }) => text) }
  const step = readingStep(shop.reading)
  const exact = saw(run, nest, 'exact', step)
  const printed = saw(run, nest, 'stop')
  const left = leftOf(run)
  return {
    faults: [
      ...faults,
      ...exact.faults.map((fault) => `with exact stops, ${fault}`),
      ...printed.faults.map((fault) => `with printed stops, ${fault}`),
      ...recordFaults(exact.cuts),
      ...pieceFaults(
        frame,
        parts,
        nest,
        left.map(({ piece }) => piece),
        exact,
      ),
      ...builtFaults(made, nest, printed, step / 2, shop.blankAllowance === 0),
    ],
    pieces:
      nest.sections.flatMap(({ sticks }) => sticks.flatMap(({ pieces }) => pieces.flatMap(piecesIn))).length -
      left.length,
    compound: run.setUps.filter(({ tilt, roll, ramp }) => tilt !== 0 || roll !== 0 || ramp !== 0).length,
    left: left.map(({ why }) => why),
  }
}

function nestOf({ demand, job }: Plan): Nest | string {
  const sections = []
  for (const problem of demand) {
    const solved = solve(problem, { steps: 100_000 })
    if (!solved.ok) return solved.problems.map(({ text }) => text).join(' ')
    sections.push(solved.value.nest)
  }
  return numbered(job, sections)
}

/** One nest of its sections, sticks numbered through. */
export function numbered(job: string, sections: readonly NestSection[]): Nest {
  let number = 0
  const sticks = sections.map((section) => ({
    ...section,
    sticks: section.sticks.map((stick) => ({ ...stick, id: `S${++number}` })),
  }))
  return { version: 1, id: 'n', solver: 'test', jobs: [job], sections: sticks }
}
