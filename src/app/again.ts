import { stickName } from '../core/facts/rack.ts'
import type { Progress } from '../core/facts.ts'
import type { Nest, NestSection } from '../core/nest.ts'
import type { BenchCut } from '../core/plan-shapes.ts'
import { isOpen } from '../core/saw/bench.ts'
import { type Section, sectionKey } from '../core/section/section.ts'
import { type Figures, front, square, tail } from '../core/stick-room.ts'
import { sameLength } from '../core/tolerance.ts'
import type { Mm } from '../core/units.ts'
import { dropNow, type StickNow, stickNow } from './stick-now.ts'

// What can be said at once of a piece that went wrong, before any plan is made.

/** A square piece of this length can be cut from this steel, the ends cleaned up and the rest held. */
export const fits = (figures: Figures, length: Mm, steel: StickNow): boolean =>
  front(figures, steel.ends[0], square) + length + tail(figures, steel.ends[1], square) <=
  steel.length + sameLength

const sectionIn = (nest: Nest, section: Section): NestSection | undefined =>
  nest.sections.find((one) => sectionKey(one.section) === sectionKey(section))

/** What is still to come off a stick in this section and fits in what is left, the longest first; each once. */
export function fitsIn(
  nest: Nest,
  cuts: readonly BenchCut[],
  section: Section,
  left: StickNow,
): readonly { readonly mark: string; readonly length: Mm }[] {
  const figures = sectionIn(nest, section)
  if (!figures || left.length <= 0) return []
  const found = new Map<string, Mm>()
  for (const cut of cuts) {
    const { mark, length } = cut.product
    if (cut.loaded !== cut.stick || !isOpen(cut) || mark === undefined || length === undefined) continue
    if (sectionKey(cut.setUp.section) === sectionKey(section) && fits(figures, length, left))
      found.set(mark, length)
  }
  return [...found].map(([mark, length]) => ({ mark, length })).sort((a, b) => b.length - a.length)
}

/** Steel that gives one more piece of this length. */
export type Again =
  | { readonly kind: 'rack'; readonly rack: string; readonly length: Mm }
  /** What is left over of a stick when all that is planned on it is cut; `open`: it was on the saw. */
  | { readonly kind: 'over'; readonly stick: string; readonly open: boolean; readonly length: Mm }

/** Where one more of this length could come from without buying: drops of this job first, then sticks that wait, then the rack. */
export function steelAgain(nest: Nest, progress: Progress, section: Section, length: Mm): readonly Again[] {
  const figures = sectionIn(nest, section)
  if (!figures) return []
  const over = figures.sticks.flatMap((stick): readonly Extract<Again, { kind: 'over' }>[] => {
    const name = stickName(nest.id, stick.id)
    if (progress.kept.includes(name) || progress.scrapped.includes(name)) return []
    const now = stickNow(nest.id, stick, progress)
    const free = dropNow(stick, now)
    const fit = fits(figures, length, { length: free, ends: ['cut', now.ends[1]] })
    return fit ? [{ kind: 'over', stick: stick.id, open: name in progress.opened, length: free }] : []
  })
  const waited = new Set(figures.sticks.flatMap(({ rack }) => rack ?? []))
  const rack = progress.rack
    .filter((piece) => sectionKey(piece.section) === sectionKey(section) && !waited.has(piece.id))
    .filter((piece) => fits(figures, length, piece))
    .map((piece): Again => ({ kind: 'rack', rack: piece.id, length: piece.length }))
  return [...over.filter((one) => one.open), ...over.filter((one) => !one.open), ...rack]
}
