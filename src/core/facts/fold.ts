import type { Fact, KnownFact, Progress } from '../facts.ts'
import { counting } from './counting.ts'
import { known } from './known.ts'
import { union } from './order.ts'
import { foldPieces } from './pieces.ts'
import { foldRack, ofKind, single, stickName } from './rack.ts'
import { foldSheets } from './sheets.ts'

/** What Undo takes back: things done with the hands. Accepted nests and opened sticks are not asked for by themselves. */
const undoable: ReadonlySet<string> = new Set([
  'cut',
  'kept',
  'scrapped',
  'loaded',
  'miscut',
  'measured',
  'stopMoved',
  'bladeChanged',
  'cutApart',
  'discarded',
  'corrected',
  'tacked',
  'welded',
  'checked',
  'gauged',
  'noted',
  'setTo',
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
  const ticks = standingTicks(done)
  const pieces = foldPieces(read, counts)
  const rack = foldRack(done, pieces.losers)
  const sheets = foldSheets(done)
  const measured = single(ofKind(done, 'measured'), ({ body }) => `${body.piece}/${body.what}`)
  const stops = single(ofKind(done, 'stopMoved'), (fact) => stickName(fact.nest, fact.body.setUp))
  const blades = single(ofKind(done, 'bladeChanged'), ({ body }) => body.saw)
  const gauged = single(ofKind(done, 'gauged'), nameOf)
  const notes = single(ofKind(done, 'noted'), nameOf)
  const settings = single(ofKind(done, 'setTo'), ({ job, copy, body }) =>
    tickName(job ?? '', copy ?? 1, `${body.joint}, ${body.wall}`),
  )
  return {
    accepted: Object.fromEntries([...accepted.winners].map(([job, fact]) => [job, fact.body.nest])),
    made: pieces.made,
    spoiled: pieces.spoiled,
    rack: rack.rack,
    sheets: sheets.lying,
    opened: rack.opened,
    kept: rack.kept,
    scrapped: rack.scrapped,
    loaded: rack.loaded,
    measured: bodiesOf(measured.winners, ({ got, wanted }) =>
      wanted === undefined ? { got } : { got, wanted },
    ),
    stops: Object.fromEntries(
      [...stops.winners].map(([name, { id, body }]) => [name, { fact: id, by: body.by }]),
    ),
    blades: bodiesOf(blades.winners, ({ blade, kerf }) => ({ blade, kerf })),
    ticked: Object.fromEntries(
      ticks.map((fact) => [tickName(fact.job ?? '', fact.copy ?? 1, fact.body.step), fact.id]),
    ),
    joined: [...new Set(ticks.filter(({ kind }) => kind !== 'checked').map(copyName))],
    gauged: Object.fromEntries(
      [...gauged.winners].map(([name, { id, body }]) => [name, { value: body.value, fact: id }]),
    ),
    notes: Object.fromEntries(
      [...notes.winners].map(([name, { id, body }]) => [name, { text: body.text, fact: id }]),
    ),
    settings: bodiesOf(settings.winners, (body) => body),
    // In the order of the log, so that the last of each job stays.
    last: Object.fromEntries(
      done
        .filter((fact) => fact.job !== undefined && undoable.has(fact.kind))
        .map((fact) => [fact.job!, fact.id]),
    ),
    unknown,
    // An earlier blade and an earlier correction did not lose: they were true then.
    losers: [
      ...accepted.losers,
      ...pieces.losers,
      ...rack.losers,
      ...[...measured.losers, ...gauged.losers, ...notes.losers, ...settings.losers].filter(fromElsewhere),
      ...sheets.losers.filter(fromElsewhere),
    ],
  }
}

/** By name, what a single-valued fact says. */
const bodiesOf = <B, T>(
  winners: ReadonlyMap<string, { readonly body: B }>,
  says: (body: B) => T,
): Readonly<Record<string, T>> =>
  Object.fromEntries([...winners].map(([name, { body }]) => [name, says(body)]))

/** Measured again on one tablet is a correction; only another tablet's figure is one to be told. */
const fromElsewhere = ({ fact, winner }: Progress['losers'][number]): boolean =>
  fact.slice(0, fact.lastIndexOf(':')) !== winner.slice(0, winner.lastIndexOf(':'))

const nameOf = ({ job, copy, body }: Extract<KnownFact, { readonly kind: 'gauged' | 'noted' }>): string =>
  tickName(job ?? '', copy ?? 1, body.of)

/** How a step of the weld list, or what was measured, is named for one copy. */
export const tickName = (job: string, copy: number, step: string): string => `${job}/${copy}/${step}`

export const isTick = (
  fact: KnownFact,
): fact is Extract<KnownFact, { readonly kind: 'tacked' | 'welded' | 'checked' }> =>
  fact.kind === 'tacked' || fact.kind === 'welded' || fact.kind === 'checked'

/** Ticks of each copy since it was last cut apart. `done` is in the order of the log. */
function standingTicks(done: readonly KnownFact[]) {
  const apart = new Map<string, number>()
  for (const [at, fact] of done.entries()) if (fact.kind === 'cutApart') apart.set(copyName(fact), at)
  return done.filter((fact, at) => at > (apart.get(copyName(fact)) ?? -1)).filter(isTick)
}

/** `job/copy`. */
export const copyName = ({ job = '', copy = 1 }: { readonly job?: string; readonly copy?: number }): string =>
  `${job}/${copy}`
