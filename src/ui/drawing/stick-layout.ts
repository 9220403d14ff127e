import { type EndPlane, type NestSection, type NestStick, piecesIn, type Slope } from '../../core/nest.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { sameLength } from '../../core/tolerance.ts'
import type { Mm } from '../../core/units.ts'

/** A stretch of a stick as drawn, leading end at the left: four corners in mm from the leading end. */
export interface Stretch {
  readonly kind: 'piece' | 'clean-up' | 'drop'
  readonly name: string
  readonly mark: string
  /** Finished pieces that come out of it. */
  readonly pieces: ReturnType<typeof piecesIn>
  /** Along the upper side of the picture and the lower one: where it begins and ends. */
  readonly upper: readonly [Mm, Mm]
  readonly lower: readonly [Mm, Mm]
  /** Where the miters of a square blank will be, as `upper` and `lower`: the piece that is finished from it. */
  readonly finished?: { readonly upper: readonly [Mm, Mm]; readonly lower: readonly [Mm, Mm] }
}

/** Where an end lies from the leading end of the stick, on the side y = −w/2 (upper) and y = +w/2 (lower). */
const sides = (end: EndPlane, length: Mm, width: Mm): readonly [Mm, Mm] => [
  length - (end.x - (end.p * width) / 2),
  length - (end.x + (end.p * width) / 2),
]

/** The piece within its square blank: the long side of each end reaches the blank's. */
function finishedIn(
  [from, to]: readonly [Mm, Mm],
  [lead, trail]: readonly [Slope, Slope],
  width: Mm,
): NonNullable<Stretch['finished']> {
  const back = ({ p }: Slope, side: 1 | -1): Mm => ((Math.abs(p) - side * p) * width) / 2
  return {
    upper: [from + back(lead, 1), to - back(trail, -1)],
    lower: [from + back(lead, -1), to - back(trail, 1)],
  }
}

/**
 * The stretches of one stick in order; what lies between two of them is kerf. With the parts, a square blank also shows
 * the miters that are cut on it later.
 */
export function stretchesOf(
  stick: NestStick,
  section: NestSection,
  parts: readonly Part[] = [],
): readonly Stretch[] {
  const { length } = stick
  const width = section.section.width
  const pieces = stick.pieces.map((piece): Stretch => {
    const lead = sides(piece.ends[0], length, width)
    const trail = sides(piece.ends[1], length, width)
    const pieces = piecesIn(piece)
    const upper = [lead[0], trail[0]] as const
    const part = piece.blank && pieces.length === 1 && parts.find(({ key }) => key === piece.key)
    return {
      kind: 'piece',
      name: pieces.map((one) => one.piece).join(' + '),
      mark: piece.mark,
      pieces,
      upper,
      lower: [lead[1], trail[1]],
      ...(part ? { finished: finishedIn(upper, part.slopes, width) } : {}),
    }
  })
  const first = pieces[0]
  const last = pieces[pieces.length - 1]
  const before: readonly Stretch[] =
    first && Math.min(first.upper[0], first.lower[0]) > sameLength
      ? [
          {
            kind: 'clean-up',
            name: '',
            mark: '',
            pieces: [],
            upper: [0, first.upper[0]],
            lower: [0, first.lower[0]],
          },
        ]
      : []
  const from = last ? Math.max(last.upper[1], last.lower[1]) + section.kerf : 0
  const after: readonly Stretch[] =
    stick.drop > sameLength && from < length
      ? [{ kind: 'drop', name: '', mark: '', pieces: [], upper: [from, length], lower: [from, length] }]
      : []
  return [...before, ...pieces, ...after]
}
