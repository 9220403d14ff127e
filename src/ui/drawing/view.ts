import type { Point } from '../../core/geometry/polygon.ts'
import { cross, dot, type Vec3 } from '../../core/geometry/vec3.ts'
import { type Deg, toRad } from '../../core/units.ts'

/** Where one looks from: what is right and up on the page, and the direction toward the eye. Parallel light. */
export interface View {
  readonly right: Vec3
  readonly up: Vec3
  readonly toward: Vec3
}

/** Plan: from above, the back of the table at the top of the page. */
export const fromAbove: View = { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] }

/** Elevation: from the front. */
export const fromFront: View = { right: [1, 0, 0], up: [0, 0, 1], toward: [0, -1, 0] }

/** Walked round by `yaw` (0 = front, 90 = from the right), lifted by `pitch` (0 = level, 90 = from above). */
export function turned(yaw: Deg, pitch: Deg): View {
  const a = toRad(yaw)
  const b = toRad(pitch)
  const right: Vec3 = [Math.cos(a), Math.sin(a), 0]
  const toward: Vec3 = [Math.sin(a) * Math.cos(b), -Math.cos(a) * Math.cos(b), Math.sin(b)]
  return { right, up: cross(toward, right), toward }
}

/** A point of the world on the page, mm, y up. */
export const onPage = (view: View, point: Vec3): Point => [dot(point, view.right), dot(point, view.up)]

/** Smallest upright rectangle round points. */
export interface Extent {
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

export function extentOf(points: readonly Point[]): Extent {
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity]
  for (let at = 0; at < points.length; at += 1) {
    const x = points[at]![0]
    const y = points[at]![1]
    if (x < left) left = x
    if (x > right) right = x
    if (y < bottom) bottom = y
    if (y > top) top = y
  }
  return { left, right, bottom, top }
}

/** The smallest upright rectangle round others. */
export const together = (extents: readonly Extent[]): Extent => ({
  left: Math.min(...extents.map(({ left }) => left)),
  right: Math.max(...extents.map(({ right }) => right)),
  bottom: Math.min(...extents.map(({ bottom }) => bottom)),
  top: Math.max(...extents.map(({ top }) => top)),
})
