import type { Point } from '../geometry/polygon.ts'
import { type Deg, type Mm, toDeg } from '../units.ts'
import { cornerOf, type Loop } from './loops.ts'
import { long, minus } from './move.ts'

/** A distance from corner to corner of a loop, as planned. */
export interface Diagonal {
  readonly id: string
  /** Corners by number, from 1. */
  readonly from: number
  readonly to: number
  readonly expected: Mm
}

export const diagonalName = (loop: string, id: string): string => `diagonal:${loop}/${id}`

/** Corners of a loop as they are measured: outside on a mitered ring, else in the clear. */
export const measuredCorners = (loop: Loop): readonly Point[] =>
  loop.joints.map((_, at) => cornerOf(loop, at, loop.ring ? 'outer' : 'inner'))

/**
 * The diagonals to measure: of an even ring those through the middle, of an odd one the two longest from each corner,
 * of a triangle its sides. Every one is a plain distance between corners as planned.
 */
export function diagonalsOf(loop: Loop): readonly Diagonal[] {
  const corners = measuredCorners(loop)
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
