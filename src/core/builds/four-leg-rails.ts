import type { Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { Splay } from './four-leg-splay.ts'

// Rails and stretchers between legs whose faces look along the frame. They lie level; their ends fit the leaning faces.

/** Tube of the rails, its width level and its height upright, and the height of its upper face. */
export interface RailsGiven {
  readonly section: Section
  readonly upper: Mm
  readonly sit: 'middle' | 'flush'
}

/** Along the length (on the faces that look left and right) or along the width. */
export type Way = 'length' | 'width'

/** The face that a rail lands on: its middle and half its width, from the frame's middle outward, at a height. */
function faceOf({ axis, a, b }: Splay, way: Way, z: Mm): { readonly middle: Mm; readonly half: Mm } {
  const [x, y] = axis(z)
  return way === 'length' ? { middle: y - a[1], half: b[1] } : { middle: x, half: a[0] }
}

/** The widest rail that stays on the leaning face over all its height. */
export const widestRail = (splay: Splay, way: Way, height: Mm): Mm =>
  2 * faceOf(splay, way, 0).half - height * splay.lean[way === 'length' ? 1 : 0]

/**
 * Distance of the rails' axes from the middle. A rail that is too wide for its place is slid outward until its lower
 * inner edge lies on the leg, so that the rails of two sides never run into each other.
 */
export function railOffset(splay: Splay, way: Way, { section, upper, sit }: RailsGiven): Mm {
  const half = section.width / 2
  const low = faceOf(splay, way, upper - section.height)
  const high = faceOf(splay, way, upper)
  const inward = low.middle - low.half + half
  if (sit === 'flush') return Math.max(high.middle + high.half - half, inward)
  return Math.max(faceOf(splay, way, upper - section.height / 2).middle, inward)
}

export interface Rails {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
}

/** Legs by number that a rail goes between, end A first: front and back rails, then right and left ones. */
const spans: Readonly<Record<Way, readonly (readonly [number, number])[]>> = {
  length: [
    [1, 2],
    [4, 3],
  ],
  width: [
    [2, 3],
    [1, 4],
  ],
}

/** The two rails of one way, both ends butted on the legs: `rails/long-1` is the front one, `rails/short-1` the right. */
export function railsBetween(
  group: string,
  name: string,
  way: Way,
  given: RailsGiven,
  splay: Splay,
  legs: readonly Member[],
  gap: Mm,
): Rails {
  const offset = railOffset(splay, way, given)
  const z = given.upper - given.section.height / 2
  const reach = splay.axis(z)[way === 'length' ? 0 : 1]
  const joints: Joint[] = []
  const members = spans[way].map((span, at) => {
    const side = way === 'length' ? (at === 0 ? -offset : offset) : at === 0 ? offset : -offset
    const end = (sign: -1 | 1): Vec3 => (way === 'length' ? [sign * reach, side, z] : [side, sign * reach, z])
    const id = `${group}/${way === 'length' ? 'long' : 'short'}-${at + 1}`
    let rail = member(id, `${name} ${at + 1}`, given.section, end(-1), end(1), [0, 0, 1], gap)
    for (const [which, leg] of span.entries()) {
      const made = butt(`${id}/leg-${leg}`, rail, which === 0 ? 'A' : 'B', legs[leg - 1]!, gap)
      rail = made.member
      joints.push(made.joint)
    }
    return rail
  })
  return { members, joints }
}

/** One stretcher along the length between the middles of the two at the ends. */
export function crossbar(given: RailsGiven, ends: readonly Member[], gap: Mm): Rails {
  const [right, left] = ends
  if (!right || !left) return { members: [], joints: [] }
  const z = given.upper - given.section.height / 2
  const reach = right.pose[12]!
  const id = 'stretchers/middle'
  const laid = member(id, 'Middle stretcher', given.section, [-reach, 0, z], [reach, 0, z], [0, 0, 1], gap)
  const one = butt(`${id}/short-2`, laid, 'A', left, gap)
  const two = butt(`${id}/short-1`, one.member, 'B', right, gap)
  return { members: [two.member], joints: [one.joint, two.joint] }
}
