import { axisX, dirToLocal, dirToWorld, origin, toLocal, toWorld } from '../geometry/pose.ts'
import { add, norm, scale, sub, type Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import { isRound } from '../section/section.ts'
import { sameLength, samePoint, sameSlope } from '../tolerance.ts'
import type { Mm, Rad } from '../units.ts'
import type { Joint, Member, Saddle } from './frame.ts'
import { cutEnd, type End, endIndex } from './member.ts'
import { besideAxis, greatestAround, outsideAt, rimAt, roundEnd, saddleX } from './round-end.ts'

export { outsideAt }

// A round tube whose end is fitted round another round tube.

/** The cut that the saw makes before the saddle is worked: square to the tube, or along the tube that it sits on. */
export type FirstCut = 'square' | 'miter'

export interface Saddled {
  readonly member: Member
  readonly joint: Joint
}

/**
 * Saddle: the end of `stops` sits on the outside of `runs`, at any angle and with axes that may pass beside each other.
 * The root gap is added to the radius. The saw first cuts a plane that touches the longest point of the saddle: square,
 * or with `miter` parallel to the other tube, which leaves less to work away. Cut the ends of `runs` first.
 *
 * Fails, saying what is possible: either tube not round, axes that are parallel, a tube that misses the other or hangs past
 * its sides, a saddle past the other's ends, no steel left.
 */
export function saddle(
  id: string,
  stops: Member,
  end: End,
  runs: Member,
  gap: Mm,
  say: (mm: Mm) => string,
  first: FirstCut = 'square',
): Result<Saddled> {
  const round = [stops, runs].find(({ section }) => !isRound(section))
  if (round)
    return bad(
      'saddle-not-round',
      `${round.name} is ${round.section.kind.replace('-', ' ')}; a saddle joins round to round. On a flat face the end is cut straight: use a butt joint.`,
    )
  const along = dirToLocal(stops.pose, axisX(runs.pose))
  const square = along[1] ** 2 + along[2] ** 2
  if (!(square > sameSlope))
    return bad(
      'saddle-parallel',
      `${stops.name} runs along ${runs.name}; a saddle needs an angle between them.`,
    )
  const to: Saddle = {
    on: runs.id,
    point: nearestOn(along, toLocal(stops.pose, origin(runs.pose))),
    along,
    radius: runs.section.width / 2 + gap,
  }
  const problem = beside(stops, runs, to, say)
  if (problem) return problem
  const cut = firstCut(stops, end, to, first)
  const mated = cutEnd(
    stops,
    end,
    toWorld(stops.pose, cut.point),
    dirToWorld(stops.pose, cut.normal),
    runs.id,
  )
  const ends = [...mated.ends] as [Member['ends'][0], Member['ends'][1]]
  ends[endIndex(end)] = { ...ends[endIndex(end)], saddle: to }
  const member: Member = { ...mated, ends }
  const short = -greatestAround((angle) => roundEnd(member, 'A', angle) - roundEnd(member, 'B', angle)).value
  if (short <= samePoint)
    return bad(
      'saddle-no-steel',
      `${stops.name} has no steel left on its short side (${say(short)}) where it comes to ${runs.name}; move them apart.`,
    )
  const past = pastEnds(member, end, runs)
  if (past > sameLength)
    return bad(
      'saddle-past-the-end',
      `The saddle of ${stops.name} reaches ${say(past)} past the end of ${runs.name}; it must lie on it all round.`,
    )
  const meets = toWorld(stops.pose, [saddleX(to, end, 0, 0), 0, 0])
  return good({
    member,
    joint: { id, kind: 'saddle', members: [stops.id, runs.id], at: meets, ends: [end, 'side'] },
  })
}

/** The point of the other axis that is nearest to the member's own, local. */
function nearestOn(along: Vec3, point: Vec3): Vec3 {
  const back = (point[1] * along[1] + point[2] * along[2]) / (along[1] ** 2 + along[2] ** 2)
  return add(point, scale(along, -back))
}

/** A tube that misses the other one or hangs past its sides. */
function beside(stops: Member, runs: Member, to: Saddle, say: (mm: Mm) => string): Result<never> | undefined {
  const [own, other] = [stops.section.width / 2, runs.section.width / 2]
  const away = Math.abs(besideAxis(to, 0, 0))
  const sizes = `${stops.name} is ${say(2 * own)} across, ${runs.name} ${say(2 * other)}`
  if (away >= own + other - samePoint)
    return bad(
      'saddle-misses',
      `${stops.name} passes ${runs.name} without meeting it: their axes are ${say(away)} apart; they may be ${say(Math.max(0, other - own))} apart.`,
    )
  if (own > other + samePoint)
    return bad(
      'saddle-too-wide',
      `${sizes}: a saddle sits only on a tube at least as wide; let the wide one run through.`,
    )
  if (own + away > other + samePoint)
    return bad(
      'saddle-hangs-past',
      `${sizes}, their axes ${say(away)} apart: it hangs past the side. They may be at most ${say(other - own)} apart.`,
    )
  return undefined
}

/** Plane of the first cut, local: it touches the longest point of the saddle, so that no steel is missing. */
function firstCut(stops: Member, end: End, to: Saddle, first: FirstCut): { point: Vec3; normal: Vec3 } {
  const sign = end === 'B' ? 1 : -1
  const { along } = to
  const square = along[1] ** 2 + along[2] ** 2
  const p = first === 'miter' ? (along[0] * along[1]) / square : 0
  const q = first === 'miter' ? (along[0] * along[2]) / square : 0
  const { value } = greatestAround((angle) => {
    const [y, z] = rimAt(stops.section.width / 2, angle)
    return sign * (saddleX(to, end, y, z) - p * y - q * z)
  })
  return { point: [sign * value, 0, 0], normal: [1, -p, -q] }
}

/** How far the saddle reaches past the steel of the tube that it sits on; negative where it lies on it. */
function pastEnds(member: Member, end: End, runs: Member): Mm {
  const steel = [
    greatestAround((angle) => roundEnd(runs, 'A', angle)).value,
    -greatestAround((angle) => -roundEnd(runs, 'B', angle)).value,
  ] as const
  const onRuns = (angle: Rad) => toLocal(runs.pose, outsideAt(member, end, angle))[0]
  return Math.max(
    greatestAround((angle) => steel[0] - onRuns(angle)).value,
    greatestAround((angle) => onRuns(angle) - steel[1]).value,
  )
}

/**
 * The end of a round member unrolled: local x on its outside at `steps` equal angles from local +y toward +z, exact at each
 * of them. Also for a plane end, which unrolls to a wave.
 */
export const saddleProfile = (of: Member, end: End, steps: number): readonly Mm[] =>
  Array.from({ length: steps }, (_, k) => roundEnd(of, end, (2 * Math.PI * k) / steps))

/** Length of the end's outline on the outside from one angle to another, along the steel, mm. */
export function outlineLength(of: Member, end: End, from: Rad, to: Rad): Mm {
  const chords = 720
  let sum = 0
  let before = outsideAt(of, end, from)
  for (let k = 1; k <= chords; k++) {
    const at = outsideAt(of, end, from + ((to - from) * k) / chords)
    sum += norm(sub(at, before))
    before = at
  }
  return sum
}
