import { type Deg, type Mm, toDeg } from '../units.ts'

// A test before the pieces are cut: scraps from one setting put together show the error many times over.

/** `pair`: two ends put together against a square or a protractor; `row`: half a ring of scraps against a straightedge. */
export type ScrapTest = 'pair' | 'row'

/** Ends that the test adds up: two of a pair; two for each of the n/2 scraps of a row. */
export const endsInTest = (test: ScrapTest, sides: number): number => (test === 'pair' ? 2 : sides)

/** Each end's error, degrees, from what the test shows in all: over 0 when the corner comes out too sharp. */
export const errorOfEach = (test: ScrapTest, sides: number, shown: Deg): Deg =>
  shown / endsInTest(test, sides)

/** The angle of a gap that is open so far at a distance from where the two touch. */
export const angleOfGap = (gap: Mm, reach: Mm): Deg => toDeg(Math.atan2(gap, reach))
