import { axisX, origin } from '../geometry/pose.ts'
import { add, dot, scale, type Vec3 } from '../geometry/vec3.ts'
import type { Mm } from '../units.ts'
import type { Joint, Mate, Member, Plate } from './frame.ts'
import { cutEnd, type End } from './member.ts'

/** Where a member's axis meets a world plane; the axis must not run along it (`jointProblem` says so). */
function onAxis(of: Member, point: Vec3, normal: Vec3): Vec3 {
  const along = axisX(of.pose)
  const start = origin(of.pose)
  return add(start, scale(along, (dot(point, normal) - dot(start, normal)) / dot(along, normal)))
}

/**
 * An end cut parallel to the floor, at world height `z`, mm. What it meets (`mate`) lies past the end; a root gap is taken
 * off square to the plane, so that the axis gives gap/cos(lean).
 */
export function flat(of: Member, end: End, z: Mm, mate: Mate = 'floor', gap: Mm = 0): Member {
  const out = (end === 'B' ? 1 : -1) * Math.sign(axisX(of.pose)[2])
  const up: Vec3 = [0, 0, 1]
  return cutEnd(of, end, onAxis(of, [0, 0, z - out * gap], up), up, mate)
}

/** An end cut parallel to a plate, on that face of it that looks toward the member. */
export function flatOn(
  id: string,
  of: Member,
  end: End,
  plate: Plate,
  gap: Mm,
): { readonly member: Member; readonly joint: Joint } {
  const normal: Vec3 = [plate.pose[8]!, plate.pose[9]!, plate.pose[10]!]
  const out = (end === 'B' ? 1 : -1) * Math.sign(dot(axisX(of.pose), normal))
  // The member comes against +z from below (out > 0), or against −z from above.
  const face = add(origin(plate.pose), scale(normal, out > 0 ? 0 : plate.thickness))
  const at = onAxis(of, face, normal)
  return {
    member: cutEnd(of, end, onAxis(of, add(face, scale(normal, -out * gap)), normal), normal, plate.id),
    joint: { id, kind: 'flat', members: [of.id, plate.id], at, ends: [end, 'side'] },
  }
}
