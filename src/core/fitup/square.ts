import type { Point } from '../geometry/polygon.ts'
import { sameSlope } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm, toDeg } from '../units.ts'
import { along, left, long, minus, unit2 } from './move.ts'

/** A distance from corner to corner of a loop, as planned. */
export interface Diagonal {
  readonly id: string
  /** Corners by number, from 1. */
  readonly from: number
  readonly to: number
  readonly expected: Mm
}

export const diagonalName = (loop: string, id: string): string => `diagonal:${loop}/${id}`

/**
 * The diagonals to measure: of an even ring those through the middle, of an odd one the two longest from each corner,
 * of a triangle its sides. Every one is a plain distance between the corners given.
 */
export function diagonalsOf(corners: readonly Point[]): readonly Diagonal[] {
  const n = corners.length
  const reach = Math.floor(n / 2)
  const count = n % 2 === 0 ? n / 2 : n
  return Array.from({ length: count }, (_, at) => {
    const to = (at + reach) % n
    const [low, high] = at < to ? [at, to] : [to, at]
    return {
      id: `${low + 1}-${high + 1}`,
      from: low + 1,
      to: high + 1,
      expected: long(minus(corners[high]!, corners[low]!)),
    }
  })
}

/** Two sides that run parallel across from each other: side k runs from corner k to the next. */
export interface Flats {
  readonly id: string
  readonly from: number
  readonly to: number
  readonly expected: Mm
}

export const flatsName = (loop: string, id: string): string => `flats:${loop}/${id}`

/** Across the flats: every pair of sides that look at each other and run parallel, so that a tape can be laid square to both. */
export function flatsOf(corners: readonly Point[]): readonly Flats[] {
  const n = corners.length
  const side = (at: number) => [corners[at]!, corners[(at + 1) % n]!] as const
  const found: Flats[] = []
  for (let from = 0; from < n; from++)
    for (let to = from + 2; to < n; to++) {
      const [a, b] = side(from)
      const [c, d] = side(to)
      const way = unit2(minus(b, a))
      const back = unit2(minus(d, c))
      if (along(way, back) > -1 + sameSlope) continue
      const run = [along(way, minus(c, a)), along(way, minus(d, a))]
      const shared = Math.min(long(minus(b, a)), Math.max(...run)) - Math.max(0, Math.min(...run))
      const expected = along(left(way), minus(c, a))
      if (shared > 0 && expected > 0)
        found.push({ id: `${from + 1}-${to + 1}`, from: from + 1, to: to + 1, expected })
    }
  return found
}

export interface Square {
  /** How far a corner is from its planned angle, degrees: over 0, corner 1 is too sharp. */
  readonly off: Deg
  /** Corners whose diagonal is too long: pull these together. Absent where the frame is right. */
  readonly pull?: readonly [number, number]
  /** How much shorter that diagonal must become, mm. */
  readonly by: Mm
}

/**
 * A four-sided frame that leans, from both diagonals and its two sides a and b as built. For a parallelogram
 * d1² − d2² = 4ab · sin(off) where corner 1 was planned square; the long diagonal is pulled in until both read alike.
 */
export function squareOf(one: Mm, two: Mm, a: Mm, b: Mm): Square {
  const off = toDeg(Math.asin(Math.max(-1, Math.min(1, (one ** 2 - two ** 2) / (4 * a * b)))))
  const both = Math.sqrt((one ** 2 + two ** 2) / 2)
  if (one === two) return { off: 0, by: 0 }
  const long1 = one > two
  return { off: Math.abs(off), pull: long1 ? [1, 3] : [2, 4], by: Math.max(one, two) - both }
}

/** The angle between two sides of a triangle whose third side was measured, degrees; undefined where the three close none. */
export function angleBetween(a: Mm, b: Mm, third: Mm): Deg | undefined {
  const cosine = (a ** 2 + b ** 2 - third ** 2) / (2 * a * b)
  return a > 0 && b > 0 && third > 0 && Math.abs(cosine) <= 1 ? toDeg(Math.acos(cosine)) : undefined
}

/** The third side of a triangle of two sides with this angle between them: what the tape must read. */
export const thirdSide = (a: Mm, b: Mm, angle: Deg): Mm =>
  Math.sqrt(a ** 2 + b ** 2 - 2 * a * b * cosDeg(angle))

/** The angle at each corner, measured inside the loop, degrees; over 180 where the loop turns in. */
export function cornerAngles(corners: readonly Point[]): readonly Deg[] {
  const n = corners.length
  return corners.map((corner, at) => {
    const back = unit2(minus(corners[(at + n - 1) % n]!, corner))
    const ahead = unit2(minus(corners[(at + 1) % n]!, corner))
    const turn = toDeg(Math.atan2(along(left(ahead), back), along(ahead, back)))
    return turn < 0 ? turn + 360 : turn
  })
}
