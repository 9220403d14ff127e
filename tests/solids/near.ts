// Whether a point lies on a surface.
import { cross, dot, type Surface, type Xyz } from './kernel.ts'

const sub = (a: Xyz, b: Xyz): Xyz => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]

/** Whether some face lies at this distance straight ahead of the point, give or take `slack` mm, also sidewise. */
export function liesOn(point: Xyz, { points, triangles }: Surface, distance: number, slack: number): boolean {
  return triangles.some(([i, j, k]) => {
    const [a, b, c] = [points[i]!, points[j]!, points[k]!]
    const normal = cross(sub(b, a), sub(c, a))
    const size = Math.sqrt(dot(normal, normal))
    if (size < 1e-12) return false
    const from = sub(point, a)
    if (Math.abs(Math.abs(dot(normal, from)) / size - distance) > slack) return false
    // Inside all three sides, or at most `slack` outside.
    return (
      [
        [a, b],
        [b, c],
        [c, a],
      ] as const
    ).every(([start, end]) => {
      const side = sub(end, start)
      const inward = cross(normal, side)
      return dot(inward, sub(point, start)) >= -slack * Math.sqrt(dot(inward, inward))
    })
  })
}
