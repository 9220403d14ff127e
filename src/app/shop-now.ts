import type { Progress } from '../core/facts.ts'
import type { Saw, Shop } from '../core/shop.ts'

/** The shop with the blades that are on its saws now: a blade that was changed at the saw is a fact, the shop stays. */
export function shopNow(shop: Shop, { blades }: Pick<Progress, 'blades'>): Shop {
  const changed = shop.saws.some((saw) => blades[saw.id] && blades[saw.id]!.blade !== saw.blade)
  return changed ? { ...shop, saws: shop.saws.map((saw) => withBlade(saw, blades)) } : shop
}

function withBlade(saw: Saw, blades: Progress['blades']): Saw {
  const on = blades[saw.id]
  if (!on) return saw
  // A blade that the shop has thrown away since was what it was when it was put on.
  const known = saw.blades.some(({ id }) => id === on.blade)
  const all = known ? saw.blades : [...saw.blades, { id: on.blade, name: on.blade, kerf: on.kerf }]
  return { ...saw, blades: all, blade: on.blade }
}
