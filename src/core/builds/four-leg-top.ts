import type { Assembly, Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { type End, member } from '../frame/member.ts'
import type { Polygon } from '../geometry/polygon.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { ringThrough } from './ring.ts'

// The top frame of a four-leg frame: sides 1 and 3 along the length (front and back), 2 and 4 along the width.

export interface TopFrame {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly assembly: Assembly
}

/** Which sides run through, or neither. */
export type Corners = 'mitered' | 'long through' | 'short through'

/** The outline of a rectangle about the middle, front left first, counterclockwise. */
export const rectangle = (halfLength: Mm, halfWidth: Mm): Polygon => [
  [-halfLength, -halfWidth],
  [halfLength, -halfWidth],
  [halfLength, halfWidth],
  [-halfLength, halfWidth],
]

const sideName = (side: number) => (side % 2 === 1 ? 'Long side' : 'Short side')

/** A frame of tube, its outside `length` by `width`, the axes at height `middle`. */
export function topFrame(
  corners: Corners,
  length: Mm,
  width: Mm,
  section: Section,
  middle: Mm,
  gap: Mm,
): TopFrame {
  const axes = rectangle((length - section.width) / 2, (width - section.width) / 2).map(
    ([x, y]): Vec3 => [x, y, middle],
  )
  const named = (members: readonly Member[]) =>
    members.map((each, at) => ({ ...each, name: `${sideName(at + 1)} ${at < 2 ? 1 : 2}` }))
  if (corners === 'mitered') {
    const ring = ringThrough(axes, section, gap, { id: 'top', name: 'Top frame', side: 'Side' })
    return { ...ring, members: named(ring.members) }
  }
  const runs = (side: number) => (side % 2 === 1) === (corners === 'long through')
  const members = named(
    axes.map((from, at): Member => {
      const to = axes[(at + 1) % 4]!
      const past = runs(at + 1) ? section.width / 2 : 0
      const stretch = (one: Vec3, two: Vec3): Vec3 => [
        one[0] + past * Math.sign(one[0] - two[0]),
        one[1] + past * Math.sign(one[1] - two[1]),
        one[2],
      ]
      return member(`top/side-${at + 1}`, '', section, stretch(from, to), stretch(to, from), [0, 0, 1], gap)
    }),
  )
  const joints: Joint[] = []
  const stop = (side: number, end: End) => {
    const corner = end === 'A' ? side : (side % 4) + 1
    const through = end === 'A' ? (side + 2) % 4 : side % 4
    const made = butt(`top/corner-${corner}`, members[side - 1]!, end, members[through]!, gap)
    members[side - 1] = made.member
    joints.push(made.joint)
  }
  for (const side of corners === 'long through' ? [2, 4] : [1, 3]) {
    stop(side, 'A')
    stop(side, 'B')
  }
  return {
    members,
    joints,
    assembly: { id: 'top', name: 'Top frame', members: members.map(({ id }) => id) },
  }
}
