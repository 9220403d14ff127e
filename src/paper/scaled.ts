import type { Mm } from '../core/units.ts'

/** Steel of some length drawn on paper to scale; where it is too long, its middle is left out and its ends are true. */
export interface Scaled {
  /** Paper mm to a mm of steel, the same both ways. */
  readonly scale: number
  readonly broken: boolean
  /** Paper mm from the low end of the picture. */
  readonly at: (x: Mm) => Mm
  /** Where the two broken edges are drawn. */
  readonly middle: Mm
}

/**
 * Lays a stretch `from` … `to` across `depth` into `room` paper mm: as deep as `most`, or less where it then fits whole, but
 * not less than `least`; what does not fit at `least` is broken in the middle.
 */
export function scaled(
  [from, to]: readonly [Mm, Mm],
  depth: Mm,
  room: Mm,
  { least, most }: { readonly least: Mm; readonly most: Mm },
): Scaled {
  const span = to - from
  const whole = Math.min(most / depth, room / span)
  const broken = whole * depth < least
  const scale = broken ? least / depth : whole
  const half = (from + to) / 2
  const shift = broken ? span * scale - room : 0
  const slack = Math.max(0, room - span * scale) / 2
  return {
    scale,
    broken,
    at: (x) => slack + (x - from) * scale - (x > half ? shift : 0),
    middle: room / 2,
  }
}

export const points = (list: readonly (readonly [Mm, Mm])[]): string =>
  list.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(' ')

/** The pair of lines that says: more of the same between; a white gap and its two edges. */
export function breakAt(x: Mm, top: Mm, bottom: Mm): { readonly gap: string; readonly edges: string } {
  const half = (top + bottom) / 2
  const edge = (at: Mm) =>
    `M${at} ${top - 1}V${half - 2}L${at - 1.2} ${half - 0.8}L${at + 1.2} ${half + 0.8}L${at} ${half + 2}V${bottom + 1}`
  return { gap: `M${x} ${top - 1}V${bottom + 1}`, edges: edge(x - 1) + edge(x + 1) }
}
