import type { Bodies, Fact, FactKind, KnownFact, Progress, RackPiece } from '../facts.ts'
import { inOrder } from './order.ts'

type Of<K extends FactKind> = Fact<K, Bodies[K]>

export const ofKind = <K extends FactKind>(facts: readonly KnownFact[], kind: K): readonly Of<K>[] =>
  facts.filter((fact): fact is Extract<KnownFact, Of<K>> => fact.kind === kind)

/** How a stick is named across nests. */
export const stickName = (nest: string | undefined, stick: string): string => `${nest ?? ''}/${stick}`

export interface Won<F> {
  readonly winners: ReadonlyMap<string, F>
  readonly losers: Progress['losers']
}

/** One value per name: the greatest (lamport, device) wins, the others are told. */
export function single<F extends KnownFact>(facts: readonly F[], nameOf: (fact: F) => string): Won<F> {
  const winners = new Map<string, F>()
  for (const fact of facts) {
    const best = winners.get(nameOf(fact))
    if (!best || inOrder(fact, best) > 0) winners.set(nameOf(fact), fact)
  }
  const losers = facts.flatMap((fact) => {
    const winner = winners.get(nameOf(fact))!
    return winner.id === fact.id ? [] : [{ fact: fact.id, winner: winner.id }]
  })
  return { winners, losers }
}

export type Rack = Pick<Progress, 'rack' | 'opened' | 'kept' | 'scrapped' | 'loaded' | 'losers'>

/**
 * The steel that lies there, from counting facts in the order of the log. A drop kept twice (two tablets) is one drop:
 * the greatest wins, and what was said of the other is said of it; so with a piece that was twice called a miscut.
 */
export function foldRack(facts: readonly KnownFact[], sameMiscut: Progress['losers'] = []): Rack {
  const kept = single(ofKind(facts, 'kept'), (fact) => stickName(fact.nest, fact.body.stick))
  const loaded = single(ofKind(facts, 'loaded'), (fact) => stickName(fact.nest, fact.body.stick))
  const alias = new Map([...kept.losers, ...sameMiscut].map(({ fact, winner }) => [fact, winner]))
  const rackOf = (id: string): string => alias.get(id) ?? id
  const corrected = single(ofKind(facts, 'corrected'), (fact) => rackOf(fact.body.rack))
  const openings = ofKind(facts, 'opened')
  const opened = single(openings, (fact) => stickName(fact.nest, fact.body.stick))

  // A piece that two different sticks claim was opened by the first; the second took other steel, and is told.
  const takenBy = new Map<string, Of<'opened'>>()
  const twice: { fact: string; winner: string }[] = []
  for (const fact of openings) {
    if (fact.body.rack === undefined) continue
    const rack = rackOf(fact.body.rack)
    const first = takenBy.get(rack)
    if (!first) takenBy.set(rack, fact)
    else if (stickName(first.nest, first.body.stick) !== stickName(fact.nest, fact.body.stick))
      twice.push({ fact: fact.id, winner: first.id })
  }
  const gone = new Set([
    ...takenBy.keys(),
    ...ofKind(facts, 'discarded').map((fact) => rackOf(fact.body.rack)),
  ])
  const rack = facts
    .filter((fact) => !alias.has(fact.id))
    .flatMap(brought)
    .filter((piece) => !gone.has(piece.id))
    .map((piece) => {
      const measured = corrected.winners.get(piece.id)
      return measured ? { ...piece, length: measured.body.length } : piece
    })
  return {
    rack,
    opened: Object.fromEntries([...opened.winners].map(([stick, fact]) => [stick, fact.body.rack ?? null])),
    kept: [...kept.winners.keys()],
    scrapped: [...new Set(ofKind(facts, 'scrapped').map((fact) => stickName(fact.nest, fact.body.stick)))],
    loaded: Object.fromEntries(
      [...loaded.winners].map(([stick, { body }]) => [stick, { length: body.length, ends: body.ends }]),
    ),
    losers: [...kept.losers, ...loaded.losers, ...corrected.losers, ...opened.losers, ...twice],
  }
}

/** Pieces that one fact brings to the rack. */
function brought(fact: KnownFact): readonly RackPiece[] {
  if (fact.kind === 'bought') {
    const { section, length, count, price } = fact.body
    const piece = { section, length, ends: ['mill', 'mill'], from: 'bought' } as const
    const priced = price === undefined ? piece : { ...piece, price }
    return Array.from({ length: count }, (_, at) => ({
      ...priced,
      id: count === 1 ? fact.id : `${fact.id}/${at + 1}`,
    }))
  }
  if (fact.kind === 'miscut') {
    const { section, left, ends } = fact.body
    return left > 0 ? [{ id: fact.id, section, length: left, ends, from: 'drop' }] : []
  }
  if (fact.kind !== 'found' && fact.kind !== 'kept') return []
  const { section, length, ends } = fact.body
  const piece = { id: fact.id, section, length, ends } as const
  if (fact.kind === 'found') return [{ ...piece, from: 'found' }]
  const { sign } = fact.body
  return [{ ...piece, from: 'drop', ...(sign === undefined ? {} : { sign }) }]
}
