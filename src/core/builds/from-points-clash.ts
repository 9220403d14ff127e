import type { Joint, Member, Warning } from '../frame/frame.ts'
import { type Footprint, footprintOf } from '../frame/landing.ts'
import { edgesOf, endCorners, endPlane } from '../frame/member.ts'
import { axisX, axisY, axisZ, dirToLocal, dirToWorld, toLocal, toWorld } from '../geometry/pose.ts'
import { cross, dot, norm, scale, sub, type Vec3 } from '../geometry/vec3.ts'
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
  const { a, b } = edgesOf(runs)
  return middle - half >= Math.max(...a) - sameLength && middle + half <= Math.min(...b) + sameLength
}

/** How far the outline of what lands goes on, along the receiver, where there is no face under it any more. */
function hanging({ whole, outline }: Footprint): Mm {
  const [all, landed] = [whole, outline].map((of) => of.map(([x]) => x))
  return Math.max(Math.min(...landed!) - Math.min(...all!), Math.max(...all!) - Math.max(...landed!))
}

/** A member as a convex body: its corners, and the directions of its faces and edges. */
interface Body {
  readonly of: Member
  readonly corners: readonly Vec3[]
  readonly low: Vec3
  readonly high: Vec3
  readonly normals: readonly Vec3[]
  readonly edges: readonly Vec3[]
}

function bodyOf(of: Member): Body {
  const a = endCorners(of, 'A')
  const b = endCorners(of, 'B')
  const corners = [...a, ...b]
  const bound = (axis: 0 | 1 | 2, pick: (a: number, b: number) => number) => {
    let found = corners[0]![axis]
    for (const corner of corners) found = pick(found, corner[axis])
    return found
  }
  const box = (pick: (a: number, b: number) => number): Vec3 => [
    bound(0, pick),
    bound(1, pick),
    bound(2, pick),
  ]
  const ends = of.ends.map(({ normal }) => dirToWorld(of.pose, normal))
  const along = [sub(a[0]!, a[1]!), sub(a[1]!, a[2]!), sub(b[0]!, b[1]!), sub(b[1]!, b[2]!)]
  return {
    of,
    corners,
    low: box(Math.min),
    high: box(Math.max),
    normals: [axisY(of.pose), axisZ(of.pose), ...ends],
    edges: [axisX(of.pose), ...along],
  }
}

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
  for (const normal of [...one.normals, ...two.normals]) {
    least = Math.min(least, deep(one, two, normal))
    if (least <= sameLength) return 0
  }
  for (const a of one.edges)
    for (const b of two.edges) {
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
