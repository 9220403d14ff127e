import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { dot, type Vec3 } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import { type Extent, extentOf, onPage, type View } from './view.ts'

/** What of a solid is seen: its outline, and its visible faces, on the page in mm, y up. */
export interface Seen {
  readonly id: string
  readonly key: string
  readonly kind: Solid['kind']
  readonly outline: Polygon
  readonly faces: readonly Polygon[]
  /** Of a piece of a plate: the edges that are drawn, without the cuts between the pieces; else they are those of faces. */
  readonly lines?: readonly (readonly [Point, Point])[]
  readonly extent: Extent
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

export function see(solid: Solid, view: View): Seen {
  const points = solid.points.map((point) => onPage(view, point))
  const turned = solid.faces.filter(
    (face) => dot(face.normal, view.toward) > samePoint && (face.end || !solid.round),
  )
  const faces = turned.map((face) => face.corners.map((at) => points[at]!))
  const seen = { id: solid.id, key: solid.key, kind: solid.kind, outline: hull(points), faces }
  const extent = extentOf(points)
  if (!solid.faces.some(({ parting }) => parting)) return { ...seen, extent }
  const lines = turned.flatMap(({ corners, parting = [] }) =>
    corners.flatMap((from, at) =>
      parting[at] ? [] : [[points[from]!, points[corners[(at + 1) % corners.length]!]!] as const],
    ),
  )
  return { ...seen, lines, extent }
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

/** The solids from the farthest to the nearest, so that drawing them one over the other hides what is hidden. */
export function backToFront(solids: readonly Solid[], view: View): readonly Seen[] {
  const seen = solids.map((solid) => see(solid, view))
  const behind: number[][] = solids.map(() => [])
  for (let one = 0; one < solids.length; one += 1)
    for (let two = one + 1; two < solids.length; two += 1) {
      if (apart(seen[one]!.extent, seen[two]!.extent)) continue
      const order = depthOrder(solids[one]!, solids[two]!, view.toward)
      // Beside each other on the page they hide nothing of each other; to order them all the same may run in a ring.
      if (order === 0 || beside(seen[one]!.outline, seen[two]!.outline)) continue
      if (order === 1) behind[two]!.push(one)
      if (order === -1) behind[one]!.push(two)
    }
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
