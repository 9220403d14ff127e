import type { Deg, Mm } from '../units.ts'

// General tolerances of a welded frame after ISO 13920: a class for lengths and angles, another for straight and flat.
// Figures: shared/reference, reference.md [ISO13920], where B to D were moved by the cell that they share with A; past
// 8 m (4 m for flatness) read off the same source. Flatness G and H past the first cell: from memory.

export const linearClasses = ['A', 'B', 'C', 'D'] as const
export const flatClasses = ['E', 'F', 'G', 'H'] as const
export type LinearClass = (typeof linearClasses)[number]
export type FlatClass = (typeof flatClasses)[number]

/** Classes that a shop works to; absent: none, only its own tolerance. */
export interface General {
  readonly linear?: LinearClass
  readonly flat?: FlatClass
}

/** Classes whose figures nobody has compared with the standard. */
export const fromMemory: readonly (LinearClass | FlatClass)[] = ['G', 'H']

/** Greatest nominal of each range but the last, mm. */
const ranges: readonly Mm[] = [30, 120, 400, 1000, 2000, 4000, 8000, 12000, 16000, 20000]

const lengths: Readonly<Record<LinearClass, readonly Mm[]>> = {
  A: [1, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9],
  B: [1, 2, 2, 3, 4, 6, 8, 10, 12, 14, 16],
  C: [1, 3, 4, 6, 8, 11, 14, 18, 21, 24, 27],
  D: [1, 4, 7, 9, 12, 16, 21, 27, 32, 36, 40],
}

/** From 30 mm on. */
const flats: Readonly<Record<FlatClass, readonly Mm[]>> = {
  E: [0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8],
  F: [1, 1.5, 3, 4.5, 6, 8, 10, 12, 14, 16],
  G: [1.5, 3, 5.5, 9, 11, 16, 20, 22, 25, 25],
  H: [2.5, 5, 9, 14, 18, 26, 32, 36, 40, 40],
}

/** Minutes of arc for a shorter leg up to 400, up to 1000, and beyond. */
const angles: Readonly<Record<LinearClass, readonly [number, number, number]>> = {
  A: [20, 15, 10],
  B: [45, 30, 20],
  C: [60, 45, 30],
  D: [90, 75, 60],
}

const rangeOf = (nominal: Mm): number => {
  const at = ranges.findIndex((most) => nominal <= most)
  return at < 0 ? ranges.length : at
}

/** Plus or minus so much on a length; undefined for 2 mm and less, for which no class says anything. */
export const lengthAllowed = (of: LinearClass, nominal: Mm): Mm | undefined =>
  nominal > 2 ? lengths[of][rangeOf(nominal)]! : undefined

/** Plus or minus so much on an angle, by its shorter leg. */
export const angleAllowed = (of: LinearClass, shorterLeg: Mm): Deg =>
  (angles[of][shorterLeg <= 400 ? 0 : shorterLeg <= 1000 ? 1 : 2] / 60) as Deg

/** Out of flat, straight or parallel by so much, by the longer side; undefined for 30 mm and less. */
export const flatAllowed = (of: FlatClass, longerSide: Mm): Mm | undefined =>
  longerSide > 30 ? flats[of][rangeOf(longerSide) - 1]! : undefined
