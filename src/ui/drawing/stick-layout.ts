import type { EndPlane, NestSection, NestStick } from '../../core/nest.ts'
import { sameLength } from '../../core/tolerance.ts'
import type { Mm } from '../../core/units.ts'

/** A stretch of a stick as drawn, leading end at the left: four corners in mm from the leading end. */
export interface Stretch {
  readonly kind: 'piece' | 'clean-up' | 'drop'
  readonly name: string
  readonly mark: string
  /** Along the upper side of the picture and the lower one: where it begins and ends. */
  readonly upper: readonly [Mm, Mm]
  readonly lower: readonly [Mm, Mm]
}

/** Where an end lies from the leading end of the stick, on the side y = −w/2 (upper) and y = +w/2 (lower). */
const sides = (end: EndPlane, length: Mm, width: Mm): readonly [Mm, Mm] => [
  length - (end.x - (end.p * width) / 2),
  length - (end.x + (end.p * width) / 2),
]

/** The stretches of one stick in order; what lies between two of them is kerf. */
export function stretchesOf(stick: NestStick, section: NestSection): readonly Stretch[] {
  const { length } = stick
  const width = section.section.width
  const pieces = stick.pieces.map((piece): Stretch => {
    const lead = sides(piece.ends[0], length, width)
    const trail = sides(piece.ends[1], length, width)
    return {
      kind: 'piece',
      name: piece.piece,
      mark: piece.mark,
      upper: [lead[0], trail[0]],
      lower: [lead[1], trail[1]],
    }
  })
  const first = pieces[0]
  const last = pieces[pieces.length - 1]
  const before: readonly Stretch[] =
    first && Math.min(first.upper[0], first.lower[0]) > sameLength
      ? [{ kind: 'clean-up', name: '', mark: '', upper: [0, first.upper[0]], lower: [0, first.lower[0]] }]
      : []
  const from = last ? Math.max(last.upper[1], last.lower[1]) + section.kerf : 0
  const after: readonly Stretch[] =
    stick.drop > sameLength && from < length
      ? [{ kind: 'drop', name: '', mark: '', upper: [from, length], lower: [from, length] }]
      : []
  return [...before, ...pieces, ...after]
}
