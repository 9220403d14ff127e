import type { Frame, Member, Plate } from '../../core/frame/frame.ts'
import { edgeCorners, endPlane, xAt } from '../../core/frame/member.ts'
import { convexPieces } from '../../core/geometry/convex.ts'
import { toWorld } from '../../core/geometry/pose.ts'
import { cross, dot, scale, sub, type Vec3 } from '../../core/geometry/vec3.ts'
import type { Section } from '../../core/section/section.ts'

/** A flat face of a solid: corner numbers in order, and its outward normal of length one. */
export interface Face {
  readonly corners: readonly number[]
  readonly normal: Vec3
  /** How far it lies along its normal, mm. */
  readonly level: number
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

/** Which corners bound the faces of a prism of n sides, and where two of them meet: the same for all of them. */
interface Prism {
  readonly faces: readonly (readonly number[])[]
  readonly edges: readonly Edge[]
}

const prisms = new Map<number, Prism>()

function prismOf(n: number): Prism {
  const known = prisms.get(n)
  if (known) return known
  const ring = Array.from({ length: n }, (_, at) => at)
  const next = (at: number) => (at + 1) % n
  // Sides have the numbers 0 to n − 1, the ends n and n + 1.
  const made: Prism = {
    faces: [...ring.map((at) => [at, next(at), n + next(at), n + at]), ring, ring.map((at) => n + at)],
    edges: ring.flatMap((at): Edge[] => [
      { from: at, to: next(at), faces: [at, n] },
      { from: n + at, to: n + next(at), faces: [at, n + 1] },
      { from: at, to: n + at, faces: [(at + n - 1) % n, at] },
    ]),
  }
  prisms.set(n, made)
  return made
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
  const { faces, edges } = prismOf(n)
  const [x, y, z] = middleOf(points)
  const face = (corners: readonly number[], at: number): Face => {
    const from = points[corners[0]!]!
    const out = cross(sub(points[corners[1]!]!, from), sub(points[corners[2]!]!, from))
    const away = out[0] * (from[0] - x) + out[1] * (from[1] - y) + out[2] * (from[2] - z)
    // A plate's outline may run either way round: the normal is turned away from the middle.
    const size = Math.sqrt(dot(out, out)) * (away < 0 ? -1 : 1)
    const normal = scale(out, 1 / size)
    return { corners, normal, level: dot(normal, from), end: at >= n }
  }
  return {
    id,
    key: piece === 0 ? id : `${id} ${piece}`,
    kind,
    points,
    faces: faces.map(face),
    edges: parting ? edges.filter(({ faces: [one, two] }) => real(one, two, n, parting)) : edges,
    round,
  }
}

/** An edge between a cut that only parts two pieces and an end is none; the upright one is real but where two cuts meet. */
const real = (one: number, two: number, n: number, parting: readonly boolean[]): boolean =>
  two < n ? !(parting[one] && parting[two]) : !parting[one]

function middleOf(points: readonly Vec3[]): Vec3 {
  let [x, y, z] = [0, 0, 0]
  for (const point of points) {
    x += point[0]
    y += point[1]
    z += point[2]
  }
  return [x / points.length, y / points.length, z / points.length]
}

export function memberSolid(member: Member): Solid {
  const outline = outlineOf(member.section)
  const [near, far] = member.ends.map((cut) => {
    const plane = endPlane(cut)
    return outline.map((at) => toWorld(member.pose, [xAt(plane, at[0], at[1]), at[0], at[1]]))
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
