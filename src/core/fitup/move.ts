import type { Point } from '../geometry/polygon.ts'
import type { Mm, Rad } from '../units.ts'

/** A rigid move in the plane of a loop: a turn about the origin, counterclockwise, then a shift. */
export interface Move {
  readonly turn: Rad
  readonly x: Mm
  readonly y: Mm
}

export const still: Move = { turn: 0, x: 0, y: 0 }

const turned = ([x, y]: Point, turn: Rad): Point => {
  const c = Math.cos(turn)
  const s = Math.sin(turn)
  return [c * x - s * y, s * x + c * y]
}

export function moved({ turn, x, y }: Move, point: Point): Point {
  const [px, py] = turned(point, turn)
  return [px + x, py + y]
}

/** First `second`, seen from where `first` has brought it: `moved(chain(first, second), p)` is `first` of `second` of p. */
export function chain(first: Move, second: Move): Move {
  const [x, y] = moved(first, [second.x, second.y])
  return { turn: first.turn + second.turn, x, y }
}

/** The move that takes it back. */
export function back({ turn, x, y }: Move): Move {
  const [bx, by] = turned([-x, -y], -turn)
  return { turn: -turn, x: bx, y: by }
}

/** A turn about a point. */
export function about([x, y]: Point, turn: Rad): Move {
  const [tx, ty] = turned([x, y], turn)
  return { turn, x: x - tx, y: y - ty }
}

export const shift = ([x, y]: Point): Move => ({ turn: 0, x, y })

export const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]]
export const times = ([x, y]: Point, k: number): Point => [x * k, y * k]
export const along = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1]
export const long = ([x, y]: Point): Mm => Math.hypot(x, y)
export const unit2 = (a: Point): Point => times(a, 1 / long(a))
/** A quarter turn to the left. */
export const left = ([x, y]: Point): Point => [-y, x]
