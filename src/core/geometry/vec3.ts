/** Three numbers: a point or a direction. */
export type Vec3 = readonly [number, number, number]

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k]
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
export const norm = (a: Vec3): number => Math.hypot(a[0], a[1], a[2])
export const unit = (a: Vec3): Vec3 => scale(a, 1 / norm(a))
export const mid = (a: Vec3, b: Vec3): Vec3 => scale(add(a, b), 0.5)

/** The upright box round points, at least one: its least and its greatest corner, mm. */
export function boxAround(points: readonly Vec3[]): { readonly low: Vec3; readonly high: Vec3 } {
  let [x0, y0, z0] = points[0]!
  let [x1, y1, z1] = points[0]!
  for (const point of points) {
    const x = point[0]
    const y = point[1]
    const z = point[2]
    if (x < x0) x0 = x
    if (x > x1) x1 = x
    if (y < y0) y0 = y
    if (y > y1) y1 = y
    if (z < z0) z0 = z
    if (z > z1) z1 = z
  }
  return { low: [x0, y0, z0], high: [x1, y1, z1] }
}
