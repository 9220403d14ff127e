import { type Deg, type Mm, tanDeg, toDeg, toRad } from '../units.ts'
import { entryOf, exitOf, laid, type Off } from './closing.ts'
import type { LoopPiece } from './loops.ts'
import { along, chain, left, long, minus, moved, unit2 } from './move.ts'

/** One piece cut anew so that the ring closes with the others as they are. */
export interface Recut {
  /** Place of the piece in the loop. */
  readonly piece: number
  /** How the new piece differs from the planned one. */
  readonly off: Off
  /** The piece that lies there has the steel for it: it only loses. Else it is cut from new steel. */
  readonly fromThis: boolean
  /** How far the new piece is from plan, mm over length and both faces: the piece that is wrong comes out near 0. */
  readonly fromPlan: Mm
}

/** How far the face of an end leans: the outside standing beyond the inside by this angle from square. */
export function leanOf(piece: LoopPiece, which: 'entry' | 'exit'): Deg {
  const walk = unit2(minus(piece.exit[piece.longSide], piece.entry[piece.longSide]))
  const { outer, inner } = piece[which]
  const face = minus(inner, outer)
  const ahead = along(face, walk) * (which === 'entry' ? 1 : -1)
  return toDeg(Math.atan2(ahead, along(face, left(walk))))
}

/** Across the piece in the plane of the loop, mm. */
export function acrossOf(piece: LoopPiece): Mm {
  const walk = unit2(minus(piece.exit[piece.longSide], piece.entry[piece.longSide]))
  return along(minus(piece.entry.inner, piece.entry.outer), left(walk))
}

/** Whether the new piece lies within the old one: at every corner there is steel to take off, or none to add. */
function within(piece: LoopPiece, old: Off, made: Off): boolean {
  const w = acrossOf(piece) * (piece.longSide === 'outer' ? 1 : -1)
  const slope = (which: 'entry' | 'exit', off: Off) => w * tanDeg(leanOf(piece, which) + off[which])
  const start = Math.max(0, slope('entry', old) - slope('entry', made))
  const end = Math.max(0, slope('exit', old) - slope('exit', made))
  return start + end <= old.length - made.length + 1e-9
}

/** What piece `at` would have to be; undefined where it does not end at both joints. */
export function recutOf(pieces: readonly LoopPiece[], offs: readonly Off[], at: number): Recut | undefined {
  const n = pieces.length
  const piece = pieces[at]!
  if (piece.entry.end === 'side' || piece.exit.end === 'side') return undefined
  const next = (at + 1) % n
  const before = (at + n - 1) % n
  // All others, from the one after it round to the one before it.
  const places = laid(pieces, offs, next)
  const put = chain(places[n - 2]!, exitOf(pieces[before]!, offs[before]!))
  const goal = entryOf(pieces[next]!, offs[next]!)
  const { longSide } = piece
  const from = moved(put, piece.entry[longSide])
  const to = moved(goal, piece.exit[longSide])
  const walk = unit2(minus(to, from))
  const faceIn = minus(moved(put, piece.entry.inner), moved(put, piece.entry.outer))
  const faceOut = minus(moved(goal, piece.exit.inner), moved(goal, piece.exit.outer))
  const entry = toDeg(Math.atan2(along(faceIn, walk), along(faceIn, left(walk))))
  const exit = toDeg(Math.atan2(-along(faceOut, walk), along(faceOut, left(walk))))
  const off: Off = {
    length: long(minus(to, from)) - long(minus(piece.exit[longSide], piece.entry[longSide])),
    entry: entry - leanOf(piece, 'entry'),
    exit: exit - leanOf(piece, 'exit'),
  }
  const w = acrossOf(piece)
  return {
    piece: at,
    off,
    fromThis: within(piece, offs[at]!, off),
    fromPlan: Math.abs(off.length) + w * (Math.abs(toRad(off.entry)) + Math.abs(toRad(off.exit))),
  }
}

/** Every piece that could be cut anew to close the ring, the likeliest culprit first. */
export function recuts(pieces: readonly LoopPiece[], offs: readonly Off[]): readonly Recut[] {
  return pieces
    .flatMap((_, at) => recutOf(pieces, offs, at) ?? [])
    .sort((a, b) => a.fromPlan - b.fromPlan || a.piece - b.piece)
}
