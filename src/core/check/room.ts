import type { Slope, StickEnd, Turning } from '../nest.ts'
import type { Section } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { type Mm, stepsUp } from '../units.ts'

// What cuts and ends take from a stick. The judges' own account of the rules of the documents, so that a slip in the
// solver's account is not repeated here.

/** Blade, clean-up cut (its own kerf included; 0 for none) and what the vise must hold: mm. */
export interface CutFigures {
  readonly section: Section
  readonly kerf: Mm
  readonly trim: Mm
  readonly grip: Mm
}

export const square: Slope = { p: 0, q: 0 }

export const sameSlopes = (a: Slope, b: Slope): boolean =>
  Math.abs(a.p - b.p) <= sameSlope && Math.abs(a.q - b.q) <= sameSlope

/** Slopes of an end of a stick: square where it comes from the mill or was cut square. */
export const slopeOfEnd = (end: StickEnd): Slope => (typeof end === 'string' ? square : end)

/** Stick length that the kerf of a cut at this slope takes, mm: a slanted cut is longer through the steel. */
export const kerfAlong = (kerf: Mm, { p, q }: Slope): Mm => kerf * Math.hypot(1, p, q)

/** Distance on the mid-line between two planes of different slope that touch in one corner of the section, mm. */
export const wedge = ({ width, height }: Section, a: Slope, b: Slope): Mm =>
  (Math.abs(a.p - b.p) * width) / 2 + (Math.abs(a.q - b.q) * height) / 2

/**
 * Lengths on the mid-line, mm, that together are needed at one place of a stick. The documents round a derived length
 * up to a whole step; a solver may round the sum or each of them.
 */
export type Terms = readonly Mm[]

export const exactly = (terms: Terms): Mm => terms.reduce((sum, term) => sum + term, 0)

/** Each rounded up for itself. */
export const mostSteps = (terms: Terms): number => terms.reduce((sum, term) => sum + stepsUp(term), 0)

/** Between two neighbors: one kerf where they share the cut, else both kerfs and the wedge. */
export function junction({ section, kerf }: CutFigures, a: Slope, b: Slope): Terms {
  if (sameSlopes(a, b)) return [kerfAlong(kerf, a)]
  return [wedge(section, a, b), kerfAlong(kerf, a), kerfAlong(kerf, b)]
}

const cleanUp = ({ kerf, trim }: CutFigures, end: StickEnd, slope: Slope): Mm =>
  end === 'mill' && trim > 0 ? Math.max(trim, kerfAlong(kerf, slope)) : 0

/** From the leading end of the stick to the first piece. */
export const front = (figures: CutFigures, end: StickEnd, slope: Slope): Terms => [
  wedge(figures.section, slopeOfEnd(end), slope),
  cleanUp(figures, end, slope),
]

/** Least from the last piece to the tail of the stick: the clean-up cut, or what the vise holds and its cut. */
export function tail(figures: CutFigures, end: StickEnd, slope: Slope): Terms {
  const between = wedge(figures.section, slopeOfEnd(end), slope)
  const clean = cleanUp(figures, end, slope)
  const hold = figures.grip > 0 ? figures.grip + kerfAlong(figures.kerf, slope) : 0
  return hold > clean ? [between, figures.grip, kerfAlong(figures.kerf, slope)] : [between, clean]
}

/**
 * Slopes [leading, trailing] of a piece after a half turn: over about x, end about z, flip about y. Each follows from
 * turning the plane x = c + p·y + q·z; `end` and `flip` also swap which end leads.
 */
export function turned([lead, trail]: readonly [Slope, Slope], turn: Turning): readonly [Slope, Slope] {
  switch (turn) {
    case 'none':
      return [lead, trail]
    case 'over':
      return [
        { p: -lead.p, q: -lead.q },
        { p: -trail.p, q: -trail.q },
      ]
    case 'end':
      return [
        { p: trail.p, q: -trail.q },
        { p: lead.p, q: -lead.q },
      ]
    case 'flip':
      return [
        { p: -trail.p, q: trail.q },
        { p: -lead.p, q: lead.q },
      ]
  }
}
