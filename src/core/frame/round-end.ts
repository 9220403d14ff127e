import { dirToWorld, toWorld } from '../geometry/pose.ts'
import { dot, sub, type Vec3 } from '../geometry/vec3.ts'
import { isRound } from '../section/section.ts'
import type { Mm, Rad } from '../units.ts'
import type { EndCut, Member, Saddle } from './frame.ts'
import { type End, edgeCorners, endCorners, endIndex, endPlane, xAt } from './member.ts'

// The end of a round tube, as it runs round its outside. Angles run from local +y toward +z.

/** Point of a circle round the axis: (y, z). */
export const rimAt = (radius: Mm, angle: Rad): readonly [Mm, Mm] => [
  radius * Math.cos(angle),
  radius * Math.sin(angle),
]

/** How far the line (y, z) along the member passes beside the axis that its end is fitted to, with its sign. */
export function besideAxis({ point, along }: Pick<Saddle, 'point' | 'along'>, y: Mm, z: Mm): Mm {
  const across = Math.hypot(along[1], along[2])
  return ((z - point[2]) * along[1] - (y - point[1]) * along[2]) / across
}

/**
 * Where the line (y, z) along the member first meets the round outside that its end is fitted to, local x: end B comes
 * from below, end A from above. The line must meet it, which `saddle` has made sure of for all of the section.
 */
export function saddleX(to: Saddle, end: End, y: Mm, z: Mm): Mm {
  const { point, along, radius } = to
  const from: Vec3 = sub([0, y, z], point)
  const square = along[1] ** 2 + along[2] ** 2
  // Nearest to the other axis; from there, half of the chord that the line cuts out of the circle, seen aslant.
  const nearest = (dot(from, along) * along[0] - from[0]) / square
  const beside = Math.abs(besideAxis(to, y, z))
  // A tube as wide as the one it sits on only touches it at its sides: there the chord is zero, give or take rounding.
  const half = Math.sqrt(Math.max(0, (radius - beside) * (radius + beside)) / square)
  return nearest + (end === 'A' ? half : -half)
}

/** Local x of an end on the line (y, z): of its saddle where it has one, else of its plane. */
export const endX = (cut: EndCut, end: End, y: Mm, z: Mm): Mm =>
  cut.saddle ? saddleX(cut.saddle, end, y, z) : xAt(endPlane(cut), y, z)

/** Local x of a round member's end on its outside, at an angle. */
export function roundEnd(of: Member, end: End, angle: Rad): Mm {
  const [y, z] = rimAt(of.section.width / 2, angle)
  return endX(of.ends[endIndex(end)], end, y, z)
}

/** World point of a round member's end on its outside. */
export function outsideAt(of: Member, end: End, angle: Rad): Vec3 {
  const [y, z] = rimAt(of.section.width / 2, angle)
  return toWorld(of.pose, [endX(of.ends[endIndex(end)], end, y, z), y, z])
}

/** Places round the tube at which to look for peaks: an end has two at most, and they stand far apart. */
const looks = 120

/** Greatest value of `f` once round: every peak among the samples is narrowed by thirds, and the highest taken. */
export function greatestAround(f: (angle: Rad) => Mm): { readonly angle: Rad; readonly value: Mm } {
  const step = (2 * Math.PI) / looks
  const samples = Array.from({ length: looks }, (_, k) => f(k * step))
  let best = { angle: 0, value: samples[0]! }
  samples.forEach((value, k) => {
    const before = samples[(k + looks - 1) % looks]!
    const after = samples[(k + 1) % looks]!
    if (value < before || value < after) return
    const peak = narrowed(f, (k - 1) * step, (k + 1) * step)
    if (peak.value > best.value) best = peak
  })
  return best
}

function narrowed(f: (angle: Rad) => Mm, from: Rad, to: Rad) {
  let low = from
  let high = to
  // Each round leaves two thirds: 60 of them leave nothing of six degrees.
  for (let k = 0; k < 60; k++) {
    const third = (high - low) / 3
    if (f(low + third) < f(high - third)) low += third
    else high -= third
  }
  const middle = (from + to) / 2
  const angle = f((low + high) / 2) >= f(middle) ? (low + high) / 2 : middle
  return { angle, value: f(angle) }
}

/** Nodes and weights of a sum over the wall, from the inside out: Gauss and Legendre, three points. */
const throughWall: readonly (readonly [number, number])[] = [
  [-Math.sqrt(0.6), 5 / 9],
  [0, 8 / 9],
  [Math.sqrt(0.6), 5 / 9],
]

/**
 * Length that the steel of a member has on average, mm: times the area of its section it is its volume. Between planes
 * that is the center length; a saddle is summed over the wall.
 */
export function meanLength(of: Member): Mm {
  const [a, b] = of.ends
  return meanX(of, b, 'B') - meanX(of, a, 'A')
}

function meanX({ section }: Member, cut: EndCut, end: End): Mm {
  if (!cut.saddle) return endPlane(cut).x
  const outer = section.width / 2
  const inner = section.wall > 0 ? outer - section.wall : 0
  // Equal steps of the radius squared are equal areas.
  const [middle, half] = [(outer ** 2 + inner ** 2) / 2, (outer ** 2 - inner ** 2) / 2]
  const steps = 360
  let sum = 0
  for (const [node, weight] of throughWall) {
    const radius = Math.sqrt(middle + half * node)
    for (let k = 0; k < steps; k++) {
      const [y, z] = rimAt(radius, (2 * Math.PI * k) / steps)
      sum += (weight / 2) * endX(cut, end, y, z)
    }
  }
  return sum / steps
}

/** Points that stand for a round outline; their chords on a tube of 100 mm lie within 0.01 mm of it. */
const outlinePoints = 240

/**
 * World points that stand for the outline of a plane end: the four sharp corners, or points round the outside, of which
 * two lie farthest out along `along` and against it.
 */
export function endOutline(of: Member, end: End, along: Vec3): readonly Vec3[] {
  if (!isRound(of.section)) return endCorners(of, end)
  const plane = endPlane(of.ends[endIndex(end)])
  const rise = ([p, y, z]: Vec3) => dot(along, dirToWorld(of.pose, [p, y, z]))
  const first = Math.atan2(rise([plane.q, 0, 1]), rise([plane.p, 1, 0]))
  return Array.from({ length: outlinePoints }, (_, k) => {
    const [y, z] = rimAt(of.section.width / 2, first + (2 * Math.PI * k) / outlinePoints)
    return toWorld(of.pose, [xAt(plane, y, z), y, z])
  })
}

/** Local x of the outermost steel at an end: the long point, or the longest point of a saddle. */
export function outermost(of: Member, end: End): Mm {
  const cut = of.ends[endIndex(end)]
  const sign = end === 'A' ? -1 : 1
  if (cut.saddle) return sign * greatestAround((angle) => sign * roundEnd(of, end, angle)).value
  const plane = endPlane(cut)
  if (isRound(of.section)) return plane.x + sign * (of.section.width / 2) * Math.hypot(plane.p, plane.q)
  return sign * Math.max(...edgeCorners(of.section).map(([y, z]) => sign * xAt(plane, y, z)))
}
