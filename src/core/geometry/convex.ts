import { samePoint } from '../tolerance.ts'
import { area, type Polygon } from './polygon.ts'

/**
 * A simple polygon as convex pieces that cover it, each as places in the order of its corners, counterclockwise. A side of a
 * piece from place k to the next one is a side of the polygon; every other is a cut. Ears first, then pieces that stay convex
 * are joined (Hertel and Mehlhorn, 1983).
 */
export function convexPieces(polygon: Polygon): readonly (readonly number[])[] {
  const places = [...polygon.keys()]
  const round = area(polygon) < 0 ? [...places].reverse() : places
  const turn = (a: number, b: number, c: number) => {
    const [p, q, r] = [polygon[a]!, polygon[b]!, polygon[c]!]
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
  }
  const isConvex = (piece: readonly number[]) =>
    piece.every(
      (_, at) =>
        turn(piece[at]!, piece[(at + 1) % piece.length]!, piece[(at + 2) % piece.length]!) >= -samePoint,
    )
  if (isConvex(round)) return [round]
  const pieces: (readonly number[])[] = ears(round, turn)
  for (let one = 0; one < pieces.length; one++)
    for (let two = one + 1; two < pieces.length; two++) {
      const joined = join(pieces[one]!, pieces[two]!)
      if (!joined || !isConvex(joined)) continue
      pieces[one] = joined
      pieces.splice(two, 1)
      // What did not fit before may fit the greater piece.
      two = one
    }
  return pieces
}

/** Triangles, each cut off where a corner turns left and holds no other corner. */
function ears(round: readonly number[], turn: (a: number, b: number, c: number) => number): number[][] {
  const left = [...round]
  const cut: number[][] = []
  while (left.length > 3) {
    const n = left.length
    const at = left.findIndex((b, k) => {
      const [a, c] = [left[(k + n - 1) % n]!, left[(k + 1) % n]!]
      return (
        turn(a, b, c) > samePoint &&
        left.every(
          (p) =>
            p === a ||
            p === b ||
            p === c ||
            turn(a, b, p) < samePoint ||
            turn(b, c, p) < samePoint ||
            turn(c, a, p) < samePoint,
        )
      )
    })
    // Only corners in one line are left: they hold no area.
    if (at < 0) return cut
    cut.push([left[(at + n - 1) % n]!, left[at]!, left[(at + 1) % n]!])
    left.splice(at, 1)
  }
  cut.push(left)
  return cut
}

/** Two pieces that share a cut as one; absent where they share none. */
function join(one: readonly number[], two: readonly number[]): readonly number[] | undefined {
  for (const [k, a] of one.entries()) {
    const b = one[(k + 1) % one.length]!
    const at = two.findIndex((c, m) => c === b && two[(m + 1) % two.length] === a)
    if (at < 0) continue
    const before = [...one.slice(k + 1), ...one.slice(0, k + 1)]
    // From b round to a, then over the other piece from a back to b.
    const over = Array.from({ length: two.length - 2 }, (_, m) => two[(at + 2 + m) % two.length]!)
    return [...before, ...over]
  }
  return undefined
}
