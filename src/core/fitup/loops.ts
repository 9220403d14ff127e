import type { Frame, Joint, Member } from '../frame/frame.ts'
import { type End, endCorners } from '../frame/member.ts'
import type { Point, Polygon } from '../geometry/polygon.ts'
import { area } from '../geometry/polygon.ts'
import { axisX } from '../geometry/pose.ts'
import { mid } from '../geometry/vec3.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { cyclesIn } from './cycles.ts'
import { along, left, long, minus, times, unit2 } from './move.ts'
import { onPlane, type Plane, planesOf } from './plane.ts'

/** One side of a joint in the plane of the loop: where the face lies on the outside and on the inside of the loop. */
export interface Contact {
  /** The piece ends here, or the other one stops on its side. */
  readonly end: End | 'side'
  readonly outer: Point
  readonly inner: Point
}

/** A piece of a closed loop as planned, walked counterclockwise from `entry` to `exit`. */
export interface LoopPiece {
  readonly member: string
  readonly name: string
  readonly entry: Contact
  readonly exit: Contact
  /** Unit, along the member from its A end. */
  readonly axis: Point
  /** Its longer edge, on which its length is measured and where a wrong angle leaves the corner. */
  readonly longSide: 'outer' | 'inner'
  readonly outline: Polygon
}

/** A ring of steel that closes on itself. Joint k lies between piece k − 1 and piece k. */
export interface Loop {
  /** Id of the sub-assembly that it is, or its members' ids. */
  readonly id: string
  readonly name: string
  readonly joints: readonly string[]
  readonly pieces: readonly LoopPiece[]
  readonly plane: Plane
  /** Its joints are the corners of a mitered ring that is welded lying flat. */
  readonly ring: boolean
}

/** Outer and inner side of four corners, seen along `walk`: the outside of a loop is at the right hand. */
function sides(corners: readonly Point[], walk: Point): { outer: Point; inner: Point } {
  const across = [...corners].sort((a, b) => along(left(walk), a) - along(left(walk), b))
  const half = (a: Point, b: Point): Point => times([a[0] + b[0], a[1] + b[1]], 0.5)
  return { outer: half(across[0]!, across[1]!), inner: half(across[2]!, across[3]!) }
}

/** Joints at which a member ends: the others have no face to close. */
export const closes = (joint: Joint): boolean =>
  joint.members.length === 2 && joint.ends.some((end) => end === 'A' || end === 'B')

export function meetingsOf(frame: Frame): ReadonlyMap<string, readonly Joint[]> {
  const members = new Set(frame.members.map(({ id }) => id))
  const found = new Map<string, Joint[]>(frame.members.map(({ id }) => [id, []]))
  for (const joint of frame.joints)
    if (closes(joint) && joint.members.every((id) => members.has(id)))
      for (const id of joint.members) found.get(id)!.push(joint)
  return found
}

interface Turned {
  readonly joints: readonly Joint[]
  /** Member k runs from joint k to joint k + 1. */
  readonly members: readonly Member[]
}

function counterclockwise(plane: Plane, { joints, members }: Turned): Turned {
  if (area(joints.map(({ at }) => onPlane(plane, at))) >= 0) return { joints, members }
  const back = members.toReversed()
  return { members: back, joints: [joints[0]!, ...joints.slice(1).toReversed()] }
}

/** The loop with its pieces laid in the plane; undefined where a joint has no face there. */
function loopOf(id: string, name: string, ring: boolean, plane: Plane, cycle: Turned): Loop | undefined {
  const { joints, members } = counterclockwise(plane, cycle)
  const n = members.length
  const spots = joints.map(({ at }) => onPlane(plane, at))
  const corners = (of: Member, end: End): readonly Point[] =>
    endCorners(of, end).map((corner) => onPlane(plane, corner))
  const walks = members.map((_, at) => {
    const way = minus(spots[(at + 1) % n]!, spots[at]!)
    return long(way) < sameLength ? undefined : unit2(way)
  })
  /** How the member walks: along its own axis where it runs in the plane, else from joint to joint. */
  const walkOf = (at: number): Point => {
    const axis = onPlane(plane, axisX(members[at]!.pose))
    const way = walks[at] ?? axis
    if (long(axis) < 0.5) return way
    return unit2(along(axis, way) < 0 ? times(axis, -1) : axis)
  }
  const own = (joint: Joint, at: number): Contact | undefined => {
    const end = joint.ends[joint.members.indexOf(members[at]!.id)]
    return end === 'A' || end === 'B' ? { end, ...sides(corners(members[at]!, end), walkOf(at)) } : undefined
  }
  const pieces: LoopPiece[] = []
  for (const [at, of] of members.entries()) {
    const [first, last] = [joints[at]!, joints[(at + 1) % n]!]
    const before = own(first, (at + n - 1) % n)
    const after = own(last, (at + 1) % n)
    const entry = own(first, at) ?? (before && { ...before, end: 'side' as const })
    const exit = own(last, at) ?? (after && { ...after, end: 'side' as const })
    if (!entry || !exit) return undefined
    const walk = walkOf(at)
    const axis = onPlane(plane, axisX(of.pose))
    const flat = long(axis) > 0.5
    const [a, b] = [sides(corners(of, 'A'), walk), sides(corners(of, 'B'), walk)]
    const length = (side: 'outer' | 'inner'): Mm => long(minus(exit[side], entry[side]))
    pieces.push({
      member: of.id,
      name: of.name,
      entry,
      exit,
      axis: flat ? unit2(axis) : walk,
      longSide: length('inner') > length('outer') + sameLength ? 'inner' : 'outer',
      outline: flat ? [a.outer, b.outer, b.inner, a.inner] : corners(of, 'A'),
    })
  }
  return { id, name, ring, plane, joints: joints.map((joint) => joint.id), pieces }
}

/** Sub-assemblies that are a ring, with the plane of their joints. */
function rings(frame: Frame, planes: readonly Plane[]): Loop[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const joints = new Map(frame.joints.map((each) => [each.id, each]))
  return frame.assemblies.flatMap(({ id, name, ring }) => {
    const own = (ring ?? []).flatMap((joint) => joints.get(joint) ?? [])
    if (own.length < 3) return []
    const between = own.map((joint, at) => {
      const next = own[(at + 1) % own.length]!
      return joint.members.find((one) => next.members.includes(one))
    })
    const pieces = between.flatMap((one) => members.get(one ?? '') ?? [])
    const plane = planes.find((each) => own.every(({ at }) => Math.abs(dotOf(each, at) - each.offset) < 0.5))
    const loop =
      plane && pieces.length === own.length
        ? loopOf(id, name, true, plane, { joints: own, members: pieces })
        : undefined
    return loop ? [loop] : []
  })
}

const dotOf = ({ normal }: Plane, at: readonly [number, number, number]): Mm =>
  normal[0] * at[0] + normal[1] * at[1] + normal[2] * at[2]

/**
 * Every closed loop of a frame: first the mitered rings, then the smallest cycles of members in each plane that the
 * frame has, also round posts that stand square to it. Empty for a frame that closes nowhere.
 */
export function loopsOf(frame: Frame): readonly Loop[] {
  const meetings = meetingsOf(frame)
  const planes = planesOf(frame, meetings)
  const found: Loop[] = rings(frame, planes)
  const nameOf = (members: readonly Member[]): string =>
    members
      .map(({ id }) => id)
      .sort()
      .join(' ')
  const seen = new Set(
    found.map(({ pieces }) =>
      pieces
        .map(({ member }) => member)
        .sort()
        .join(' '),
    ),
  )
  for (const plane of planes)
    for (const cycle of cyclesIn(frame, meetings, plane)) {
      const id = nameOf(cycle.members)
      if (seen.has(id)) continue
      seen.add(id)
      const sidesIn = cycle.members.filter(({ pose }) => long(onPlane(plane, axisX(pose))) > 0.5)
      const loop = loopOf(id, sayLoop(sidesIn), false, plane, cycle)
      // Steel that only crosses on a post encloses nothing.
      const widest = Math.max(...cycle.members.map(({ section }) => Math.max(section.width, section.height)))
      const room = Math.abs(area(cycle.joints.map(({ at }) => onPlane(plane, at))))
      if (loop && room > 4 * widest ** 2) found.push(loop)
    }
  return found
}

/** `Long side 1, bar 2 …`: a loop that has no name of its own is called by what it is made of. */
const sayLoop = (members: readonly Member[]): string => members.map(({ name }) => name).join(', ')

/** Outside corner of the loop at joint k: where the outer faces of its two pieces meet. */
export const cornerOf = ({ pieces }: Loop, at: number, side: 'outer' | 'inner'): Point => {
  const before = pieces[(at + pieces.length - 1) % pieces.length]!.exit[side]
  const after = pieces[at]!.entry[side]
  const [x, y] = mid([...before, 0], [...after, 0])
  return [x, y]
}
