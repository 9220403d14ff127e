import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import { dot, norm } from '../../core/geometry/vec3.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import type { Extent, View } from './view.ts'

// Which stretches of an edge are seen, exactly: an edge is split where it passes under the rim of a solid or through one of
// its faces. A convex solid hides a point that lies within its outline on the page and below each of its faces that look at
// the eye; along an edge each of these is one bound, so what it hides is one stretch.

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
  /** Corners on the page, with their depth toward the eye. */
  readonly places: readonly (readonly [number, number, number])[]
  /** Faces that look at the eye: normal along right, up and toward, of length one, and its level. */
  readonly front: readonly (readonly [number, number, number, number])[]
}

/** A solid as it stands in a view; `places` are its corners there. */
export function bodyOf(
  solid: Solid,
  { right, up, toward }: View,
  places: Body['places'],
  outline: Polygon,
  extent: Extent,
): Body {
  const front: Body['front'][number][] = []
  for (const { corners, normal } of solid.faces) {
    const size = norm(normal)
    const look = dot(normal, toward) / size
    if (look <= samePoint) continue
    const [x, y] = [dot(normal, right) / size, dot(normal, up) / size]
    const [u, v, w] = places[corners[0]!]!
    front.push([x, y, look, x * u + y * v + look * w])
  }
  return { solid, outline, extent, places, front }
}

type Place = Body['places'][number]

/** The stretch of the way from a to b, 0 to 1, that a body hides; absent where it hides none of it. */
function hiddenBy({ outline, front }: Body, a: Place, b: Place): readonly [number, number] | undefined {
  let from = 0
  let to = 1
  // Where a value that runs evenly from `start` to `end` is more than nothing.
  const bound = (start: number, end: number): boolean => {
    if (start <= 0 && end <= 0) return false
    if (start < 0 || end < 0) {
      const t = start / (start - end)
      if (start < 0) from = Math.max(from, t)
      else to = Math.min(to, t)
    }
    return from < to
  }
  let [px, py] = outline[outline.length - 1]!
  for (const [qx, qy] of outline) {
    const [x, y] = [qx - px, qy - py]
    const slack = within * Math.hypot(x, y)
    if (!bound(x * (a[1] - py) - y * (a[0] - px) - slack, x * (b[1] - py) - y * (b[0] - px) - slack))
      return undefined
    px = qx
    py = qy
  }
  for (const [x, y, look, level] of front) {
    const slack = level - within * look
    if (!bound(slack - x * a[0] - y * a[1] - look * a[2], slack - x * b[0] - y * b[1] - look * b[2]))
      return undefined
  }
  return [from, to]
}

/** The stretches of the way from a to b on the page that none of these bodies hides. */
export function seenOf(a: Place, b: Place, bodies: readonly Body[]): Line[] {
  const [left, right] = a[0] < b[0] ? [a[0], b[0]] : [b[0], a[0]]
  const [low, high] = a[1] < b[1] ? [a[1], b[1]] : [b[1], a[1]]
  const hidden: (readonly [number, number])[] = []
  for (const body of bodies) {
    const { extent } = body
    if (extent.right <= left || extent.left >= right + within) continue
    if (extent.top <= low || extent.bottom >= high + within) continue
    const stretch = hiddenBy(body, a, b)
    if (stretch) hidden.push(stretch)
  }
  const at = (t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
  if (hidden.length === 0) return [[at(0), at(1)]]
  const least = sliver / Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), sliver)
  hidden.sort((one, two) => one[0] - two[0])
  const seen: Line[] = []
  let reached = 0
  for (const [from, to] of [...hidden, [1, 1] as const]) {
    if (from - reached > least) seen.push([at(reached), at(from)])
    reached = Math.max(reached, to)
  }
  return seen
}

/** Whether another body stands before this one at a point of the page within its outline. */
export function coveredAt(own: Body, [x, y]: Point, bodies: readonly Body[]): boolean {
  const depth = Math.min(...own.front.map(([u, v, look, level]) => (level - u * x - v * y) / look))
  const place = [x, y, depth] as const
  return bodies.some((body) => body !== own && hiddenBy(body, place, place) !== undefined)
}
