import type { Polygon } from '../../core/geometry/polygon.ts'
import { samePoint } from '../../core/tolerance.ts'
import type { Solid } from './solid.ts'
import type { Extent, View } from './view.ts'
import { addSeen, type Body, beside, bodyOf, depthOrder, type Line } from './visible.ts'

/** What of a solid is seen, on the page in mm, y up. */
export interface Seen {
  readonly id: string
  readonly key: string
  readonly kind: Solid['kind']
  readonly outline: Polygon
  readonly extent: Extent
  /** The stretches of its outline, and of its edges within that, which nothing hides. */
  readonly rim: readonly Line[]
  readonly edges: readonly Line[]
  readonly body: Body
  /** Those that may stand before it. */
  readonly before: readonly Body[]
}

/** What is seen of a body behind those that may hide it. */
function seenAmong(own: Body, before: readonly Body[]): Seen {
  const { solid, outline, extent, places, depths, looks } = own
  const rim: Line[] = []
  const edges: Line[] = []
  for (let at = 0; at < solid.edges.length; at += 1) {
    const { from, to, faces } = solid.edges[at]!
    const one = looks[faces[0]]! > samePoint
    const two = looks[faces[1]]! > samePoint
    if (!one && !two) continue
    const within = one && two
    // The sides of round steel show no lines between them.
    if (within && solid.round && !faces.some((face) => solid.faces[face]!.end)) continue
    addSeen(within ? edges : rim, places[from]!, depths[from]!, places[to]!, depths[to]!, before)
  }
  return { id: solid.id, key: solid.key, kind: solid.kind, outline, extent, rim, edges, body: own, before }
}

/** A solid by itself. */
export const see = (solid: Solid, view: View): Seen => seenAmong(bodyOf(solid, view), [])

/**
 * The solids with what is seen of each, from the farthest to the nearest, so that a tap finds the nearest; where some stand
 * before each other in a ring, as near to that as can be. What is `open` hides nothing and is not hidden.
 */
export function backToFront(
  solids: readonly Solid[],
  view: View,
  open: (solid: Solid) => boolean = () => false,
): readonly Seen[] {
  const bodies = solids.map((solid) => bodyOf(solid, view))
  const shut = solids.map((solid) => !open(solid))
  const behind: number[][] = solids.map(() => [])
  const before: Body[][] = solids.map(() => [])
  const left = (at: number) => bodies[at]!.extent.left
  const fromLeft = bodies.map((_, at) => at).sort((one, two) => left(one) - left(two))
  for (let k = 0; k < fromLeft.length; k += 1) {
    const one = fromLeft[k]!
    const a = bodies[one]!
    const { right, bottom, top } = a.extent
    for (let next = k + 1; next < fromLeft.length; next += 1) {
      const two = fromLeft[next]!
      const b = bodies[two]!
      // All that follow begin farther to the right still.
      if (b.extent.left >= right) break
      if (b.extent.top <= bottom || b.extent.bottom >= top) continue
      // Beside each other on the page they hide nothing of each other; to order them all the same may run in a ring.
      if (beside(a, b)) continue
      const order = depthOrder(a, b)
      if (order === 1) behind[two]!.push(one)
      if (order === -1) behind[one]!.push(two)
      if (!shut[one] || !shut[two]) continue
      if (order >= 0) before[one]!.push(b)
      if (order <= 0) before[two]!.push(a)
    }
  }
  // Where depth leaves it open, the order of the frame decides.
  for (const some of behind) some.sort((one, two) => one - two)
  const seen = bodies.map((body, at) => seenAmong(body, before[at]!))
  const out: Seen[] = []
  const state = solids.map(() => 0)
  const place = (at: number) => {
    if (state[at] !== 0) return
    state[at] = 1
    for (const other of behind[at]!) place(other)
    state[at] = 2
    out.push(seen[at]!)
  }
  for (let at = 0; at < solids.length; at += 1) place(at)
  return out
}
