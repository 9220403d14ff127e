import { stickName } from '../core/facts/rack.ts'
import type { Made } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'

// From which stick a piece of steel came in the end.

/** What is known of the steel that is there. */
export interface There {
  readonly made: readonly Made[]
  readonly job: string
  readonly nests: ReadonlyMap<string, Nest>
}

/** How many of each geometry key. */
export type Counts = ReadonlyMap<string, number>

export const countIn = (counts: Counts, key: string): number => counts.get(key) ?? 0

/** Sticks from which a part of a group was cut, the rest of it being open: what it has of each key beyond whole groups. */
export function begunSticks(whole: Counts, there: There): ReadonlyMap<string, Counts> {
  const sticks = new Map<string, Map<string, number>>()
  for (const one of there.made) {
    const key = keyOf(one, there)
    if (one.job !== there.job || one.used || one.stick === undefined || !whole.has(key)) continue
    const name = firstStick(stickName(one.nest, one.stick), there)
    const has = sticks.get(name) ?? new Map<string, number>()
    sticks.set(name, has.set(key, countIn(has, key) + 1))
  }
  for (const [name, has] of sticks) {
    const full = Math.min(...[...whole].map(([key, count]) => Math.floor(countIn(has, key) / count)))
    for (const [key, count] of whole) has.set(key, countIn(has, key) - full * count)
    if ([...has.values()].every((count) => count === 0)) sticks.delete(name)
  }
  return sticks
}

/** Key of the finished piece that a piece of steel is or is to become. */
function keyOf({ stage, key, mark, nest, job }: Made, { nests }: There): string {
  if (stage === 'piece') return key
  const demand = nests.get(nest ?? '')?.sections.flatMap((section) => section.demand) ?? []
  return demand.find((part) => part.job === job && part.mark === mark)?.key ?? key
}

/**
 * The stick that a piece of steel came from in the end, as the nest named it that first cut from it, `NEST/S3`: what is
 * left of it is a stick of each later nest, and so is a blank that lies there.
 */
export function firstStick(name: string, { made, nests }: Pick<There, 'made' | 'nests'>): string {
  const seen = new Set<string>()
  for (let at = name; !seen.has(at); ) {
    seen.add(at)
    const cut = made.find(({ id }) => id === at)
    if (cut?.stick !== undefined) at = stickName(cut.nest, cut.stick)
    const slash = at.lastIndexOf('/')
    const sections = nests.get(at.slice(0, slash))?.sections ?? []
    const stick = sections.flatMap(({ sticks }) => sticks).find(({ id }) => id === at.slice(slash + 1))
    const rack = stick?.rack
    const known = rack !== undefined && (rack.includes('/S') || made.some(({ id }) => id === rack))
    if (!known) return at
    at = rack
  }
  return name
}
