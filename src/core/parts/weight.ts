import { listed } from '../fitup/named.ts'
import type { Frame, Member, Plate } from '../frame/frame.ts'
import { meanLength } from '../frame/round-end.ts'
import { showMass } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import type { Shop } from '../shop.ts'
import { plateMass } from './plates.ts'

// What is lifted and turned: by estimate, since weld metal, feet and what is not steel are not in it.

/** Load that one person may lift under ideal conditions, kg: the load constant of NIOSH publication 94-110. */
export const oneLift = 23

/** Steel of these members and plates, kg. */
export const massOf = (members: readonly Member[], plates: readonly Plate[]): number =>
  members.reduce((sum, of) => sum + (massPerLength(of.section) * meanLength(of)) / 1000, 0) +
  plates.reduce((sum, plate) => sum + plateMass(plate), 0)

/** What some members are together, with the plates on them. */
export interface Weight {
  /** Of the members and `plates`. */
  readonly kg: number
  /** Welded on them, as caps, hub and base plate. */
  readonly plates: readonly Plate[]
  /** Laid on them when all else is welded, as a top sheet; not in `kg`. */
  readonly last: readonly Plate[]
}

export function weightOf(frame: Frame, own: ReadonlySet<string>): Weight {
  const joined = new Set(frame.joints.flatMap(({ members }) => members))
  const on = frame.plates.filter((plate) => plate.on.every((id) => own.has(id)))
  const plates = on.filter(({ id }) => joined.has(id))
  return {
    kg: massOf(
      frame.members.filter(({ id }) => own.has(id)),
      plates,
    ),
    plates,
    last: on.filter(({ id }) => !joined.has(id)),
  }
}

/** `4 foot caps and the hub plate`. */
function namesOf(plates: readonly Plate[]): string {
  const counts = new Map<string, number>()
  for (const { name } of plates) {
    const stem = name.replace(/\s*\d+$/, '').toLowerCase()
    counts.set(stem, (counts.get(stem) ?? 0) + 1)
  }
  const many = (stem: string) => (stem === 'shelf' ? 'shelves' : `${stem}s`)
  return listed([...counts].map(([stem, count]) => (count === 1 ? `the ${stem}` : `${count} ${many(stem)}`)))
}

/** What is put together weighs so much, what is counted, and what still comes on it. */
export function weightText(frame: Frame, own: ReadonlySet<string>, unit: Shop['mass']): string {
  const { kg, plates, last } = weightOf(frame, own)
  const counted = plates.length > 0 ? `, ${namesOf(plates)} counted` : ''
  const more =
    last.length > 0
      ? ` Not counted: ${namesOf(last)}, ${showMass(massOf([], last), unit)} more, on when all else is welded.`
      : ''
  return `The pieces weigh ${showMass(kg, unit)} together${counted}.${more}`
}

/** The finished thing weighs so much, and what is counted. */
export function wholeText(frame: Frame, unit: Shop['mass']): string {
  const plates = frame.plates.length > 0 ? ` with ${namesOf(frame.plates)}` : ''
  return `Weighs about ${showMass(massOf(frame.members, frame.plates), unit)}: its steel${plates}, nothing else.`
}

/** Said of a load above `oneLift`, after what it weighs. */
export const overOneLift = 'more than the 23 kg (51 lb) that one person lifts at best'
