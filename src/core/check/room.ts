import type { Slope, StickEnd, Turning } from '../nest.ts'
import type { Section } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { type Mm, stepsUp } from '../units.ts'

// What cuts and ends cost on a stick, in whole steps of 1/1600 mm. The judges' own account of the rules of the
// documents, so that a slip in the solver's account is not repeated here.

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

/** Steps of stick length that the kerf of a cut at this slope takes: a slanted cut is longer through the steel. */
export const kerfSteps = (kerf: Mm, { p, q }: Slope): number => stepsUp(kerf * Math.hypot(1, p, q))

/** Steps on the mid-line between two planes of different slope that touch in one corner of the section. */
export const wedgeSteps = ({ width, height }: Section, a: Slope, b: Slope): number =>
  stepsUp((Math.abs(a.p - b.p) * width) / 2 + (Math.abs(a.q - b.q) * height) / 2)

/** Steps between two neighbors: one kerf where they share the cut, else both kerfs and the wedge. */
export function junctionSteps({ section, kerf }: CutFigures, a: Slope, b: Slope): number {
  if (sameSlopes(a, b)) return kerfSteps(kerf, a)
  return wedgeSteps(section, a, b) + kerfSteps(kerf, a) + kerfSteps(kerf, b)
}

function cleanUpSteps({ kerf, trim }: CutFigures, end: StickEnd, slope: Slope): number {
  return end === 'mill' && trim > 0 ? Math.max(stepsUp(trim), kerfSteps(kerf, slope)) : 0
}

/** Steps from the leading end of the stick to the first piece, on the mid-line. */
export const frontSteps = (figures: CutFigures, end: StickEnd, slope: Slope): number =>
  wedgeSteps(figures.section, slopeOfEnd(end), slope) + cleanUpSteps(figures, end, slope)

/** Least steps from the last piece to the tail of the stick, on the mid-line. */
export function tailSteps(figures: CutFigures, end: StickEnd, slope: Slope): number {
  const hold = figures.grip > 0 ? stepsUp(figures.grip) + kerfSteps(figures.kerf, slope) : 0
  return (
    wedgeSteps(figures.section, slopeOfEnd(end), slope) + Math.max(cleanUpSteps(figures, end, slope), hold)
  )
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
