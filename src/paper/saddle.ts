import type { Member } from '../core/frame/frame.ts'
import { type End, endIndex, endPlane, xAt } from '../core/frame/member.ts'
import { greatestAround, rimAt, roundEnd } from '../core/frame/round-end.ts'
import type { Mm, Rad } from '../core/units.ts'

// The template that is wrapped round a tube to mark its saddle, at 1:1.

/** Thickness of office paper of 80 g/m², about. It lies outside the steel: the sheet's middle goes round at half of it. */
export const paperThick: Mm = 0.1

/** A point on the paper: to the right of its left edge, and down from the top edge, mm. */
export type OnPaper = readonly [Mm, Mm]

export interface Template {
  readonly end: End
  readonly diameter: Mm
  readonly line: Line
  /** Once round the tube, on the middle of the paper. */
  readonly round: Mm
  /** From the outermost steel of the sawn end to the edge that is wrapped round the whole tube. */
  readonly high: Mm
  /** The saddle: what lies above it is worked away. */
  readonly saddle: readonly OnPaper[]
  /** The sawn end, where it is not the top edge. */
  readonly sawn: readonly OnPaper[]
}

/** The line along the tube on which the side edges meet. */
export interface Line {
  /** From local +y toward +z. */
  readonly angle: Rad
  /** The end whose long point it runs through; absent where both are sawn square, and any line will do. */
  readonly from?: End
}

/** By the first end that the saw miters: its long point is found on the steel, and ties both ends to each other. */
export function lineOf({ section, ends }: Member): Line {
  for (const end of ['A', 'B'] as const) {
    const { p, q } = endPlane(ends[endIndex(end)])
    const outward = end === 'B' ? 1 : -1
    if ((Math.hypot(p, q) * section.width) / 2 > stray)
      return { angle: Math.atan2(outward * q, outward * p), from: end }
  }
  return { angle: 0 }
}

/** Band below the saddle that holds the paper square on the tube. */
const band: Mm = 30

/** The drawn lines stray from the true ones by no more than this: a fifth of the thinnest line. */
const stray: Mm = 0.05 / 5

/**
 * The end of a round member unrolled, seen from outside with the end up: the left edge lies on the tube's line, and both
 * edges meet there. Up to the right the angle grows at end B and falls at end A.
 */
export function templateOf(of: Member, end: End): Template {
  const { section, ends } = of
  const radius = section.width / 2
  const round = Math.PI * (section.width + paperThick)
  const plane = endPlane(ends[endIndex(end)])
  const outward = end === 'B' ? 1 : -1
  const top = outward * plane.x + radius * Math.hypot(plane.p, plane.q)
  const line = lineOf(of)
  const angle = (s: Mm): Rad => line.angle + (outward * 2 * Math.PI * s) / round
  const saddle = (s: Mm): Mm => top - outward * roundEnd(of, end, angle(s))
  const sawn = (s: Mm): Mm => top - outward * xAt(plane, ...rimAt(radius, angle(s)))
  const deepest = greatestAround((turn) => top - outward * roundEnd(of, end, turn)).value
  const mitered = Math.hypot(plane.p, plane.q) * radius > stray
  return {
    end,
    diameter: section.width,
    line,
    round,
    high: deepest + band,
    saddle: drawn(saddle, round),
    sawn: mitered ? drawn(sawn, round) : [],
  }
}

/** A line across the paper as straight pieces that stray from it nowhere by more than `stray`. */
function drawn(f: (s: Mm) => Mm, round: Mm): OnPaper[] {
  const between = (from: OnPaper, to: OnPaper, left: number): OnPaper[] => {
    const quarter = (k: number) => from[0] + ((to[0] - from[0]) * k) / 4
    const off = [1, 2, 3].map((k) => Math.abs(f(quarter(k)) - (from[1] + ((to[1] - from[1]) * k) / 4)))
    if (left === 0 || Math.max(...off) < stray / 2) return [to]
    const middle: OnPaper = [quarter(2), f(quarter(2))]
    return [...between(from, middle, left - 1), ...between(middle, to, left - 1)]
  }
  const pieces = 64
  const at = (k: number): OnPaper => [(round * k) / pieces, f((round * k) / pieces)]
  return [at(0), ...Array.from({ length: pieces }, (_, k) => between(at(k), at(k + 1), 10)).flat()]
}

/** A part of the paper that fits on a page. */
export interface Tile {
  readonly column: number
  readonly row: number
  readonly columns: number
  readonly rows: number
  readonly left: Mm
  readonly top: Mm
  readonly wide: Mm
  readonly high: Mm
}

/** Strip that is drawn again on the page that follows, for gluing. */
export const lap: Mm = 8

/** Cuts a template into equal parts, each no larger than `wide` by `high` with the strip that laps over the next. */
export function tilesOf({ round, high: whole }: Template, wide: Mm, high: Mm): Tile[] {
  const columns = round <= wide ? 1 : Math.ceil(round / (wide - lap))
  const rows = whole <= high ? 1 : Math.ceil(whole / (high - lap))
  return Array.from({ length: rows * columns }, (_, k) => {
    const [column, row] = [k % columns, Math.floor(k / columns)]
    return {
      column,
      row,
      columns,
      rows,
      left: (round * column) / columns,
      top: (whole * row) / rows,
      wide: round / columns + (column < columns - 1 ? lap : 0),
      high: whole / rows + (row < rows - 1 ? lap : 0),
    }
  })
}

/** The pieces of a line that lie on a tile, on the tile's own paper. */
export function onTile(line: readonly OnPaper[], tile: Tile): OnPaper[][] {
  const pieces: OnPaper[][] = []
  for (let k = 1; k < line.length; k++) {
    const kept = within(line[k - 1]!, line[k]!, tile)
    if (!kept) continue
    const last = pieces.at(-1)
    const end = last?.at(-1)
    if (last && end && end[0] === kept[0][0] && end[1] === kept[0][1]) last.push(kept[1])
    else pieces.push([...kept])
  }
  return pieces
}

/** The part of a straight line inside the tile, moved so that its corner is (0, 0). */
function within(
  [x, y]: OnPaper,
  [u, v]: OnPaper,
  { left, top, wide, high }: Tile,
): readonly [OnPaper, OnPaper] | undefined {
  let [from, to] = [0, 1]
  for (const [start, step, least, most] of [
    [x, u - x, left, left + wide],
    [y, v - y, top, top + high],
  ] as const) {
    if (step === 0) {
      if (start < least || start > most) return undefined
      continue
    }
    const [one, two] = [(least - start) / step, (most - start) / step]
    from = Math.max(from, Math.min(one, two))
    to = Math.min(to, Math.max(one, two))
  }
  if (from >= to) return undefined
  const at = (t: number): OnPaper => [x + (u - x) * t - left, y + (v - y) * t - top]
  return [at(from), at(to)]
}
