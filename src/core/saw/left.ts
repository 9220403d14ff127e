import type { Left } from '../plan-shapes.ts'
import type { Problem } from '../result.ts'

/** A reason with its ways out in one text, as problems say it. */
export const withWays = (why: string, ways: readonly string[]): string =>
  ways.length === 0 ? why : `${why} Way${ways.length > 1 ? 's' : ''} out: ${ways.join('; ')}.`

/** Pieces that stay for the hand, all for one reason. */
export const leftBy = (
  pieces: readonly { readonly piece: string; readonly mark: string }[],
  { code, text, out }: Problem,
): readonly Left[] =>
  pieces.map(({ piece, mark }) => ({ piece, mark, code, why: out?.why ?? text, ways: out?.ways ?? [] }))
