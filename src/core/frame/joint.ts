import { axisX, dirToLocal, origin } from '../geometry/pose.ts'
import { add, cross, dot, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import { isRound } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { Joint, Member } from './frame.ts'
import { cutEnd, type End, faceAway, faceNormal, faceToward } from './member.ts'

/** Direction of the axis that points out of the named end. */
const outOf = (of: Member, end: End): Vec3 => scale(axisX(of.pose), end === 'B' ? 1 : -1)

/** How far the section reaches across, along a world direction square to the axis: both sides together. */
function across(of: Member, direction: Vec3): Mm {
  if (isRound(of.section)) return of.section.width
  const local = dirToLocal(of.pose, direction)
  return Math.abs(local[1]) * of.section.width + Math.abs(local[2]) * of.section.height
}

/**
 * Miter of two members whose axes meet at `at`: each is cut by the plane through the outer and the inner corner.
 * Of equal widths that plane bisects the axes; of unequal ones tan m1 = (w2 + w1 cos K) / (w1 sin K), K the
 * interior angle. A root gap takes gap/2 off each part, square to the plane.
 */
export function miter(
  id: string,
  one: Member,
  oneEnd: End,
  two: Member,
  twoEnd: End,
  at: Vec3,
  gap: Mm,
): { readonly members: readonly [Member, Member]; readonly joint: Joint } {
  const in1 = scale(outOf(one, oneEnd), -1)
  const in2 = scale(outOf(two, twoEnd), -1)
  const bend = cross(in1, in2)
  let normal: Vec3
  if (norm(bend) < sameSlope) normal = in1
  else {
    const w1 = across(one, unit(cross(bend, in1)))
    const w2 = across(two, unit(cross(bend, in2)))
    const toOuter = add(scale(in1, w2), scale(in2, w1))
    normal = unit(cross(bend, toOuter))
  }
  const toward1 = dot(normal, in1) > 0 ? normal : scale(normal, -1)
  const back = (direction: Vec3) => add(at, scale(direction, gap / 2))
  return {
    members: [
      cutEnd(one, oneEnd, back(toward1), normal, two.id),
      cutEnd(two, twoEnd, back(scale(toward1, -1)), normal, one.id),
    ],
    joint: { id, kind: 'miter', members: [one.id, two.id], at, ends: [oneEnd, twoEnd] },
  }
}

/** Butt: `stops` ends on the face of `runs` that looks toward it; the root gap is all its. */
export function butt(
  id: string,
  stops: Member,
  end: End,
  runs: Member,
  gap: Mm,
): { readonly member: Member; readonly joint: Joint } {
  const toward = scale(outOf(stops, end), -1)
  const face = faceToward(runs, toward)
  const normal = faceNormal(runs.pose, face)
  const on = add(origin(runs.pose), scale(normal, faceAway(runs.section, face)))
  const along = outOf(stops, end)
  // Where the stopping axis meets the face.
  const start = origin(stops.pose)
  const reach = dot(sub(on, start), normal) / dot(along, normal)
  const at = add(start, scale(along, reach))
  return {
    member: cutEnd(stops, end, add(at, scale(normal, gap)), normal, runs.id),
    joint: { id, kind: 'butt', members: [stops.id, runs.id], at, ends: [end, 'side'] },
  }
}

/** One member lies across another: face on face, nothing is cut. */
export const lies = (id: string, by: Member, on: Member, at: Vec3): Joint => ({
  id,
  kind: 'flat',
  members: [by.id, on.id],
  at,
  ends: ['side', 'side'],
})
