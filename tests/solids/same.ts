// Are two pieces of steel the same one? Only proper motions are tried: a mirror image is another part.
import {
  less,
  type Motion,
  mirrored,
  moved,
  type Solid,
  shifted,
  snapped,
  surfaceOf,
  type Xyz,
} from './kernel.ts'

const about = (x: Xyz, y: Xyz, z: Xyz): Motion => [...x, 0, ...y, 0, ...z, 0, 0, 0, 0, 1]

/** The eight turnings of a bar that keep its axis on x: four faces up, either end first. */
const turnings: readonly Motion[] = [1, -1].flatMap((x) =>
  [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ].map(([c, s]) =>
    // y goes to (c, s); z follows by the right hand.
    about([x, 0, 0], [0, c!, s!], [0, -s! * x, c! * x]),
  ),
)

/** Corners so near, mm, are one: far above what doubles lose over turnings, far below what a share of 1e-6 would see. */
const asOne = 1e-8

const cornered = (solid: Solid): Solid => {
  const { min } = solid.boundingBox()
  return shifted(solid, [-min[0]!, -min[1]!, -min[2]!])
}

/** Volume in one and not in the other, both ways, mm³. */
export const apart = (one: Solid, two: Solid): number => less(one, two).volume() + less(two, one).volume()

/** Whether each corner of one lies beside a corner of the other; only sorts out turnings that cannot be. */
const cornersMeet = (one: readonly Xyz[], two: readonly Xyz[]): boolean =>
  one.every(([x, y, z]) =>
    two.some(([a, b, c]) => Math.abs(x - a) < 0.05 && Math.abs(y - b) < 0.05 && Math.abs(z - c) < 0.05),
  )

export interface Likeness {
  /** Least volume by which they differ, as a share of `two`, over all proper turnings that were worth a try. */
  readonly share: number
  /** The mirror image would do better. */
  readonly mirror: boolean
}

/**
 * How unlike two bars along x are, by exact volumes, in the best proper turning. `enough`: the share at which the
 * search may end.
 */
export function unlike(one: Solid, two: Solid, enough = 1e-6): Likeness {
  const target = cornered(two)
  const share = least(one, target, enough)
  if (share <= enough) return { share, mirror: false }
  return { share, mirror: least(mirrored(one), target, enough) <= enough }
}

function least(one: Solid, target: Solid, enough: number): number {
  const { points } = surfaceOf(target)
  const volume = target.volume()
  const size = target.boundingBox()
  let best = Number.POSITIVE_INFINITY
  const tries = turnings.map((turning) => cornered(moved(one, turning)))
  // Turnings whose corners meet come first; the others are measured only when none of those will do.
  const [likely, unlikely] = [true, false].map((want) =>
    tries.filter(
      (solid) =>
        (sizesMeet(solid.boundingBox(), size) && cornersMeet(surfaceOf(solid).points, points)) === want,
    ),
  )
  for (const solid of [...likely!, ...unlikely!]) {
    best = Math.min(best, apart(snapped(solid, points, asOne), target) / volume)
    if (best <= enough) return best
  }
  return best
}

const sizesMeet = (one: ReturnType<Solid['boundingBox']>, two: ReturnType<Solid['boundingBox']>): boolean =>
  [0, 1, 2].every((axis) => Math.abs(one.max[axis]! - two.max[axis]!) < 0.05)
