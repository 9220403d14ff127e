import type { Pose } from '../geometry/pose.ts'
import { dirToLocal, dirToWorld, poseAlong, toLocal } from '../geometry/pose.ts'
import { dot, norm, scale, sub, unit, type Vec3 } from '../geometry/vec3.ts'
import type { EndPlane } from '../nest.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { EndCut, Mate, Member } from './frame.ts'

export type End = 'A' | 'B'

/** A member while its ends are still to be cut: an axis from a to b with a section, square and open. */
export function member(
  id: string,
  name: string,
  section: Section,
  a: Vec3,
  b: Vec3,
  up: Vec3,
  gap: Mm = 0,
): Member {
  return {
    id,
    name,
    section,
    pose: poseAlong(a, sub(b, a), up),
    ends: [
      { point: [0, 0, 0], normal: [-1, 0, 0] },
      { point: [norm(sub(b, a)), 0, 0], normal: [1, 0, 0] },
    ],
    mates: ['open', 'open'],
    gap,
  }
}

export const endIndex = (end: End): 0 | 1 => (end === 'A' ? 0 : 1)

/** The member with one end cut by a world plane; `normal` may point either way along the axis. */
export function cutEnd(of: Member, end: End, point: Vec3, normal: Vec3, mate: Mate): Member {
  const local = unit(dirToLocal(of.pose, normal))
  const outward = (end === 'B') === local[0] > 0 ? local : scale(local, -1)
  const cut: EndCut = { point: toLocal(of.pose, point), normal: outward }
  return end === 'A'
    ? { ...of, ends: [cut, of.ends[1]], mates: [mate, of.mates[1]] }
    : { ...of, ends: [of.ends[0], cut], mates: [of.mates[0], mate] }
}

/** The end as x = x0 + p·y + q·z in the member's local frame. The cut must not run along the axis. */
export function endPlane(cut: EndCut): EndPlane {
  const { normal } = cut
  return {
    x: dot(normal, cut.point) / normal[0],
    p: clean(-normal[1] / normal[0]),
    q: clean(-normal[2] / normal[0]),
  }
}

/** Minus zero and the dust of a rotation become a plain zero, so that square reads as square. */
const clean = (slope: number): number => (Math.abs(slope) < 1e-12 ? 0 : slope)

/** Where an end's plane meets the long edge at (y, z). */
export const xAt = (plane: EndPlane, y: Mm, z: Mm): Mm => plane.x + plane.p * y + plane.q * z

/** The four long edges of the sharp outer box, in the order of the documents: +y+z, −y+z, −y−z, +y−z. */
export function edgeCorners(section: Section): readonly (readonly [Mm, Mm])[] {
  const y = section.width / 2
  const z = section.height / 2
  return [
    [y, z],
    [-y, z],
    [-y, -z],
    [y, -z],
  ]
}

export interface Edges {
  /** x of the A end and of the B end on each long edge. */
  readonly a: readonly [Mm, Mm, Mm, Mm]
  readonly b: readonly [Mm, Mm, Mm, Mm]
  readonly lengths: readonly [Mm, Mm, Mm, Mm]
}

export function edgesOf(of: Member): Edges {
  const y = of.section.width / 2
  const z = of.section.height / 2
  const on = (plane: EndPlane): [Mm, Mm, Mm, Mm] => [
    xAt(plane, y, z),
    xAt(plane, -y, z),
    xAt(plane, -y, -z),
    xAt(plane, y, -z),
  ]
  const a = on(endPlane(of.ends[0]))
  const b = on(endPlane(of.ends[1]))
  return { a, b, lengths: [b[0] - a[0], b[1] - a[1], b[2] - a[2], b[3] - a[3]] }
}

/** The four corners of an end, world, in the order of the long edges. */
export function endCorners(of: Member, end: End): readonly [Vec3, Vec3, Vec3, Vec3] {
  const plane = endPlane(of.ends[endIndex(end)])
  const { pose: m } = of
  const half = of.section.width / 2
  const high = of.section.height / 2
  // `toWorld` written out: every plan asks for thousands of these.
  const at = (y: Mm, z: Mm): Vec3 => {
    const x = xAt(plane, y, z)
    return [
      m[12]! + (m[0]! * x + m[4]! * y + m[8]! * z),
      m[13]! + (m[1]! * x + m[5]! * y + m[9]! * z),
      m[14]! + (m[2]! * x + m[6]! * y + m[10]! * z),
    ]
  }
  return [at(half, high), at(-half, high), at(-half, -high), at(half, -high)]
}

export type Face = '+y' | '-y' | '+z' | '-z'
export const faces: readonly Face[] = ['+y', '-y', '+z', '-z']

export function faceNormal(pose: Pose, face: Face): Vec3 {
  const sign = face[0] === '+' ? 1 : -1
  return dirToWorld(pose, face[1] === 'y' ? [0, sign, 0] : [0, 0, sign])
}

/** Distance of a face from the axis. */
export const faceAway = (section: Section, face: Face): Mm =>
  (face[1] === 'y' ? section.width : section.height) / 2

/** The face whose outward normal lies most along `toward`, world. */
export function faceToward(of: Member, toward: Vec3): Face {
  const [, y, z] = dirToLocal(of.pose, toward)
  // The first of equals, in the order of the faces.
  if (Math.abs(z) > Math.abs(y)) return z > 0 ? '+z' : '-z'
  return y >= 0 ? '+y' : '-y'
}
