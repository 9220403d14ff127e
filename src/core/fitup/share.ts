import type { Mm } from '../units.ts'
import { entryOf, exitOf, laid, type Off, type Opening, opened } from './closing.ts'
import type { LoopPiece } from './loops.ts'
import { back, chain } from './move.ts'

// The error of a ring shared over all its joints: the least opening of each (least squares over outside and inside) at
// which the ring closes. Nothing may be pressed into each other: every opening is 0 or more.

/** Turn (times a length, so that it counts as mm) and shift that are left when one has walked all round. */
function around(pieces: readonly LoopPiece[], offs: readonly Off[], openings: readonly Opening[], size: Mm) {
  const n = pieces.length
  const places = laid(pieces, offs, 0, openings)
  const face = chain(places[n - 1]!, exitOf(pieces[n - 1]!, offs[n - 1]!))
  const first = entryOf(pieces[0]!, offs[0]!)
  const left = chain(chain(face, opened(pieces[0]!, openings[0]!)), back(first))
  return [left.turn * size, left.x, left.y] as const
}

type Three = readonly [number, number, number]

/** Solves a symmetric 3 × 3 system by elimination with the greatest pivot. */
function solve3(rows: readonly Three[], right: Three): Three {
  const m = rows.map((row, at) => [...row, right[at]!])
  for (let k = 0; k < 3; k++) {
    let best = k
    for (let row = k + 1; row < 3; row++) if (Math.abs(m[row]![k]!) > Math.abs(m[best]![k]!)) best = row
    const kept = m[k]!
    m[k] = m[best]!
    m[best] = kept
    for (let row = 0; row < 3; row++) {
      if (row === k) continue
      const share = m[row]![k]! / m[k]![k]!
      for (let col = k; col < 4; col++) m[row]![col]! -= share * m[k]![col]!
    }
  }
  return [m[0]![3]! / m[0]![0]!, m[1]![3]! / m[1]![1]!, m[2]![3]! / m[2]![2]!]
}

/**
 * The x ≥ 0 of least length with A x = b, A of three rows given by its columns: x = max(0, Aᵀ y), y by Newton's method
 * on the convex dual, damped until the residual falls.
 */
export function leastNonNegative(columns: readonly Three[], b: Three): readonly number[] {
  const xOf = (y: Three) => columns.map((col) => Math.max(0, col[0] * y[0] + col[1] * y[1] + col[2] * y[2]))
  const dual = (y: Three) =>
    xOf(y).reduce((sum, x) => sum + (x * x) / 2, 0) - b[0] * y[0] - b[1] * y[1] - b[2] * y[2]
  const scale = Math.max(...columns.flatMap((col) => col.map(Math.abs)), 1e-12)
  let y: Three = [0, 0, 0]
  for (let round = 0; round < 60; round++) {
    const x = xOf(y)
    const rest = [0, 1, 2].map((k) => b[k]! - columns.reduce((sum, col, at) => sum + col[k]! * x[at]!, 0))
    if (Math.max(...rest.map(Math.abs)) < 1e-10) break
    // At the start nothing is active: all columns count.
    const active = columns.filter((_, at) => round === 0 || x[at]! > 0)
    const damp = scale ** 2 * 1e-9
    const rows = [0, 1, 2].map(
      (k): Three =>
        [0, 1, 2].map(
          (l) => active.reduce((sum, col) => sum + col[k]! * col[l]!, 0) + (k === l ? damp : 0),
        ) as unknown as Three,
    )
    const step = solve3(rows, rest as unknown as Three)
    let size = 1
    const before = dual(y)
    const to = (): Three => [y[0] + size * step[0], y[1] + size * step[1], y[2] + size * step[2]]
    while (size > 1e-6 && dual(to()) > before) size /= 2
    y = to()
  }
  return xOf(y)
}

/**
 * How far to open each joint, outside and inside, so that the ring closes with the error shared over all of them. By
 * place of the joint; all zero for exact pieces.
 */
export function sharedOpenings(pieces: readonly LoopPiece[], offs: readonly Off[]): readonly Opening[] {
  const n = pieces.length
  const reach = pieces.map(({ entry }) => Math.hypot(...entry.outer))
  const size = Math.max(...reach)
  const openingsOf = (x: readonly number[]): Opening[] =>
    pieces.map((_, at) => ({ outside: x[2 * at]!, inside: x[2 * at + 1]! }))
  let x: readonly number[] = Array.from({ length: 2 * n }, () => 0)
  // The moves are small, so the equations are all but straight: a few rounds settle them.
  for (let round = 0; round < 6; round++) {
    const now = around(pieces, offs, openingsOf(x), size)
    const columns = x.map((_, at): Three => {
      const more = around(pieces, offs, openingsOf(x.map((value, k) => value + (k === at ? 0.01 : 0))), size)
      return [(more[0] - now[0]) / 0.01, (more[1] - now[1]) / 0.01, (more[2] - now[2]) / 0.01]
    })
    const wanted = [0, 1, 2].map((k) => columns.reduce((sum, col, at) => sum + col[k]! * x[at]!, 0) - now[k]!)
    const next = leastNonNegative(columns, wanted as unknown as Three)
    const change = Math.max(...next.map((value, at) => Math.abs(value - x[at]!)))
    x = next
    if (change < 1e-7) break
  }
  return openingsOf(x)
}

/** What is still left over when the joints are opened so, mm: for the proof that they close the ring. */
export function leftOver(
  pieces: readonly LoopPiece[],
  offs: readonly Off[],
  openings: readonly Opening[],
): Mm {
  const size = Math.max(...pieces.map(({ entry }) => Math.hypot(...entry.outer)))
  return Math.max(...around(pieces, offs, openings, size).map(Math.abs))
}
