import type { Joint, Member, Plate } from '../frame/frame.ts'
import { edgesOf, endCorners, faceNormal } from '../frame/member.ts'
import { common, counterclockwise, type Point } from '../geometry/polygon.ts'
import { axisX, axisZ, dirToWorld, toLocal, toWorld } from '../geometry/pose.ts'
import { add, mid, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Seam } from '../plan-shapes.ts'
import { isRound } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import { allRound } from './round-seams.ts'

// Fillets where a member meets a plate: round an end that stands on it, along a side that lies on it.

/** Corners of the long edges two by two, and the faces that lie between them. */
const sides = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
] as const
const facing = ['+z', '-y', '-z', '+y'] as const

export function plateSeams(joint: Joint, of: Member, plate: Plate): Seam[] {
  const size = of.section.wall > 0 ? of.section.wall : Math.min(of.section.width, of.section.height)
  const end = joint.ends[0]
  if (end !== 'side') {
    const at = end === 'A' ? 'A' : 'B'
    if (isRound(of.section)) return allRound({ joint, of, end: at, size, on: of }, 'fillet')
    const corners = endCorners(of, at)
    const away = scale(axisX(of.pose), at === 'B' ? -1 : 1)
    return corners.map((from, k) =>
      fillet(
        joint,
        k,
        from,
        corners[(k + 1) % 4]!,
        unit(add(faceNormal(of.pose, facing[k]!), away)),
        size,
        of,
      ),
    )
  }
  const [a, b] = [endCorners(of, 'A'), endCorners(of, 'B')]
  for (const [one, two] of sides) {
    const face = [a[one], b[one], b[two], a[two]].map((corner) => toLocal(plate.pose, corner))
    const level = face[0]![2]
    const onPlate = Math.abs(level) < sameLength || Math.abs(level - plate.thickness) < sameLength
    if (!onPlate || face.some(([, , z]) => Math.abs(z - level) > sameLength)) continue
    const rim = counterclockwise(face.map(([x, y]): Point => [x, y]))
    const shared = common(rim, counterclockwise(plate.polygon))
    const world = ([x, y]: Point): Vec3 => toWorld(plate.pose, [x, y, level])
    const runs = shared.flatMap((from, k) => {
      const to = shared[(k + 1) % shared.length]!
      if (!onOneSide(rim, from, to)) return []
      const aside = dirToWorld(plate.pose, [to[1] - from[1], from[0] - to[0], 0])
      const over = scale(axisZ(plate.pose), Math.abs(level) < sameLength ? -1 : 1)
      return [[world(from), world(to), unit(add(unit(aside), over))] as const]
    })
    return runs.map(([from, to, out], k) => fillet(joint, k, from, to, out, size, of))
  }
  return edgeOn(joint, of, plate, size)
}

/** The plate stands with an edge on a side of the member: a fillet above it and one below. */
function edgeOn(joint: Joint, of: Member, plate: Plate, size: number): Seam[] {
  for (const [at, from] of plate.polygon.entries()) {
    const to = plate.polygon[(at + 1) % plate.polygon.length]!
    const ends = [0, plate.thickness].map((z) => [from, to].map(([x, y]) => toWorld(plate.pose, [x, y, z])))
    const local = ends.flat().map((corner) => toLocal(of.pose, corner))
    const { width, height } = of.section
    // The root gap may stand between them.
    const lies = ([1, 2] as const).some((axis) =>
      [1, -1].some((sign) =>
        local.every((corner) => {
          const apart = sign * corner[axis] - (axis === 1 ? width : height) / 2
          return apart > -sameLength && apart < of.gap + sameLength
        }),
      ),
    )
    if (lies)
      return ends.map(([a, b], k) => {
        const out = scale(axisZ(plate.pose), k === 0 ? -1 : 1)
        return fillet(joint, k, a!, b!, out, Math.min(size, plate.thickness), of)
      })
  }
  return []
}

function fillet(joint: Joint, k: number, from: Vec3, to: Vec3, out: Vec3, size: number, on: Member): Seam {
  return {
    id: `${joint.id}/fillet-${k + 1}`,
    joint: joint.id,
    class: 'fillet',
    length: norm(sub(to, from)),
    size,
    from,
    to,
    out,
    place: { member: on.id, fromA: toLocal(on.pose, mid(from, to))[0] - Math.min(...edgesOf(on).a) },
  }
}

/** Whether a stretch runs along the rim of the face, not along the edge of the plate over it. */
function onOneSide(rim: readonly Point[], from: Point, to: Point): boolean {
  if (Math.hypot(to[0] - from[0], to[1] - from[1]) < sameLength) return false
  return rim.some((a, at) => {
    const b = rim[(at + 1) % rim.length]!
    const [x, y] = [b[0] - a[0], b[1] - a[1]]
    const off = (p: Point) => Math.abs(x * (p[1] - a[1]) - y * (p[0] - a[0])) / Math.hypot(x, y)
    return off(from) < sameLength && off(to) < sameLength
  })
}
