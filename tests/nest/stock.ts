import type { NestPart, NestProblem, Slope, StockLength, Turning } from '../../src/core/nest.ts'

// Short ways to write nest problems in the tests.

const square: Slope = { p: 0, q: 0 }

export const part = (mid: number, count: number, more: Partial<NestPart> = {}): NestPart => ({
  job: 'job-1',
  mark: `M${mid}`,
  key: `key ${mid} ${JSON.stringify(more.ends ?? 0)}`,
  mid,
  ends: [square, square],
  turns: ['none', 'over', 'end', 'flip'],
  count,
  perCopy: count,
  ...more,
})

/** Ends in one swing plane, degrees from square, both positive a trapezoid; `length` is the long point. */
export function mitered(
  width: number,
  length: number,
  degrees: readonly [number, number],
  count: number,
  turns: readonly Turning[] = ['none', 'over', 'end', 'flip'],
): NestPart {
  const [s, u] = degrees.map((angle) => Math.tan((angle * Math.PI) / 180)) as [number, number]
  const mid = length - (width / 2) * (Math.abs(s) + Math.abs(u))
  return part(mid, count, {
    mark: `A${length}`,
    ends: [
      { p: s, q: 0 },
      { p: -u || 0, q: 0 },
    ],
    turns,
  })
}

export const mill = (length: number, more: Partial<StockLength> = {}): StockLength => ({
  length,
  ends: ['mill', 'mill'],
  ...more,
})

export const drop = (length: number, rack: string, more: Partial<StockLength> = {}): StockLength => ({
  length,
  ends: ['cut', 'cut'],
  count: 1,
  rack,
  ...more,
})

export const problem = (
  parts: readonly NestPart[],
  stock: readonly StockLength[],
  more: Partial<NestProblem> = {},
): NestProblem => ({
  section: { kind: 'square-tube', width: 40, height: 40, wall: 2, cornerRadius: 4 },
  way: 'square first',
  kerf: 0,
  trim: 0,
  grip: 0,
  parts,
  stock,
  keep: 300,
  ...more,
})
