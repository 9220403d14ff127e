import { samePoint } from '../tolerance.ts'

export type Point = readonly [number, number]
export type Polygon = readonly Point[]

/** Area, positive for a counterclockwise polygon. Square of the unit of the points. */
export function area(polygon: Polygon): number {
  let twice = 0
  let a = polygon.at(-1)
  for (const b of polygon) {
    twice += a![0] * b[1] - b[0] * a![1]
    a = b
  }
  return twice / 2
}

/** The part of a polygon where a·x + b·y ≤ c. */
export function clip(polygon: Polygon, a: number, b: number, c: number): Polygon {
  const kept: Point[] = []
  for (let at = 0; at < polygon.length; at++) {
    const from = polygon[at]!
    const to = polygon[at + 1] ?? polygon[0]!
    const here = a * from[0] + b * from[1] - c
    const there = a * to[0] + b * to[1] - c
    if (here <= 0) kept.push(from)
    if ((here < 0 && there > 0) || (here > 0 && there < 0)) {
      const t = here / (here - there)
      kept.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])])
    }
  }
  return kept
}

/** Common part of two convex polygons, the second one counterclockwise; empty where they only touch. */
export function common(one: Polygon, convex: Polygon): Polygon {
  let left = one
  for (let at = 0; at < convex.length; at++) {
    const a = convex[at]!
    const b = convex[at + 1] ?? convex[0]!
    const x = b[1] - a[1]
    const y = a[0] - b[0]
    left = clip(left, x, y, x * a[0] + y * a[1])
  }
  return Math.abs(area(left)) < samePoint ? [] : left
}

export const counterclockwise = (polygon: Polygon): Polygon =>
  area(polygon) < 0 ? [...polygon].reverse() : polygon

/** Regular polygon of `n` sides, circle of radius `inradius` touching them, one side facing −y. */
export function regular(n: number, inradius: number): Polygon {
  const corner = inradius / Math.cos(Math.PI / n)
  return Array.from({ length: n }, (_, k): Point => {
    const angle = -Math.PI / 2 + ((2 * k - 1) * Math.PI) / n
    return [corner * Math.cos(angle), corner * Math.sin(angle)]
  })
}
