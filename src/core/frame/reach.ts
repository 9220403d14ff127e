import { axisX, axisY, axisZ, toWorld } from '../geometry/pose.ts'
import { add, dot, scale, type Vec3 } from '../geometry/vec3.ts'
import { isRound } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { Member } from './frame.ts'
import { type End, endCorners, endIndex, endPlane } from './member.ts'
import { greatestAround, outsideAt } from './round-end.ts'

/** How far the end of a round member reaches along a world direction of length 1, measured from the world's origin. */
export function roundReach(of: Member, end: End, direction: Vec3): Mm {
  const cut = of.ends[endIndex(end)]
  if (cut.saddle) return greatestAround((angle) => dot(outsideAt(of, end, angle), direction)).value
  // The outline is the ellipse m + cos(t)·u + sin(t)·v: its reach is that of m and the hypotenuse of those of u and v.
  const { x, p, q } = endPlane(cut)
  const along = axisX(of.pose)
  const u = add(axisY(of.pose), scale(along, p))
  const v = add(axisZ(of.pose), scale(along, q))
  const radius = of.section.width / 2
  return (
    dot(toWorld(of.pose, [x, 0, 0]), direction) + radius * Math.hypot(dot(u, direction), dot(v, direction))
  )
}

/** The same for any member. */
export const endReach = (of: Member, end: End, direction: Vec3): Mm =>
  isRound(of.section)
    ? roundReach(of, end, direction)
    : Math.max(...endCorners(of, end).map((corner) => dot(corner, direction)))
