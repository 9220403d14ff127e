import type { Nest, NestSection, NestStick, StickEnd } from '../nest.ts'
import type { Program, Run, Step } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import { fromSteps, type Mm, stepsDown } from '../units.ts'
import { atRest, cutAt, kerfBehind, type Setting, trimAt } from './blade.ts'
import { slopeOfEnd } from './room.ts'
import { boxOf, edges, type Face, least, mirroredX, mirroredY, type Solid, turnedBy } from './solid.ts'
import { mm } from './words.ts'

/** Width and height that the steel of a section really has. */
export type Measured = (section: NestSection) => { readonly width: Mm; readonly height: Mm }

/** Which distance the stop is set to: the unrounded one, or the one that people read. */
export type Stops = 'exact' | 'stop'

/** What the rounding of the pieces of a stick takes from it, when they are cut unrounded: mm, by the stick's id. */
export type Rounded = (stick: string) => Mm

interface Stop {
  readonly stop: Mm
  readonly exact: Mm
}

/** Something that a program made: what it is and where it came from. */
export interface Made {
  readonly id: string
  /** What was on the saw when it came off: a stick or a product. */
  readonly from: string
  readonly stick: string
  readonly section: NestSection
  /** As it lies, seen with the stop at the operator's left. */
  readonly solid: Solid
}

/** One cut as it was replayed, in the program's own frame. */
export interface ReplayedCut {
  readonly program: Program
  readonly section: NestSection
  readonly stick: string
  readonly setUp: string
  readonly keep: string
  readonly setting: Setting
  readonly stop: Stop
  readonly kept: Solid
  readonly rest: Solid
  /** How far the blade ran out of the steel at the far end, mm: a corner is blunt by that much. */
  readonly missing: Mm
  /** What the rest became, where the cut made two products. */
  readonly second?: string
}

/** A clean-up cut, which no set-up record names, and what it left. */
export interface ReplayedTrim {
  readonly program: Program
  readonly stick: string
  readonly setting: Setting
  readonly left: Solid
}

export interface Replayed {
  readonly made: ReadonlyMap<string, Made>
  readonly loaded: ReadonlySet<string>
  readonly cuts: readonly ReplayedCut[]
  readonly trims: readonly ReplayedTrim[]
  readonly faults: readonly string[]
}

interface Bench {
  readonly sticks: ReadonlyMap<string, readonly [NestSection, NestStick]>
  readonly stops: Stops
  readonly measured: Measured
  readonly corner: Mm
  readonly rounded: Rounded
  readonly made: Map<string, Made>
  readonly loaded: Set<string>
  /** What cuts kept: blanks, halves and pieces, not the rest of a stick. */
  readonly kept: Set<string>
  readonly cuts: ReplayedCut[]
  readonly trims: ReplayedTrim[]
}

interface Work {
  readonly id: string
  readonly stick: string
  readonly section: NestSection
  readonly solid: Solid
}

interface State {
  readonly setting: Setting
  readonly stop: Stop | undefined
  /** What lies on the saw, in the program's frame. */
  readonly work: Work | undefined
}

/** What was wanted, or in words why it cannot be done. */
type Tried<T> = T | string

const failed = <T>(tried: Tried<T>): tried is string => typeof tried === 'string'

/**
 * Does what the programs say, in their order, to boxes with two end planes. What cannot be done is a fault; the rest
 * of that program is then left, and nothing that it would have made is there. `corner`: by how much the blade may run out of the
 * steel where the rest is scrap, mm; what that does to the piece is judged by `missing`. `rounded`: the nest counts printed
 * lengths, so with the exact stops a stick may lack that much.
 */
export function replay(
  run: Run,
  nest: Nest,
  stops: Stops,
  measured: Measured,
  rounded: Rounded,
  corner: Mm = 0,
): Replayed {
  const sticks = new Map<string, readonly [NestSection, NestStick]>()
  for (const section of nest.sections)
    for (const stick of section.sticks) sticks.set(stick.id, [section, stick])
  const bench: Bench = {
    sticks,
    stops,
    measured,
    corner,
    rounded,
    made: new Map(),
    loaded: new Set(),
    kept: new Set(),
    cuts: [],
    trims: [],
  }
  const faults = run.programs.flatMap((program) => {
    const fault = replayProgram(bench, program)
    return fault === undefined ? [] : [`program ${program.id}: ${fault}`]
  })
  return { ...bench, faults }
}

/** Why the program cannot be done to its end, or undefined. */
function replayProgram(bench: Bench, program: Program): string | undefined {
  const work = load(bench, program, program.load)
  if (failed(work)) return work
  let state: State = { setting: atRest, stop: undefined, work }
  for (const step of program.steps) {
    const next = done(bench, program, state, step)
    if (failed(next)) return next
    state = next
  }
  return state.work ? `ends with ${state.work.id} still on the saw` : undefined
}

function done(bench: Bench, program: Program, state: State, step: Step): Tried<State> {
  const { setting, work } = state
  const withWork = (next: Tried<Work | undefined>): Tried<State> =>
    failed(next) ? next : { ...state, work: next }
  if ('head' in step) return { ...state, setting: { ...setting, swing: step.head[0], tilt: step.head[1] } }
  if ('roll' in step) return { ...state, setting: { ...setting, roll: step.roll } }
  if ('ramp' in step) return { ...state, setting: { ...setting, ramp: step.ramp } }
  if ('stop' in step) return { ...state, stop: step }
  if ('take' in step)
    return work
      ? `take ${step.take}: ${work.id} still lies on the saw`
      : withWork(load(bench, program, step.take))
  if (!work) return `${Object.keys(step)[0]}: nothing lies on the saw`
  if ('turn' in step) return withWork({ ...work, solid: turnedBy(work.solid, step.turn) })
  if ('trim' in step) return withWork(trimmed(bench, program, state, work, step.trim))
  if ('cut' in step) return withWork(cut(bench, program, state, work, step))
  const fault = step.unload === 'scrap' ? undefined : make(bench, program, step.unload, work, work.solid)
  return fault ?? withWork(undefined)
}

/** Puts a stick or a product on the saw as it lies there; seen from a stop at the right, left and right change. */
function load({ sticks, made, loaded, measured }: Bench, { stopSide }: Program, id: string): Tried<Work> {
  if (loaded.has(id)) return `${id} is loaded a second time`
  loaded.add(id)
  const product = made.get(id)
  if (product) return { ...product, solid: stopSide === 'right' ? mirroredX(product.solid) : product.solid }
  const stick = sticks.get(id)
  if (!stick) return `${id} is loaded, but is no stick of the nest, and no product made before`
  const [section, { length, ends }] = stick
  const steel = { ...section.section, ...measured(section) }
  const box = boxOf(steel, faceOf(fromSteps(stepsDown(length)), ends[0]), faceOf(0, ends[1]))
  return { id, stick: id, section, solid: stopSide === 'right' ? mirroredY(box) : box }
}

const faceOf = (x: Mm, end: StickEnd): Face => ({ x, ...slopeOfEnd(end), mill: end === 'mill' })

/** Puts away what was cut off; why it cannot be, or undefined. */
function make(bench: Bench, { stopSide }: Program, id: string, from: Work, solid: Solid): string | undefined {
  if (bench.made.has(id) || bench.sticks.has(id)) return `${id} is made a second time`
  if (!(Math.max(...edges(solid)) > sameLength)) return `${id} would be made of no steel`
  const { stick, section } = from
  const asItLies = stopSide === 'right' ? mirroredX(solid) : solid
  bench.made.set(id, { id, from: from.id, stick, section, solid: asItLies })
  return undefined
}

/** Pushed to the stop and cut; gives what stays on the saw, if anything does. */
function cut(
  bench: Bench,
  program: Program,
  { setting, stop }: State,
  work: Work,
  step: Extract<Step, { cut: unknown }>,
): Tried<Work | undefined> {
  const { keep, rest } = step.cut
  const { solid, section } = work
  if (!stop) return `cut ${keep}: no stop is set`
  const plane: Face = { ...cutAt(solid, setting, stop[bench.stops]), mill: false }
  const kept: Solid = { ...solid, trail: plane }
  if (!(least(kept, kept.lead, kept.trail) > 0))
    return `cut ${keep}: the blade would run past its leading end`
  const left = least(solid, plane, solid.trail)
  // A stick, or what is left of one; a blank has the steel of its own piece, unrounded like it.
  const short = bench.kept.has(work.id) ? 0 : bench.rounded(work.stick)
  const blunt = (rest === 'scrap' ? bench.corner : 0) + short
  if (!(left >= -blunt - sameLength))
    return `cut ${keep}: not enough steel, ${mm(-left)} are missing at the far end`
  if (section.trim > 0 && solid.lead.mill) return `cut ${keep}: its mill end has not been cleaned up`
  // With the stops as printed the far mill end may be a reading nearer; the exact ones say whether it was planned so.
  if (
    bench.stops === 'exact' &&
    section.trim > 0 &&
    solid.trail.mill &&
    left < section.trim - short - sameLength
  )
    return `cut ${keep}: comes within ${mm(left)} of a mill end; ${mm(section.trim)} must stay`
  const behind: Solid = { ...solid, lead: { ...plane, x: plane.x - kerfBehind(program.kerf, plane) } }
  const fault = make(bench, program, keep, work, kept)
  if (fault !== undefined) return fault
  bench.kept.add(keep)
  bench.cuts.push({
    program,
    section,
    stick: work.stick,
    setUp: step.setUp,
    keep,
    setting,
    stop,
    kept,
    rest: behind,
    missing: Math.max(0, -left),
    ...(rest === 'on' || rest === 'scrap' ? {} : { second: rest }),
  })
  if (rest === 'on') return { ...work, solid: behind }
  return rest === 'scrap' ? undefined : make(bench, program, rest, work, behind)
}

function trimmed(bench: Bench, program: Program, { setting }: State, work: Work, loss: Mm): Tried<Work> {
  const { solid, section } = work
  const plane: Face = { ...trimAt(solid, setting, loss), mill: false }
  // An end that was cut costs no kerf, also where it slants: the blade may run out of the steel at its short corner.
  const mill = solid.lead.mill && section.trim > 0
  if (mill && !(loss >= kerfBehind(program.kerf, plane) - sameLength))
    return `a clean-up cut of ${mm(loss)} is less than its own kerf`
  if (!(loss >= (mill ? section.trim : 0) - sameLength))
    return `a clean-up cut of ${mm(loss)}; the nest reckons with ${mm(section.trim)}`
  const left: Solid = { ...solid, lead: plane }
  if (!(least(left, left.lead, left.trail) > 0)) return 'a clean-up cut with no steel behind it'
  bench.trims.push({ program, stick: work.stick, setting, left })
  return { ...work, solid: left }
}
