import type { Assembly, Joint, Member } from '../frame/frame.ts'
import { miter } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import { regular } from '../geometry/polygon.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import type { Section } from '../section/section.ts'
import { cosDeg, type Mm, sinDeg, tanDeg } from '../units.ts'

/** Which size of a regular polygon is given. For odd n the circles through corners and touching sides. */
export type SizeKind = 'across corners' | 'across flats' | 'side' | 'clear inside'

/** Outer inradius of a regular frame of tube that is `across` wide in its plane. */
export function inradiusOf(n: number, kind: SizeKind, size: Mm, across: Mm): Mm {
  const half = 180 / n
  if (kind === 'across corners') return (size / 2) * cosDeg(half)
  if (kind === 'side') return size / 2 / tanDeg(half)
  return kind === 'clear inside' ? size / 2 + across : size / 2
}

/** The size of that kind that belongs to an outer inradius. */
export function sizeOf(n: number, kind: SizeKind, inradius: Mm, across: Mm): Mm {
  const half = 180 / n
  if (kind === 'across corners') return (2 * inradius) / cosDeg(half)
  if (kind === 'side') return 2 * inradius * tanDeg(half)
  return kind === 'clear inside' ? 2 * (inradius - across) : 2 * inradius
}

/** How a size kind is said for this n: odd polygons have no sides across from each other. */
export function sayKind(n: number, kind: SizeKind): string {
  if (n % 2 === 0 || kind === 'side') return kind === 'clear inside' ? 'clear inside, flat to flat' : kind
  if (kind === 'across corners') return 'circle through the corners'
  return kind === 'across flats' ? 'circle touching the sides' : 'clear circle inside'
}

/** Factor from the long point of a side to a size of that kind: size = factor · long point + constant. */
export function factorOf(n: number, kind: SizeKind): number {
  if (kind === 'side') return 1
  return kind === 'across corners' ? 1 / sinDeg(180 / n) : 1 / tanDeg(180 / n)
}

export interface Ring {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly assembly: Assembly
}

/**
 * A regular ring of n mitered members, side 1 toward the front (−y), counterclockwise seen from above; `middle` is
 * the height of the axes. The section's width lies in the plane of the ring.
 */
export const ringOf = (n: number, inradius: Mm, section: Section, middle: Mm, gap: Mm): Ring =>
  ringThrough(
    regular(n, inradius - section.width / 2).map(([x, y]): Vec3 => [x, y, middle]),
    section,
    gap,
    { id: 'top', name: 'Top frame', side: 'Top side' },
  )

/** What a ring and its members are called. */
export interface RingNames {
  readonly id: string
  readonly name: string
  readonly side: string
}

/**
 * A ring of mitered members with their axes through these corners, all at one height; corner k lies between sides
 * k − 1 and k. The section's width lies in the plane of the ring.
 */
export function ringThrough(
  corners: readonly Vec3[],
  section: Section,
  gap: Mm,
  { id, name, side }: RingNames,
): Ring {
  const n = corners.length
  const corner = (at: number) => corners[at % n]!
  const members = corners.map((from, at) =>
    member(`${id}/side-${at + 1}`, `${side} ${at + 1}`, section, from, corner(at + 1), [0, 0, 1], gap),
  )
  const joints: Joint[] = []
  for (let at = 0; at < n; at++) {
    const before = (at + n - 1) % n
    const made = miter(`${id}/corner-${at + 1}`, members[before]!, 'B', members[at]!, 'A', corner(at), gap)
    members[before] = made.members[0]
    members[at] = made.members[1]
    joints.push(made.joint)
  }
  return {
    members,
    joints,
    assembly: { id, name, members: members.map((each) => each.id), ring: joints.map((each) => each.id) },
  }
}
