import type { NestPiece } from '../nest.ts'
import type { Part, StickFace } from '../plan-shapes.ts'
import { type Side, sideAfter } from './lying.ts'
import type { Cut } from './visit.ts'
import { type EndCut, sideOfFace } from './ways.ts'

/** Where a seam is seen best while the piece is loaded, best first. */
const order: readonly Side[] = ['up', 'outward', 'fence', 'down']

/**
 * Faces that may bear the weld seam of this piece, as the part lies in a stick; none where it is free. Piece k of a mark is
 * for member k of each copy, so that pieces whose seam must lie elsewhere keep their own numbers.
 */
export function seamsOf({ seam, count, mark }: Part, { piece }: NestPiece): readonly StickFace[] {
  const number = Number(piece.slice(mark.length))
  return seam?.[(number - 1) % count] ?? []
}

/** Where the seam looks at a cut, when at the first cut of the piece it looks to the best side that is right. */
export function seamAt(cut: EndCut, first: EndCut, seams: readonly StickFace[]): Cut['seam'] {
  const at = (face: StickFace, { lay }: EndCut) => sideAfter(sideOfFace(face), lay)
  const face = order.flatMap((side) => seams.filter((each) => at(each, first) === side))[0]
  return face && { now: at(face, cut), loaded: at(face, first) }
}
