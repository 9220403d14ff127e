import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { dot } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import { type Extent, extentOf, onPage, type View } from './view.ts'

// Which stretches of an edge are seen, exactly: an edge is split where it passes under the rim of a solid or through one of
// its faces. A convex solid hides a point that lies within its outline on the page and below each of its faces that look at
// the eye; along an edge each of these is one bound, so what it hides is one stretch.
//
// All of a frame of 200 members is asked while one of its sizes is dragged: plain loops over plain numbers.

/** On the page a point this far inside a rim is behind it, and this far below a face under it, mm: solids touch. */
const within = 1e-3
/** A seen stretch shorter than this between two hidden ones is the joint of two solids that touch, mm on the page. */
const sliver = 0.02

/** A line on the page, mm. */
export type Line = readonly [Point, Point]

/** A convex solid as the eye meets it. */
export interface Body {
  readonly solid: Solid
  readonly outline: Polygon
  readonly extent: Extent
  /** Corners on the page, and how near each is to the eye. */
  readonly places: readonly Point[]
  readonly depths: ArrayLike<number>
  /** How far each face looks at the eye: 1 straight at it, 0 edge-on, less than 0 away. */
  readonly looks: ArrayLike<number>
  /**
   * What it hides lies below all of these: right, up and toward of a normal of length one, and the level along it. One for
   * each side of the outline, then one for each face that looks at the eye.
   */
  readonly bounds: ArrayLike<number>
}

/**
 * Convex hull, counterclockwise (monotone chain). Points are first put on a grid of a millionth of a millimeter:
 * the dust of a rotation would else decide which of two points above each other comes first.
 */
export function hull(points: readonly Point[]): Polygon {
  const sorted: Point[] = []
  for (const [u, v] of points) {
    const x = Math.round(u / samePoint) * samePoint
    const y = Math.round(v / samePoint) * samePoint
    let at = sorted.length
    for (; at > 0; at -= 1) {
      const before = sorted[at - 1]!
      if (before[0] < x || (before[0] === x && before[1] <= y)) break
      sorted[at] = before
    }
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
  const places = points.map((point) => onPage(view, point))
  const depths = new Float64Array(points.length)
  for (let at = 0; at < points.length; at += 1) depths[at] = dot(points[at]!, view.toward)
  const looks = new Float64Array(faces.length)
  let looking = 0
  for (let at = 0; at < faces.length; at += 1) {
    looks[at] = dot(faces[at]!.normal, view.toward)
    if (looks[at]! > samePoint) looking += 1
  }
  const outline = hull(places)
  const bounds = new Float64Array(4 * (outline.length + looking))
  let next = 0
  let from = outline[outline.length - 1]!
  for (const to of outline) {
    const [x, y] = [to[1] - from[1], from[0] - to[0]]
    const size = Math.sqrt(x * x + y * y)
    bounds[next] = x / size
    bounds[next + 1] = y / size
    bounds[next + 3] = (x * from[0] + y * from[1]) / size - within
    next += 4
    from = to
  }
  for (let at = 0; at < faces.length; at += 1) {
    const look = looks[at]!
    if (look <= samePoint) continue
    const { normal, level } = faces[at]!
    bounds[next] = dot(normal, view.right)
    bounds[next + 1] = dot(normal, view.up)
    bounds[next + 2] = look
    bounds[next + 3] = level - within * look
    next += 4
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
  for (let at = 0; at < bounds.length; at += 4) {
    const [x, y, z, level] = [bounds[at]!, bounds[at + 1]!, bounds[at + 2]!, bounds[at + 3]!]
    // How far below the bound the way starts and ends.
    const start = level - x * a[0] - y * a[1] - z * aDepth
    const end = level - x * b[0] - y * b[1] - z * bDepth
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
  const [left, right] = a[0] < b[0] ? [a[0], b[0]] : [b[0], a[0]]
  const [low, high] = a[1] < b[1] ? [a[1], b[1]] : [b[1], a[1]]
  let hidden: (readonly [number, number])[] | undefined
  for (const body of bodies) {
    const { extent } = body
    if (extent.right <= left || extent.left >= right + within) continue
    if (extent.top <= low || extent.bottom >= high + within) continue
    const stretch = hiddenBy(body, a, aDepth, b, bDepth)
    if (!stretch) continue
    if (hidden) hidden.push(stretch)
    else hidden = [stretch]
  }
  if (!hidden) {
    seen.push([a, b])
    return
  }
  const at = (t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
  const least = sliver / Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), sliver)
  hidden.sort((one, two) => one[0] - two[0])
  let reached = 0
  for (const [from, to] of hidden) {
    if (from - reached > least) seen.push([at(reached), at(from)])
    reached = Math.max(reached, to)
  }
  if (1 - reached > least) seen.push([at(reached), b])
}

/** Whether another body stands before this one at a point of the page within its outline. */
export function coveredAt(own: Body, place: Point, bodies: readonly Body[]): boolean {
  const { outline, bounds } = own
  let depth = Number.POSITIVE_INFINITY
  for (let at = 4 * outline.length; at < bounds.length; at += 4) {
    const look = bounds[at + 2]!
    const level = bounds[at + 3]! + within * look
    depth = Math.min(depth, (level - bounds[at]! * place[0] - bounds[at + 1]! * place[1]) / look)
  }
  return bodies.some((body) => body !== own && hiddenBy(body, place, depth, place, depth) !== undefined)
}

/** Whether a side of either outline parts two bodies on the page: they have no more than a rim in common. */
export const beside = (one: Body, two: Body): boolean => besideSide(one, two) || besideSide(two, one)

function besideSide({ outline, bounds }: Body, other: Body): boolean {
  for (let at = 0; at < 4 * outline.length; at += 4) {
    const [x, y] = [bounds[at]!, bounds[at + 1]!]
    const rim = bounds[at + 3]! + within - samePoint
    if (other.outline.every((point) => x * point[0] + y * point[1] >= rim)) return true
  }
  return false
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
    if (other.solid.points.every((point) => dot(normal, point) >= level - samePoint)) return look > 0 ? 1 : -1
  }
  return 0
}
