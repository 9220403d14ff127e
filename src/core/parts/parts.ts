import type { Member } from '../frame/frame.ts'
import { edgesOf, endPlane } from '../frame/member.ts'
import type { EndPlane } from '../nest.ts'
import type { AngleShown, Part, Shape } from '../plan-shapes.ts'
import { showAngle, showLength, showMass } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import type { Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, toDeg } from '../units.ts'
import { geometryKey, lying, over, quarter, type Solid } from './identity.ts'

export const solidOf = (of: Member): Solid => ({
  section: of.section,
  a: endPlane(of.ends[0]),
  b: endPlane(of.ends[1]),
})

const square = (end: EndPlane) => Math.abs(end.p) < sameSlope && Math.abs(end.q) < sameSlope
const fromSquare = (end: EndPlane): Deg => toDeg(Math.atan(Math.hypot(end.p, end.q)))

/** Slopes as they are cut: of two ends in one swing plane, opposite slopes are opposed, equal ones parallel. */
export function shapeOf({ a, b }: Solid): Shape {
  if (square(a) && square(b)) return 'square'
  if (square(a) || square(b)) return 'one end mitered'
  const turned = a.p * b.q - a.q * b.p
  if (Math.abs(turned) > sameSlope) return 'ends crossed'
  if (a.p * b.p + a.q * b.q < 0) return 'ends opposed'
  const equal = Math.abs(a.p - b.p) < sameSlope && Math.abs(a.q - b.q) < sameSlope
  return equal ? 'ends parallel' : 'ends leaning one way'
}

/**
 * The piece as it lies in a stick: greater dimension across; where the miter of a square section can lie in the
 * table's plane it does, so that the saw needs no quarter turn; the long side on −y, at the fence.
 */
export function inStick(solid: Solid): Solid {
  let laid = lying(solid)
  const even = Math.abs(laid.section.width - laid.section.height) < sameLength
  const steep = (of: Solid) => Math.abs(of.a.q) + Math.abs(of.b.q) - Math.abs(of.a.p) - Math.abs(of.b.p)
  if (even && steep(laid) > sameSlope) laid = quarter(laid)
  return laid.b.p - laid.a.p > sameSlope ? over(laid) : laid
}

/** Names of members that differ only by a number or a side are one name: `top side 3` → `top side`. */
const plainName = (name: string) => name.replace(/[\s-]*\d+$/, '')

/** A, B, … Z, AA, AB … */
export function markOf(at: number): string {
  const rest = Math.floor(at / 26)
  return (rest > 0 ? markOf(rest - 1) : '') + String.fromCharCode(65 + (at % 26))
}

interface Group {
  readonly key: string
  readonly members: Member[]
}

/** Members of one geometry and section are one part; marks run from the longest down. */
export function partsOf(members: readonly Member[], shop: Shop): Part[] {
  const groups = new Map<string, Group>()
  for (const of of members) {
    const key = geometryKey(solidOf(of))
    const group = groups.get(key)
    if (group) group.members.push(of)
    else groups.set(key, { key, members: [of] })
  }
  const drafts = [...groups.values()].map((group) => ({
    ...group,
    longPoint: longPointOf(group.members[0]!),
  }))
  // Longest first; the order of the frame among equals, so that marks are stable.
  drafts.sort((one, two) =>
    Math.abs(two.longPoint - one.longPoint) < 1 / 1600 ? 0 : two.longPoint - one.longPoint,
  )
  return drafts.map((group, at) => partOf(group, markOf(at), shop))
}

function longPointOf(of: Member): Mm {
  const { a, b } = edgesOf(of)
  return Math.max(...b) - Math.min(...a)
}

function partOf({ key, members }: Group, mark: string, shop: Shop): Part {
  const first = members[0]!
  const { a, b, lengths } = edgesOf(first)
  const solid = solidOf(first)
  const longPoint = Math.max(...b) - Math.min(...a)
  const shortPoint = Math.min(...lengths)
  const shape = shapeOf(solid)
  const midLength = solid.b.x - solid.a.x
  const laid = inStick(solid)
  const primary = shape === 'ends parallel' ? 'edge' : 'long point'
  const angles: readonly [Deg, Deg] = [fromSquare(solid.a), fromSquare(solid.b)]
  const mass = (massPerLength(first.section) * midLength) / 1000
  const shown = (angle: Deg): AngleShown => showAngle(angle, shop.reading)
  return {
    mark,
    name: plainName(first.name),
    count: members.length,
    members: members.map(({ id }) => id),
    section: first.section,
    longPoint,
    shortPoint,
    edges: lengths,
    angleFromSquare: angles,
    shape,
    mid: midLength,
    slopes: [
      { p: laid.b.p, q: laid.b.q },
      { p: laid.a.p, q: laid.a.q },
    ],
    mass,
    key,
    printed: {
      primary,
      length: showLength(primary === 'edge' ? lengths[0] : longPoint, shop.reading),
      longPoint: showLength(longPoint, shop.reading),
      shortPoint: showLength(shortPoint, shop.reading),
      angles: [shown(angles[0]), shown(angles[1])],
      mass: showMass(mass, shop.mass),
    },
  }
}

/** The unrounded length that is set and cut: the long point, or the edge where the ends are parallel. */
export function primaryLength(of: Member): Mm {
  return shapeOf(solidOf(of)) === 'ends parallel' ? edgesOf(of).lengths[0] : longPointOf(of)
}

/** The same of a part. */
export const primaryOf = (part: Part): Mm =>
  part.printed.primary === 'edge' ? part.edges[0] : part.longPoint
