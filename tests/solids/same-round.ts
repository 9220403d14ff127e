// Are two round pieces the same one? Round steel has no faces to lie on, so every roll is tried at once: the planes of the
// two ends are read off the solids, and one roll must bring both slopes together. A mirror image has no such roll.

import { cross, type Solid, surfaceOf, type Xyz } from './kernel.ts'
import type { Likeness } from './same.ts'

/** The plane x = at + (p, q) · (y, z) from the axis of the piece. */
interface End {
  readonly at: number
  readonly slope: readonly [number, number]
}

/** The ends of a straight round piece along x, as its greatest facets there lie. */
function endsOf(solid: Solid): readonly [End, End] {
  const { points, triangles } = surfaceOf(solid)
  const { min, max } = solid.boundingBox()
  const [y, z] = [(min[1]! + max[1]!) / 2, (min[2]! + max[2]!) / 2]
  const end = (side: -1 | 1): End => {
    let most = 0
    let found: End | undefined
    for (const [i, j, k] of triangles) {
      const [a, b, c] = [points[i]!, points[j]!, points[k]!]
      const normal = cross(sub(b, a), sub(c, a))
      const size = Math.hypot(...normal)
      if (normal[0] * side <= 1e-6 * size || size < most) continue
      most = size
      const slope = [-normal[1] / normal[0], -normal[2] / normal[0]] as const
      found = { at: a[0] - slope[0] * (a[1] - y) - slope[1] * (a[2] - z), slope }
    }
    if (!found) throw new Error('a piece without an end')
    return found
  }
  return [end(-1), end(1)]
}

const sub = (a: Xyz, b: Xyz): Xyz => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]

/** Half a turn about z: ends change places. */
const swapped = ([a, b]: readonly [End, End]): readonly [End, End] =>
  [b, a].map(({ at, slope: [p, q] }): End => ({ at: -at, slope: [p, -q] })) as unknown as [End, End]

const mirrored = (ends: readonly [End, End]): readonly [End, End] =>
  ends.map(({ at, slope: [p, q] }): End => ({ at, slope: [p, -q] })) as unknown as [End, End]

/** Rolled about x by an angle. */
const rolled = ([p, q]: readonly [number, number], angle: number) =>
  [p * Math.cos(angle) - q * Math.sin(angle), p * Math.sin(angle) + q * Math.cos(angle)] as const

const apart = (one: readonly [number, number], two: readonly [number, number]) =>
  Math.hypot(one[0] - two[0], one[1] - two[1])

/** Bound of the volume by which they differ, as a share: what the ends are off by, over the length. */
function share(one: readonly [End, End], two: readonly [End, End], radius: number): number {
  const length = two[1].at - two[0].at
  const steep = Math.hypot(...two[0].slope) >= Math.hypot(...two[1].slope) ? 0 : 1
  const [from, to] = [one[steep]!.slope, two[steep]!.slope]
  const roll = Math.atan2(to[1], to[0]) - Math.atan2(from[1], from[0])
  const off = [0, 1].reduce((sum, at) => sum + apart(rolled(one[at]!.slope, roll), two[at]!.slope), 0)
  return (Math.abs(one[1].at - one[0].at - length) + radius * off) / length
}

/** How unlike two round pieces along x are, in the best roll and either way round. */
export function unlikeRound(one: Solid, two: Solid, radius: number, enough = 1e-6): Likeness {
  const [given, wanted] = [endsOf(one), endsOf(two)]
  const best = (ends: readonly [End, End]) =>
    Math.min(share(ends, wanted, radius), share(swapped(ends), wanted, radius))
  const real = best(given)
  return { share: real, mirror: real > enough && best(mirrored(given)) <= enough }
}
