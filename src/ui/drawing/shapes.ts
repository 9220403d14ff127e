import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { dot, type Vec3 } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import { type Extent, extentOf, type View } from './view.ts'
import { type Body, bodyOf, type Line, seenOf } from './visible.ts'

/** What of a solid is seen, on the page in mm, y up. */
export interface Seen {
  readonly id: string
  readonly key: string
  readonly kind: Solid['kind']
  readonly outline: Polygon
  readonly extent: Extent
  /** The stretches of its outline, and of its edges within that, which nothing hides. */
  readonly rim: readonly Line[]
  readonly edges: readonly Line[]
  readonly body: Body
  /** Those that may stand before it. */
  readonly before: readonly Body[]
}

/**
 * Convex hull, counterclockwise (monotone chain). Points are first put on a grid of a millionth of a millimeter:
 * the dust of a rotation would else decide which of two points above each other comes first.
 */
export function hull(points: readonly Point[]): Polygon {
  const grid = (value: number) => Math.round(value / samePoint) * samePoint
  const sorted = points.map(([x, y]): Point => [grid(x), grid(y)]).sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const half = (list: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of list) {
      while (chain.length >= 2 && leftOf(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.reverse())]
}

const leftOf = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

function bodyIn(solid: Solid, view: View): Body {
  const { right, up, toward } = view
  const places = solid.points.map((point) => [dot(point, right), dot(point, up), dot(point, toward)] as const)
  const points = places.map(([x, y]): Point => [x, y])
  return bodyOf(solid, view, places, hull(points), extentOf(points))
}

/** What is seen of a body behind those that may hide it. */
function seenAmong(own: Body, before: readonly Body[], view: View): Seen {
  const { solid, outline, extent, places } = own
  const looks = solid.faces.map(({ normal }) => dot(normal, view.toward) > samePoint)
  const rim: Line[] = []
  const edges: Line[] = []
  for (const { from, to, faces } of solid.edges) {
    const [one, two] = [looks[faces[0]]!, looks[faces[1]]!]
    if (!one && !two) continue
    const within = one && two
    // The sides of round steel show no lines between them.
    if (within && solid.round && !faces.some((face) => solid.faces[face]!.end)) continue
    const into = within ? edges : rim
    into.push(...seenOf(places[from]!, places[to]!, before))
  }
  return { id: solid.id, key: solid.key, kind: solid.kind, outline, extent, rim, edges, body: own, before }
}

/** A solid by itself. */
export function see(solid: Solid, view: View): Seen {
  return seenAmong(bodyIn(solid, view), [], view)
}

/**
 * 1 where `b` stands in front of `a`, −1 where behind, 0 where no face of either parts them. Two convex solids that
 * do not go into each other are parted by a face of one of them, or, seldom, only by two edges.
 */
function depthOrder(a: Solid, b: Solid, toward: Vec3): -1 | 0 | 1 {
  const parted = (by: Solid, other: Solid): -1 | 0 | 1 => {
    for (const face of by.faces) {
      const slope = dot(face.normal, toward)
      if (Math.abs(slope) <= samePoint) continue
      const level = dot(face.normal, by.points[face.corners[0]!]!)
      const size = Math.hypot(...face.normal)
      if (other.points.every((point) => dot(face.normal, point) >= level - samePoint * size))
        return slope > 0 ? 1 : -1
    }
    return 0
  }
  const first = parted(a, b)
  if (first !== 0) return first
  const second = parted(b, a)
  return second === 0 ? 0 : second === 1 ? -1 : 1
}

const apart = (a: Extent, b: Extent) =>
  a.right <= b.left || b.right <= a.left || a.top <= b.bottom || b.top <= a.bottom

/** Whether a side of either convex outline parts them: they have no more than a rim in common. */
const beside = (one: Polygon, two: Polygon) => partedBySide(one, two) || partedBySide(two, one)

function partedBySide(by: Polygon, other: Polygon): boolean {
  let from = by.at(-1)!
  for (const to of by) {
    const [x, y] = [to[0] - from[0], to[1] - from[1]]
    const slack = samePoint * Math.hypot(x, y)
    // Outlines run counterclockwise: what is to the right of a side lies outside.
    if (other.every((point) => x * (point[1] - from[1]) - y * (point[0] - from[0]) <= slack)) return true
    from = to
  }
  return false
}

/**
 * The solids with what is seen of each, from the farthest to the nearest, so that a tap finds the nearest; where some stand
 * before each other in a ring, as near to that as can be. What is `open` hides nothing and is not hidden.
 */
export function backToFront(
  solids: readonly Solid[],
  view: View,
  open: (solid: Solid) => boolean = () => false,
): readonly Seen[] {
  const bodies = solids.map((solid) => bodyIn(solid, view))
  const shut = solids.map((solid) => !open(solid))
  const behind: number[][] = solids.map(() => [])
  const before: Body[][] = solids.map(() => [])
  for (let one = 0; one < solids.length; one += 1)
    for (let two = one + 1; two < solids.length; two += 1) {
      if (apart(bodies[one]!.extent, bodies[two]!.extent)) continue
      // Beside each other on the page they hide nothing of each other; to order them all the same may run in a ring.
      if (beside(bodies[one]!.outline, bodies[two]!.outline)) continue
      const order = depthOrder(solids[one]!, solids[two]!, view.toward)
      if (order === 1) behind[two]!.push(one)
      if (order === -1) behind[one]!.push(two)
      if (!shut[one] || !shut[two]) continue
      if (order >= 0) before[one]!.push(bodies[two]!)
      if (order <= 0) before[two]!.push(bodies[one]!)
    }
  const seen = bodies.map((body, at) => seenAmong(body, before[at]!, view))
  const out: Seen[] = []
  const state = solids.map(() => 0)
  const place = (at: number) => {
    if (state[at] !== 0) return
    state[at] = 1
    for (const other of behind[at]!) place(other)
    state[at] = 2
    out.push(seen[at]!)
  }
  for (let at = 0; at < solids.length; at += 1) place(at)
  return out
}
