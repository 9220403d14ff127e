import type { Joint, Member } from '../frame/frame.ts'
import type { Footprint } from '../frame/landing.ts'
import { type End, endIndex, endPlane } from '../frame/member.ts'
import { outermost, outsideAt, rimAt } from '../frame/round-end.ts'
import { outlineLength } from '../frame/saddle.ts'
import { axisX, dirToLocal, dirToWorld, toLocal } from '../geometry/pose.ts'
import { add, cross, norm, scale, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Seam, SeamClass } from '../plan-shapes.ts'
import { samePoint, sameSlope } from '../tolerance.ts'
import type { Mm, Rad } from '../units.ts'

// Seams round the end of a round tube: arcs, a quarter round each, so that they can be welded in turn from side to side.
// From and to are the ends of the arc; the length is that of the arc along the steel.

const quarters = [0, 1, 2, 3] as const

interface Arc {
  readonly joint: Joint
  readonly of: Member
  readonly end: End
  readonly size: Mm
  /** Whose length the place of the seam is measured on. */
  readonly on: Member
}

function seam({ joint, of, end, size, on }: Arc, name: string, kind: SeamClass, from: Rad, to: Rad): Seam {
  const middle = toLocal(on.pose, outsideAt(of, end, (from + to) / 2))[0]
  const [y, z] = rimAt(1, (from + to) / 2)
  const radial = dirToWorld(of.pose, [0, y, z])
  const away = scale(axisX(of.pose), end === 'B' ? -1 : 1)
  return {
    id: `${joint.id}/${name}`,
    joint: joint.id,
    class: kind,
    length: outlineLength(of, end, from, to),
    size,
    from: outsideAt(of, end, from),
    to: outsideAt(of, end, to),
    out: kind === 'fillet' ? unit(add(radial, away)) : radial,
    place: { member: on.id, fromA: middle - outermost(on, 'A') },
  }
}

/** Where round the tube its end leans farthest out: quarters begin there, so that they end at toe, heel and sides. */
function leanOf(of: Member, end: End): Rad {
  const cut = of.ends[endIndex(end)]
  if (cut.saddle) return Math.atan2(cut.saddle.along[2], cut.saddle.along[1])
  const { p, q } = endPlane(cut)
  return Math.hypot(p, q) < sameSlope ? 0 : Math.atan2(q, p)
}

/** Quarters all round, between toe, sides and heel: of a saddle, or of a cap. */
export function allRound(arc: Arc, kind: 'fillet' | 'edge'): Seam[] {
  const start = leanOf(arc.of, arc.end)
  return quarters.map((k) =>
    seam(arc, `${kind}-${k + 1}`, kind, start + (k * Math.PI) / 2, start + ((k + 1) * Math.PI) / 2),
  )
}

/**
 * The four seams of two round tubes that are mitered: the quarters that look out of the corner, into it, and along the
 * bend; `top` is the one that looks up, or to +x or +y where the bend is upright.
 */
export function roundMiter(arc: Arc, two: Member): Seam[] {
  const { joint, of, end } = arc
  const inward = scale(axisX(of.pose), end === 'B' ? -1 : 1)
  const other = scale(axisX(two.pose), joint.ends[1] === 'B' ? -1 : 1)
  const bend = cross(inward, other)
  if (norm(bend) < sameSlope) return []
  const up = [...bend].reverse().find((part) => Math.abs(part) > samePoint) ?? 1
  const angleOf = (direction: Vec3): Rad => {
    const [, y, z] = dirToLocal(of.pose, direction)
    return Math.atan2(z, y)
  }
  const top = angleOf(scale(bend, up > 0 ? 1 : -1))
  const inside = angleOf(other)
  const middles: readonly (readonly [SeamClass, Rad])[] = [
    ['top', top],
    ['outside', inside + Math.PI],
    ['bottom', top + Math.PI],
    ['inside', inside],
  ]
  return middles.map(([kind, middle]) => seam(arc, kind, kind, middle - Math.PI / 4, middle + Math.PI / 4))
}

/** Places round the outline at which it is asked whether the face lies under it. */
const looks = 720

/** Fillets round a tube that stops on a face, in quarters; where it hangs past the face there is none. */
export function roundOnFace(arc: Arc, { on, face }: Footprint): Seam[] {
  const { of, end } = arc
  const across = (face[1] === 'y' ? on.section.height : on.section.width) / 2
  const ends = [outermost(on, 'A'), outermost(on, 'B')] as const
  const lands = (angle: Rad) => {
    const [x, y, z] = toLocal(on.pose, outsideAt(of, end, angle))
    return (
      Math.abs(face[1] === 'y' ? z : y) <= across + samePoint &&
      x >= ends[0] - samePoint &&
      x <= ends[1] + samePoint
    )
  }
  const start = leanOf(of, end)
  const step = (2 * Math.PI) / looks
  const arcs: { from: Rad; to: Rad }[] = []
  for (let k = 0; k < looks; k++) {
    const from = start + k * step
    if (!lands(from + step / 2)) continue
    const last = arcs.at(-1)
    // A quarter ends where the next begins, and where the steel under it ends.
    if (last && k % (looks / 4) !== 0 && Math.abs(last.to - from) < step / 2) last.to = from + step
    else arcs.push({ from, to: from + step })
  }
  return arcs.map(({ from, to }, at) => seam(arc, `fillet-${at + 1}`, 'fillet', from, to))
}
