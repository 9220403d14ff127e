import { flat } from '../frame/flat.ts'
import type { Joint, Member, Warning } from '../frame/frame.ts'
import { butt, miter } from '../frame/joint.ts'
import { flatProblem, miterProblem } from '../frame/joint-problem.ts'
import { cutEnd, type End, endCorners, endIndex } from '../frame/member.ts'
import { endReach } from '../frame/reach.ts'
import { saddle } from '../frame/saddle.ts'
import { axisX } from '../geometry/pose.ts'
import { add, cross, dot, norm, scale, sub, type Vec3 } from '../geometry/vec3.ts'
import { bad, badAll, good, type Problem, type Result } from '../result.ts'
import { isRound } from '../section/section.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm, toDeg } from '../units.ts'
import type { Corner, Ending, Settled } from './from-points-corners.ts'
import { fieldOf, type Sketch } from './from-points-sketch.ts'

/** A cut more slanting than this is no cut for a saw, nor for a file. */
const mostSlant: Deg = 85

export interface Cutting {
  /** Replaced, end by end, as they are cut. */
  readonly members: Member[]
  readonly joints: Joint[]
  readonly warnings: Warning[]
  readonly gap: Mm
  readonly say: (mm: Mm) => string
}

/** A corner that is being cut: its place, and the field that its problems belong to. */
interface Place {
  readonly name: string
  readonly at: Vec3
  /** Path of its joints. */
  readonly id: string
  readonly field: string
}

type Butt = Extract<Settled, { how: 'butt' }>

/** Whether a corner is fitted round a round tube: these are cut last, when what they sit on has its ends. */
export const isSaddled = (settled: Settled, { members }: Cutting): boolean =>
  settled.how === 'butt' && isRound(members[settled.runs]!.section)

/** Cuts the ends of one corner. Fails where no saw could, saying which members, where, and what else is possible. */
export function cutCorner(corner: Corner, settled: Settled, sketch: Sketch, cutting: Cutting): Result<void> {
  const { members } = cutting
  const { name, slug, at } = sketch.points[corner.point]!
  const rule = sketch.rules.get(corner.point)
  const field = rule ? fieldOf('joints', rule.row, 'how') : fieldOf('points', corner.point, 'name')
  const place: Place = { name, at, id: `frame/point-${slug}`, field }
  if (settled.how === 'square') return good(undefined)
  if (settled.how === 'miter') {
    const [one, two] = corner.ends as [Ending, Ending]
    const done = miterAt(place, one, two, cutting)
    if (!done.ok) return done
  } else if (settled.how === 'butt') {
    const done = buttAt(place, corner, settled, sketch, cutting)
    if (!done.ok) return done
  } else
    for (const { member, end } of corner.ends) {
      const of = members[member]!
      const problem = flatProblem(of)
      if (problem) return refused(place, problem)
      members[member] = flat(of, end, at[2], 'open')
    }
  return slanting(place, corner, members)
}

const refused = ({ name, field }: Place, { code, text }: Problem): Result<never> =>
  bad(code, `At ${name}: ${text} The end can also be left square there.`, field)

function miterAt(place: Place, one: Ending, two: Ending, cutting: Cutting): Result<void> {
  const { members, gap, say } = cutting
  const [a, b] = [members[one.member]!, members[two.member]!]
  const problem = miterProblem(a, b, say)
  if (problem) return refused(place, problem)
  const made = miter(place.id, a, one.end, b, two.end, place.at, gap)
  members[one.member] = made.members[0]
  members[two.member] = made.members[1]
  cutting.joints.push(made.joint)
  // Compared without the gap, which moves the two ends apart along different axes.
  const bare = gap === 0 ? made : miter(place.id, a, one.end, b, two.end, place.at, 0)
  if (!matching(bare.members[0], one.end, bare.members[1], two.end))
    cutting.warnings.push({
      code: 'miter-mismatch',
      text:
        `The mitered ends of ${a.name} and ${b.name} at ${place.name} have not the same outline and cover each other in part. ` +
        'Equal sections, rolled alike about the corner, match; or a butt.',
      members: [a.id, b.id],
    })
  return good(undefined)
}

/** Whether two cut ends are one outline. Round ones of one diameter are. */
function matching(one: Member, oneEnd: End, two: Member, twoEnd: End): boolean {
  if (isRound(one.section)) return true
  const others = endCorners(two, twoEnd)
  return endCorners(one, oneEnd).every((corner) =>
    others.some((other) => norm(sub(corner, other)) < sameLength),
  )
}

function buttAt(place: Place, corner: Corner, settled: Butt, sketch: Sketch, cutting: Cutting): Result<void> {
  const { members, gap } = cutting
  const runs = members[settled.runs]!
  const out = corner.ends.find(({ member }) => member === settled.runs)?.end
  let reach: Mm = 0
  for (const { member, end } of settled.stops) {
    const stops = members[member]!
    if (norm(cross(axisX(stops.pose), axisX(runs.pose))) < sameSlope)
      return refused(place, {
        code: 'butt-parallel',
        text: `${stops.name} and ${runs.name} lie along one line; ${stops.name} cannot stop on its side.`,
      })
    const id = `${place.id}/${sketch.members[member]!.slug}`
    const made = isRound(runs.section)
      ? saddleAt(place, id, stops, end, runs, out, cutting)
      : good(butt(id, stops, end, runs, gap))
    if (!made.ok) return made
    members[member] = made.value.member
    cutting.joints.push(made.value.joint)
    if (out) reach = Math.max(reach, reachOf(made.value.member, end, runs, out, place.at))
  }
  if (out) members[settled.runs] = reaching(runs, out, place.at, reach)
  return good(undefined)
}

/** A round tube fitted on a round one. Where that one ends here too, it is as long as it must be. */
function saddleAt(
  place: Place,
  id: string,
  stops: Member,
  end: End,
  runs: Member,
  out: End | undefined,
  { gap, say }: Cutting,
): ReturnType<typeof saddle> {
  if (!isRound(stops.section))
    return bad(
      'butt-on-round',
      `At ${place.name}: ${stops.name} stops on ${runs.name}, which is round and has no flat side. Let ${stops.name} run through, or take round tube for both.`,
      place.field,
    )
  // Longer than any saddle within the greatest slant: the end is cut to what the saddle needs, after it.
  const room = (stops.section.width + runs.section.width) / cosDeg(mostSlant)
  const onto = out ? reaching(runs, out, place.at, room) : runs
  const made = saddle(id, stops, end, onto, gap, say)
  return made.ok
    ? made
    : badAll(
        made.problems.map((each) => ({
          ...each,
          text: `At ${place.name}: ${each.text}`,
          field: place.field,
        })),
      )
}

/** How far an end that stops on `runs` reaches past `at`, along the axis of `runs` out of its end. */
function reachOf(stops: Member, end: End, runs: Member, out: End, at: Vec3): Mm {
  const away = scale(axisX(runs.pose), out === 'B' ? 1 : -1)
  return endReach(stops, end, away) - dot(at, away)
}

/** A member that runs past its point, so that what stops on it finds its whole face. */
function reaching(of: Member, end: End, at: Vec3, reach: Mm): Member {
  const away = scale(axisX(of.pose), end === 'B' ? 1 : -1)
  return cutEnd(of, end, add(at, scale(away, reach)), away, 'open')
}

function slanting({ name, field }: Place, { ends }: Corner, members: readonly Member[]): Result<void> {
  for (const { member, end } of ends) {
    const of = members[member]!
    const slant = toDeg(Math.acos(Math.min(1, Math.abs(of.ends[endIndex(end)].normal[0]))))
    if (slant > mostSlant)
      return bad(
        'too-slanting',
        `${of.name} would be cut ${slant.toFixed(1)}° from square at ${name}; ${mostSlant}° is the most. Square is possible, or another point.`,
        field,
      )
  }
  return good(undefined)
}
