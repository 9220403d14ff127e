// The saw, done over with exact solids: sticks lie against a fence, are pushed to a plate, cut by a blade, turned. It
// knows the set-up records, the programs and the sticks, never the frame, and shares no formula with planner or judge.
//
// Everything lies in the shop's own right-handed space: u to the operator's left along the fence, y off the fence
// toward the operator, z up; the blade's zero at the origin. A stop at the left lies at u > 0, one at the right at
// u < 0, so a mirror image cannot come out by a convention.
import type { Nest, NestSection, NestStick } from '../../src/core/nest.ts'
import type { Program, Run, SetUp, Turn } from '../../src/core/plan-shapes.ts'
import { boundsOf, type Fiber, fibersOf, fibersOnSide, movedFibers, shiftedFibers } from './fibers.ts'
import { type Motion, moved, onSide, prism, type Solid, shifted, surfaceOf, type Xyz } from './kernel.ts'
import { contoursOf } from './solid.ts'

/** One workpiece three times over: what touches fence, table and stop; what it is made of; the sharp box around it. */
export interface Work {
  readonly skin: readonly Fiber[]
  readonly steel: Solid
  readonly box: Solid
}

const turnedBy = ({ skin, steel, box }: Work, motion: Motion): Work => ({
  skin: movedFibers(skin, motion),
  steel: moved(steel, motion),
  box: moved(box, motion),
})

const pushedBy = ({ skin, steel, box }: Work, by: Xyz): Work => ({
  skin: shiftedFibers(skin, by),
  steel: shifted(steel, by),
  box: shifted(box, by),
})

const cutAway = ({ skin, steel, box }: Work, normal: Xyz, offset: number): Work => ({
  skin: fibersOnSide(skin, normal, offset),
  steel: onSide(steel, normal, offset),
  box: onSide(box, normal, offset),
})

/** One cut, as it lay on the saw. */
export interface Cut {
  readonly setUp: SetUp
  readonly keep: string
  readonly kept: Work
}

export interface Sawn {
  /** Everything that came off, by its id, lying as it was cut. */
  readonly made: ReadonlyMap<string, Work>
  readonly cuts: readonly Cut[]
  readonly faults: readonly string[]
}

export type Stops = 'exact' | 'stop'

/** Chords to a quarter circle: few for what is compared; many for what touches, where arcs roll on table and fence. */
const steelChords = 2
const skinChords = 360

const turned = (axis: 'u' | 'y' | 'z', degrees: number): Motion => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
  // Columns are where the unit vectors along u, y, z go.
  if (axis === 'u') return [1, 0, 0, 0, 0, c, s, 0, 0, -s, c, 0, 0, 0, 0, 1]
  if (axis === 'y') return [c, 0, -s, 0, 0, 1, 0, 0, s, 0, c, 0, 0, 0, 0, 1]
  return [c, s, 0, 0, -s, c, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]
}

/** What the words on the sheet mean in the shop's space; a half turn is the same for both stop sides. */
const hands: Readonly<Record<Turn, Motion>> = {
  over: turned('u', 180),
  end: turned('z', 180),
  flip: turned('y', 180),
  // The side that looks away from the fence goes up, whichever side the stop is on.
  'quarter+': turned('u', 90),
  'quarter-': turned('u', -90),
}

interface Shelf {
  readonly made: Map<string, Work>
  readonly cuts: Cut[]
  readonly stops: Stops
  readonly setUps: ReadonlyMap<string, SetUp>
}

/**
 * Does all programs in their order. With exact stops, sticks are `spare` mm longer for each of their pieces, since the
 * nest lays printed lengths into them.
 */
export function saw(run: Run, nest: Nest, stops: Stops, spare = 0): Sawn {
  const rolls = run.setUps.some(({ tilt, roll, ramp }) => tilt !== 0 || roll !== 0 || ramp !== 0)
  const setUps = new Map(run.setUps.map((setUp) => [setUp.id, setUp]))
  const made = new Map<string, Work>()
  const sticks = new Set<string>()
  for (const section of nest.sections)
    for (const stick of section.sticks) {
      sticks.add(stick.id)
      const tail = stops === 'exact' ? -spare * stick.pieces.length : 0
      made.set(stick.id, barOf(section, stick, tail, rolls))
    }
  const shelf: Shelf = { made, cuts: [], stops, setUps }
  const loaded = new Set<string>()
  const faults: string[] = []
  for (const program of run.programs) {
    try {
      if (loaded.has(program.load)) throw new Error(`${program.load} is loaded a second time`)
      loaded.add(program.load)
      follow(program, shelf, sticks)
    } catch (wrong) {
      faults.push(`program ${program.id}: ${(wrong as Error).message}`)
    }
  }
  return { made, cuts: shelf.cuts, faults }
}

/** A stick of the nest; a slanted end, x = p·y + q·z about the middle of the section, is cut off a longer bar. */
function barOf(section: NestSection, { length, ends }: NestStick, tail: number, rolls: boolean): Work {
  const slant = (at: 0 | 1) => {
    const end = ends[at]
    return typeof end === 'object' ? end : { p: 0, q: 0 }
  }
  const reach = ({ p, q }: { readonly p: number; readonly q: number }) =>
    (Math.abs(p) + Math.abs(q)) * Math.max(section.section.width, section.section.height)
  const [lead, trail] = [slant(0), slant(1)]
  let work = bar(section, tail - reach(trail), length + reach(lead), rolls)
  for (const [{ p, q }, x, way] of [
    [lead, length, -1],
    [trail, tail, 1],
  ] as const) {
    if (p === 0 && q === 0) continue
    const size = Math.hypot(1, p, q)
    work = cutAway(work, [way / size, (-way * p) / size, (-way * q) / size], (way * x) / size)
  }
  return work
}

function bar({ section }: NestSection, from: number, to: number, rolls: boolean): Work {
  const round = section.kind.startsWith('round')
  return {
    skin: fibersOf(contoursOf(section, 'skin', round || rolls ? skinChords : steelChords)[0]!, from, to),
    steel: prism(contoursOf(section, 'steel', round ? 16 : steelChords), from, to),
    box: prism(contoursOf(section, 'box', 16), from, to),
  }
}

function follow(program: Program, shelf: Shelf, sticks: ReadonlySet<string>): void {
  const side = program.stopSide === 'left' ? 1 : -1
  const start = shelf.made.get(program.load)
  if (!start) throw new Error(`${program.load} is not there`)
  // A stick lies along +x with its leading end at x = length; for a stop at the right it is swung round, face up.
  let work: Work | undefined = sticks.has(program.load) && side < 0 ? turnedBy(start, hands.end) : start
  let head: readonly [number, number] = [0, 0]
  let roll = 0
  let ramp = 0
  let stop: { readonly stop: number; readonly exact: number } | undefined
  const put = (id: string, what: Work) => {
    if (shelf.made.has(id)) throw new Error(`${id} is made a second time`)
    shelf.made.set(id, what)
  }
  for (const step of program.steps) {
    if ('head' in step) head = step.head
    else if ('roll' in step) roll = step.roll
    else if ('ramp' in step) ramp = step.ramp
    else if ('stop' in step) stop = step
    else if ('take' in step) {
      if (work) throw new Error(`takes ${step.take} with something on the saw`)
      work = shelf.made.get(step.take)
      if (!work) throw new Error(`${step.take} is not there`)
    } else {
      if (!work) throw new Error(`${Object.keys(step)[0]} with nothing on the saw`)
      if ('turn' in step) work = turnedBy(work, hands[step.turn])
      else if ('trim' in step) work = trimmed(work, step.trim, side, head)
      else if ('unload' in step) {
        if (step.unload !== 'scrap') put(step.unload, work)
        work = undefined
      } else {
        const setUp = shelf.setUps.get(step.setUp)
        if (!setUp) throw new Error(`set-up ${step.setUp} has no record`)
        agree(program, setUp, { head, roll, ramp, stop, keep: step.cut.keep })
        const { kept, rest } = cut(work, setUp, setUp[shelf.stops], program.kerf, side)
        if (kept.steel.isEmpty()) throw new Error(`cut ${step.cut.keep}: nothing lies between blade and stop`)
        shelf.cuts.push({ setUp, keep: step.cut.keep, kept })
        put(step.cut.keep, kept)
        work = step.cut.rest === 'on' ? rest : undefined
        if (step.cut.rest !== 'on' && step.cut.rest !== 'scrap') put(step.cut.rest, rest)
      }
    }
  }
  if (work) throw new Error('ends with something on the saw')
}

/** The program does what the record says; people see the record. */
function agree(
  { stopSide, hold, id }: Program,
  setUp: SetUp,
  now: {
    readonly head: readonly [number, number]
    readonly roll: number
    readonly ramp: number
    readonly stop: { readonly stop: number; readonly exact: number } | undefined
    readonly keep: string
  },
): void {
  const said = [setUp.swing, setUp.tilt, setUp.roll, setUp.ramp, setUp.stop, setUp.exact]
  const done = [...now.head, now.roll, now.ramp, now.stop?.stop ?? Number.NaN, now.stop?.exact ?? Number.NaN]
  if (said.some((value, at) => !(Math.abs(value - done[at]!) < 1e-9)))
    throw new Error(`set-up ${setUp.id} says ${said.join(', ')}; program ${id} does ${done.join(', ')}`)
  if (setUp.stopSide !== stopSide || setUp.hold !== hold)
    throw new Error(`set-up ${setUp.id} and program ${id} have stop or vise on different sides`)
  if (!setUp.pieces.includes(now.keep)) throw new Error(`set-up ${setUp.id} does not name ${now.keep}`)
}

/** The frame of the saw is the shop's, seen from the stop's side: x = side · u. */
const toward = (side: 1 | -1, [x, y, z]: Xyz): Xyz => [side * x, y, z]

/** Normal of the blade, from blade to stop: upright and square, leaned about its trace, swung about the vertical. */
function bladeNormal(swing: number, tilt: number): Xyz {
  const [a, t] = [(swing * Math.PI) / 180, (tilt * Math.PI) / 180]
  const leaned: Xyz = [Math.cos(t), 0, Math.sin(t)]
  return [
    leaned[0] * Math.cos(a) - leaned[1] * Math.sin(a),
    leaned[0] * Math.sin(a) + leaned[1] * Math.cos(a),
    leaned[2],
  ]
}

const opposite = ([x, y, z]: Xyz): Xyz => [-x, -y, -z]

function cut(
  work: Work,
  { swing, tilt, roll, ramp }: SetUp,
  stop: number,
  kerf: number,
  side: 1 | -1,
): { readonly kept: Work; readonly rest: Work } {
  // In the cradle about +x, then on the wedge about +y; with x the other way, angles about y turn the other way.
  const rolled = roll === 0 ? work : turnedBy(work, turned('u', roll))
  const lying = ramp === 0 ? rolled : turnedBy(rolled, turned('y', side * ramp))
  const back = (piece: Work) => {
    const level = ramp === 0 ? piece : turnedBy(piece, turned('y', -side * ramp))
    return roll === 0 ? level : turnedBy(level, turned('u', -roll))
  }
  const [least, most] = boundsOf(lying.skin, 0)
  const pushed = pushedBy(lying, [
    side > 0 ? stop - most : -stop - least,
    -boundsOf(lying.skin, 1)[0],
    -boundsOf(lying.skin, 2)[0],
  ])
  const normal = toward(side, bladeNormal(swing, tilt))
  return {
    kept: back(cutAway(pushed, normal, 0)),
    rest: back(cutAway(pushed, opposite(normal), kerf)),
  }
}

/**
 * A clean-up cut without a stop: the blade stands as the head is set, and so much goes on the edge that loses least, its
 * kerf included.
 */
function trimmed(work: Work, loss: number, side: 1 | -1, [swing, tilt]: readonly [number, number]): Work {
  const normal = bladeNormal(swing, tilt)
  // Leading corners of the sharp box, seen from the stop's side.
  const tips = new Map<string, Xyz>()
  for (const [u, y, z] of surfaceOf(work.box).points) {
    const name = `${Math.round(y * 1e5)} ${Math.round(z * 1e5)}`
    const at: Xyz = [side * u, y, z]
    if ((tips.get(name)?.[0] ?? Number.NEGATIVE_INFINITY) < at[0]) tips.set(name, at)
  }
  const along = [...tips.values()].map((at) =>
    at.reduce((sum, value, axis) => sum + value * normal[axis]!, 0),
  )
  return cutAway(work, toward(side, opposite(normal)), loss * normal[0] - Math.min(...along))
}
