import type { Joint, Member, Warning } from '../frame/frame.ts'
import { type Footprint, footprintOf } from '../frame/landing.ts'
import { endCorners, endPlane } from '../frame/member.ts'
import { axisX, axisY, axisZ, dirToLocal, dirToWorld, toLocal, toWorld } from '../geometry/pose.ts'
import { boxAround, cross, dot, norm, scale, sub, type Vec3 } from '../geometry/vec3.ts'
import { isRound } from '../section/section.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** Ends that hang past the end of what they stop on: there is no face there to weld to. */
export function pastEndWarnings(
  members: readonly Member[],
  joints: readonly Joint[],
  say: (mm: Mm) => string,
): Warning[] {
  const byId = new Map(members.map((each) => [each.id, each]))
  return joints
    .filter((joint) => joint.kind === 'butt' && !landsWithin(joint, byId))
    .flatMap((joint): Warning[] => {
      const [by, on] = joint.members.map((id) => byId.get(id)!) as [Member, Member]
      const footprint = footprintOf(joint, byId)
      const past = footprint ? hanging(footprint) : Number.POSITIVE_INFINITY
      if (past <= sameLength) return []
      const hangs = footprint ? `hangs ${say(past)} past the end of` : 'lands nowhere on'
      return [
        {
          code: 'landing-past-the-end',
          text: `${by.name} ${hangs} ${on.name}; move its point, or make ${on.name} longer.`,
          members: [by.id, on.id],
        },
      ]
    })
}

/** Whether an end lies between the ends of all four edges of what it stops on: most do, and need no closer look. */
function landsWithin({ members: [by, on], ends: [end] }: Joint, byId: ReadonlyMap<string, Member>): boolean {
  const stops = byId.get(by!)!
  const runs = byId.get(on!)!
  const plane = endPlane(stops.ends[end === 'A' ? 0 : 1])
  const [dx, dy, dz] = dirToLocal(stops.pose, axisX(runs.pose))
  const middle = toLocal(runs.pose, toWorld(stops.pose, [plane.x, 0, 0]))[0]
  const half =
    (Math.abs(dx * plane.p + dy) * stops.section.width + Math.abs(dx * plane.q + dz) * stops.section.height) /
    2
  const { width, height } = runs.section
  const [a, b] = [endPlane(runs.ends[0]), endPlane(runs.ends[1])]
  const least = a.x + (Math.abs(a.p) * width + Math.abs(a.q) * height) / 2
  const most = b.x - (Math.abs(b.p) * width + Math.abs(b.q) * height) / 2
  return middle - half >= least - sameLength && middle + half <= most + sameLength
}

/** How far the outline of what lands goes on, along the receiver, where there is no face under it any more. */
function hanging({ whole, outline }: Footprint): Mm {
  const [all, landed] = [whole, outline].map((of) => of.map(([x]) => x))
  return Math.max(Math.min(...landed!) - Math.min(...all!), Math.max(...all!) - Math.max(...landed!))
}

/** A member as a convex body: its corners, those of end A first, and the box round them. */
interface Body {
  readonly of: Member
  readonly corners: readonly Vec3[]
  readonly low: Vec3
  readonly high: Vec3
}

function bodyOf(of: Member): Body {
  const corners = [...endCorners(of, 'A'), ...endCorners(of, 'B')]
  return { of, corners, ...boxAround(corners) }
}

const normalsOf = ({ of: { pose, ends } }: Body): readonly Vec3[] => [
  axisY(pose),
  axisZ(pose),
  ...ends.map(({ normal }) => dirToWorld(pose, normal)),
]

const edgesOf = ({ of, corners }: Body): readonly Vec3[] => [
  axisX(of.pose),
  ...[0, 1, 4, 5].map((at) => sub(corners[at]!, corners[at + 1]!)),
]

/** How deep two bodies lie in each other along a direction of unit length, mm; 0 or less: they are apart. */
function deep(one: Body, two: Body, along: Vec3): Mm {
  let [low1, high1, low2, high2] = [Number.POSITIVE_INFINITY, -Infinity, Number.POSITIVE_INFINITY, -Infinity]
  for (const corner of one.corners) {
    const at = dot(corner, along)
    if (at < low1) low1 = at
    if (at > high1) high1 = at
  }
  for (const corner of two.corners) {
    const at = dot(corner, along)
    if (at < low2) low2 = at
    if (at > high2) high2 = at
  }
  return Math.min(high1 - low2, high2 - low1)
}

const boxesApart = (one: Body, two: Body): boolean =>
  one.high[0] - two.low[0] <= sameLength ||
  two.high[0] - one.low[0] <= sameLength ||
  one.high[1] - two.low[1] <= sameLength ||
  two.high[1] - one.low[1] <= sameLength ||
  one.high[2] - two.low[2] <= sameLength ||
  two.high[2] - one.low[2] <= sameLength

/**
 * How deep two members lie in each other: the least way that would part them, mm; 0 where they touch or are apart.
 * Two convex bodies are apart exactly when they are along a normal of a face or along the cross of two edges (the
 * separating axis theorem). The outer box counts, also of a round member.
 */
function clash(one: Body, two: Body): Mm {
  let least = Number.POSITIVE_INFINITY
  for (const normal of [...normalsOf(one), ...normalsOf(two)]) {
    least = Math.min(least, deep(one, two, normal))
    if (least <= sameLength) return 0
  }
  const others = edgesOf(two)
  for (const a of edgesOf(one))
    for (const b of others) {
      const across = cross(a, b)
      const length = norm(across)
      // Edges along one line: the normals of their faces have said all there is.
      if (length <= sameSlope * norm(a) * norm(b)) continue
      least = Math.min(least, deep(one, two, scale(across, 1 / length)))
      if (least <= sameLength) return 0
    }
  return least
}

/**
 * Members that run into each other: no joint parts them. Pairs in the order of the frame. A saddle lies round what it
 * sits on, as it should: such pairs are passed over.
 */
export function clashWarnings(
  members: readonly Member[],
  joints: readonly Joint[],
  say: (mm: Mm) => string,
): Warning[] {
  const bodies = members.map(bodyOf)
  const fitted = new Set(
    joints
      .filter(({ kind }) => kind === 'saddle')
      .flatMap(({ members: [a, b] }) => [`${a} ${b}`, `${b} ${a}`]),
  )
  const warnings: Warning[] = []
  for (const [at, one] of bodies.entries())
    for (let next = at + 1; next < bodies.length; next++) {
      const two = bodies[next]!
      if (boxesApart(one, two)) continue
      const mm = clash(one, two)
      if (mm === 0 || fitted.has(`${one.of.id} ${two.of.id}`)) continue
      const round = isRound(one.of.section) || isRound(two.of.section)
      warnings.push({
        code: 'members-clash',
        text:
          `${one.of.name} and ${two.of.name} run into each other${round ? ', or nearly' : ''}, ${say(mm)} deep. ` +
          'Let one stop on the other at a point of both, or move one.',
        members: [one.of.id, two.of.id],
      })
    }
  return warnings
}
