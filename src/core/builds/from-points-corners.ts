import type { End } from '../frame/member.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import { onAxis } from '../tolerance.ts'
import { fieldOf, listOf, type Sketch, type SketchRule } from './from-points-sketch.ts'

/** A member's end at a point. */
export interface Ending {
  readonly member: number
  readonly end: End
}

/** What comes together at a point: ends, and members that pass it along their length. */
export interface Corner {
  readonly point: number
  readonly ends: readonly Ending[]
  readonly through: readonly number[]
}

/** Corners in the order of the points. Points at which no member ends are none. */
export function cornersOf({ points, members }: Sketch): Corner[] {
  const ends = points.map((): Ending[] => [])
  members.forEach(({ from, to }, member) => {
    ends[from]!.push({ member, end: 'A' })
    ends[to]!.push({ member, end: 'B' })
  })
  const through = points.map((): number[] => [])
  const used = points.flatMap(({ at }, point) => (ends[point]!.length > 0 ? [{ point, at }] : []))
  members.forEach(({ from, to }, member) => {
    const [ax, ay, az] = points[from]!.at
    const [bx, by, bz] = points[to]!.at
    const [ux, uy, uz] = [bx - ax, by - ay, bz - az]
    const length = Math.hypot(ux, uy, uz)
    for (const { point, at: p } of used) {
      // Plain sums and squares: a frame of 200 members asks this 40,000 times.
      const px = p[0] - ax
      const py = p[1] - ay
      const pz = p[2] - az
      const along = (px * ux + py * uy + pz * uz) / length
      if (along <= 0 || along >= length) continue
      if (px * px + py * py + pz * pz - along * along > onAxis * onAxis) continue
      if (point !== from && point !== to) through[point]!.push(member)
    }
  })
  return points.flatMap((_, point) =>
    ends[point]!.length > 0 ? [{ point, ends: ends[point]!, through: through[point]! }] : [],
  )
}

/** How the ends of a corner are cut, settled from its rule or, where nothing else is possible, without one. */
export type Settled =
  | { readonly how: 'miter' | 'flat' | 'square' }
  | { readonly how: 'butt'; readonly runs: number; readonly stops: readonly Ending[] }

export function settle(corner: Corner, sketch: Sketch): Result<Settled> {
  const { ends, through } = corner
  const rule = sketch.rules.get(corner.point)
  const at = sketch.points[corner.point]!.name
  const name = (member: number) => sketch.members[member]!.name
  const here = [...new Set([...ends.map(({ member }) => member), ...through])]
  const all = listOf(here.map(name))
  const refuse = (code: string, text: string, column = 'how') =>
    bad(code, text, rule ? fieldOf('joints', rule.row, column) : fieldOf('points', corner.point, 'name'))

  if (!rule) {
    if (here.length === 1) return good({ how: 'square' })
    if (here.length === 2)
      return through.length === 1
        ? good({ how: 'butt', runs: through[0]!, stops: ends })
        : good({ how: 'miter' })
    return refuse(
      'no-rule',
      `${all} meet at ${at}: with more than two members a joint must be given there: butt, and which of them runs through; or flat, or square.`,
    )
  }
  if (rule.how === 'flat' || rule.how === 'square') return good({ how: rule.how })
  if (rule.how === 'miter') {
    if (through.length > 0)
      return refuse(
        'miter-through',
        `A miter is given at ${at}, along the length of ${listOf(through.map(name))}, which runs through; ${listOf(ends.map(({ member }) => name(member)))} can only stop on it: butt.`,
      )
    if (ends.length !== 2)
      return refuse(
        'miter-of-two',
        `A miter is given at ${at}, where ${ends.length === 1 ? `only ${all} ends` : `${all} meet`}; a miter is of two members. ` +
          (ends.length === 1
            ? 'Flat or square is possible.'
            : 'Butt is possible, and which of them runs through.'),
      )
    return good({ how: 'miter' })
  }
  return settleButt(rule, corner, sketch, all, refuse)
}

function settleButt(
  rule: SketchRule,
  { ends, through, point }: Corner,
  sketch: Sketch,
  all: string,
  refuse: (code: string, text: string, column?: string) => Result<never>,
): Result<Settled> {
  const at = sketch.points[point]!.name
  const runs = rule.runs ?? (through.length === 1 ? through[0] : undefined)
  if (ends.length + through.length < 2)
    return refuse(
      'butt-alone',
      `A butt is given at ${at}, where only ${all} ends and no member passes; flat or square is possible.`,
    )
  if (runs === undefined)
    return refuse('no-runner', `A butt is given at ${at}: say which member runs through, ${all}.`, 'runs')
  const name = sketch.members[runs]!.name
  if (!through.includes(runs) && !ends.some(({ member }) => member === runs))
    return refuse('runner-elsewhere', `${name} does not come to ${at}; there meet ${all}.`, 'runs')
  const others = through.filter((member) => member !== runs)
  if (others.length > 0 && !through.includes(runs))
    return refuse(
      'passes-too',
      `${name} ends at ${at}, which ${listOf(others.map((member) => sketch.members[member]!.name))} passes; the one that passes must be the one that runs through.`,
      'runs',
    )
  const stops = ends.filter(({ member }) => member !== runs)
  return stops.length > 0
    ? good({ how: 'butt', runs, stops })
    : refuse('butt-alone', `Nothing stops on ${name} at ${at}; flat or square is possible.`)
}

/** Two members that each stop on the other, at two points near each other: two lines meet but once. */
export function standoffs(settled: readonly (readonly [Corner, Settled])[], sketch: Sketch): Problem[] {
  const stopped = new Map<string, number>()
  return settled.flatMap(([{ point }, how]) => {
    if (how.how !== 'butt') return []
    return how.stops.flatMap(({ member }): Problem[] => {
      stopped.set(`${member} ${how.runs}`, point)
      const before = stopped.get(`${how.runs} ${member}`)
      if (before === undefined) return []
      const [one, two] = [sketch.members[how.runs]!.name, sketch.members[member]!.name]
      const [first, second] = [sketch.points[before]!.name, sketch.points[point]!.name]
      return [
        {
          code: 'stop-on-each-other',
          text:
            `${one} stops on ${two} at ${first}, and ${two} on ${one} at ${second}; only one of them can. ` +
            `Let both come to one point, or move ${first} and ${second} farther apart.`,
          field: fieldOf('points', point, 'name'),
        },
      ]
    })
  })
}
