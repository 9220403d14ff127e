import type { Frame, Joint, Member } from '../frame/frame.ts'
import { type Footprint, faceLocal, faceWorld, touchingOf } from '../frame/landing.ts'
import { edgesOf, endCorners, endIndex, type Face, faceNormal } from '../frame/member.ts'
import type { Point, Polygon } from '../geometry/polygon.ts'
import { axisX, dirToLocal, dirToWorld, toLocal } from '../geometry/pose.ts'
import { add, cross, dot, mid, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Seam, SeamClass } from '../plan-shapes.ts'
import { flatOf, isRound } from '../section/section.ts'
import { sameLength, samePoint, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { plateSeams } from './plate-seams.ts'
import { allRound, roundMiter, roundOnFace } from './round-seams.ts'

/** Faces round a member, in the order in which the four end corners follow: between corner k and k + 1. */
const roundFaces: readonly Vec3[] = [
  [0, 0, 1],
  [0, -1, 0],
  [0, 0, -1],
  [0, 1, 0],
]

const wall = (of: Member): Mm =>
  of.section.wall > 0 ? of.section.wall : Math.min(of.section.width, of.section.height)

/** Local x of a member's long point at its A end: what is marked on it is measured from there. */
const startOf = (of: Member): Mm => Math.min(...edgesOf(of).a)

function seam(
  joint: Joint,
  name: string,
  kind: SeamClass,
  from: Vec3,
  to: Vec3,
  out: Vec3,
  size: Mm,
  on: Member,
  start: Mm,
): Seam {
  const x = toLocal(on.pose, mid(from, to))[0]
  return {
    id: `${joint.id}/${name}`,
    joint: joint.id,
    class: kind,
    length: norm(sub(to, from)),
    size,
    from,
    to,
    out,
    place: { member: on.id, fromA: x - start },
  }
}

/**
 * The four seams of a mitered corner. `outside` and `inside` lie on the faces that the corner turns round; `top` and
 * `bottom` on the two faces along the bend, top being the one that looks up, or to +x or +y where the bend is upright.
 */
function miterSeams(joint: Joint, one: Member, two: Member): Seam[] {
  const end = joint.ends[0] === 'A' ? 'A' : 'B'
  const inward = scale(axisX(one.pose), end === 'B' ? -1 : 1)
  const other = scale(axisX(two.pose), joint.ends[1] === 'B' ? -1 : 1)
  const bend = cross(inward, other)
  if (norm(bend) < sameSlope) return []
  const up = [...bend].reverse().find((part) => Math.abs(part) > samePoint) ?? 1
  const topward = dirToLocal(one.pose, scale(bend, up > 0 ? 1 : -1))
  const insideward = dirToLocal(one.pose, other)
  const corners = endCorners(one, end)
  const size = Math.min(wall(one), wall(two))
  const start = startOf(one)
  const cut = one.ends[endIndex(end)].normal
  return roundFaces.map((normal, at) => {
    const alongBend = dot(normal, topward) / norm(topward)
    const kind: SeamClass =
      Math.abs(alongBend) > Math.SQRT1_2
        ? alongBend > 0
          ? 'top'
          : 'bottom'
        : dot(normal, insideward) > 0
          ? 'inside'
          : 'outside'
    // Between the faces of both: square to the cut.
    const along = scale(cut, dot(normal, cut))
    const out = unit(dirToWorld(one.pose, sub(normal, along)))
    return seam(joint, kind, kind, corners[at]!, corners[(at + 1) % 4]!, out, size, one, start)
  })
}

/** Whether both points lie on one side of a polygon. */
function onRim(rim: Polygon, from: Point, to: Point): boolean {
  let a = rim.at(-1)!
  for (const b of rim) {
    const x = b[0] - a[0]
    const y = b[1] - a[1]
    const most = sameLength * Math.sqrt(x * x + y * y)
    if (
      Math.abs(x * (from[1] - a[1]) - y * (from[0] - a[0])) < most &&
      Math.abs(x * (to[1] - a[1]) - y * (to[0] - a[0])) < most
    )
      return true
    a = b
  }
  return false
}

/** Whether both points of a face lie in one mitered or butted end of the member: a joint's plane, not a rim. */
function inJoint(of: Member, face: Face, from: Point, to: Point): boolean {
  return of.ends.some((cut, at) => {
    const off = (p: Point) => Math.abs(dot(cut.normal, sub(faceLocal(of, face, p), cut.point)))
    return of.mates[at] !== 'open' && off(from) < sameLength && off(to) < sameLength
  })
}

/**
 * Seams round a footprint: flare where equal widths leave a round corner, square groove where the faces end in one
 * plane, fillets else. What hangs past the face has no seam there.
 */
function footprintSeams(joint: Joint, { on, by, face, outline, whole, how }: Footprint): Seam[] {
  const across = face[1] === 'y' ? on.section.height : on.section.width
  const flat = flatOf(on.section, face[1] === 'y' ? 'height' : 'width')
  const { a, b } = edgesOf(on)
  const start = Math.min(...a)
  const [first, last] = [Math.max(...a), Math.min(...b)]
  const size = Math.min(wall(by), wall(on))
  const atEdge = (v: Mm) => Math.abs(v) > flat / 2 + sameLength && Math.abs(v) <= across / 2 + sameLength
  const count = { 'square groove': 0, flare: 0, fillet: 0 }
  const up = faceNormal(on.pose, face)
  return outline.flatMap((from, at) => {
    const to = outline[(at + 1) % outline.length]!
    if (Math.hypot(to[0] - from[0], to[1] - from[1]) < sameLength) return []
    if (how === 'end' ? !onRim(whole, from, to) : inJoint(on, face, from, to)) return []
    const along = atEdge(from[1]) && atEdge(to[1]) && Math.sign(from[1]) === Math.sign(to[1])
    const bothAt = (x: Mm) => Math.abs(from[0] - x) < sameLength && Math.abs(to[0] - x) < sameLength
    const atEnd = bothAt(first) || bothAt(last)
    const kind = atEnd ? 'square groove' : along && how === 'end' ? 'flare' : 'fillet'
    count[kind] += 1
    const away: Point = [to[1] - from[1], from[0] - to[0]]
    const aside = unit(sub(faceWorld(on, face, away), faceWorld(on, face, [0, 0])))
    // Over the face where the other member stands on it, under it where that one is the wider.
    const over = onRim(whole, from, to) ? (kind === 'fillet' ? 1 : 0) : -1
    return seam(
      joint,
      `${kind === 'square groove' ? 'square-groove' : kind}-${count[kind]}`,
      kind,
      faceWorld(on, face, from),
      faceWorld(on, face, to),
      unit(add(aside, scale(up, over))),
      size,
      on,
      start,
    )
  })
}

/** Edge seams round a cap. */
function capSeams(joint: Joint, of: Member): Seam[] {
  const corners = endCorners(of, joint.ends[0] === 'A' ? 'A' : 'B')
  const start = startOf(of)
  return corners.map((from, at) =>
    seam(
      joint,
      `edge-${at + 1}`,
      'edge',
      from,
      corners[(at + 1) % 4]!,
      dirToWorld(of.pose, roundFaces[at]!),
      wall(of),
      of,
      start,
    ),
  )
}

/** All seams of a frame; ids are structural: joint and class. */
export function seamsOf(frame: Frame, touching = touchingOf(frame)): Seam[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const plates = new Map(frame.plates.map((each) => [each.id, each]))
  return frame.joints.flatMap((joint) => {
    const one = members.get(joint.members[0] ?? '')
    if (!one) return []
    const round = isRound(one.section)
    const end = joint.ends[0] === 'A' ? 'A' : 'B'
    if (joint.kind === 'cap')
      return round
        ? allRound({ joint, of: one, end, size: wall(one), on: one }, 'edge')
        : capSeams(joint, one)
    const two = members.get(joint.members[1] ?? '')
    if (!two) {
      const plate = plates.get(joint.members[1] ?? '')
      return plate ? plateSeams(joint, one, plate) : []
    }
    const arc = { joint, of: one, end, size: Math.min(wall(one), wall(two)) } as const
    if (joint.kind === 'saddle') return allRound({ ...arc, on: two }, 'fillet')
    if (joint.kind === 'miter')
      return round ? roundMiter({ ...arc, on: one }, two) : miterSeams(joint, one, two)
    const footprint = touching.get(joint)
    if (!footprint) return []
    return round && footprint.how === 'end'
      ? roundOnFace({ ...arc, on: two }, footprint)
      : footprintSeams(joint, footprint)
  })
}
