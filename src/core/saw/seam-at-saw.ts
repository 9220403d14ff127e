import type { NestPiece, Turning } from '../nest.ts'
import type { Part, StickFace, Turn } from '../plan-shapes.ts'
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

/**
 * Turnings of a piece in its stick that leave the seam of the stick on a face where the part may have it, beside a piece that
 * lies unturned with its seam there: what the ways of cutting from the stick may use. All where the seam is free. A part
 * that a half turn brings onto itself keeps more than one face, so a trapezoid pinned on top is turned over freely, and
 * one pinned outside is not.
 */
export function turnsWithSeam(faces: readonly StickFace[]): readonly Turning[] {
  const all: readonly (readonly [Turning, readonly Turn[]])[] = [
    ['none', []],
    ['over', ['over']],
    ['end', ['end']],
    ['flip', ['flip']],
  ]
  const [base] = faces
  if (base === undefined) return all.map(([turning]) => turning)
  const sides = faces.map(sideOfFace)
  return all
    .filter(([, turns]) => sides.includes(sideAfter(sideOfFace(base), turns)))
    .map(([turning]) => turning)
}
