import { counting } from '../core/facts/counting.ts'
import { known } from '../core/facts/known.ts'
import { stickName } from '../core/facts/rack.ts'
import type { Fact, KnownFact, Progress, RackPiece } from '../core/facts.ts'
import type { Nest, NestStick } from '../core/nest.ts'
import { type Section, sectionKey } from '../core/section/section.ts'
import { sameLength } from '../core/tolerance.ts'

/** A stick of a nest with its section. */
export interface StickAt {
  readonly stick: NestStick
  readonly section: Section
}

export const sticksOf = (nest: Nest): readonly StickAt[] =>
  nest.sections.flatMap(({ section, sticks }) => sticks.map((stick) => ({ stick, section })))

/** A stick that lies on the rack, bought to be this one: whole, of this section and length, and not spoken for. */
export function boughtFor(
  { stick, section }: StickAt,
  rack: readonly RackPiece[],
  taken: ReadonlySet<string>,
): RackPiece | undefined {
  const key = sectionKey(section)
  return rack.find(
    (piece) =>
      piece.from === 'bought' &&
      !taken.has(piece.id) &&
      Math.abs(piece.length - stick.length) <= sameLength &&
      sectionKey(piece.section) === key,
  )
}

/** Rack pieces that these nests will still take: named by a stick, or bought for one that is not yet on the saw. */
export function spokenFor(progress: Progress, nests: readonly Nest[]): ReadonlySet<string> {
  const taken = new Set<string>()
  const waiting = nests.flatMap((nest) =>
    sticksOf(nest).filter(({ stick }) => !(stickName(nest.id, stick.id) in progress.opened)),
  )
  for (const { stick } of waiting) if (stick.rack !== undefined) taken.add(stick.rack)
  for (const at of waiting) {
    if (at.stick.from === 'rack') continue
    const piece = boughtFor(at, progress.rack, taken)
    if (piece) taken.add(piece.id)
  }
  return taken
}

/** The progress as one job may plan with it: without the steel that the accepted nests of other jobs wait for. */
export function forJob(progress: Progress, others: readonly Nest[]): Progress {
  const taken = spokenFor(progress, others)
  if (taken.size === 0) return progress
  return { ...progress, rack: progress.rack.filter(({ id }) => !taken.has(id)) }
}

/** What is done on the rack itself and not at the saw. */
export type RackFact = Extract<KnownFact, { readonly kind: (typeof rackKinds)[number] }>

const rackKinds = [
  'bought',
  'found',
  'discarded',
  'corrected',
  'sheetFound',
  'sheetCorrected',
  'sheetDiscarded',
] as const

const onRack = (fact: KnownFact | undefined): fact is RackFact =>
  fact !== undefined && fact.job === undefined && rackKinds.some((kind) => kind === fact.kind)

/**
 * The last thing done on the rack that can be taken back: not what brought or named steel that is on the saw since.
 * `facts` in the order of the log.
 */
export function lastOnRack(facts: readonly Fact[], opened: Progress['opened']): RackFact | undefined {
  const counts = counting(facts)
  const gone = Object.values(opened)
  const isGone = (id: string) => gone.some((rack) => rack === id || rack?.startsWith(`${id}/`))
  for (let at = facts.length - 1; at >= 0; at--) {
    const given = facts[at]!
    if (!counts.has(given.id)) continue
    const fact = known(given)
    if (!onRack(fact)) continue
    if (!isGone('rack' in fact.body ? fact.body.rack : fact.id)) return fact
  }
  return undefined
}
