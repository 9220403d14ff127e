import type { Frame, Joint, Member } from '../frame/frame.ts'
import type { Point } from '../geometry/polygon.ts'
import { axisX, axisY, axisZ, toWorld } from '../geometry/pose.ts'
import { cross, dot, norm, scale, unit, type Vec3 } from '../geometry/vec3.ts'
import { samePoint, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** The plane in which a loop lies; `u` and `v` span it, right-handed with `normal`. */
export interface Plane {
  readonly normal: Vec3
  /** Of the axes along the normal. */
  readonly offset: Mm
  readonly u: Vec3
  readonly v: Vec3
}

export const onPlane = ({ u, v }: Plane, point: Vec3): Point => [dot(u, point), dot(v, point)]

/** Normal that looks up, or to +x or +y where the plane is upright. */
function planeOf(direction: Vec3, through: Vec3): Plane {
  const way = unit(direction)
  const up = [...way].reverse().find((part) => Math.abs(part) > samePoint) ?? 1
  const normal = scale(way, up > 0 ? 1 : -1)
  const level = cross([0, 0, 1], normal)
  const u: Vec3 = norm(level) < sameSlope ? [1, 0, 0] : unit(level)
  return { normal, offset: dot(normal, through), u, v: cross(normal, u) }
}

const middleOf = ({ pose, ends }: Member): Vec3 =>
  toWorld(pose, [(ends[0].point[0] + ends[1].point[0]) / 2, 0, 0])

/** Half of what the section reaches along a direction. */
const halfAlong = ({ pose, section }: Member, direction: Vec3): Mm =>
  (Math.abs(dot(axisY(pose), direction)) * section.width +
    Math.abs(dot(axisZ(pose), direction)) * section.height) /
  2

/** Whether the member runs in the plane and the plane goes through its steel. */
export const runsIn = (plane: Plane, of: Member): boolean =>
  Math.abs(dot(axisX(of.pose), plane.normal)) < sameSlope &&
  Math.abs(dot(plane.normal, middleOf(of)) - plane.offset) < halfAlong(of, plane.normal) + samePoint

/** A plane for every pair of members that meet, directly or on a common third one, and run in different directions. */
export function planesOf(frame: Frame, meetings: ReadonlyMap<string, readonly Joint[]>): readonly Plane[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const found = new Map<string, Plane>()
  const look = (one: Member, two: Member) => {
    const normal = cross(axisX(one.pose), axisX(two.pose))
    if (one === two || norm(normal) < sameSlope) return
    const plane = planeOf(normal, middleOf(one))
    if (!runsIn(plane, two)) return
    const name = [...plane.normal, plane.offset].map((part) => (part + 0).toFixed(3)).join(' ')
    if (!found.has(name)) found.set(name, plane)
  }
  for (const [id, joints] of meetings) {
    const around = joints.flatMap(({ members: ids }) =>
      ids.filter((other) => other !== id).flatMap((other) => members.get(other) ?? []),
    )
    const self = members.get(id)!
    for (const one of around) {
      look(self, one)
      for (const two of around) look(one, two)
    }
  }
  return [...found.values()]
}
