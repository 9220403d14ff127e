import type { Frame, Member } from '../frame/frame.ts'
import { touchingOf } from '../frame/landing.ts'
import { edgesOf } from '../frame/member.ts'
import type { Point } from '../geometry/polygon.ts'
import { axisX, axisY, axisZ, origin } from '../geometry/pose.ts'
import { dot } from '../geometry/vec3.ts'
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

/** What of a ring lies farthest out one way: one of its sides, or a corner; by number from 1. */
export interface Outermost {
  readonly kind: 'side' | 'corner'
  readonly number: number
}

/** An upright member in a ring, one way: how far its two faces stand from what is farthest out on each side of them. */
export interface Center {
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
