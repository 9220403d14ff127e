import type { Point } from '../geometry/polygon.ts'
import { type Closing, entryOf, exitOf, gapAt, laid, type Off } from './closing.ts'
import type { LoopPiece } from './loops.ts'
import { about, chain, type Move, minus, moved, shift } from './move.ts'

/** Two half rings, each closed by itself, put together: the error is shared by the two joints left for last. */
export interface Halves {
  readonly joints: readonly [Closing, Closing]
  readonly worst: number
}

/** Two half rings split at joint `first` and the one across from it; the angle is shared alike, the length as well. */
function halvesAt(pieces: readonly LoopPiece[], offs: readonly Off[], first: number): Halves {
  const n = pieces.length
  const half = n / 2
  const across = (first + half) % n
  const exit = (at: number) => exitOf(pieces[at]!, offs[at]!)
  const entry = (at: number) => entryOf(pieces[at]!, offs[at]!)
  const one = laid(pieces, offs, first)
  const two = laid(pieces, offs, across)
  // Faces that each half puts to the joints, with the half where it was laid.
  const oneEnd = chain(one[half - 1]!, exit((across + n - 1) % n))
  const twoEnd = chain(two[half - 1]!, exit((first + n - 1) % n))
  const ahead = oneEnd.turn - entry(across).turn
  const behind = entry(first).turn - twoEnd.turn
  const turn = (ahead + behind) / 2
  const middle = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  const outer = (at: number) => pieces[at]!.entry.outer
  const hold = middle(moved(oneEnd, outer(across)), moved(entry(first), outer(first)))
  const ends = middle(moved(entry(across), outer(across)), moved(twoEnd, outer(first)))
  const place: Move = chain(shift(minus(hold, ends)), about(ends, turn))
  const joints: [Closing, Closing] = [
    { last: first, ...gapAt(pieces[first]!, chain(place, twoEnd), entry(first)) },
    { last: across, ...gapAt(pieces[across]!, oneEnd, chain(place, entry(across))) },
  ]
  return { joints, worst: Math.max(joints[0].worst, joints[1].worst) }
}

/** The split into two half rings that shows least; undefined for an odd number of pieces. */
export function bestHalves(pieces: readonly LoopPiece[], offs: readonly Off[]): Halves | undefined {
  if (pieces.length % 2 === 1) return undefined
  const all = Array.from({ length: pieces.length / 2 }, (_, first) => halvesAt(pieces, offs, first))
  return all.reduce((best, one) => (one.worst < best.worst - 1e-9 ? one : best))
}
