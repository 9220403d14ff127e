import { type NestPiece, type NestSection, piecesIn } from '../nest.ts'
import type { Part, Product } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'
import type { Shop } from '../shop.ts'
import { stepSlack } from '../tolerance.ts'
import { fromSteps, type Mm, stepsNearest } from '../units.ts'
import type { Blank } from './blanks.ts'
import { beyondPrinted } from './ends.ts'
import { pairLength } from './pairs.ts'
import { shownStop } from './shown-stop.ts'

// What leaves the stick for a piece of a nest: a blank to be mitered or split, or the piece itself.

/** Length of what leaves the stick; the whole step that floating point moved it off is put back. */
export function lengthInStick({ ends: [lead, trail] }: NestPiece): Mm {
  const length = lead.x - trail.x
  const whole = fromSteps(stepsNearest(length))
  return Math.abs(length - whole) <= stepSlack ? whole : length
}

export function blankOf(
  piece: NestPiece,
  { section }: NestSection,
  shop: Shop,
  stick: string,
  parts: readonly Part[],
): Blank {
  const partOf = (key: string) => parts.find((part) => part.key === key)
  const part = partOf(piece.key)
  // A finished piece is as long as it is printed, which in decimal inches is no whole step of the nest.
  const planned = (!piece.blank && part?.printed.length.mm) || lengthInStick(piece)
  const [one, two] = piece.makes?.map(({ key }) => partOf(key)) ?? []
  const exact =
    one && two ? pairLength(one, two, section, shop, 'exact') : planned + (part ? beyondPrinted(part) : 0)
  const makes = piecesIn(piece).map((each) => each.piece)
  const made = { from: stick, mark: piece.mark, copy: piece.copy, job: piece.job, makes }
  const keep: Product = piece.blank
    ? {
        ...made,
        id: piece.blank,
        kind: 'blank',
        key: blankKey(sectionKey(section), planned),
        length: planned,
      }
    : { ...made, id: piece.piece, kind: 'piece', key: piece.key, length: planned }
  return { kind: piece.blank ? 'blank' : 'square', exact, stop: shownStop(planned, shop), keep }
}

const blankKey = (section: string, length: Mm): string => `${section} | blank ${stepsNearest(length)}`
