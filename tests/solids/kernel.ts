// The exact solid kernel behind plain functions. Its solids live outside the garbage collector: everything made inside
// `scope` is freed at its end. Lengths mm; all coordinates are doubles, also those read back.
import load, { type Manifold } from 'manifold-3d'

const kernel = await load()
kernel.setup()

export type Solid = Manifold
export type Xyz = readonly [number, number, number]
/** A closed polygon; outer ones counterclockwise, holes clockwise. */
export type Contour = readonly (readonly [number, number])[]

const made: Solid[] = []
const kept = (solid: Solid): Solid => {
  made.push(solid)
  return solid
}

const drawn = new Map<string, Solid>()

/** A solid that was drawn before in this scope, or drawn now: the same words must always mean the same solid. */
export function drawnOnce(words: string, draw: () => Solid): Solid {
  const solid = drawn.get(words) ?? draw()
  drawn.set(words, solid)
  return solid
}

/** Runs with solids of its own and frees them; what it returns must be plain data. */
export function scope<T>(run: () => T): T {
  const before = made.length
  try {
    return run()
  } finally {
    drawn.clear()
    for (const solid of made.splice(before)) solid.delete()
  }
}

/** The contours, in (y, z), drawn along x from `from` to `to`. */
export function prism(contours: readonly Contour[], from: number, to: number): Solid {
  const drawn = kernel.Manifold.extrude(
    contours.map((contour) => contour.map(([y, z]): [number, number] => [y, z])),
    to - from,
  )
  // The kernel draws along z: x, y, z come from its z, x, y.
  const laid = kept(drawn.transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, from, 0, 0, 1]))
  drawn.delete()
  return sound(laid)
}

function sound(solid: Solid): Solid {
  const status = solid.status()
  if (status !== 'NoError') throw new Error(`the kernel says ${status}`)
  return solid
}

/** Sixteen numbers, column-major; a rotation and a shift, never a mirror image. */
export type Motion = readonly number[]

export function moved(solid: Solid, motion: Motion): Solid {
  const [a, b, c, , d, e, f, , g, h, i] = motion as readonly number[] & Record<number, number>
  const turned = a! * (e! * i! - f! * h!) - d! * (b! * i! - c! * h!) + g! * (b! * f! - c! * e!)
  if (Math.abs(turned - 1) > 1e-9) throw new Error(`no proper motion: determinant ${turned}`)
  return kept(solid.transform([...motion] as Parameters<Solid['transform']>[0]))
}

export const shifted = (solid: Solid, [x, y, z]: Xyz): Solid => kept(solid.translate(x, y, z))

/** The mirror image across x = 0: for telling a wrong hand from a wrong size, never for a match. */
export const mirrored = (solid: Solid): Solid => kept(solid.mirror([1, 0, 0]))

/**
 * The solid with each corner that lies within `near` mm of one of `corners` moved onto it. Faces that all but coincide
 * are where the kernel's booleans have been seen to leave a volume that is not there; those that do coincide are exact.
 */
export function snapped(solid: Solid, corners: readonly Xyz[], near: number): Solid {
  return kept(
    solid.warpBatch((flat, count) => {
      for (let k = 0; k < count; k++) {
        const [x, y, z] = [flat[3 * k]!, flat[3 * k + 1]!, flat[3 * k + 2]!]
        const found = corners.find((corner) => Math.hypot(corner[0] - x, corner[1] - y, corner[2] - z) < near)
        if (found) flat.set(found, 3 * k)
      }
    }),
  )
}

/** The part where normal · p ≥ offset. */
export const onSide = (solid: Solid, normal: Xyz, offset: number): Solid =>
  kept(solid.trimByPlane([...normal], offset))

export const common = (one: Solid, two: Solid): Solid => kept(kernel.Manifold.intersection(one, two))
export const less = (one: Solid, two: Solid): Solid => kept(kernel.Manifold.difference(one, two))
export const all = (solids: readonly Solid[]): Solid => kept(kernel.Manifold.union([...solids]))

/** The least convex solid around them. */
export const around = (solids: readonly Solid[]): Solid => kept(kernel.Manifold.hull([...solids]))

/** The greatest of the pieces that hang together. */
export function greatest(solid: Solid): Solid {
  const pieces = solid.decompose().map(kept)
  return pieces.reduce((best, next) => (next.volume() > best.volume() ? next : best), pieces[0] ?? solid)
}

/**
 * A cylinder of `sides` flats whose corners lie on the radius, from one point along a direction; its first corner lies
 * toward `corner`, which must be square to that direction.
 */
export function cylinder(
  from: Xyz,
  along: Xyz,
  length: number,
  radius: number,
  sides: number,
  corner: Xyz,
): Solid {
  const x = unit(along)
  const y = unit(corner)
  return moved(prism([circle(radius, sides)], 0, length), [...x, 0, ...y, 0, ...cross(x, y), 0, ...from, 1])
}

const unit = (a: Xyz): Xyz => {
  const size = Math.hypot(...a)
  return [a[0] / size, a[1] / size, a[2] / size]
}

export const cross = (a: Xyz, b: Xyz): Xyz => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
export const dot = (a: Xyz, b: Xyz): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** Corners of a regular polygon on the circle, the first one at angle 0. */
export const circle = (radius: number, sides: number): Contour =>
  Array.from({ length: sides }, (_, k) => {
    const angle = (2 * Math.PI * k) / sides
    return [radius * Math.cos(angle), radius * Math.sin(angle)] as const
  })

export interface Surface {
  readonly points: readonly Xyz[]
  readonly triangles: readonly (readonly [number, number, number])[]
}

/** Corners and triangles, counterclockwise seen from outside. */
export function surfaceOf(solid: Solid): Surface {
  const mesh = solid.getMesh()
  const points: Xyz[] = []
  // The mesh has single precision; the corners behind it, in the same order, are read while "warping" to themselves.
  solid
    .warpBatch((flat, count) => {
      for (let k = 0; k < count; k++) points.push([flat[3 * k]!, flat[3 * k + 1]!, flat[3 * k + 2]!])
    })
    .delete()
  points.forEach((point, k) => {
    point.forEach((value, axis) => {
      if (Math.fround(value) !== mesh.vertProperties[mesh.numProp * k + axis])
        throw new Error('corners and mesh are not in one order')
    })
  })
  const triangles = Array.from(
    { length: mesh.triVerts.length / 3 },
    (_, t) => [mesh.triVerts[3 * t]!, mesh.triVerts[3 * t + 1]!, mesh.triVerts[3 * t + 2]!] as const,
  )
  return { points, triangles }
}

/** Greatest reach of the solid along a direction. */
export const reach = ({ points }: Surface, direction: Xyz): number =>
  points.reduce((most, point) => Math.max(most, dot(point, direction)), Number.NEGATIVE_INFINITY)

export const extent = (surface: Surface, direction: Xyz): number =>
  reach(surface, direction) + reach(surface, [-direction[0], -direction[1], -direction[2]])
