import type { Made, Spoiled } from '../facts.ts'
import type { Nest } from '../nest.ts'
import { fill, type Slot } from './slots.ts'

/**
 * Places that stay empty, by product id, with the miscut that is to blame: what went wrong under this nest takes the place
 * that it was cut for, behind all that came out well, and with it those of what was to be cut from it. Blanks come before
 * halves and halves before pieces: what is lost already is not lost again.
 */
export function lostPlaces(
  places: readonly Slot[],
  nest: Nest,
  made: readonly Made[],
  spoiled: readonly Spoiled[],
  jobs: readonly string[],
): ReadonlyMap<string, string> {
  const lost = new Map<string, string>()
  for (const stage of ['blank', 'half', 'piece'] as const) {
    const wrong = spoiled.filter((one) => one.nest === nest.id && one.stage === stage)
    if (wrong.length === 0) continue
    const open = places.filter(({ product }) => !lost.has(product.id))
    const all = [...made, ...wrong.map((one): Made => ({ ...one, used: false }))]
    const filled = fill(open, nest, all, jobs)
    for (const { product, before } of open) {
      const fact = filled.get(product.id)
      const why = wrong.some(({ id }) => id === fact) ? fact : before && lost.get(before.product.id)
      if (why !== undefined) lost.set(product.id, why)
    }
  }
  return lost
}
