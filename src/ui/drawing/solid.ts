import type { Frame, Member, Plate } from '../../core/frame/frame.ts'
import { edgeCorners, endPlane, xAt } from '../../core/frame/member.ts'
import { convexPieces } from '../../core/geometry/convex.ts'
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

/** Where two faces meet, by their numbers: from one corner to another. */
export interface Edge {
  readonly from: number
  readonly to: number
  readonly faces: readonly [number, number]
}

/**
 * A member, or a convex piece of a plate, as it stands in the world, mm: a prism between two planes. A plate with notches
 * is several, with one id.
 */
export interface Solid {
  readonly id: string
  /** Unlike all others of a frame. */
  readonly key: string
  readonly kind: 'member' | 'plate'
  readonly points: readonly Vec3[]
  readonly faces: readonly Face[]
  /** All but those that only part two pieces of one plate. */
  readonly edges: readonly Edge[]
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
  parting?: readonly boolean[],
  piece = 0,
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
  const sides = near.map((_, at): Face => face([at, (at + 1) % n, n + ((at + 1) % n), n + at], false))
  const ring = near.map((_, at) => at)
  const ends = [
    face(ring, true),
    face(
      ring.map((at) => n + at),
      true,
    ),
  ]
  // Sides have the numbers 0 to n − 1, the ends n and n + 1.
  const edges = near.flatMap((_, at): Edge[] => {
    const next = (at + 1) % n
    const before = (at + n - 1) % n
    const parts = parting?.[at] ?? false
    return [
      ...(parts
        ? []
        : [
            { from: at, to: next, faces: [at, n] as const },
            { from: n + at, to: n + next, faces: [at, n + 1] as const },
          ]),
      // The upright edge is real but where two cuts meet.
      ...(parts && parting?.[before] ? [] : [{ from: at, to: n + at, faces: [before, at] as const }]),
    ]
  })
  return {
    id,
    key: piece === 0 ? id : `${id} ${piece}`,
    kind,
    points,
    faces: [...sides, ...ends],
    edges,
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

/** A plate as its convex pieces: one, unless it has notches. */
export function plateSolids(plate: Plate): readonly Solid[] {
  const { polygon } = plate
  const n = polygon.length
  const pieces = convexPieces(polygon)
  return pieces.map((piece, number) => {
    const at = (z: number) =>
      piece.map((place) => toWorld(plate.pose, [polygon[place]![0], polygon[place]![1], z]))
    const parting =
      pieces.length === 1
        ? undefined
        : piece.map((place, k) => {
            const apart = Math.abs(place - piece[(k + 1) % piece.length]!)
            return apart !== 1 && apart !== n - 1
          })
    return prism(plate.id, 'plate', at(0), at(plate.thickness), false, parting, number)
  })
}

export const solidsOf = (frame: Frame): readonly Solid[] => [
  ...frame.members.map(memberSolid),
  ...frame.plates.flatMap(plateSolids),
]
