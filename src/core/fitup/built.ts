import type { Point } from '../geometry/polygon.ts'
import type { Part } from '../plan-shapes.ts'
import { exitOf, laid } from './closing.ts'
import { cornerOf, type Loop } from './loops.ts'
import { chain, minus, moved, times } from './move.ts'
import { offsOf } from './real.ts'

/**
 * Corners of a loop as they are measured, its pieces cut to their printed lengths: outside, at the points, on a mitered
 * ring, else in the clear. What rounding leaves open when one has walked all round is spread evenly over the corners;
 * the whole lies round the planned middle.
 */
export function builtCorners(loop: Loop, parts: readonly Part[]): readonly Point[] {
  const { pieces } = loop
  const n = pieces.length
  const offs = offsOf(loop, parts, () => undefined)
  const places = laid(pieces, offs, 0)
  const corner = (at: number) => cornerOf(loop, at, loop.ring ? 'outer' : 'inner')
  const walked = Array.from({ length: n + 1 }, (_, at) =>
    at === 0
      ? corner(0)
      : moved(chain(places[at - 1]!, exitOf(pieces[at - 1]!, offs[at - 1]!)), corner(at % n)),
  )
  const open = minus(walked[n]!, walked[0]!)
  const closed = walked.slice(0, n).map((point, at) => minus(point, times(open, at / n)))
  const middle = (of: readonly Point[]): Point => [
    of.reduce((sum, [x]) => sum + x, 0) / n,
    of.reduce((sum, [, y]) => sum + y, 0) / n,
  ]
  const off = minus(middle(closed), middle(closed.map((_, at) => corner(at))))
  return closed.map((point) => minus(point, off))
}
