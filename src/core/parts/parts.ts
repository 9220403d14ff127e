import type { Member } from '../frame/frame.ts'
import { edgeCorners, endPlane, xAt } from '../frame/member.ts'
import { greatestAround, meanLength, roundEnd } from '../frame/round-end.ts'
import type { EndPlane } from '../nest.ts'
import type { AngleShown, Part, Shape } from '../plan-shapes.ts'
import { showAngle, showLength, showMass } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import { isRound } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, type Rad, toDeg } from '../units.ts'
import { geometryKey, lying, over, quarter, rolled, type Solid } from './identity.ts'

export function solidOf(of: Member): Solid {
  const [a, b] = of.ends
  const saddles = a.saddle || b.saddle ? { saddles: [a.saddle, b.saddle] as const } : {}
  return { section: of.section, a: endPlane(a), b: endPlane(b), ...saddles }
}

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
 * table's plane it does, so that the saw needs no quarter turn, and of round steel the steeper one always does; the
 * long side on −y, at the fence.
 */
export function inStick(solid: Solid): Solid {
  let laid = isRound(solid.section) ? rolled(solid, -steepest(solid)) : lying(solid)
  const even = Math.abs(laid.section.width - laid.section.height) < sameLength
  const steep = (of: Solid) => Math.abs(of.a.q) + Math.abs(of.b.q) - Math.abs(of.a.p) - Math.abs(of.b.p)
  if (even && !isRound(laid.section) && steep(laid) > sameSlope) laid = quarter(laid)
  return laid.b.p - laid.a.p > sameSlope ? over(laid) : laid
}

/** Where round the tube its steeper end rises. */
function steepest({ a, b }: Solid): Rad {
  const { p, q } = Math.hypot(b.p, b.q) > Math.hypot(a.p, a.q) + sameSlope ? b : a
  return Math.hypot(p, q) < sameSlope ? 0 : Math.atan2(q, p)
}

/** Names of members that differ only by a number or a side are one name: `top side 3` → `top side`. */
const plainName = (name: string) => name.replace(/[\s-]*\d+$/, '')

/** A, B, … Z, AA, AB … without S: S1 is the first stick, and a piece of that name would be taken for it. */
export const markOf = (at: number): string => letters(at < placeOfS ? at : at + 1)

const placeOfS = 18

function letters(at: number): string {
  const rest = Math.floor(at / 26)
  return (rest > 0 ? letters(rest - 1) : '') + String.fromCharCode(65 + (at % 26))
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
    longPoint: longPointOf(solidOf(group.members[0]!)),
  }))
  // Longest first; the order of the frame among equals, so that marks are stable.
  drafts.sort((one, two) =>
    Math.abs(two.longPoint - one.longPoint) < 1 / 1600 ? 0 : two.longPoint - one.longPoint,
  )
  return drafts.map((group, at) => partOf(group, markOf(at), shop))
}

const onEdges = ({ section, a, b }: Solid): [Mm, Mm, Mm, Mm] =>
  edgeCorners(section).map(([y, z]) => xAt(b, y, z) - xAt(a, y, z)) as [Mm, Mm, Mm, Mm]

/** Greatest extent of the piece as it is sawn: over its sharp corners, of round steel over its outside. */
function longPointOf(solid: Solid): Mm {
  const { section, a, b } = solid
  if (isRound(section)) return b.x - a.x + (section.width / 2) * (Math.hypot(a.p, a.q) + Math.hypot(b.p, b.q))
  const at = (end: EndPlane) => edgeCorners(section).map(([y, z]) => xAt(end, y, z))
  return Math.max(...at(b)) - Math.min(...at(a))
}

/** Least length along the outside of the finished piece. */
function shortPointOf(of: Member, solid: Solid): Mm {
  if (!isRound(of.section)) return Math.min(...onEdges(solid))
  if (solid.saddles)
    return -greatestAround((angle) => roundEnd(of, 'A', angle) - roundEnd(of, 'B', angle)).value
  const { a, b } = solid
  return b.x - a.x - (of.section.width / 2) * Math.hypot(b.p - a.p, b.q - a.q)
}

const saddlesOf = ({ saddles }: Solid): Pick<Part, 'saddles'> =>
  saddles ? { saddles: saddles.every((to) => to !== undefined) ? 'at both ends' : 'at one end' } : {}

function partOf({ key, members }: Group, mark: string, shop: Shop): Part {
  const first = members[0]!
  const solid = solidOf(first)
  const laid = inStick(solid)
  const longPoint = longPointOf(solid)
  const shortPoint = shortPointOf(first, solid)
  // Round steel has no edges of its own: they are those of the box round it as it lies in the stick.
  const edges = onEdges(isRound(first.section) ? laid : solid)
  const shape = shapeOf(solid)
  const primary = shape === 'ends parallel' ? 'edge' : 'long point'
  const angles: readonly [Deg, Deg] = [fromSquare(solid.a), fromSquare(solid.b)]
  const mass = (massPerLength(first.section) * meanLength(first)) / 1000
  const shown = (angle: Deg): AngleShown => showAngle(angle, shop.reading)
  return {
    mark,
    name: plainName(first.name),
    count: members.length,
    members: members.map(({ id }) => id),
    section: first.section,
    longPoint,
    shortPoint,
    edges,
    angleFromSquare: angles,
    shape,
    mid: solid.b.x - solid.a.x,
    slopes: [
      { p: laid.b.p, q: laid.b.q },
      { p: laid.a.p, q: laid.a.q },
    ],
    mass,
    key,
    ...saddlesOf(solid),
    printed: {
      primary,
      length: showLength(primary === 'edge' ? edges[0] : longPoint, shop.reading),
      longPoint: showLength(longPoint, shop.reading),
      shortPoint: showLength(shortPoint, shop.reading),
      angles: [shown(angles[0]), shown(angles[1])],
      mass: showMass(mass, shop.mass),
    },
  }
}

/** The unrounded length that is set and cut: the long point, or the edge where the ends are parallel. */
export function primaryLength(of: Member): Mm {
  const solid = solidOf(of)
  return shapeOf(solid) === 'ends parallel' ? onEdges(solid)[0] : longPointOf(solid)
}

/** The same of a part. */
export const primaryOf = (part: Part): Mm =>
  part.printed.primary === 'edge' ? part.edges[0] : part.longPoint
