import type { Fact, KnownFact, Made, Progress } from '../facts.ts'
import { counting } from './counting.ts'
import { known } from './known.ts'
import { union } from './order.ts'
import { foldRack, ofKind, single } from './rack.ts'

/** What Undo takes back: things done with the hands. Accepted nests and opened sticks are not asked for by themselves. */
const undoable: ReadonlySet<string> = new Set([
  'cut',
  'kept',
  'discarded',
  'corrected',
  'tacked',
  'welded',
  'checked',
  'gauged',
])

/**
 * The log folded to where the work stands. Pure; order, doubling and clocks change nothing. Facts of an unknown kind
 * or version, or with a body that cannot be read, are listed and have no effect.
 */
export function fold(facts: readonly Fact[]): Progress {
  const log = union(facts)
  const counts = counting(log)
  const read: KnownFact[] = []
  const unknown: Fact[] = []
  for (const fact of log) {
    const newest = known(fact)
    if (newest) read.push(newest)
    else unknown.push(fact)
  }
  const done = read.filter((fact) => counts.has(fact.id))
  const accepted = single(
    ofKind(done, 'accepted').filter((fact) => fact.job !== undefined),
    (fact) => fact.job!,
  )
  const rack = foldRack(done)
  const gauged = single(ofKind(done, 'gauged'), gaugedName)
  return {
    accepted: Object.fromEntries([...accepted.winners].map(([job, fact]) => [job, fact.body.nest])),
    made: foldMade(read, counts),
    rack: rack.rack,
    opened: rack.opened,
    kept: rack.kept,
    ticked: foldTicked(done),
    gauged: Object.fromEntries(
      [...gauged.winners].map(([name, { id, body }]) => [name, { value: body.value, fact: id }]),
    ),
    // In the order of the log, so that the last of each job stays.
    last: Object.fromEntries(
      done
        .filter((fact) => fact.job !== undefined && undoable.has(fact.kind))
        .map((fact) => [fact.job!, fact.id]),
    ),
    unknown,
    losers: [...accepted.losers, ...rack.losers, ...gauged.losers.filter(fromElsewhere)],
  }
}

/** Measured again on one tablet is a correction; only another tablet's figure is one to be told. */
const fromElsewhere = ({ fact, winner }: Progress['losers'][number]): boolean =>
  fact.slice(0, fact.lastIndexOf(':')) !== winner.slice(0, winner.lastIndexOf(':'))

const gaugedName = ({ job, copy, body }: Extract<KnownFact, { readonly kind: 'gauged' }>): string =>
  tickName(job ?? '', copy ?? 1, body.of)

/** How a step of the weld list, or what was measured, is named for one copy. */
export const tickName = (job: string, copy: number, step: string): string => `${job}/${copy}/${step}`

export const isTick = (
  fact: KnownFact,
): fact is Extract<KnownFact, { readonly kind: 'tacked' | 'welded' | 'checked' }> =>
  fact.kind === 'tacked' || fact.kind === 'welded' || fact.kind === 'checked'

function foldTicked(done: readonly KnownFact[]): Progress['ticked'] {
  const ticks = done.filter(isTick)
  return Object.fromEntries(
    ticks.map((fact) => [tickName(fact.job ?? '', fact.copy ?? 1, fact.body.step), fact.id]),
  )
}

/**
 * Every piece of steel that a counting cut made. A piece whose own parent was undone, or is in no log that came here,
 * is steel all the same: it stays, marked as an orphan. Its stick is still found through cuts that do not count.
 */
function foldMade(read: readonly KnownFact[], counts: ReadonlySet<string>): readonly Made[] {
  const cuts = ofKind(read, 'cut')
  const byId = new Map(cuts.map((cut) => [cut.id, cut]))
  const counted = cuts.filter((cut) => counts.has(cut.id))
  const used = new Set(counted.flatMap(({ body }) => ('piece' in body.from ? [body.from.piece] : [])))

  const stickOf = (id: string): string | undefined => {
    const seen = new Set<string>()
    let at = byId.get(id)
    while (at && !seen.has(at.id)) {
      seen.add(at.id)
      if ('stick' in at.body.from) return at.body.from.stick
      at = byId.get(at.body.from.piece)
    }
    return undefined
  }

  return counted.map((cut) => {
    const { stage, key, mark, label, from } = cut.body
    const stick = stickOf(cut.id)
    const orphan = 'piece' in from && !(byId.has(from.piece) && counts.has(from.piece))
    return {
      id: cut.id,
      job: cut.job ?? '',
      ...(cut.nest === undefined ? {} : { nest: cut.nest }),
      stage,
      key,
      mark,
      label,
      from,
      ...(stick === undefined ? {} : { stick }),
      used: used.has(cut.id),
      ...(orphan ? { orphan: true as const } : {}),
    }
  })
}
