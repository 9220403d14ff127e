import { sameLength, sameTurn } from '../tolerance.ts'
import type { Mm, Rad } from '../units.ts'
import type { Point, Polygon } from './polygon.ts'

// A sheet of steel is a rectangle: does an outline come out of it, and how must it lie? Only the hull counts.

/** How far an outline reaches along and across when it is turned, counterclockwise. */
export function extentTurned(polygon: Polygon, turn: Rad): readonly [along: Mm, across: Mm] {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)]
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const [x, y] of polygon) {
    const along = x * cosine - y * sine
    const across = x * sine + y * cosine
    left = Math.min(left, along)
    right = Math.max(right, along)
    low = Math.min(low, across)
    high = Math.max(high, across)
  }
  return [right - left, high - low]
}

const within = (polygon: Polygon, turn: Rad, along: Mm, across: Mm): boolean => {
  const [a, b] = extentTurned(polygon, turn)
  return a <= along + sameLength && b <= across + sameLength
}

/** The turnings that lay a side of the hull along one side of the rectangle, from 0 to less than π, each once. */
export function flushTurns(polygon: Polygon): readonly Rad[] {
  const corners = hull(polygon)
  const turns = corners.flatMap((from, at) => {
    const to = corners[(at + 1) % corners.length]!
    const side = Math.atan2(to[1] - from[1], to[0] - from[0])
    return [halfTurn(-side), halfTurn(Math.PI / 2 - side)]
  })
  const sorted = turns.sort((a, b) => a - b)
  return sorted.filter((turn, at) => at === 0 || turn - sorted[at - 1]! > sameTurn)
}

/** Half a turn changes no extent. */
const halfTurn = (turn: Rad): Rad => {
  const least = ((turn % Math.PI) + Math.PI) % Math.PI
  return Math.PI - least < sameTurn ? 0 : least
}

/**
 * A turning that lays an outline inside `along` × `across`, one flush with a side where there is any; undefined where
 * it fits in no turning. Exact: between two flush turnings each extent is one arc of a cosine, so that where any
 * turning does, one does at which an extent is as long as its side, or a flush one.
 */
export function turnInto(polygon: Polygon, along: Mm, across: Mm): Rad | undefined {
  const flush = flushTurns(polygon)
  const straight = flush.find((turn) => within(polygon, turn, along, across))
  if (straight !== undefined) return straight
  const tight = flush.flatMap((turn, at) => {
    const next = flush[at + 1] ?? flush[0]! + Math.PI
    const [a, b] = spans(polygon, (turn + next) / 2)
    return [...turnsTo(a, along), ...turnsTo(b, across).map((angle) => angle - Math.PI / 2)]
  })
  return tight.map(halfTurn).find((turn) => within(polygon, turn, along, across))
}

/** The two corners that are farthest apart along, and across, when turned so: the way from one to the other. */
function spans(polygon: Polygon, turn: Rad): readonly [Point, Point] {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)]
  const farthest = (measure: (at: Point) => number): Point => {
    const sorted = [...polygon].sort((one, two) => measure(one) - measure(two))
    const [from, to] = [sorted[0]!, sorted.at(-1)!]
    return [to[0] - from[0], to[1] - from[1]]
  }
  return [farthest(([x, y]) => x * cosine - y * sine), farthest(([x, y]) => x * sine + y * cosine)]
}

/** Turnings at which a way reaches just so far along; none where it is shorter than that. */
function turnsTo([x, y]: Point, far: Mm): readonly Rad[] {
  const long = Math.hypot(x, y)
  if (far > long || long === 0) return []
  const open = Math.acos(far / long)
  const lies = Math.atan2(y, x)
  return [open - lies, -open - lies]
}

/** The rectangle of least area round an outline, its greater side first: one of its sides is flush (Freeman and Shapira). */
export function leastRectangle(polygon: Polygon): {
  readonly long: Mm
  readonly short: Mm
  readonly turn: Rad
} {
  const all = flushTurns(polygon).map((turn) => {
    const [a, b] = extentTurned(polygon, turn)
    return { long: Math.max(a, b), short: Math.min(a, b), turn: a >= b ? turn : halfTurn(turn + Math.PI / 2) }
  })
  return all.reduce((best, one) => (one.long * one.short < best.long * best.short - sameLength ? one : best))
}

/** Corners of the convex hull, counterclockwise. */
function hull(polygon: Polygon): Polygon {
  const sorted = [...polygon].sort((one, two) => one[0] - two[0] || one[1] - two[1])
  const chain = (points: Polygon): Point[] => {
    const kept: Point[] = []
    for (const point of points) {
      while (kept.length > 1 && left(kept.at(-2)!, kept.at(-1)!, point) <= sameLength) kept.pop()
      kept.push(point)
    }
    return kept.slice(0, -1)
  }
  return [...chain(sorted), ...chain([...sorted].reverse())]
}

const left = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
