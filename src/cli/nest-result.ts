import type { Certificate } from '../core/check/certificate.ts'
import type { Turning } from '../core/nest.ts'
import { stepsPerMm } from '../core/units.ts'
import type { NestRequest } from '../door/nest-problem.ts'
import type { Solved } from '../nest/solve.ts'

/** One element of what `nest --json` prints. Cost and bound in the unit of the file: its money, or mm. */
export interface NestResult {
  readonly name?: string
  readonly sticks: number
  readonly cost: number
  readonly bound: number
  readonly proved: boolean
  readonly provedSticks: boolean
  readonly seconds: number
  readonly patterns: readonly NestPattern[]
  /** Pieces that found no room on counted stock. */
  readonly unplaced?: readonly { readonly part: number; readonly count: number }[]
  readonly certificate?: Certificate
}

export interface NestPattern {
  readonly stock: number
  readonly count: number
  readonly pieces: readonly { readonly part: number; readonly count: number }[]
  /** From the leading end, where any end of the problem is not square. */
  readonly order?: readonly { readonly part: number; readonly turn: Turning }[]
}

export function nestResult(
  { name, problem, perUnit }: NestRequest,
  solved: Solved,
  seconds: number,
): NestResult {
  const { nest, provedSticks, rows, unplaced, certificate, priced } = solved
  const slanted = problem.parts.some(({ ends }) => ends.some(({ p, q }) => p !== 0 || q !== 0))
  const patterns = new Map<string, NestPattern & { count: number }>()
  for (const { stock, pieces } of rows) {
    const order = pieces.map(({ part, turn }) => ({ part, turn }))
    const counts = problem.parts.map((_, part) => pieces.filter((piece) => piece.part === part).length)
    const key = JSON.stringify([stock, slanted ? order : counts])
    const known = patterns.get(key)
    if (known) known.count += 1
    else
      patterns.set(key, {
        stock,
        count: 1,
        pieces: counts.flatMap((count, part) => (count > 0 ? [{ part, count }] : [])),
        ...(slanted && { order }),
      })
  }
  const left = unplaced.flatMap((count, part) => (count > 0 ? [{ part, count }] : []))
  return {
    ...(name !== undefined && { name }),
    sticks: nest.sticks.length,
    cost: nest.cost / perUnit,
    bound: nest.bound / perUnit,
    proved: nest.proved,
    provedSticks,
    seconds,
    patterns: [...patterns.values()],
    ...(left.length > 0 && { unplaced: left }),
    // The proof counts in cents or in whole steps: the scale brings its duals to the unit of the file.
    ...(certificate && {
      certificate: { ...certificate, scale: certificate.scale * (priced ? perUnit : stepsPerMm) },
    }),
  }
}
