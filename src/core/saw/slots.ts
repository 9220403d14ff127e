import type { Made } from '../facts.ts'
import type { Nest } from '../nest.ts'
import type { Product } from '../plan-shapes.ts'

/** A place in a run for one piece of steel. */
export interface Slot {
  readonly product: Product
  readonly stick: string
  /** The place of the blank or half that it is cut from; absent for what comes off a stick. */
  readonly before?: Slot
}

/** What a place takes and a fact gives. A finished piece belongs to its job; blanks and halves are only steel. */
const nameOf = (stage: string, key: string, job: string): string =>
  stage === 'piece' ? `${stage} ${key} ${job}` : `${stage} ${key}`

const placeName = ({ product: { kind, key = '', job = '' } }: Slot): string => nameOf(kind, key, job)
export const steelName = ({ stage, key, job }: Made): string => nameOf(stage, key, job)

/** Places by name, in the order of work; those that are filled are passed over as they come up. */
type Rows = ReadonlyMap<string, Slot[]>

function rowsOf(slots: readonly Slot[], name: (slot: Slot) => string): Rows {
  const rows = new Map<string, Slot[]>()
  for (const slot of slots) {
    const row = rows.get(name(slot))
    if (row) row.push(slot)
    else rows.set(name(slot), [slot])
  }
  for (const row of rows.values()) row.reverse()
  return rows
}

function nextOpen(rows: Rows, name: string, filled: ReadonlyMap<string, string>): Slot | undefined {
  const row = rows.get(name) ?? []
  while (row.length > 0 && filled.has(row.at(-1)!.product.id)) row.pop()
  return row.at(-1)
}

/** How many finished pieces of a name were there before this nest: it goes on counting after them. */
function madeBefore({ sections }: Nest): ReadonlyMap<string, number> {
  const before = new Map<string, number>()
  const asks = (key: string, job: string, first: number) => {
    const name = nameOf('piece', key, job)
    before.set(name, Math.min(first - 1, before.get(name) ?? first - 1))
  }
  for (const { key, job, first = 1, makes } of sections.flatMap(({ demand }) => demand))
    if (!makes) asks(key, job, first)
    else
      for (const { piece, mark, key: half } of makes.flat()) asks(half, job, Number(piece.slice(mark.length)))
  return before
}

/** Sticks that are a blank or half of an earlier nest, by the fact that made it: a nest of what is left uses them up. */
const takenAsItLies = ({ sections }: Nest): ReadonlyMap<string, string> =>
  new Map(
    sections.flatMap(({ sticks }) =>
      sticks.flatMap(({ rack, id }): [string, string][] => (rack === undefined ? [] : [[rack, id]])),
    ),
  )

/**
 * Which fact fills which place, by product id. A fact says one piece of this geometry from this stick, never which
 * place, so places of one geometry fill in the order of work, those of the fact's own stick first.
 *
 * First the steel that the nest itself counts on as it lies. Then facts of this nest. A piece cut from steel of another nest, or from steel that no log knows, stands for
 * its blank and half as well. Then what other nests of these jobs left over: blanks and halves still lying there, and
 * finished pieces beyond those that this nest went on counting after. What fills no place is a spare.
 */
export function fill(
  slots: readonly Slot[],
  nest: Nest,
  made: readonly Made[],
  jobs: readonly string[],
): ReadonlyMap<string, string> {
  const filled = new Map<string, string>()
  const byName = rowsOf(slots, placeName)
  const byStick = rowsOf(slots, (slot) => `${slot.stick} ${placeName(slot)}`)
  const own = made.filter((one) => one.nest === nest.id && !(one.stage === 'piece' && one.used))
  const ownIds = new Set(own.map(({ id }) => id))

  const take = (slot: Slot | undefined, fact: Made): Slot | undefined => {
    if (slot) filled.set(slot.product.id, fact.id)
    return slot
  }
  /** The same steel passed through these places too. */
  const standFor = (slot: Slot, fact: Made): void => {
    for (let at = slot.before; at; at = at.before) {
      const open = filled.has(at.product.id) ? nextOpen(byName, placeName(at), filled) : at
      take(open, fact)
    }
  }

  const placed = new Map<Made, Slot>()
  const place = (fact: Made, rows: Rows, name: string): void => {
    const slot = placed.has(fact) ? undefined : take(nextOpen(rows, name, filled), fact)
    if (slot) placed.set(fact, slot)
  }
  const lies = takenAsItLies(nest)
  const byId = new Map(made.map((one) => [one.id, one]))
  /** The stick of this nest that the steel was; sticks of other nests may bear the same name. */
  const stickHere = (fact: Made): string | undefined => {
    const seen = new Set<Made>()
    for (let at: Made | undefined = fact; at && !seen.has(at); ) {
      seen.add(at)
      const taken = lies.get(at.id)
      if (taken !== undefined) return taken
      if ('stick' in at.from) return at.nest === nest.id ? at.from.stick : undefined
      at = byId.get(at.from.piece)
    }
    // Through a cut that does not count the log still knows the stick.
    return fact.stick
  }
  for (const fact of made) {
    const stick = fact.used ? undefined : lies.get(fact.id)
    if (stick !== undefined) place(fact, byStick, `${stick} ${steelName(fact)}`)
  }
  for (const fact of own) place(fact, byStick, `${stickHere(fact)} ${steelName(fact)}`)
  for (const fact of own) place(fact, byName, steelName(fact))
  for (const [fact, slot] of placed)
    if (!('piece' in fact.from && ownIds.has(fact.from.piece))) standFor(slot, fact)

  const before = new Map(madeBefore(nest))
  for (const fact of made) {
    // What this nest cuts as a stick of its own is spoken for.
    if (
      fact.nest === nest.id ||
      fact.used ||
      lies.has(fact.id) ||
      !jobs.includes(fact.job) ||
      placed.has(fact)
    )
      continue
    const name = steelName(fact)
    const earlier = before.get(name) ?? 0
    if (earlier > 0) before.set(name, earlier - 1)
    else {
      const slot = take(nextOpen(byName, name, filled), fact)
      if (slot) standFor(slot, fact)
    }
  }
  return filled
}
