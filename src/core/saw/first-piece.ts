import type { Part, Shown } from '../plan-shapes.ts'
import { readingStep, showLength } from '../reading/show.ts'
import type { Result } from '../result.ts'
import { bad, good } from '../result.ts'
import type { Habit, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm } from '../units.ts'

/** By how much a first piece may be off before the stop is corrected, mm: what the shop says, else half of what it reads. */
export const toleranceOf = ({ tolerance, reading }: Shop): Mm => tolerance ?? readingStep(reading) / 2

/** What a first piece says of its set-up. */
export interface FirstPiece {
  /** Measured less printed, mm: more than 0 is too long. */
  readonly off: Mm
  readonly within: boolean
  /** Move the stop by so much, mm; 0 within the tolerance. Valid until the head moves. */
  readonly by: Mm
  /** What the stop is then set to by the same zero, as it can be read. */
  readonly stop: Shown
  /** What becomes of the piece: `keep` it, `recut` what is too long with the corrected stop, or it is `scrap`. */
  readonly piece: 'keep' | 'recut' | 'scrap'
}

/**
 * The first piece of a set-up, measured along an edge of the cut: `measured` and `printed` are of the same edge, mm,
 * `stop` is the printed stop, `ramp` the wedge under the piece, on which a length along it is shorter along the fence.
 * Refused: a measure that cannot be of this piece (0 or less, or off by more than half of it).
 */
export function firstPiece(
  measured: Mm,
  printed: Mm,
  set: { readonly stop: Mm; readonly ramp?: Deg },
  shop: Shop,
): Result<FirstPiece> {
  const off = measured - printed
  if (!(measured > 0) || Math.abs(off) > printed / 2) {
    const { text, unit } = showLength(printed, shop.reading)
    return bad(
      'not-this-edge',
      `${showLength(Math.max(0, measured), shop.reading).text} ${unit} was measured where ${text} ${unit} is printed. Measure the edge that is drawn.`,
    )
  }
  const within = Math.abs(off) <= toleranceOf(shop) + sameLength
  const by = within ? 0 : -off * cosDeg(set.ramp ?? 0) || 0
  const { mm, text, unit } = showLength(set.stop + by, shop.reading)
  const piece = within ? 'keep' : off > 0 ? 'recut' : 'scrap'
  return good({ off, within, by, stop: { mm, text, unit }, piece })
}

/** A figure of a part that the true size of this delivery changes, or leaves as it is. */
export interface SizeEffect {
  readonly what: 'short point' | 'outward stop' | 'long point'
  readonly mark: string
  /** How much greater it is with the measured size, mm. */
  readonly by: Mm
}

/**
 * What a measured width changes on a part whose ends lean in the plane of that width: the short point by the wedge of both
 * ends, a stop with the long side outward by the wedge of one; never a long point at the fence.
 */
export function sizeEffects(
  { mark, slopes, printed }: Pick<Part, 'mark' | 'slopes' | 'printed'>,
  nominal: Mm,
  measured: Mm,
): readonly SizeEffect[] {
  const more = measured - nominal
  const wedges = slopes.map(({ p }) => Math.abs(p) * more)
  const opposed = slopes[0].p * slopes[1].p < 0 || slopes.some(({ p }) => p === 0)
  const lost = printed.primary === 'edge' || !opposed ? 0 : wedges[0]! + wedges[1]!
  return [
    { what: 'long point', mark, by: 0 },
    { what: 'short point', mark, by: -lost || 0 },
    { what: 'outward stop', mark, by: (printed.primary === 'edge' ? 1 : -1) * Math.max(...wedges) || 0 },
  ]
}

const lines: Readonly<Record<Habit, string>> = {
  deburr: 'deburr the end that goes to the stop',
  chips: 'clear the chips off fence and stop',
  'back off': 'back the stop off once it is clamped, so that the piece cannot jam',
  mark: 'write the mark on a hidden face, with an arrow to the long point',
}

/** The one-line habits of a set-up that this shop wants said, each with its name. */
export function habitsOf({
  habitsOff = [],
  markWith = 'paint pen',
}: Shop): readonly { readonly habit: Habit; readonly text: string }[] {
  const tool =
    markWith === 'paint pen'
      ? ', with a paint pen; scribe or stamp it if it will be blasted, galvanized or baked'
      : ', scribed or stamped'
  return (Object.keys(lines) as Habit[])
    .filter((habit) => !habitsOff.includes(habit))
    .map((habit) => ({ habit, text: lines[habit] + (habit === 'mark' ? tool : '') }))
}
