import { flat } from '../frame/flat.ts'
import type { Joint, Member, Warning } from '../frame/frame.ts'
import { butt, miter } from '../frame/joint.ts'
import { cutEnd, type End, endCorners, endIndex, endPlane } from '../frame/member.ts'
import { axisX, dirToLocal, toLocal } from '../geometry/pose.ts'
import { add, cross, dot, norm, scale, sub, type Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import { isRound } from '../section/section.ts'
import { onAxis, sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, toDeg } from '../units.ts'
import { fieldOf, listOf, type Sketch, type SketchRule } from './from-points-sketch.ts'

/** A member's end at a point. */
interface Ending {
  readonly member: number
  readonly end: End
}

/** What comes together at a point: ends, and members that pass it along their length. */
export interface Corner {
  readonly point: number
  readonly ends: readonly Ending[]
  readonly through: readonly number[]
}

/** A cut more slanting than this is no cut for a saw, nor for a file. */
const mostSlant: Deg = 85

/** Corners in the order of the points. Points at which no member ends are none. */
export function cornersOf({ points, members }: Sketch): Corner[] {
  const ends = points.map((): Ending[] => [])
  members.forEach(({ from, to }, member) => {
    ends[from]!.push({ member, end: 'A' })
    ends[to]!.push({ member, end: 'B' })
  })
  const through = points.map((): number[] => [])
  members.forEach(({ from, to }, member) => {
    const [ax, ay, az] = points[from]!.at
    const [bx, by, bz] = points[to]!.at
    const [ux, uy, uz] = [bx - ax, by - ay, bz - az]
    const length = Math.hypot(ux, uy, uz)
    for (const [at, { at: p }] of points.entries()) {
      if (ends[at]!.length === 0 || at === from || at === to) continue
      const [px, py, pz] = [p[0] - ax, p[1] - ay, p[2] - az]
      const along = (px * ux + py * uy + pz * uz) / length
      if (along <= 0 || along >= length) continue
      // Squares: a frame of 200 members asks this 40,000 times.
      if (px * px + py * py + pz * pz - along * along <= onAxis * onAxis) through[at]!.push(member)
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

export interface Cutting {
  /** Replaced, end by end, as they are cut. */
  readonly members: Member[]
  readonly joints: Joint[]
  readonly warnings: Warning[]
}

/** Cuts the ends of one corner. Fails where no saw could, saying which members and what else is possible. */
export function cutCorner(
  corner: Corner,
  settled: Settled,
  sketch: Sketch,
  gap: Mm,
  cutting: Cutting,
): Result<void> {
  const { members } = cutting
  const point = sketch.points[corner.point]!
  const rule = sketch.rules.get(corner.point)
  const field = rule ? fieldOf('joints', rule.row, 'how') : fieldOf('points', corner.point, 'name')
  const id = `frame/point-${point.slug}`
  if (settled.how === 'square') return good(undefined)
  if (settled.how === 'miter') {
    const [one, two] = corner.ends as [Ending, Ending]
    const [a, b] = [members[one.member]!, members[two.member]!]
    if (norm(cross(axisX(a.pose), axisX(b.pose))) < sameSlope)
      return bad(
        'parallel-miter',
        `${a.name} and ${b.name} lie along one line at ${point.name}; a miter needs a corner. Give square there, or move a point.`,
        field,
      )
    const made = miter(id, a, one.end, b, two.end, point.at, gap)
    members[one.member] = made.members[0]
    members[two.member] = made.members[1]
    cutting.joints.push(made.joint)
    // Compared without the gap, which moves the two ends apart along different axes.
    const bare = gap === 0 ? made.members : miter(id, a, one.end, b, two.end, point.at, 0).members
    if (!matching(bare[0], one.end, bare[1], two.end))
      cutting.warnings.push({
        code: 'miter-mismatch',
        text:
          `The mitered ends of ${a.name} and ${b.name} at ${point.name} have not the same outline and cover each other in part. ` +
          'Equal sections, rolled alike about the corner, match; or a butt.',
        members: [a.id, b.id],
      })
  } else if (settled.how === 'butt') {
    const runs = members[settled.runs]!
    let reach = 0
    const out = corner.ends.find(({ member }) => member === settled.runs)?.end
    for (const { member, end } of settled.stops) {
      const stops = members[member]!
      if (norm(cross(axisX(stops.pose), axisX(runs.pose))) < sameSlope)
        return bad(
          'parallel-butt',
          `${stops.name} and ${runs.name} lie along one line at ${point.name}; ${stops.name} cannot stop on its side. Give square there, or move a point.`,
          field,
        )
      if (isRound(runs.section))
        return bad(
          'round-runner',
          `${stops.name} stops on ${runs.name} at ${point.name}, which is round and has no flat side; let the other one run through, or take a section with flat sides.`,
          field,
        )
      const made = butt(`${id}/${sketch.members[member]!.slug}`, stops, end, runs, gap)
      members[member] = made.member
      cutting.joints.push(made.joint)
      if (out) reach = Math.max(reach, reachOf(made.member, end, runs, out, point.at))
    }
    if (out) members[settled.runs] = reaching(runs, out, point.at, reach)
  } else
    for (const { member, end } of corner.ends) {
      const of = members[member]!
      if (Math.abs(axisX(of.pose)[2]) < sameSlope)
        return bad(
          'level-flat',
          `${of.name} lies level at ${point.name} and cannot be cut parallel to the floor; square is possible.`,
          field,
        )
      members[member] = flat(of, end, point.at[2], 'open')
    }
  return slanting(corner, members, point.name, field)
}

function slanting(corner: Corner, members: readonly Member[], at: string, field: string): Result<void> {
  for (const { member, end } of corner.ends) {
    const of = members[member]!
    const slant = toDeg(Math.acos(Math.min(1, Math.abs(of.ends[endIndex(end)].normal[0]))))
    if (slant > mostSlant)
      return bad(
        'too-slanting',
        `${of.name} would be cut ${slant.toFixed(1)}° from square at ${at}; ${mostSlant}° is the most. Square is possible, or another point.`,
        field,
      )
  }
  return good(undefined)
}

/** Whether two cut ends are one outline. */
function matching(one: Member, oneEnd: End, two: Member, twoEnd: End): boolean {
  if (isRound(one.section) || isRound(two.section))
    return (
      isRound(one.section) &&
      isRound(two.section) &&
      Math.abs(one.section.width - two.section.width) < sameLength
    )
  const others = endCorners(two, twoEnd)
  return endCorners(one, oneEnd).every((corner) =>
    others.some((other) => norm(sub(corner, other)) < sameLength),
  )
}

/** How far a cut end that stops on `runs` lies past `at`, along the axis of `runs` out of its end. */
function reachOf(stops: Member, end: End, runs: Member, out: End, at: Vec3): Mm {
  const plane = endPlane(stops.ends[endIndex(end)])
  const away = scale(axisX(runs.pose), out === 'B' ? 1 : -1)
  const [dx, dy, dz] = dirToLocal(stops.pose, away)
  // The end is the points (x + p·y + q·z, y, z): along `away` it goes as far as its outline in y and z does.
  const y = (dx * plane.p + dy) * stops.section.width
  const z = (dx * plane.q + dz) * stops.section.height
  const half = isRound(stops.section) ? Math.hypot(y, z) / 2 : (Math.abs(y) + Math.abs(z)) / 2
  return dx * plane.x - dot([dx, dy, dz], toLocal(stops.pose, at)) + half
}

/** A member that runs past its point, so that what stops on it finds its whole face. */
function reaching(of: Member, end: End, at: Vec3, reach: Mm): Member {
  const away = scale(axisX(of.pose), end === 'B' ? 1 : -1)
  return cutEnd(of, end, add(at, scale(away, reach)), away, 'open')
}
