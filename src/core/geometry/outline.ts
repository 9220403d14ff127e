import { samePoint, sameSlope } from '../tolerance.ts'
import { type Deg, toDeg } from '../units.ts'
import { area, type Point, type Polygon } from './polygon.ts'

// An outline goes round through its corners, either way; side k runs from corner k to the next one.

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]]
const turned = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0]
const along = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1]
const length = (a: Point): number => Math.hypot(a[0], a[1])

/** Corner k of an outline, counted on round it. */
export const cornerAt = (outline: Polygon, at: number): Point =>
  outline[((at % outline.length) + outline.length) % outline.length]!

/** Length of every side. */
export const sidesOf = (outline: Polygon): number[] =>
  outline.map((from, at) => length(minus(cornerAt(outline, at + 1), from)))

/** Unit vectors along the sides. No side may be of length 0. */
export const directionsOf = (outline: Polygon): Point[] =>
  outline.map((from, at) => {
    const way = minus(cornerAt(outline, at + 1), from)
    return [way[0] / length(way), way[1] / length(way)]
  })

/** The angle inside each corner, between 0° and 360°: above 180° where the outline turns inward. */
export function insideAngles(outline: Polygon): Deg[] {
  const ways = directionsOf(outline)
  const round = area(outline) < 0 ? -1 : 1
  return ways.map((out, at) => {
    const into = cornerAt(ways, at - 1)
    return 180 - toDeg(Math.atan2(round * turned(into, out), along(into, out)))
  })
}

/**
 * Every side moved out by so much, inward where negative, parallel to itself; corners and sides keep their places in
 * the order. A side that has not the room comes out reversed: `faultOf` tells. No corner may turn straight back.
 */
export function moved(outline: Polygon, out: number): Polygon {
  const ways = directionsOf(outline)
  const by = area(outline) < 0 ? -out : out
  return outline.map((corner, at): Point => {
    const into = cornerAt(ways, at - 1)
    const leaving = ways[at]!
    const share = by / (1 + along(into, leaving))
    return [corner[0] + share * (into[1] + leaving[1]), corner[1] - share * (into[0] + leaving[0])]
  })
}

/** Two sides that meet where they should not, and where. Places in the order, from 0, the lesser first. */
export interface Crossing {
  readonly sides: readonly [number, number]
  readonly at: Point
}

/** The first two sides that are no neighbors and cross or touch; absent where the outline is simple. */
export function crossingOf(outline: Polygon): Crossing | undefined {
  const n = outline.length
  for (let one = 0; one < n; one++)
    for (let two = one + 2; two < n; two++) {
      if (one === 0 && two === n - 1) continue
      const at = meeting(
        [outline[one]!, cornerAt(outline, one + 1)],
        [outline[two]!, cornerAt(outline, two + 1)],
      )
      if (at) return { sides: [one, two], at }
    }
  return undefined
}

type Stretch = readonly [Point, Point]

function meeting(one: Stretch, two: Stretch): Point | undefined {
  const wayOne = minus(one[1], one[0])
  const wayTwo = minus(two[1], two[0])
  const bend = turned(wayOne, wayTwo)
  if (Math.abs(bend) > sameSlope * length(wayOne) * length(wayTwo)) {
    const between = minus(two[0], one[0])
    const t = turned(between, wayTwo) / bend
    const u = turned(between, wayOne) / bend
    if (t >= 0 && t <= 1 && u >= 0 && u <= 1) return [one[0][0] + t * wayOne[0], one[0][1] + t * wayOne[1]]
  }
  return two.find((point) => near(point, one)) ?? one.find((point) => near(point, two))
}

/** Whether a point lies on a stretch. */
function near(point: Point, [from, to]: Stretch): boolean {
  const way = minus(to, from)
  const whole = along(way, way)
  const t = whole > 0 ? Math.min(1, Math.max(0, along(minus(point, from), way) / whole)) : 0
  return length(minus(point, [from[0] + t * way[0], from[1] + t * way[1]])) < samePoint
}

/** What is wrong with an outline that came from moving another: a side that is used up, or two that run together. */
export type Fault = { readonly side: number } | Crossing

/** The first fault of `moved(outline, out)`; absent where it is an outline with every side left. */
export function faultOf(outline: Polygon, out: number): Fault | undefined {
  const made = moved(outline, out)
  const ways = directionsOf(outline)
  const left = made.map((from, at) => along(minus(cornerAt(made, at + 1), from), ways[at]!))
  const side = left.findIndex((each) => each < samePoint)
  return side >= 0 ? { side } : crossingOf(made)
}

/** The greatest length up to which `holds` holds, between 0, where it does, and `asked`, where it does not. */
export function greatest(asked: number, holds: (tried: number) => boolean): number {
  let low = 0
  let high = asked
  while (high - low > samePoint) {
    const middle = (low + high) / 2
    if (holds(middle)) low = middle
    else high = middle
  }
  return low
}
