// An independent replay of programs: eight corner points turned by matrices, pushed to a plate, cut by a plane. It
// shares no formula with the planner: it knows corners, not slopes.
import type { Nest } from '../../../src/core/nest.ts'
import type { Part, Program, Run } from '../../../src/core/plan-shapes.ts'

type Point = readonly [number, number, number]
/** Corners of both ends; edge k runs from trail[k] to lead[k]. */
export interface Bar {
  readonly lead: readonly Point[]
  readonly trail: readonly Point[]
}

const spin = (bar: Bar, turn: (at: Point) => Point): Bar => ({
  lead: bar.lead.map(turn),
  trail: bar.trail.map(turn),
})
const swap = ({ lead, trail }: Bar): Bar => ({ lead: trail, trail: lead })

export function turn(bar: Bar, name: string): Bar {
  if (name === 'over') return spin(bar, ([x, y, z]) => [x, -y, -z])
  if (name === 'end') return swap(spin(bar, ([x, y, z]) => [-x, -y, z]))
  if (name === 'flip') return swap(spin(bar, ([x, y, z]) => [-x, y, -z]))
  if (name === 'quarter+') return spin(bar, ([x, y, z]) => [x, -z, y])
  return spin(bar, ([x, y, z]) => [x, z, -y])
}

export const mirror = (bar: Bar): Bar => swap(spin(bar, ([x, y, z]) => [-x, y, z]))

const all = ({ lead, trail }: Bar) => [...lead, ...trail]

/** Laid against the fence (least y = 0), on the table (least z = 0), pushed to the plate (greatest x = stop). */
function push(bar: Bar, stop: number): Bar {
  const by = (axis: 0 | 1 | 2, least: boolean) => {
    const values = all(bar).map((at) => at[axis])
    return least ? Math.min(...values) : Math.max(...values)
  }
  const [dx, dy, dz] = [stop - by(0, false), by(1, true), by(2, true)]
  return spin(bar, ([x, y, z]) => [x + dx, y - dy, z - dz])
}

/** Where the four edges meet the plane through `at` on the fence, swung by `swing` degrees: x = at − y·tan(swing). */
function section({ lead, trail }: Bar, swing: number, at: number): Point[] {
  const t = Math.tan((swing * Math.PI) / 180)
  return lead.map((end, k) => {
    const start = trail[k]!
    const off = ([x, y]: Point) => x + y * t - at
    const f = off(start) / (off(start) - off(end))
    return [0, 1, 2].map((axis) => start[axis]! + f * (end[axis]! - start[axis]!)) as unknown as Point
  })
}

export function box(length: number, width: number, height: number): Bar {
  const corners: readonly (readonly [number, number])[] = [
    [width / 2, height / 2],
    [-width / 2, height / 2],
    [-width / 2, -height / 2],
    [width / 2, -height / 2],
  ]
  return {
    lead: corners.map(([y, z]) => [length, y, z]),
    trail: corners.map(([y, z]) => [0, y, z]),
  }
}

export interface Replayed {
  readonly made: ReadonlyMap<string, Bar>
  /** Steel that a cut lacked, mm: how far its plane lay beyond the end of the workpiece. */
  readonly lacking: number
}

/** Runs all programs. `stops`: with the exact or with the printed stops. */
export function replay(
  run: Run,
  nest: Nest,
  stops: 'exact' | 'printed',
  size?: readonly [number, number],
): Replayed {
  const made = new Map<string, Bar>()
  let lacking = 0
  for (const { section: of, sticks } of nest.sections)
    for (const stick of sticks)
      made.set(stick.id, box(stick.length, size?.[0] ?? of.width, size?.[1] ?? of.height))
  const loaded = new Set<string>()
  for (const program of run.programs) {
    if (loaded.has(program.load)) throw new Error(`${program.load} is loaded twice`)
    loaded.add(program.load)
    const start = made.get(program.load)
    if (!start) throw new Error(`${program.load} is not there`)
    lacking = Math.max(lacking, runProgram(program, start, made, stops))
  }
  return { made, lacking }
}

function runProgram(
  program: Program,
  start: Bar,
  made: Map<string, Bar>,
  stops: 'exact' | 'printed',
): number {
  // For a stop on the right the frame is mirrored: what lies there is seen in a mirror.
  const seen = program.stopSide === 'right' ? mirror : (bar: Bar) => bar
  const put = (id: string, bar: Bar) => {
    if (made.has(id)) throw new Error(`${id} is made twice`)
    made.set(id, seen(bar))
  }
  let bar = seen(start)
  let swing = 0
  let stop = 0
  let lacking = 0
  let open = true
  for (const step of program.steps) {
    if (!open) throw new Error(`${program.id}: a step after the end`)
    if ('head' in step) swing = step.head[0]
    else if ('turn' in step) bar = turn(bar, step.turn)
    else if ('stop' in step) stop = stops === 'exact' ? step.exact : step.stop
    else if ('trim' in step) {
      if (swing !== 0) throw new Error('a clean-up cut is square')
      const least = Math.min(...bar.lead.map(([x]) => x))
      bar = { ...bar, lead: section(bar, 0, least - step.trim) }
    } else if ('cut' in step) {
      const lying = push(bar, stop)
      const face = section(lying, swing, 0)
      lying.trail.forEach(([x], k) => {
        lacking = Math.max(lacking, x - face[k]![0])
      })
      put(step.cut.keep, { lead: lying.lead, trail: face })
      const kerf = program.kerf / Math.cos((swing * Math.PI) / 180)
      if (step.cut.rest === 'on') bar = { lead: section(lying, swing, -kerf), trail: lying.trail }
      else open = false
    } else if ('unload' in step) {
      if (step.unload !== 'scrap') put(step.unload, bar)
      open = false
    } else throw new Error(`step ${JSON.stringify(step)} is not expected here`)
  }
  return lacking
}

/** Corners about their own middle. */
function corners(bar: Bar): Point[] {
  const points = all(bar)
  const middle = [0, 1, 2].map((axis) => {
    const values = points.map((at) => at[axis]!)
    return (Math.min(...values) + Math.max(...values)) / 2
  })
  return points.map((at) => at.map((value, axis) => value - middle[axis]!) as unknown as Point)
}

/** Each corner of one within 1e-6 mm of its own corner of the other. */
function coincide(one: readonly Point[], two: readonly Point[]): boolean {
  const left = [...two]
  return one.every((at) => {
    const found = left.findIndex((to) => Math.hypot(...at.map((value, axis) => value - to[axis]!)) < 1e-6)
    if (found >= 0) left.splice(found, 1)
    return found >= 0
  })
}

const proper = [[], ['over'], ['end'], ['flip']]
  .flatMap((half) => [half, [...half, 'quarter+']])
  .map((names) => (bar: Bar) => names.reduce(turn, bar))

/** True where one bar can be turned, not mirrored, into the other. */
export const sameBar = (one: Bar, two: Bar): boolean =>
  proper.some((by) => coincide(corners(by(one)), corners(two)))

/** The bar that a part should be, unrounded or with its printed length, in a section of this size. */
export function barOf(of: Part, width: number, height: number, length: 'exact' | 'printed' = 'exact'): Bar {
  const {
    slopes: [lead, trail],
    printed,
  } = of
  const wanted = printed.primary === 'edge' ? of.edges[0] : of.longPoint
  const blank = box(0, width, height)
  const raw: Bar = {
    lead: blank.lead.map(([, y, z]) => [lead.p * y + lead.q * z, y, z]),
    trail: blank.trail.map(([, y, z]) => [trail.p * y + trail.q * z, y, z]),
  }
  const edge = raw.lead[0]![0] - raw.trail[0]![0]
  const tips = Math.max(...raw.lead.map(([x]) => x)) - Math.min(...raw.trail.map(([x]) => x))
  const by = (length === 'exact' ? wanted : printed.length.mm) - (printed.primary === 'edge' ? edge : tips)
  return { ...raw, lead: raw.lead.map(([x, y, z]) => [x + by, y, z]) }
}

/** Lengths of the four edges, greatest first, and the extent from tip to tip. */
export const edgesOf = ({ lead, trail }: Bar): number[] =>
  lead.map(([x], k) => x - trail[k]![0]).sort((one, two) => two - one)
export const extentOf = (bar: Bar): number => {
  const xs = all(bar).map(([x]) => x)
  return Math.max(...xs) - Math.min(...xs)
}
