import { area, common, counterclockwise, type Point, type Polygon } from '../geometry/polygon.ts'
import { toLocal, toWorld } from '../geometry/pose.ts'
import { cross, dot, sub, type Vec3 } from '../geometry/vec3.ts'
import { sameLength, samePoint, sameSlope } from '../tolerance.ts'
import type { Frame, Member, Plate } from './frame.ts'
import { faceOutline, onFace } from './landing.ts'
import { type Face, faceAway, faces } from './member.ts'

/** Where a plate touches a long face of a member: the outline in that face, x along the member, v across the face. */
export interface PlateFootprint {
  readonly on: Member
  readonly by: Plate
  readonly face: Face
  readonly outline: Polygon
}

/** The flats of a plate, world corners each: lower one, upper one, then its edges. */
function flatsOf(plate: Plate): readonly (readonly Vec3[])[] {
  const at = (z: number) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z]))
  const [low, high] = [at(0), at(plate.thickness)]
  const edges = low.map((from, k) => {
    const next = (k + 1) % low.length
    return [from, low[next]!, high[next]!, high[k]!]
  })
  return [low, high, ...edges]
}

const local: Readonly<Record<Face, Vec3>> = {
  '+y': [0, 1, 0],
  '-y': [0, -1, 0],
  '+z': [0, 0, 1],
  '-z': [0, 0, -1],
}

/** Where a plate lies on a member's long faces, the root gap between them allowed. Its ends are not looked at. */
function lying(plate: Plate, on: Member): PlateFootprint[] {
  const found: PlateFootprint[] = []
  for (const flat of flatsOf(plate)) {
    const [a, b, c] = flat.map((corner) => toLocal(on.pose, corner))
    const normal = cross(sub(b!, a!), sub(c!, a!))
    for (const face of faces) {
      const out = local[face]
      const level = dot(out, normal) ** 2 >= dot(normal, normal) * (1 - sameSlope)
      const apart = dot(out, a!) - faceAway(on.section, face)
      if (!level || apart < -sameLength || apart > on.gap + sameLength) continue
      // A plate that comes from the other side would lie in the steel.
      const middle = toLocal(on.pose, middleOf(plate))
      if (dot(out, middle) < dot(out, a!)) continue
      const whole = counterclockwise(flat.map((corner): Point => onFace(face, toLocal(on.pose, corner))))
      const all = faceOutline(on, face)
      const outline = plain(common(whole, all))
      // A face that is covered wholly needs no mark.
      const some = outline.length > 0 && area(all) - Math.abs(area(outline)) > sameLength * area(all)
      if (some) found.push({ on, by: plate, face, outline })
    }
  }
  return found
}

/** Without corners on each other, which clipping leaves where a side ends on another. */
const plain = (polygon: Polygon): Polygon =>
  polygon.filter(([x, y], at) => {
    const [u, v] = polygon[(at + 1) % polygon.length]!
    return Math.hypot(x - u, y - v) > samePoint
  })

function middleOf({ polygon, pose, thickness }: Plate): Vec3 {
  const sum = polygon.reduce(([x, y], [u, v]) => [x + u, y + v] as const, [0, 0] as const)
  return toWorld(pose, [sum[0] / polygon.length, sum[1] / polygon.length, thickness / 2])
}

/** Where plates that are welded to, bolted to or laid on members touch their long faces. */
export function plateFootprints({ members, plates }: Pick<Frame, 'members' | 'plates'>): PlateFootprint[] {
  const byId = new Map(members.map((each) => [each.id, each]))
  return plates.flatMap((plate) =>
    plate.on.flatMap((id) => {
      const on = byId.get(id)
      return on ? lying(plate, on) : []
    }),
  )
}
