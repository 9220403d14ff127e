import type { Point } from '../geometry/polygon.ts'
import { type Deg, type Mm, toDeg, toRad } from '../units.ts'
import type { Contact, Loop, LoopPiece } from './loops.ts'
import {
  about,
  along,
  back,
  chain,
  left,
  long,
  type Move,
  minus,
  moved,
  shift,
  still,
  times,
  unit2,
} from './move.ts'

/**
 * How a real piece differs from the planned one. Length along its longer edge; an angle is more than planned where
 * the cut leaves more of the outside edge standing beyond the inside one.
 */
export interface Off {
  readonly length: Mm
  readonly entry: Deg
  readonly exit: Deg
}

export const exact: Off = { length: 0, entry: 0, exit: 0 }

/** How the last joint stands when all the others are closed, their faces flush and their outside corners together. */
export interface Closing {
  /** The joint that was left for last, by its place in the loop. */
  readonly last: number
  /** By how much the ends turn the ring too far (over 0) or not far enough: the same whatever joint is last. */
  readonly left: Deg
  /** Open, or below 0 running into each other, at the outside and the inside corner, square to the joint. */
  readonly outside: Mm
  readonly inside: Mm
  /** By how much the faces stand past each other along the joint; over 0: the next piece lies further in. */
  readonly step: Mm
  /** The greatest of them: how bad it looks. */
  readonly worst: Mm
}

/** Where a contact of a piece really lies: its B end moved by the length, its face turned about its long corner. */
function really(piece: LoopPiece, which: 'entry' | 'exit', off: Off): Move {
  const contact: Contact = piece[which]
  if (contact.end === 'side') return still
  const by: Point = contact.end === 'B' ? times(piece.axis, off.length) : [0, 0]
  const more = toRad(off[which])
  const [x, y] = contact[piece.longSide]
  return chain(about([x + by[0], y + by[1]], which === 'exit' ? more : -more), shift(by))
}

export const entryOf = (piece: LoopPiece, off: Off): Move => really(piece, 'entry', off)
export const exitOf = (piece: LoopPiece, off: Off): Move => really(piece, 'exit', off)

/** Opening of a joint, at its outside and its inside corner, mm. */
export interface Opening {
  readonly outside: Mm
  readonly inside: Mm
}

/** The move of what follows when the joint before `piece` is opened: square to its face, the inside corner more or less. */
export function opened({ entry }: LoopPiece, { outside, inside }: Opening): Move {
  const face = minus(entry.inner, entry.outer)
  const ahead = times(left(unit2(face)), -outside)
  return chain(shift(ahead), about(entry.outer, -Math.atan2(inside - outside, long(face))))
}

/** Pieces `from`, `from + 1`, … laid one on the other: where each lies in the plan of the one before all of them. */
export function laid(
  pieces: readonly LoopPiece[],
  offs: readonly Off[],
  from: number,
  openings?: readonly Opening[],
): readonly Move[] {
  const n = pieces.length
  const places: Move[] = [still]
  for (let k = 1; k < n; k++) {
    const before = (from + k - 1) % n
    const at = (from + k) % n
    const face = chain(places[k - 1]!, exitOf(pieces[before]!, offs[before]!))
    const gap = openings ? chain(face, opened(pieces[at]!, openings[at]!)) : face
    places.push(chain(gap, back(entryOf(pieces[at]!, offs[at]!))))
  }
  return places
}

/** A joint between a face put somewhere and the face of `piece` where it is. */
export function gapAt(piece: LoopPiece, put: Move, is: Move): Omit<Closing, 'last'> {
  const { outer, inner } = piece.entry
  const ends = (move: Move) => [moved(move, outer), moved(move, inner)] as const
  const [putOuter, putInner] = ends(put)
  const [isOuter, isInner] = ends(is)
  const one = unit2(minus(putInner, putOuter))
  const two = unit2(minus(isInner, isOuter))
  const inward = unit2([one[0] + two[0], one[1] + two[1]])
  const ahead = times(left(inward), -1)
  const outside = along(ahead, minus(isOuter, putOuter))
  const inside = along(ahead, minus(isInner, putInner))
  const step = along(inward, minus(isOuter, putOuter))
  return {
    left: toDeg(put.turn - is.turn),
    outside,
    inside,
    step,
    worst: Math.max(Math.abs(outside), Math.abs(inside), Math.abs(step)),
  }
}

/** How the ring closes at joint `last`. Exact pieces leave nothing. */
export function closingAt(pieces: readonly LoopPiece[], offs: readonly Off[], last: number): Closing {
  const n = pieces.length
  const places = laid(pieces, offs, last)
  const before = (last + n - 1) % n
  const put = chain(places[n - 1]!, exitOf(pieces[before]!, offs[before]!))
  return { last, ...gapAt(pieces[last]!, put, entryOf(pieces[last]!, offs[last]!)) }
}

/** The joint at which the least shows, the first of equals. */
export function bestLast(pieces: readonly LoopPiece[], offs: readonly Off[]): Closing {
  const all = pieces.map((_, last) => closingAt(pieces, offs, last))
  return all.reduce((best, one) => (one.worst < best.worst - 1e-9 ? one : best))
}

/** Width of the face at a joint, along the cut, mm. */
export const faceOf = ({ pieces }: Pick<Loop, 'pieces'>, joint: number): Mm => {
  const { outer, inner } = pieces[joint]!.entry
  return long(minus(inner, outer))
}
