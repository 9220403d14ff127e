import type { Slope, StockLength, Turning } from '../core/nest.ts'
import { type Figures, front, isSquare, junction, tail } from '../core/stick-room.ts'
import { sameLength } from '../core/tolerance.ts'
import { type Mm, stepsDown, stepsUp } from '../core/units.ts'

// What fits on a stick: mid-lengths + junctions + front + tail ≤ length, all mm. The sum goes up to a whole step of
// 1/1600 mm once, not each term: a trapezoid of 5980 fits where a square piece of 5980 does, though its mid-length and
// its two wedges are no whole steps each.

export type Ends = readonly [Slope, Slope]

/** A piece as it lies in the stick. */
export interface Lying {
  readonly part: number
  readonly turn: Turning
  /** Leading and trailing slope after the turning. */
  readonly ends: Ends
  /** As it is counted: at square ends up to a whole step. */
  readonly mid: Mm
}

/** The proper half turns: over about x, end about z, flip about y; `end` and `flip` swap which end leads. */
export function turnEnds([lead, trail]: Ends, turn: Turning): Ends {
  if (turn === 'none') return [lead, trail]
  if (turn === 'over') return [negative(lead, true, true), negative(trail, true, true)]
  return turn === 'end'
    ? [negative(trail, false, true), negative(lead, false, true)]
    : [negative(trail, true, false), negative(lead, true, false)]
}

/** Slopes with signs changed; a zero stays a plain zero, so that two squares are equal in every sense. */
const negative = ({ p, q }: Slope, inP: boolean, inQ: boolean): Slope => ({
  p: (inP ? -p : p) || 0,
  q: (inQ ? -q : q) || 0,
})

/** Length of stick that a row of pieces needs, from the leading end on. */
export function need(figures: Figures, stock: StockLength, row: readonly Lying[]): Mm {
  const first = row[0]
  const last = row.at(-1)
  if (!first || !last) return 0
  let length = front(figures, stock.ends[0], first.ends[0]) + tail(figures, stock.ends[1], last.ends[1])
  for (const [index, piece] of row.entries()) {
    const next = row[index + 1]
    length += piece.mid + (next ? junction(figures, piece.ends[1], next.ends[0]) : 0)
  }
  return length
}

/** Whether a row fits the stick, or is the one part that a rack piece already is. */
export function fits(figures: Figures, stock: StockLength, row: readonly Lying[]): boolean {
  const [only] = row
  if (row.length === 1 && only && usedUncut(stock, only.mid, only.ends)) return true
  return stepsUp(need(figures, stock, row)) <= stepsDown(stock.length)
}

/** Rack pieces with both ends cut may be used uncut, as one part of exactly their length, whole steps or not. */
export const usedUncut = (stock: StockLength, mid: number, ends: Ends): boolean =>
  stock.rack !== undefined &&
  stock.ends[0] === 'cut' &&
  stock.ends[1] === 'cut' &&
  ends.every(isSquare) &&
  Math.abs(mid - stock.length) <= sameLength

/** Mid-length of the longest piece with these ends that a stick gives. */
export const gives = (figures: Figures, stock: StockLength, ends: Ends): Mm =>
  stock.length - front(figures, stock.ends[0], ends[0]) - tail(figures, stock.ends[1], ends[1])
