import { area, common, counterclockwise, type Point, type Polygon } from '../geometry/polygon.ts'
import { axisX, dirToWorld, toLocal, toWorld } from '../geometry/pose.ts'
import { add, dot, scale, type Vec3 } from '../geometry/vec3.ts'
import type { EndPlane } from '../nest.ts'
import { flatOf, isRound } from '../section/section.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, toDeg } from '../units.ts'
import type { Frame, Joint, Member, Warning } from './frame.ts'
import {
  type End,
  edgeCorners,
  endCorners,
  endIndex,
  endPlane,
  type Face,
  faceAway,
  faceNormal,
  faces,
  faceToward,
  xAt,
} from './member.ts'
import { endOutline, greatestAround, outermost, outsideAt } from './round-end.ts'

/** Where one member touches another's face: the outline in that face, x along the receiver, v across it. */
export interface Footprint {
  readonly on: Member
  readonly by: Member
  readonly face: Face
  /** Common outline: x from the receiver's axis point A; v across the face, from its middle. */
  readonly outline: Polygon
  /** Outline of what lands, also where it hangs past the face. */
  readonly whole: Polygon
  /** The other side of the joint: an end that stops, or a face that lies on it. */
  readonly how: 'end' | 'lies'
}

/** A local point as (along, across) on a face: the other of y and z. */
export const onFace = (face: Face, [x, y, z]: Vec3): Point => [x, face[1] === 'y' ? z : y]

/** The point of a face at (along, across), local. */
export const faceLocal = (of: Member, face: Face, [x, v]: Point): Vec3 => {
  const away = faceAway(of.section, face) * (face[0] === '+' ? 1 : -1)
  return face[1] === 'y' ? [x, away, v] : [x, v, away]
}

export const faceWorld = (of: Member, face: Face, at: Point): Vec3 =>
  toWorld(of.pose, faceLocal(of, face, at))

/** The two long edges that bound a face, by their place in the order of the documents. */
const edgesOfFace: Readonly<Record<Face, readonly [0 | 1 | 2 | 3, 0 | 1 | 2 | 3]>> = {
  '+y': [0, 3],
  '-y': [1, 2],
  '+z': [0, 1],
  '-z': [2, 3],
}

/** A face's outline on itself, world corners. */
function faceCorners(of: Member, face: Face): Vec3[] {
  const [one, two] = edgesOfFace[face]
  const a = endCorners(of, 'A')
  const b = endCorners(of, 'B')
  return [a[one]!, b[one]!, b[two]!, a[two]!]
}

/** The same in the face: along and across. */
export function faceOutline(of: Member, face: Face): Polygon {
  const [a, b] = of.ends.map(endPlane)
  const corners = edgeCorners(of.section)
  const [one, two] = edgesOfFace[face].map((edge) => corners[edge]!)
  const at = (plane: EndPlane, [y, z]: readonly [Mm, Mm]) => onFace(face, [xAt(plane, y, z), y, z])
  return counterclockwise([at(a!, one!), at(b!, one!), at(b!, two!), at(a!, two!)])
}

/** Faces of both that lie on each other, and the common part of them; absent where they do not touch. */
export function lyingOn(by: Member, on: Member): Footprint | undefined {
  for (const face of faces)
    for (const other of faces) {
      const normal = faceNormal(on.pose, face)
      if (dot(normal, faceNormal(by.pose, other)) > -1 + sameSlope) continue
      const apart = dot(normal, add(faceCorners(by, other)[0]!, scale(faceCorners(on, face)[0]!, -1)))
      if (Math.abs(apart) > sameLength) continue
      const flat = (points: Vec3[]) =>
        counterclockwise(points.map((point) => onFace(face, toLocal(on.pose, point))))
      const whole = flat(faceCorners(by, other))
      const outline = common(whole, faceOutline(on, face))
      if (outline.length > 0) return { on, by, face, outline, whole, how: 'lies' }
    }
  return undefined
}

/** Footprint of an end that stops on a member's face; absent where it lands wholly beside it. */
export function endOn(by: Member, end: End, on: Member): Footprint | undefined {
  const corners = endOutline(by, end, axisX(on.pose))
  const far = toWorld(by.pose, [by.ends[0].point[0] / 2 + by.ends[1].point[0] / 2, 0, 0])
  const foot = scale(
    corners.reduce((sum, corner) => add(sum, corner)),
    1 / corners.length,
  )
  const face = faceToward(on, add(far, scale(foot, -1)))
  const flat = (points: readonly Vec3[]) =>
    counterclockwise(points.map((point) => onFace(face, toLocal(on.pose, point))))
  const whole = flat(corners)
  const outline = common(whole, faceOutline(on, face))
  return outline.length > 0 ? { on, by, face, outline, whole, how: 'end' } : undefined
}

/** The footprint of a joint, where a member meets a face; absent at miters and caps. */
export function footprintOf(joint: Joint, members: ReadonlyMap<string, Member>): Footprint | undefined {
  const by = members.get(joint.members[0] ?? '')
  const on = members.get(joint.members[1] ?? '')
  if (!by || !on || (joint.kind !== 'butt' && joint.kind !== 'flat')) return undefined
  const end = joint.ends[0]
  return end === 'A' || end === 'B' ? endOn(by, end, on) : lyingOn(by, on)
}

/** The footprints of a frame by their joints. Landings, warnings and seams all ask for them. */
export type Touching = ReadonlyMap<Joint, Footprint>

export function touchingOf({ joints, members }: Pick<Frame, 'joints' | 'members'>): Touching {
  const byId = new Map(members.map((each) => [each.id, each]))
  const found = new Map<Joint, Footprint>()
  for (const joint of joints) {
    const footprint = footprintOf(joint, byId)
    if (footprint) found.set(joint, footprint)
  }
  return found
}

/**
 * Both edges of the footprint from the receiver's A end, its long point there, and the X between them. A saddle's lie on
 * the nearest face of the box round the tube; `around` is where the middle of it lies, right-hand about the
 * receiver's axis from its +y.
 */
export interface LandingAt {
  readonly on: string
  readonly by: string
  readonly face: Face
  readonly from: 'A' | 'B'
  readonly near: Mm
  readonly far: Mm
  readonly around?: Deg
}

export function landingsOf(
  frame: Pick<Frame, 'joints' | 'members'>,
  touching = touchingOf(frame),
): LandingAt[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  return frame.joints.flatMap((joint): LandingAt | readonly [] => {
    if (joint.kind === 'saddle') return saddleLanding(joint, members) ?? []
    const footprint = touching.get(joint)
    if (!footprint) return []
    const { on, by, face, outline } = footprint
    const start = outermost(on, 'A')
    const xs = outline.map(([x]) => x - start)
    return { on: on.id, by: by.id, face, from: 'A', near: Math.min(...xs), far: Math.max(...xs) }
  })
}

/** Where a saddle sits on the tube that runs through. */
function saddleLanding(joint: Joint, members: ReadonlyMap<string, Member>): LandingAt | undefined {
  const by = members.get(joint.members[0] ?? '')
  const on = members.get(joint.members[1] ?? '')
  const end = joint.ends[0]
  if (!by || !on || (end !== 'A' && end !== 'B') || !by.ends[endIndex(end)].saddle) return undefined
  const x = (angle: number) => toLocal(on.pose, outsideAt(by, end, angle))[0]
  const start = outermost(on, 'A')
  const [, y, z] = toLocal(on.pose, joint.at)
  const toward = dirToWorld(on.pose, [0, y, z])
  return {
    on: on.id,
    by: by.id,
    face: faceToward(on, toward),
    from: 'A',
    near: -greatestAround((angle) => -x(angle)).value - start,
    far: greatestAround(x).value - start,
    around: (toDeg(Math.atan2(z, y)) + 360) % 360,
  }
}

/** Where a footprint is wider than the flat of its face: the seam along it is a flare seam over a round corner. */
export function landingWarnings(
  frame: Pick<Frame, 'joints' | 'members'>,
  say: (mm: Mm) => string,
  touching = touchingOf(frame),
): Warning[] {
  const said = new Map<string, Warning>()
  for (const { on, by, face, whole } of ownLandings(touching)) {
    const vs = whole.map(([, v]) => v)
    const wide = Math.max(...vs) - Math.min(...vs)
    const side = face[1] === 'y' ? 'height' : 'width'
    const flat = flatOf(on.section, side)
    const over = Math.max(Math.max(...vs), -Math.min(...vs)) - on.section[side] / 2
    const past = over > sameLength
    if (!past && wide <= flat + sameLength) continue
    const text = past
      ? wide > on.section[side] + sameLength
        ? `${plain(by.name)} is ${say(wide)} wide and hangs past the face of the ${plain(on.name).toLowerCase()}, ${say(on.section[side])}.`
        : `${plain(by.name)} lands beside the middle and hangs ${say(over)} past the face of the ${plain(on.name).toLowerCase()}, ${say(on.section[side])}.`
      : `${plain(by.name)} is ${say(wide)} wide where it lands on the ${plain(on.name).toLowerCase()}, whose face is flat over ` +
        `${say(flat)}: a flare seam along the round corner.`
    const before = said.get(text)
    said.set(text, {
      code: past ? 'landing-past-the-face' : 'landing-wider-than-flat',
      text,
      members: [...new Set([...(before?.members ?? []), by.id, on.id])],
    })
  }
  return [...said.values()]
}

/** Share of an end that must lie on steel for it not to hang past: the rest is a corner rounded off, and round steel has none. */
const landed = { square: 0.995, round: 0.9995 } as const

/**
 * Ends that land on one member alone. One that lands on several, as a leg under a mitered corner, is as wide as they are
 * together and is left out, unless together they leave some of it in the air.
 */
function ownLandings(touching: Touching): Footprint[] {
  const byEnd = new Map<string, Footprint[]>()
  for (const [joint, footprint] of touching) {
    if (footprint.how !== 'end') continue
    const end = `${footprint.by.id} ${joint.ends[0]}`
    byEnd.set(end, [...(byEnd.get(end) ?? []), footprint])
  }
  return [...byEnd.values()].flatMap((all) => {
    const on = all.reduce((sum, { outline }) => sum + Math.abs(area(outline)), 0)
    const { by, whole } = all[0]!
    const share = isRound(by.section) ? landed.round : landed.square
    return all.length > 1 && on >= share * Math.abs(area(whole)) ? [] : all
  })
}

const plain = (name: string) => name.replace(/\s*\d+$/, '')
