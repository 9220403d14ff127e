import { stickName } from '../core/facts/rack.ts'
import type { Progress, RackPiece } from '../core/facts.ts'
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
