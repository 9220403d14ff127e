import type { Mm } from '../../core/units.ts'

/** A length of steel on paper: every stretch of it that shows something is to one scale, plain tube between may be left out. */
export interface Along {
  /** Paper mm to a mm of steel, the same both ways. */
  readonly scale: number
  /** Paper mm from the left of the room. */
  readonly at: (x: Mm) => Mm
  /** Paper places where plain steel is left out. */
  readonly breaks: readonly Mm[]
}

type Span = readonly [Mm, Mm]

/** Room round what is shown, and of a break, paper mm. */
const pad: Mm = 5
const breakWide: Mm = 8

function merged(spans: readonly Span[], joinedBelow: Mm): Span[] {
  const out: [Mm, Mm][] = []
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    const last = out.at(-1)
    if (last && from - last[1] <= joinedBelow) last[1] = Math.max(last[1], to)
    else out.push([from, to])
  }
  return out
}

/**
 * Lays a piece of this length, from 0, into `room` paper mm: whole where its depth is then at least `least`, else with plain
 * stretches left out so that it is; with too much on it for that, smaller and whole.
 */
export function alongOf(
  shown: readonly Span[],
  length: Mm,
  depth: Mm,
  room: Mm,
  { least, most }: { readonly least: Mm; readonly most: Mm },
): Along {
  const fits = room / length
  const whole = Math.min(most / depth, fits)
  const plain: Along = { scale: whole, at: (x) => x * whole, breaks: [] }
  if (whole * depth >= least) return plain
  for (let scale = least / depth; scale > fits; scale *= 0.97) {
    const padded = shown.map(
      ([from, to]): Span => [Math.max(0, from - pad / scale), Math.min(length, to + pad / scale)],
    )
    const kept = merged(padded, breakWide / scale)
    const used = kept.reduce((sum, [from, to]) => sum + (to - from) * scale, 0)
    const gaps = kept.length - 1
    if (gaps === 0 || used + gaps * breakWide > room) continue
    return broken(kept, scale, (room - used) / gaps)
  }
  return plain
}

function broken(kept: readonly Span[], scale: number, gap: Mm): Along {
  const starts: Mm[] = []
  let left = 0
  for (const [from, to] of kept) {
    starts.push(left)
    left += (to - from) * scale + gap
  }
  return {
    scale,
    at: (x) => {
      const k = Math.max(
        0,
        kept.findLastIndex(([from]) => x >= from),
      )
      const [from, to] = kept[k]!
      const next = kept[k + 1]
      if (x <= to || !next) return starts[k]! + (x - from) * scale
      return starts[k]! + (to - from) * scale + ((x - to) / (next[0] - to)) * gap
    },
    breaks: starts.slice(1).map((start) => start - gap / 2),
  }
}

/** The same places in order, moved apart so that no two are nearer than `least`, as little as can be, within the room. */
export function spreadOut(places: readonly Mm[], least: Mm, room: Mm): readonly Mm[] {
  const out = [...places]
  for (let k = 1; k < out.length; k++) out[k] = Math.max(out[k]!, out[k - 1]! + least)
  // What was pushed past the end comes back, and pushes those before it.
  let limit = Math.max(room, places.at(-1) ?? 0)
  for (let k = out.length - 1; k >= 0; k--) {
    out[k] = Math.min(out[k]!, limit)
    limit = out[k]! - least
  }
  return out
}
