import type { NestProblem, Slope, StickEnd } from './nest.ts'
import { sameSlope } from './tolerance.ts'
import type { Mm } from './units.ts'

// What cuts and ends take from a stick, all mm on the mid-line: the account of who plans. The judges have their own
// (check/room.ts), and neither looks at the other's.

/** Blade, clean-up cut, grip and section: what every length of a stick is reckoned with. */
export type Figures = Pick<NestProblem, 'section' | 'kerf' | 'trim' | 'grip'>

export const square: Slope = { p: 0, q: 0 }

export const isSquare = ({ p, q }: Slope): boolean => p === 0 && q === 0

/** Two ends that face each other share one cut. */
export const sameSlopes = (a: Slope, b: Slope): boolean =>
  Math.abs(a.p - b.p) <= sameSlope && Math.abs(a.q - b.q) <= sameSlope

/** Kerf along the stick: a slanted blade goes a longer way through the mid-line. */
export const kerfAt = (kerf: Mm, { p, q }: Slope): Mm => kerf * Math.sqrt(1 + p * p + q * q)

const wedge = ({ section }: Figures, a: Slope, b: Slope): Mm =>
  Math.abs(a.p - b.p) * (section.width / 2) + Math.abs(a.q - b.q) * (section.height / 2)

const cleanUp = ({ kerf, trim }: Figures, end: StickEnd, slope: Slope): Mm =>
  end === 'mill' && trim > 0 ? Math.max(trim, kerfAt(kerf, slope)) : 0

const endSlope = (end: StickEnd): Slope => (typeof end === 'string' ? square : end)

/** Between the mid-points of two ends that face each other: one cut where the slopes are equal, else two and a wedge. */
export const junction = (figures: Figures, trailing: Slope, leading: Slope): Mm =>
  sameSlopes(trailing, leading)
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
