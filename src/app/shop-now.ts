import type { Progress } from '../core/facts.ts'
import { type Nest, piecesIn } from '../core/nest.ts'
import { kerfOf, sawFor } from '../core/parts/demand.ts'
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

/** Every piece of this nest is cut: what is on the saws now does not touch it any more. */
export function isCut(nest: Nest, made: Progress['made']): boolean {
  const finished = new Map<string, number>()
  for (const one of made)
    if (one.nest === nest.id && one.stage === 'piece' && !one.used) count(finished, one, 1)
  for (const { sticks } of nest.sections)
    for (const piece of sticks.flatMap(({ pieces }) => pieces.flatMap(piecesIn))) count(finished, piece, -1)
  return [...finished.values()].every((left) => left >= 0)
}

function count(into: Map<string, number>, { job, key }: { job: string; key: string }, by: number): void {
  const name = `${job} ${key}`
  into.set(name, (into.get(name) ?? 0) + by)
}

/** The shop with the kerfs that this nest was cut with. */
export function asCut(shop: Shop, nest: Nest): Shop {
  const kerfs = new Map(nest.sections.map(({ section, kerf }) => [sawFor(shop, section).id, kerf]))
  const withKerf = (saw: Saw, kerf: number): Saw => ({
    ...saw,
    blades: saw.blades.map((blade) => (blade.id === saw.blade ? { ...blade, kerf } : blade)),
  })
  return { ...shop, saws: shop.saws.map((saw) => withKerf(saw, kerfs.get(saw.id) ?? kerfOf(saw))) }
}
