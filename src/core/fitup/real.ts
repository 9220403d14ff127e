import type { Part } from '../plan-shapes.ts'
import type { Deg, Mm } from '../units.ts'
import type { Off } from './closing.ts'
import type { Loop, LoopPiece } from './loops.ts'
import { leanOf } from './recut.ts'

// What was measured on the bench, by the structural names under which facts keep it.

export const lengthName = (member: string): string => `length:${member}`
export const angleName = (member: string, end: 'A' | 'B'): string => `angle:${member}/${end}`
/** By how much all ends of a loop are cut too far from square, found with a test on scraps. */
export const testName = (loop: string): string => `ends:${loop}`

/** A figure that was measured, or undefined: mm or degrees. */
export type Measured = (of: string) => number | undefined

/** Primary length of a part before rounding: what its printed length stands for. */
const exactLength = (part: Part): Mm =>
  part.printed.primary === 'edge' ? Math.max(...part.edges) : part.longPoint

/**
 * How the real pieces of a loop differ from the planned ones. A piece that nobody measured counts as cut to its
 * printed length and, at its ends, as the test on scraps says; without a test, to plan.
 */
export function offsOf(loop: Loop, parts: readonly Part[], measured: Measured): readonly Off[] {
  const byMember = new Map(parts.flatMap((part) => part.members.map((id) => [id, part] as const)))
  const wrong = measured(testName(loop.id)) ?? 0
  return loop.pieces.map((piece) => {
    const part = byMember.get(piece.member)
    const length = measured(lengthName(piece.member)) ?? part?.printed.length.mm
    return {
      length: part && length !== undefined ? length - exactLength(part) : 0,
      entry: angleOff(piece, 'entry', wrong, measured),
      exit: angleOff(piece, 'exit', wrong, measured),
    }
  })
}

/** A measured angle says how far from square; it leans the way it was planned, or outward where planned square. */
function angleOff(piece: LoopPiece, which: 'entry' | 'exit', wrong: Deg, measured: Measured): Deg {
  const { end } = piece[which]
  if (end === 'side') return 0
  const planned = leanOf(piece, which)
  const sign = planned < -0.01 ? -1 : 1
  const angle = measured(angleName(piece.member, end))
  return angle === undefined ? sign * wrong : sign * angle - planned
}
