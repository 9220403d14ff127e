import type { EndPlane, NestStick, Slope } from '../../core/nest.ts'
import type { Program, Run, Turn } from '../../core/plan-shapes.ts'
import type { Deg, Mm } from '../../core/units.ts'
import { cosDeg, sinDeg, tanDeg } from '../../core/units.ts'
import { flat, lain, seen, sizeSeen, type Tip } from './tipped.ts'

// How a workpiece lies on the saw at each cut, for the picture alone: nothing here decides a length.
// Frame of the saw: x along the fence toward the stop, y off the fence, z up; y and z from the section's center.

/** A piece of steel on the saw. `lead` is the end toward the stop. */
export interface Workpiece {
  readonly lead: EndPlane
  readonly trail: EndPlane
  /** Across the table, away from the fence. */
  readonly depth: Mm
  /** Off the table. */
  readonly height: Mm
}

/**
 * One cut as it lies when the blade comes down: x = 0 where the keep-side teeth cross the fence. Rolled or raised, keep and
 * rest are what is seen from above.
 */
export interface AtCut {
  readonly keep: Workpiece
  /** What is left behind the blade. */
  readonly rest: Workpiece
  readonly swing: Deg
  readonly stop: Mm
  readonly kerf: Mm
}

/** A half or quarter turn of the workpiece, as the documents define them. */
export function turned(work: Workpiece, turn: Turn): Workpiece {
  const { lead, trail, depth, height } = work
  const swap = (map: (end: EndPlane) => EndPlane) => ({ ...work, lead: map(trail), trail: map(lead) })
  const stay = (map: (end: EndPlane) => EndPlane) => ({
    lead: map(lead),
    trail: map(trail),
    depth: height,
    height: depth,
  })
  switch (turn) {
    case 'over':
      return { ...work, lead: back(lead), trail: back(trail) }
    case 'end':
      return swap(({ x, p, q }) => ({ x: -x, p, q: -q }))
    case 'flip':
      return swap(({ x, p, q }) => ({ x: -x, p: -p, q }))
    case 'quarter+':
      return stay(({ x, p, q }) => ({ x, p: -q, q: p }))
    case 'quarter-':
      return stay(({ x, p, q }) => ({ x, p: q, q: -p }))
  }
}

const back = ({ x, p, q }: EndPlane): EndPlane => ({ x, p: -p, q: -q })

/** The same steel seen from a saw whose stop stands on the other side. */
const fromOtherSide = (work: Workpiece): Workpiece => {
  const mirror = ({ x, p, q }: EndPlane): EndPlane => ({ x: -x, p: -p, q: -q })
  return { ...work, lead: mirror(work.trail), trail: mirror(work.lead) }
}

const slopeAt = (swing: Deg, tilt: Deg): Slope => ({ p: -tanDeg(swing), q: -tanDeg(tilt) / cosDeg(swing) })

const square: EndPlane = { x: 0, p: 0, q: 0 }

interface Stored {
  readonly work: Workpiece
  readonly side: 'left' | 'right'
}

/** Replays every program of a run and gives, by the id of what each cut keeps, how the steel lies at that cut. */
export function lyingAtCuts(run: Run, sticks: readonly NestStick[]): ReadonlyMap<string, AtCut> {
  const found = new Map<string, AtCut>()
  const lying = new Map<string, Stored>()
  for (const program of run.programs) {
    const start = loaded(program, run, sticks, lying)
    if (start) replay(program, start, found, lying)
  }
  return found
}

function loaded(
  program: Program,
  run: Run,
  sticks: readonly NestStick[],
  lying: ReadonlyMap<string, Stored>,
): Workpiece | undefined {
  const stored = lying.get(program.load)
  if (stored) return stored.side === program.stopSide ? stored.work : fromOtherSide(stored.work)
  const stick = sticks.find((one) => one.id === program.load)
  const cut = program.steps.find((step) => 'cut' in step)
  const section = run.setUps.find((setUp) => cut && 'cut' in cut && setUp.id === cut.setUp)?.section
  if (!stick || !section) return undefined
  const end = (at: NestStick['ends'][number], x: Mm): EndPlane =>
    at === 'mill' || at === 'cut' ? { ...square, x } : { x, p: at.p, q: at.q }
  return {
    lead: end(stick.ends[0], stick.length),
    trail: end(stick.ends[1], 0),
    depth: section.width,
    height: section.height,
  }
}

function replay(program: Program, start: Workpiece, found: Map<string, AtCut>, lying: Map<string, Stored>) {
  let work = start
  let head: readonly [Deg, Deg] = [0, 0]
  let tip = flat
  let stop: Mm = 0
  const store = (id: string, piece: Workpiece) => lying.set(id, { work: piece, side: program.stopSide })
  for (const step of program.steps) {
    if ('head' in step) head = step.head
    else if ('roll' in step) tip = { ...tip, roll: step.roll }
    else if ('ramp' in step) tip = { ...tip, ramp: step.ramp }
    else if ('turn' in step) work = turned(work, step.turn)
    else if ('stop' in step) stop = step.stop
    else if ('trim' in step) work = trimmed(work, step.trim, slopeAt(...head))
    else if ('cut' in step) {
      const { at, keep, rest } = cutAt(work, head, tip, stop, program.kerf)
      found.set(step.cut.keep, at)
      store(step.cut.keep, keep)
      if (step.cut.rest !== 'on' && step.cut.rest !== 'scrap') store(step.cut.rest, rest)
      work = step.cut.rest === 'on' ? rest : keep
    } else if ('take' in step) work = lying.get(step.take)?.work ?? work
    else if ('unload' in step && step.unload !== 'scrap') store(step.unload, work)
  }
}

/** The clean-up cut takes exactly this much, kerf included, off the edge that loses least. */
function trimmed(work: Workpiece, trim: Mm, slope: Slope): Workpiece {
  const { lead, depth, height } = work
  const wedge = (Math.abs(slope.p - lead.p) * depth + Math.abs(slope.q - lead.q) * height) / 2
  return { ...work, lead: { ...slope, x: lead.x - trim - wedge } }
}

interface Parted {
  readonly at: AtCut
  /** As they lie when they are laid flat again. */
  readonly keep: Workpiece
  readonly rest: Workpiece
}

/** Pushes the workpiece, rolled or raised as it is set, to the stop plate and parts it at the blade. */
function cutAt(work: Workpiece, [swing, tilt]: readonly [Deg, Deg], tip: Tip, stop: Mm, kerf: Mm): Parted {
  const size = sizeSeen(work, tip)
  const [lead, trail] = [seen(work.lead, tip), seen(work.trail, tip)]
  const move = stop - lead.x - reach(work, tip)
  const slope = slopeAt(swing, tilt)
  // Zero is read where the teeth cross the fence at the table, half a section from its center both ways.
  const blade: EndPlane = { ...slope, x: (slope.p * size.depth + slope.q * size.height) / 2 }
  const behind: EndPlane = { ...blade, x: blade.x - kerf * Math.hypot(1, slope.p, slope.q) }
  const back = (end: EndPlane): EndPlane => lain({ ...end, x: end.x - move }, tip)
  return {
    at: {
      keep: { lead: { ...lead, x: lead.x + move }, trail: blade, ...size },
      rest: { lead: behind, trail: { ...trail, x: trail.x + move }, ...size },
      swing,
      stop,
      kerf,
    },
    keep: { ...work, trail: back(blade) },
    rest: { ...work, lead: back(behind) },
  }
}

/** How far the leading end reaches past its place on the axis, along the fence. */
function reach({ lead, depth, height }: Workpiece, { ramp }: Tip): Mm {
  const up = lead.q * cosDeg(ramp) + sinDeg(ramp)
  return (Math.abs(lead.p * cosDeg(ramp)) * depth + Math.abs(up) * height) / 2
}

/** x of an end at the fence (`y` = −depth/2) and away from it, on the center of the height. */
export const edgeXs = (end: EndPlane, depth: Mm): readonly [Mm, Mm] => [
  end.x - (end.p * depth) / 2,
  end.x + (end.p * depth) / 2,
]
