import { bestFill, type Filled } from './fill.ts'
import { fillsUpTo } from './fill-all.ts'
import { deepestFill, ranked } from './fill-deep.ts'
import type { Model } from './model.ts'
import type { Work } from './work.ts'

/**
 * Asks for the most valuable fill of a stick of one kind, worth more than `above`, with the one uncut piece in mind.
 * All kinds are answered from one table where that is not too large; ask before the next worths are laid open. For
 * 'any', one that is worth more will do where the most valuable is far to seek; for 'quick' it is then not sought.
 */
export function openPatterns(
  { model: { items, kinds } }: { readonly model: Model },
  demand: readonly number[],
  worth: readonly number[],
  work: Work,
  manner: 'most' | 'any' | 'quick' = 'most',
): (kind: number, above: number) => (Filled & { readonly sure?: boolean }) | undefined {
  const things = items.map(({ size }, item) => ({ size, value: worth[item]!, count: demand[item]! }))
  const inOrder = ranked(things)
  const most = Math.max(...kinds.map(({ room }) => room))
  const cells = most * inOrder.order.length
  let table: ReturnType<typeof fillsUpTo> | 'not yet' = 'not yet'
  return (kind, above) => {
    const { room, uncut } = kinds[kind]!
    let filled: (Filled & { readonly sure?: boolean }) | undefined
    const deepest =
      table === 'not yet' && cells > tinyTable
        ? deepestFill(inOrder, items.length, room, above, manner !== 'most', work)
        : 'given up'
    if (deepest === 'given up' && manner === 'quick' && cells > smallTable) return undefined
    if (deepest === 'given up' && table === 'not yet') table = fillsUpTo(things, most, work)
    if (deepest !== 'given up') filled = deepest === 'none' ? undefined : deepest
    else if (!table || table === 'not yet') filled = bestFill(things, room, above, work)
    else if (table.value(room) > above) filled = { value: table.value(room), counts: table.counts(room) }
    if (uncut === undefined || demand[uncut]! === 0) return filled
    const alone = worth[uncut]!
    if (alone <= Math.max(above, filled?.value ?? 0)) return filled
    const counts = items.map((_, item) => (item === uncut ? 1 : 0))
    return { value: alone, counts, ...(filled?.sure === false && { sure: false }) }
  }
}

/** Cells of a table that is quicker than any trying, and of one that is quick enough where nobody need be sure. */
const tinyTable = 10_000
const smallTable = 300_000
