import type { Frame, Member, Plate } from '../../core/frame/frame.ts'
import { edgeCorners, endPlane, xAt } from '../../core/frame/member.ts'
import { toWorld } from '../../core/geometry/pose.ts'
import { add, cross, dot, scale, sub, type Vec3 } from '../../core/geometry/vec3.ts'
import type { Section } from '../../core/section/section.ts'

/** A flat face of a solid: corner numbers in order, and the outward normal (of any length). */
export interface Face {
  readonly corners: readonly number[]
  readonly normal: Vec3
  /** A cut or sawn end, as against a side along the length. */
  readonly end: boolean
}

/** A member or a plate as it stands in the world, mm. Members are convex: a prism between two planes. */
export interface Solid {
  readonly id: string
  readonly kind: 'member' | 'plate'
  readonly points: readonly Vec3[]
  readonly faces: readonly Face[]
  /** Round: its sides show no lines but the outermost. */
  readonly round: boolean
}

const roundCorners = 24

/** The section's outline, sharp outer box or circle, in the member's local y and z, counterclockwise about +x. */
export function outlineOf(section: Section): readonly (readonly [number, number])[] {
  if (!section.kind.startsWith('round')) return edgeCorners(section)
  return Array.from({ length: roundCorners }, (_, at) => {
    const angle = (2 * Math.PI * at) / roundCorners
    return [(Math.cos(angle) * section.width) / 2, (Math.sin(angle) * section.width) / 2] as const
  })
}

/** A prism from two rings of as many points. */
function prism(
  id: string,
  kind: Solid['kind'],
  near: readonly Vec3[],
  far: readonly Vec3[],
  round: boolean,
): Solid {
  const n = near.length
  const points = [...near, ...far]
  const middle = scale(
    points.reduce((sum, point) => add(sum, point), [0, 0, 0]),
    1 / points.length,
  )
  const face = (corners: readonly number[], end: boolean): Face => {
    const [a, b, c] = corners.map((at) => points[at]!)
    const normal = cross(sub(b!, a!), sub(c!, a!))
    // A plate's outline may run either way round: the normal is turned away from the middle.
    return { corners, normal: dot(normal, sub(a!, middle)) < 0 ? scale(normal, -1) : normal, end }
  }
  const sides = near.map((_, at) => face([at, (at + 1) % n, n + ((at + 1) % n), n + at], false))
  const ring = near.map((_, at) => at)
  return {
    id,
    kind,
    points,
    faces: [
      ...sides,
      face(ring, true),
      face(
        ring.map((at) => n + at),
        true,
      ),
    ],
    round,
  }
}

export function memberSolid(member: Member): Solid {
  const outline = outlineOf(member.section)
  const [near, far] = member.ends.map((cut) => {
    const plane = endPlane(cut)
    return outline.map(([y, z]) => toWorld(member.pose, [xAt(plane, y, z), y, z]))
  })
  return prism(member.id, 'member', near!, far!, member.section.kind.startsWith('round'))
}

export function plateSolid(plate: Plate): Solid {
  const at = (z: number) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z]))
  return prism(plate.id, 'plate', at(0), at(plate.thickness), false)
}

export const solidsOf = (frame: Frame): readonly Solid[] => [
  ...frame.members.map(memberSolid),
  ...frame.plates.map(plateSolid),
]
