// Whether a point lies on a surface.
import { cross, dot, type Surface, type Xyz } from './kernel.ts'

const sub = (a: Xyz, b: Xyz): Xyz => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const scaled = (a: Xyz, by: number): Xyz => [a[0] * by, a[1] * by, a[2] * by]

/** A triangle as four planes: its own, and one through each side that looks inward; normals of length 1. */
export interface Facet {
  readonly normal: Xyz
  readonly offset: number
  readonly sides: readonly { readonly inward: Xyz; readonly offset: number }[]
}

/** The triangles of a surface, ready to be asked about many points. */
export const facetsOf = ({ points, triangles }: Surface): Facet[] =>
  triangles.flatMap((corners): Facet[] => {
    const [a, b, c] = corners.map((at) => points[at]!) as [Xyz, Xyz, Xyz]
    const across = cross(sub(b, a), sub(c, a))
    const size = Math.hypot(...across)
    // A sliver without area has no face to lie on.
    if (size < 1e-12) return []
    const normal = scaled(across, 1 / size)
    const side = (from: Xyz, to: Xyz) => {
      const inward = cross(normal, sub(to, from))
      const unit = scaled(inward, 1 / Math.hypot(...inward))
      return { inward: unit, offset: dot(unit, from) }
    }
    return [{ normal, offset: dot(normal, a), sides: [side(a, b), side(b, c), side(c, a)] }]
  })

/**
 * Whether some facet lies at this distance straight ahead of the point, give or take `slack` mm. `aside`: how far past the
 * edge of the facet it may be, mm, as where a root gap is open beside it.
 */
export const liesOn = (
  point: Xyz,
  facets: readonly Facet[],
  distance: number,
  slack: number,
  aside = 0,
): boolean =>
  facets.some(
    ({ normal, offset, sides }) =>
      Math.abs(Math.abs(dot(normal, point) - offset) - distance) <= slack &&
      sides.every((side) => dot(side.inward, point) - side.offset >= -slack - aside),
  )
