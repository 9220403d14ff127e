import { stickName } from '../core/facts/rack.ts'
import type { Progress } from '../core/facts.ts'
import type { Nest, NestSection, NestStick } from '../core/nest.ts'
import { type Section, sectionKey } from '../core/section/section.ts'
import { type Mm, stepsNearest } from '../core/units.ts'
import { boughtFor, type StickAt, sticksOf } from './rack.ts'

/** One stick before and after: which pieces are still to come from it, by mark, as `A × 2, B`. */
export interface SteelChange {
  readonly stick: string
  readonly section: Section
  readonly length: Mm
  readonly kind: 'begun' | 'rack' | 'stick' | 'blank'
  readonly before: string
  readonly after: string
}

/** What a plan of the rest changes against the accepted one. */
export interface Difference {
  /** Sticks whose open pieces are others than before. */
  readonly changed: readonly SteelChange[]
  /** Sticks that stay as they are. */
  readonly same: number
  /** Sticks that neither the accepted plan reckoned with nor the rack has. */
  readonly buy: readonly { readonly section: Section; readonly length: Mm; readonly count: number }[]
  /** Sticks to buy that are no longer needed. */
  readonly saved: number
}

const kindOf = (section: Section, { length, ends, from }: NestStick): string =>
  [sectionKey(section), from, stepsNearest(length), JSON.stringify(ends)].join(' | ')

const marksOf = (pieces: NestStick['pieces']): string => {
  const counts = new Map<string, number>()
  for (const { mark } of pieces) counts.set(mark, (counts.get(mark) ?? 0) + 1)
  return [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([mark, count]) => (count > 1 ? `${mark} × ${count}` : mark))
    .join(', ')
}

/** The pieces of a stick that are not yet cut off it, of marks alike any. */
function openOn(nest: Nest, stick: NestStick, { made, spoiled }: Progress): NestStick['pieces'] {
  const off = [...made, ...spoiled].filter(
    ({ nest: of, from }) => of === nest.id && 'stick' in from && from.stick === stick.id,
  )
  const left = [...stick.pieces]
  for (const { mark } of off) {
    const at = left.findIndex((piece) => piece.mark === mark)
    if (at >= 0) left.splice(at, 1)
  }
  return left
}

/**
 * Names the sticks of a new plan as they are painted on the steel: what is the rest of a stick, or a stick that waits,
 * keeps its name; others count on from the greatest. Of sticks alike the one with the same pieces keeps its name first.
 */
export function named(
  sections: readonly NestSection[],
  parent: Nest | undefined,
  chain: readonly Nest[],
  progress: Progress,
): readonly NestSection[] {
  const numbers = chain.flatMap(sticksOf).map(({ stick }) => Number(/^S(\d+)$/.exec(stick.id)?.[1] ?? 0))
  let next = Math.max(0, ...numbers)
  const waiting: StickAt[] = parent
    ? sticksOf(parent).filter(({ stick }) => !(stickName(parent.id, stick.id) in progress.opened))
    : []
  const taken = new Set<string>()
  const names = new Map<NestStick, string>()
  const give = (stick: NestStick, name: string | undefined) => {
    if (name === undefined || taken.has(name)) return
    taken.add(name)
    names.set(stick, name)
  }
  const all = sections.flatMap(({ section, sticks }) => sticks.map((stick) => ({ stick, section })))
  for (const { stick } of all) {
    if (stick.rack === undefined) continue
    const rest = /\/(S\d+)$/.exec(stick.rack)
    give(stick, rest?.[1] ?? waiting.find((one) => one.stick.rack === stick.rack)?.stick.id)
  }
  for (const alike of [true, false])
    for (const { stick, section } of all) {
      if (names.has(stick) || stick.rack !== undefined) continue
      const at = waiting.findIndex(
        (one) =>
          kindOf(one.section, one.stick) === kindOf(section, stick) &&
          (!alike || marksOf(one.stick.pieces) === marksOf(stick.pieces)),
      )
      if (at >= 0) give(stick, waiting.splice(at, 1)[0]!.stick.id)
    }
  for (const { stick } of all) {
    if (names.has(stick)) continue
    next += 1
    give(stick, `S${next}`)
  }
  return sections.map((section) => ({
    ...section,
    sticks: section.sticks.map((stick) => ({ ...stick, id: names.get(stick)! })),
  }))
}

/** Compares the open pieces of the accepted nest with those of the new one, stick by stick. `lying`: blanks and halves. */
export function differenceOf(
  parent: Nest | undefined,
  nest: Nest,
  progress: Progress,
  lying: ReadonlySet<string>,
): Difference {
  const before = new Map(
    (parent ? sticksOf(parent) : []).map((at) => [
      at.stick.id,
      { ...at, open: openOn(parent!, at.stick, progress) },
    ]),
  )
  const changes = sticksOf(nest)
    .filter(({ stick }) => !(stick.rack !== undefined && lying.has(stick.rack)))
    .map(({ stick, section }): SteelChange => {
      const was = before.get(stick.id)
      before.delete(stick.id)
      return {
        stick: stick.id,
        section,
        length: stick.length,
        kind: stick.rack === undefined ? 'stick' : /\/S\d+$/.test(stick.rack) ? 'begun' : 'rack',
        before: was ? marksOf(was.open) : '',
        after: marksOf(stick.pieces),
      }
    })
  const gone = [...before.values()]
    .filter(({ open }) => open.length > 0)
    .map(
      ({ stick, section, open }): SteelChange => ({
        stick: stick.id,
        section,
        length: stick.length,
        kind: stick.rack === undefined ? 'stick' : 'rack',
        before: marksOf(open),
        after: '',
      }),
    )
  const all = [...changes, ...gone]
  const waiting = (of: Nest | undefined) =>
    (of ? sticksOf(of) : []).filter(
      ({ stick }) => stick.from === 'buy' && !(stickName(of!.id, stick.id) in progress.opened),
    )
  const [had, wants] = [waiting(parent), waiting(nest)]
  return {
    changed: all.filter((one) => one.before !== one.after),
    same: all.filter((one) => one.before === one.after).length,
    buy: toBuy(had, wants, progress),
    saved: Math.max(0, had.length - wants.length),
  }
}

/** Sticks that are wanted beyond those that the plan before waited for and those that lie on the rack. */
function toBuy(had: readonly StickAt[], wants: readonly StickAt[], progress: Progress): Difference['buy'] {
  const left = had.map(({ stick, section }) => kindOf(section, stick))
  const taken = new Set<string>()
  const buy = new Map<string, { section: Section; length: Mm; count: number }>()
  for (const at of wants) {
    const kind = kindOf(at.section, at.stick)
    const reckoned = left.indexOf(kind)
    if (reckoned >= 0) {
      left.splice(reckoned, 1)
      continue
    }
    const lies = boughtFor(at, progress.rack, taken)
    if (lies) {
      taken.add(lies.id)
      continue
    }
    const { length } = at.stick
    const line = buy.get(kind) ?? { section: at.section, length, count: 0 }
    buy.set(kind, { ...line, count: line.count + 1 })
  }
  return [...buy.values()]
}
