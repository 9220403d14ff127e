import type { CutFrom, KnownFact, Made, Progress, Spoiled } from '../facts.ts'
import { ofKind, single } from './rack.ts'

export interface Pieces {
  readonly made: readonly Made[]
  readonly spoiled: readonly Spoiled[]
  /** Miscuts of a piece that another fact called one already. */
  readonly losers: Progress['losers']
}

/**
 * Every piece of steel that a counting cut made and no counting miscut spoiled, and those that are spoiled. A piece whose
 * own parent was undone, or is in no log that came here, is steel all the same: it stays, marked as an orphan. Its stick
 * is still found through cuts that do not count.
 */
export function foldPieces(read: readonly KnownFact[], counts: ReadonlySet<string>): Pieces {
  const cuts = ofKind(read, 'cut')
  const byId = new Map(cuts.map((cut) => [cut.id, cut]))
  const counted = cuts.filter((cut) => counts.has(cut.id))
  const miscuts = ofKind(read, 'miscut').filter((fact) => counts.has(fact.id))
  const wrong = single(miscuts, (fact) =>
    'piece' in fact.body.from ? `of ${fact.body.from.piece}` : fact.id,
  )
  const parents = [...counted, ...wrong.winners.values()].flatMap(({ body: { from } }) =>
    'piece' in from ? [from.piece] : [],
  )
  const openings = ofKind(read, 'opened').filter((fact) => counts.has(fact.id))
  const used = new Set([...parents, ...openings.flatMap(({ body }) => body.rack ?? [])])

  const stickOf = (start: CutFrom): string | undefined => {
    const seen = new Set<string>()
    let from = start
    while (!('stick' in from)) {
      const parent = byId.get(from.piece)
      if (!parent || seen.has(parent.id)) return undefined
      seen.add(parent.id)
      from = parent.body.from
    }
    return from.stick
  }

  const spoiled: Spoiled[] = []
  const gone = new Set<string>()
  for (const { id, job = '', nest, body } of wrong.winners.values()) {
    const { stage, key, mark, label, why, took, left } = body
    const was = 'piece' in body.from ? byId.get(body.from.piece) : undefined
    // It had been checked off as what it was to be: then it stands in that piece's place.
    const itself = was && was.body.stage === stage && was.body.key === key
    if (itself) gone.add(was.id)
    const from = itself ? was.body.from : body.from
    const stick = stickOf(from)
    const of = nest ?? (itself ? was.nest : undefined)
    spoiled.push({
      id,
      job,
      ...(of === undefined ? {} : { nest: of }),
      stage,
      key,
      mark,
      label,
      from,
      ...(stick === undefined ? {} : { stick }),
      why,
      took,
      left,
    })
  }

  const made = counted
    .filter(({ id }) => !gone.has(id))
    .map((cut): Made => {
      const { stage, key, mark, label, from } = cut.body
      const stick = stickOf(from)
      const orphan = 'piece' in from && !(byId.has(from.piece) && counts.has(from.piece))
      return {
        id: cut.id,
        job: cut.job ?? '',
        ...(cut.nest === undefined ? {} : { nest: cut.nest }),
        ...(cut.copy === undefined ? {} : { copy: cut.copy }),
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
  return { made, spoiled, losers: wrong.losers }
}
