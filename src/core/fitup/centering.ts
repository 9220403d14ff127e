import type { Frame, Member } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import { edgesOf } from '../frame/member.ts'
import type { Point } from '../geometry/polygon.ts'
import { axisX, axisY, axisZ, origin, toWorld } from '../geometry/pose.ts'
import { cross, dot, sub } from '../geometry/vec3.ts'
import type { Part } from '../plan-shapes.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { builtCorners } from './built.ts'
import type { Loop } from './loops.ts'
import { along as dot2, unit2 } from './move.ts'
import { onPlane } from './plane.ts'

/**
 * Where a member stands on another, as distances from edge to edge: measured both ways, they tell on each other. One
 * that is absent cannot be measured: there the member runs on past the edge or the end.
 */
export interface Stand {
  readonly joint: string
  readonly on: string
  readonly by: string
  /** From the two ends of the receiving piece, its long points, to the nearer side of what stands on it. */
  readonly along: readonly [Mm | undefined, Mm | undefined]
  /** From the two edges of the face, across it; below 0 where it hangs past the edge. */
  readonly across: readonly [Mm | undefined, Mm | undefined]
}

/** Distances for each member that stands or lies on another's face; not where it covers the other's end. */
export function standsOf(frame: Frame): readonly Stand[] {
  const byId = new Map<string, Member>(frame.members.map((each) => [each.id, each]))
  return [...touchingOf(frame)].flatMap(([joint, { on, by, face, whole, outline, how }]) => {
    if (!byId.has(on.id) || !byId.has(by.id)) return []
    const { a, b } = edgesOf(on)
    const [first, last] = [Math.min(...a), Math.max(...b)]
    const half = (face[1] === 'y' ? on.section.height : on.section.width) / 2
    const reach = (of: readonly Point[], k: 0 | 1) =>
      [Math.min(...of.map((point) => point[k])), Math.max(...of.map((point) => point[k]))] as const
    const [low, high] = reach(whole, 0)
    const past = [low < first - sameLength, high > last + sameLength] as const
    if (how === 'end' && (past[0] || past[1])) return []
    const [from, to] = reach(how === 'lies' ? outline : whole, 0)
    const [near, far] = reach(whole, 1)
    const across = [near + half, half - far] as const
    return [
      {
        joint: joint.id,
        on: on.id,
        by: by.id,
        along: [past[0] ? undefined : from - first, past[1] ? undefined : last - to] as const,
        across:
          how === 'lies'
            ? ([
                across[0] < -sameLength ? undefined : across[0],
                across[1] < -sameLength ? undefined : across[1],
              ] as const)
            : across,
      },
    ]
  })
}

/**
 * What lies farthest out one way: of a ring one of its sides or a corner, by number from 1; of a plate its edge, straight
 * along the face or not (`rim`), by where it lies seen from above.
 */
export type Outermost =
  | { readonly kind: 'side' | 'corner'; readonly number: number }
  | { readonly kind: 'edge' | 'rim'; readonly lies: 'right' | 'back' | 'left' | 'front' }

/** Of these both edges of the face are measured: what is straight along it. */
export const straight = ({ kind }: Outermost): boolean => kind === 'side' || kind === 'edge'

/** A member in a ring or on a plate, one way: how far its two faces stand from what is farthest out on each side. */
export interface Center {
  /** The ring, or the plate. */
  readonly loop: string
  readonly member: string
  /** Which way: across the width of the member, or across its height. */
  readonly way: 'width' | 'height'
  readonly from: readonly [Outermost, Outermost]
  readonly distance: readonly [Mm, Mm]
  /** Along the face, mm: how far apart the two measures of one distance can be taken. */
  readonly face: Mm
}

export const centerName = ({ loop, member, way }: Center, side: 0 | 1, edge: 0 | 1): string =>
  `center:${loop}/${member}/${way}/${side + 1}-${edge + 1}`

/** Joints that a post may be away from the ring that it carries: it stands on a bar, and the bar lies under the ring. */
const mostJoints = 2

/** Flat of the ring to face of the post, both ways, for every upright member that carries a mitered ring. */
export function centersOf(frame: Frame, loops: readonly Loop[], parts: readonly Part[]): readonly Center[] {
  const near = (id: string, ring: ReadonlySet<string>): boolean => {
    let reached = new Set([id])
    for (let step = 0; step < mostJoints; step++)
      reached = new Set(
        frame.joints.flatMap(({ members }) => (members.some((one) => reached.has(one)) ? members : [])),
      )
    return [...reached].some((one) => ring.has(one))
  }
  return loops.flatMap((loop) => {
    if (!loop.ring) return []
    const ring = new Set(loop.pieces.map(({ member }) => member))
    const corners = builtCorners(loop, parts)
    return frame.members.flatMap((member) => {
      if (Math.abs(dot(axisX(member.pose), loop.plane.normal)) < 1 - sameSlope) return []
      if (ring.has(member.id) || !near(member.id, ring)) return []
      const middle = onPlane(loop.plane, origin(member.pose))
      const { width, height } = member.section
      return (['width', 'height'] as const).map((way): Center => {
        const axis = unit2(onPlane(loop.plane, way === 'width' ? axisY(member.pose) : axisZ(member.pose)))
        const half = (way === 'width' ? width : height) / 2
        const reaches = corners.map((corner) => dot2(axis, corner) - dot2(axis, middle))
        const [low, high] = [Math.min(...reaches), Math.max(...reaches)]
        return {
          loop: loop.id,
          member: member.id,
          way,
          from: [outermost(reaches, low), outermost(reaches, high)],
          distance: [-low - half, high - half],
          face: way === 'width' ? height : width,
        }
      })
    })
  })
}

/**
 * Plate edge to face, both ways, for every member that stands square on a plate: measured from the middle of the face
 * square out to the edge of the plate. End caps, which are as large as their tube, have none.
 */
export function plateCentersOf(frame: Frame): readonly Center[] {
  const members = new Map(frame.members.map((each) => [each.id, each]))
  const plates = new Map(frame.plates.map((each) => [each.id, each]))
  return frame.joints.flatMap(({ kind, members: [by = '', on = ''], ends }) => {
    const [of, plate] = [members.get(by), plates.get(on)]
    if (!of || !plate || kind === 'cap' || ends[0] === 'side') return []
    const normal = axisZ(plate.pose)
    if (Math.abs(dot(axisX(of.pose), normal)) < 1 - sameSlope) return []
    const rim = plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, 0]))
    const { width, height } = of.section
    return (['width', 'height'] as const).map((way): Center => {
      const axis = way === 'width' ? axisY(of.pose) : axisZ(of.pose)
      const aside = cross(normal, axis)
      const flat = rim.map((corner): Point => {
        const from = sub(corner, origin(of.pose))
        return [dot(axis, from), dot(aside, from)]
      })
      const half = (way === 'width' ? width : height) / 2
      const [low, high] = ([-1, 1] as const).map((toward) => edgeToward(flat, toward)) as [Edge, Edge]
      const named = (edge: Edge, toward: 1 | -1): Outermost => ({
        kind: edge.square ? 'edge' : 'rim',
        lies: liesAt(axis[0] * toward, axis[1] * toward),
      })
      return {
        loop: plate.id,
        member: of.id,
        way,
        from: [named(low, -1), named(high, 1)],
        distance: [low.away - half, high.away - half],
        face: way === 'width' ? height : width,
      }
    })
  })
}

interface Edge {
  readonly away: Mm
  /** It runs square to the way, and is as long as a side of a plate, not of a circle drawn with corners. */
  readonly square: boolean
}

/** A side of an outline with more corners than this is a stretch of a round edge. */
const mostSides = 12

/** Where the line from 0 along x leaves the outline, this way. */
function edgeToward(outline: readonly Point[], toward: 1 | -1): Edge {
  let best: Edge = { away: 0, square: false }
  for (const [at, [x, y]] of outline.entries()) {
    const [u, v] = outline[(at + 1) % outline.length]!
    if (Math.abs(v - y) < sameLength || Math.min(y, v) > sameLength || Math.max(y, v) < -sameLength) continue
    const away = toward * (x - (y * (u - x)) / (v - y))
    if (away <= best.away) continue
    best = {
      away,
      square: outline.length <= mostSides && Math.abs(u - x) < sameSlope * Math.abs(v - y) + sameLength,
    }
  }
  return best
}

/** Seen from above, x to the right and y to the back: the nearest of the four. */
const liesAt = (x: number, y: number): 'right' | 'back' | 'left' | 'front' => {
  const quarter = Math.floor((Math.atan2(y, x) + Math.PI / 4 + 2 * Math.PI) / (Math.PI / 2) + sameSlope)
  return (['right', 'back', 'left', 'front'] as const)[quarter % 4]!
}

/** Corners that are level with each other to this many mm are the two ends of a side. */
const level = 0.05

function outermost(reaches: readonly Mm[], most: Mm): Outermost {
  const at = reaches.findIndex((one) => Math.abs(one - most) < level)
  const n = reaches.length
  const next = Math.abs(reaches[(at + 1) % n]! - most) < level
  const before = Math.abs(reaches[(at + n - 1) % n]! - most) < level
  return {
    kind: next || before ? 'side' : 'corner',
    number: (next ? at : before ? (at + n - 1) % n : at) + 1,
  }
}

/** Where a post stands from what was measured at both edges of both faces: move it, and turn it. */
export interface Stray {
  /** Toward the second of the two, mm; below 0: toward the first. */
  readonly move: Mm
  /** Out of parallel over the face, mm, at either of the two sides: first edge less second. */
  readonly turn: Mm
}

/**
 * Reads four distances: of each side those at both edges of the face. What the ring is larger or smaller than planned
 * drops out. With one measure a side only `move` is known: give it twice.
 */
export function strayOf(
  { distance }: Pick<Center, 'distance'>,
  first: readonly [Mm, Mm],
  second: readonly [Mm, Mm],
): Stray {
  const mean = ([a, b]: readonly [Mm, Mm]) => (a + b) / 2
  return {
    // Too far from the second: it must come nearer to it.
    move: (mean(second) - distance[1] - (mean(first) - distance[0])) / 2,
    turn: (first[0] - first[1] - (second[0] - second[1])) / 2,
  }
}
