// The outside of a bar as many lines along it, each from end to end: what touches fence, table and stop plate. A bar is
// convex, so wherever it touches, an end of one of these lines touches.
import type { Contour, Motion, Xyz } from './kernel.ts'

export type Fiber = readonly [Xyz, Xyz]

/** Lines along x over the corners of a contour in (y, z). */
export const fibersOf = (contour: Contour, from: number, to: number): Fiber[] =>
  contour.map(([y, z]) => [
    [from, y, z],
    [to, y, z],
  ])

const each = (fibers: readonly Fiber[], change: (point: Xyz) => Xyz): Fiber[] =>
  fibers.map(([a, b]) => [change(a), change(b)])

export const movedFibers = (fibers: readonly Fiber[], m: Motion): Fiber[] =>
  each(fibers, ([x, y, z]) => [
    m[0]! * x + m[4]! * y + m[8]! * z + m[12]!,
    m[1]! * x + m[5]! * y + m[9]! * z + m[13]!,
    m[2]! * x + m[6]! * y + m[10]! * z + m[14]!,
  ])

export const shiftedFibers = (fibers: readonly Fiber[], [dx, dy, dz]: Xyz): Fiber[] =>
  each(fibers, ([x, y, z]) => [x + dx, y + dy, z + dz])

/** What of each line lies where normal · p ≥ offset. */
export function fibersOnSide(fibers: readonly Fiber[], normal: Xyz, offset: number): Fiber[] {
  const over = ([x, y, z]: Xyz) => normal[0] * x + normal[1] * y + normal[2] * z - offset
  return fibers.flatMap(([a, b]): Fiber[] => {
    const [atA, atB] = [over(a), over(b)]
    if (atA < 0 && atB < 0) return []
    if (atA >= 0 && atB >= 0) return [[a, b]]
    const t = atA / (atA - atB)
    const between: Xyz = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])]
    return [atA < 0 ? [between, b] : [a, between]]
  })
}

/** Least and greatest coordinate along an axis. */
export function boundsOf(fibers: readonly Fiber[], axis: 0 | 1 | 2): readonly [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const fiber of fibers)
    for (const point of fiber) {
      least = Math.min(least, point[axis])
      most = Math.max(most, point[axis])
    }
  return [least, most]
}
