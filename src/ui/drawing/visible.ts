import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { dot, type Vec3 } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import { type Extent, extentOf, onPage, type View } from './view.ts'

// Which stretches of an edge are seen, exactly: an edge is split where it passes under the rim of a solid or through one of
// its faces. A convex solid hides a point that lies within its outline on the page and below each of its faces that look at
// the eye; along an edge each of these is one bound, so what it hides is one stretch.
//
// All of a frame of 200 members is asked while one of its sizes is dragged, by code that has hardly run before: loops count,
// and places are taken by their number, since all else is slow until the browser has learned it.

/** On the page a point this far inside a rim is behind it, and this far below a face under it, mm: solids touch. */
const within = 1e-3
/** A seen stretch shorter than this between two hidden ones is the joint of two solids that touch, mm on the page. */
const sliver = 0.02

/** A line on the page, mm. */
export type Line = readonly [Point, Point]

/** Right, up and toward of a normal of length one, and the level along it, mm. */
type Bound = readonly [number, number, number, number]

/** A convex solid as the eye meets it. */
export interface Body {
  readonly solid: Solid
  readonly outline: Polygon
  readonly extent: Extent
  /** Corners on the page, and how near each is to the eye. */
  readonly places: readonly Point[]
  readonly depths: readonly number[]
  /** How far each face looks at the eye: 1 straight at it, 0 edge-on, less than 0 away. */
  readonly looks: readonly number[]
  /**
   * What it hides lies below all of these: one for each side of the outline, then one for each face that looks at the eye.
   */
  readonly bounds: readonly Bound[]
}

/**
 * Convex hull, counterclockwise (monotone chain). Points are first put on a grid of a millionth of a millimeter:
 * the dust of a rotation would else decide which of two points above each other comes first.
 */
export function hull(points: readonly Point[]): Polygon {
  const sorted: Point[] = []
  for (let place = 0; place < points.length; place += 1) {
    const point = points[place]!
    const x = Math.round(point[0] / samePoint) * samePoint
    const y = Math.round(point[1] / samePoint) * samePoint
    let at = sorted.length
    for (; at > 0; at -= 1) {
      const before = sorted[at - 1]!
      if (before[0] < x || (before[0] === x && before[1] <= y)) break
    }
    const last = sorted[at - 1]
    // From above or the front, corners of most solids lie on each other.
    if (last && last[0] === x && last[1] === y) continue
    for (let to = sorted.length; to > at; to -= 1) sorted[to] = sorted[to - 1]!
    sorted[at] = [x, y]
  }
  const rim: Point[] = []
  let start = 0
  const chain = (point: Point) => {
    while (rim.length >= start + 2 && leftOf(rim[rim.length - 2]!, rim[rim.length - 1]!, point) <= 0)
      rim.pop()
    rim.push(point)
  }
  for (let at = 0; at < sorted.length; at += 1) chain(sorted[at]!)
  rim.pop()
  start = rim.length
  for (let at = sorted.length - 1; at >= 0; at -= 1) chain(sorted[at]!)
  rim.pop()
  return rim
}

const leftOf = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

/** A solid as it stands in a view. */
export function bodyOf(solid: Solid, view: View): Body {
  const { points, faces } = solid
  const places: Point[] = []
  const depths: number[] = []
  for (let at = 0; at < points.length; at += 1) {
    places.push(onPage(view, points[at]!))
    depths.push(dot(points[at]!, view.toward))
  }
  const looks: number[] = []
  for (let at = 0; at < faces.length; at += 1) looks.push(dot(faces[at]!.normal, view.toward))
  const outline = hull(places)
  const bounds: Bound[] = []
  let from = outline[outline.length - 1]!
  for (const to of outline) {
    const x = to[1] - from[1]
    const y = from[0] - to[0]
    const size = Math.sqrt(x * x + y * y)
    bounds.push([x / size, y / size, 0, (x * from[0] + y * from[1]) / size - within])
    from = to
  }
  for (let at = 0; at < faces.length; at += 1) {
    const look = looks[at]!
    if (look <= samePoint) continue
    const { normal, level } = faces[at]!
    bounds.push([dot(normal, view.right), dot(normal, view.up), look, level - within * look])
  }
  return { solid, outline, extent: extentOf(places), places, depths, looks, bounds }
}

/** The stretch of the way from a to b, 0 to 1, that a body hides; absent where it hides none of it. */
function hiddenBy(
  { bounds }: Body,
  a: Point,
  aDepth: number,
  b: Point,
  bDepth: number,
): readonly [number, number] | undefined {
  let from = 0
  let to = 1
  for (let at = 0; at < bounds.length; at += 1) {
    const bound = bounds[at]!
    // How far below the bound the way starts and ends.
    const start = bound[3] - bound[0] * a[0] - bound[1] * a[1] - bound[2] * aDepth
    const end = bound[3] - bound[0] * b[0] - bound[1] * b[1] - bound[2] * bDepth
    if (start <= 0 && end <= 0) return undefined
    if (start < 0) from = Math.max(from, start / (start - end))
    else if (end < 0) to = Math.min(to, start / (start - end))
    if (from >= to) return undefined
  }
  return [from, to]
}

/** Puts the stretches of the way from a to b on the page that none of these bodies hides into `seen`. */
export function addSeen(
  seen: Line[],
  a: Point,
  aDepth: number,
  b: Point,
  bDepth: number,
  bodies: readonly Body[],
): void {
  const left = Math.min(a[0], b[0])
  const right = Math.max(a[0], b[0])
  const low = Math.min(a[1], b[1])
  const high = Math.max(a[1], b[1])
  let hidden: (readonly [number, number])[] | undefined
  for (let at = 0; at < bodies.length; at += 1) {
    const body = bodies[at]!
    const { extent } = body
    if (extent.right <= left || extent.left >= right + within) continue
    if (extent.top <= low || extent.bottom >= high + within) continue
    const stretch = hiddenBy(body, a, aDepth, b, bDepth)
    if (!stretch) continue
    if (stretch[0] === 0 && stretch[1] === 1) return
    if (hidden) hidden.push(stretch)
    else hidden = [stretch]
  }
  if (!hidden) {
    seen.push([a, b])
    return
  }
  const least = sliver / Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), sliver)
  hidden.sort((one, two) => one[0] - two[0])
  let reached = 0
  for (const stretch of hidden) {
    if (stretch[0] - reached > least) seen.push([between(a, b, reached), between(a, b, stretch[0])])
    reached = Math.max(reached, stretch[1])
  }
  if (1 - reached > least) seen.push([between(a, b, reached), b])
}

const between = (a: Point, b: Point, t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]

/** Whether another body stands before this one at a point of the page within its outline. */
export function coveredAt(own: Body, place: Point, bodies: readonly Body[]): boolean {
  const { outline, bounds } = own
  let depth = Number.POSITIVE_INFINITY
  for (let at = outline.length; at < bounds.length; at += 1) {
    const bound = bounds[at]!
    const level = bound[3] + within * bound[2]
    depth = Math.min(depth, (level - bound[0] * place[0] - bound[1] * place[1]) / bound[2])
  }
  return bodies.some((body) => body !== own && hiddenBy(body, place, depth, place, depth) !== undefined)
}

/** Whether a side of either outline parts two bodies on the page: they have no more than a rim in common. */
export const beside = (one: Body, two: Body): boolean => besideSide(one, two) || besideSide(two, one)

function besideSide({ outline, bounds }: Body, other: Body): boolean {
  for (let at = 0; at < outline.length; at += 1) {
    const bound = bounds[at]!
    if (allPast(other.outline, bound[0], bound[1], bound[3] + within - samePoint)) return true
  }
  return false
}

function allPast(outline: Polygon, x: number, y: number, rim: number): boolean {
  for (let at = 0; at < outline.length; at += 1) {
    const point = outline[at]!
    if (x * point[0] + y * point[1] < rim) return false
  }
  return true
}

/**
 * 1 where `b` stands in front of `a`, −1 where behind, 0 where no face of either parts them. Two convex solids that
 * do not go into each other are parted by a face of one of them, or, seldom, only by two edges.
 */
export function depthOrder(a: Body, b: Body): -1 | 0 | 1 {
  const first = parted(a, b)
  if (first !== 0) return first
  const second = parted(b, a)
  return second === 0 ? 0 : second === 1 ? -1 : 1
}

function parted({ solid, looks }: Body, other: Body): -1 | 0 | 1 {
  for (let at = 0; at < looks.length; at += 1) {
    const look = looks[at]!
    if (Math.abs(look) <= samePoint) continue
    const { normal, level } = solid.faces[at]!
    if (allAbove(other.solid, normal, level - samePoint)) return look > 0 ? 1 : -1
  }
  return 0
}

function allAbove({ points }: Solid, normal: Vec3, level: number): boolean {
  for (let at = 0; at < points.length; at += 1) if (dot(normal, points[at]!) < level) return false
  return true
}
