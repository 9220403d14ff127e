import type { NestProblem, Slope, StickEnd, StockLength, Turning } from '../core/nest.ts'
import { sameLength, sameSlope } from '../core/tolerance.ts'
import { type Mm, stepsDown, stepsUp } from '../core/units.ts'

// What fits on a stick: mid-lengths + junctions + front + tail ≤ length, all mm. The sum goes up to a whole step of
// 1/1600 mm once, not each term: a trapezoid of 5980 fits where a square piece of 5980 does, though its mid-length and
// its two wedges are no whole steps each.

export type Ends = readonly [Slope, Slope]

/** Blade, clean-up cut, grip and section: what every length of a stick is reckoned with. */
export type Figures = Pick<NestProblem, 'section' | 'kerf' | 'trim' | 'grip'>

/** A piece as it lies in the stick. */
export interface Lying {
  readonly part: number
  readonly turn: Turning
  /** Leading and trailing slope after the turning. */
  readonly ends: Ends
  /** As it is counted: at square ends up to a whole step. */
  readonly mid: Mm
}

const square: Slope = { p: 0, q: 0 }

export const isSquare = ({ p, q }: Slope): boolean => p === 0 && q === 0

const shareCut = (a: Slope, b: Slope): boolean =>
  Math.abs(a.p - b.p) <= sameSlope && Math.abs(a.q - b.q) <= sameSlope

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

/** Kerf along the stick: a slanted blade goes a longer way through the mid-line. */
export const kerfAt = (kerf: Mm, { p, q }: Slope): Mm => kerf * Math.sqrt(1 + p * p + q * q)

const wedge = ({ section }: Figures, a: Slope, b: Slope): Mm =>
  Math.abs(a.p - b.p) * (section.width / 2) + Math.abs(a.q - b.q) * (section.height / 2)

const cleanUp = ({ kerf, trim }: Figures, end: StickEnd, slope: Slope): Mm =>
  end === 'mill' && trim > 0 ? Math.max(trim, kerfAt(kerf, slope)) : 0

const endSlope = (end: StickEnd): Slope => (typeof end === 'string' ? square : end)

/** Between the mid-points of two ends that face each other: one cut where the slopes are equal, else two and a wedge. */
export const junction = (figures: Figures, trailing: Slope, leading: Slope): Mm =>
  shareCut(trailing, leading)
    ? kerfAt(figures.kerf, trailing)
    : wedge(figures, trailing, leading) + kerfAt(figures.kerf, trailing) + kerfAt(figures.kerf, leading)

/** From the stick's leading end to the first piece. */
export const front = (figures: Figures, end: StickEnd, leading: Slope): Mm =>
  wedge(figures, endSlope(end), leading) + cleanUp(figures, end, leading)

/** What must stay behind the last piece: wedge, and the greater of clean-up cut and grip with its kerf. */
export function tail(figures: Figures, end: StickEnd, trailing: Slope): Mm {
  const held = figures.grip > 0 ? figures.grip + kerfAt(figures.kerf, trailing) : 0
  return wedge(figures, endSlope(end), trailing) + Math.max(cleanUp(figures, end, trailing), held)
}

/** What is left of a stick behind its last cut, on the short side; a blade that runs out of the steel leaves 0. */
export const dropBehind = (figures: Figures, end: StickEnd, x: Mm, trailing: Slope): Mm =>
  Math.max(0, x - kerfAt(figures.kerf, trailing) - wedge(figures, endSlope(end), trailing))

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
