import type { NestProblem, Slope, StickEnd, StockLength, Turning } from '../core/nest.ts'
import { sameSlope } from '../core/tolerance.ts'
import { stepsDown, stepsUp } from '../core/units.ts'

// What fits on a stick, in whole steps of 1/1600 mm: mid-lengths + junctions + front + tail ≤ length.

export type Ends = readonly [Slope, Slope]

/** Blade, clean-up cut, grip and section: what every length of a stick is reckoned with. */
export type Figures = Pick<NestProblem, 'section' | 'kerf' | 'trim' | 'grip'>

/** A piece as it lies in the stick. */
export interface Lying {
  readonly part: number
  readonly turn: Turning
  /** Leading and trailing slope after the turning. */
  readonly ends: Ends
  readonly mid: number
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
export const kerfAt = (kerf: number, { p, q }: Slope): number => stepsUp(kerf * Math.sqrt(1 + p * p + q * q))

const wedge = ({ section }: Figures, a: Slope, b: Slope): number =>
  stepsUp(Math.abs(a.p - b.p) * (section.width / 2) + Math.abs(a.q - b.q) * (section.height / 2))

const cleanUp = ({ kerf, trim }: Figures, end: StickEnd, slope: Slope): number =>
  end === 'mill' && trim > 0 ? Math.max(stepsUp(trim), kerfAt(kerf, slope)) : 0

const endSlope = (end: StickEnd): Slope => (typeof end === 'string' ? square : end)

/** Steps between the mid-points of two ends that face each other: one cut where the slopes are equal, else two. */
export const junction = (figures: Figures, trailing: Slope, leading: Slope): number =>
  shareCut(trailing, leading)
    ? kerfAt(figures.kerf, trailing)
    : wedge(figures, trailing, leading) + kerfAt(figures.kerf, trailing) + kerfAt(figures.kerf, leading)

/** Steps from the stick's leading end to the first piece. */
export const front = (figures: Figures, end: StickEnd, leading: Slope): number =>
  wedge(figures, endSlope(end), leading) + cleanUp(figures, end, leading)

/** Steps that must stay behind the last piece: wedge, and the greater of clean-up cut and grip with its kerf. */
export function tail(figures: Figures, end: StickEnd, trailing: Slope): number {
  const held = figures.grip > 0 ? stepsUp(figures.grip) + kerfAt(figures.kerf, trailing) : 0
  return wedge(figures, endSlope(end), trailing) + Math.max(cleanUp(figures, end, trailing), held)
}

/** Steps of stick that a row of pieces needs, from the leading end on. */
export function need(figures: Figures, stock: StockLength, row: readonly Lying[]): number {
  const first = row[0]
  const last = row.at(-1)
  if (!first || !last) return 0
  let steps = front(figures, stock.ends[0], first.ends[0]) + tail(figures, stock.ends[1], last.ends[1])
  for (const [index, piece] of row.entries()) {
    const next = row[index + 1]
    steps += piece.mid + (next ? junction(figures, piece.ends[1], next.ends[0]) : 0)
  }
  return steps
}

/** Rack pieces with both ends cut may be used uncut, as one part of exactly their length. */
export const usedUncut = (stock: StockLength, mid: number, ends: Ends): boolean =>
  stock.rack !== undefined &&
  stock.ends[0] === 'cut' &&
  stock.ends[1] === 'cut' &&
  ends.every(isSquare) &&
  stepsUp(mid) === stepsDown(stock.length)

/** Steps that a stick gives to one piece with these ends. */
export const gives = (figures: Figures, stock: StockLength, ends: Ends): number =>
  stepsDown(stock.length) - front(figures, stock.ends[0], ends[0]) - tail(figures, stock.ends[1], ends[1])
