import type { Section } from '../section/section.ts'
import { cosDeg, type Mm } from '../units.ts'
import type { MeasureDraft } from './assembly.ts'
import type { Values } from './build.ts'
import type { Reach, Splay } from './four-leg-splay.ts'

export interface Measured {
  readonly splay: Splay
  /** Underside of the frame or rails. */
  readonly lower: Mm
  readonly reach: Reach
  /** Members of the frame or rails: one along the length first, one along the width among them. */
  readonly sides: readonly string[]
  readonly stretcher?: Section
}

/**
 * Sizes of the finished thing and how they follow from the lengths that are cut. The sides' long points give length
 * and width; a leg that is longer by d stands higher by d cos(lean), and its foot farther out by d tan cos(lean).
 * Diagonals are no sums of lengths: their factors are the slopes at the asked size.
 */
export function measuresOf(
  values: Values,
  { splay, lower, reach, sides, stretcher }: Measured,
): MeasureDraft[] {
  const length = values.length as Mm
  const width = values.width as Mm
  const long = { member: sides.find((id) => /side-1|long-1/.test(id))!, factor: 1 }
  const short = { member: sides.find((id) => /side-2|short-1/.test(id))!, factor: 1 }
  const leg = 'legs/leg-1'
  const cos = cosDeg(splay.angle)
  const feet = ([0, 1] as const).map((way) => 2 * (splay.axis(reach.foot)[way] + splay.out[way]))
  const [feetLength = 0, feetWidth = 0] = feet
  const splayed = (way: 0 | 1) => ({ member: leg, factor: 2 * splay.lean[way] * cos })
  const asked = values.splay === 'feet'
  const across = (name: string, one: Mm, two: Mm, terms: MeasureDraft['terms'][]): MeasureDraft => {
    const mm = Math.hypot(one, two)
    const share = [one / mm, two / mm]
    return {
      name,
      mm,
      asked: false,
      terms: terms.flatMap((each, way) =>
        each.map(({ member, factor }) => ({ member, factor: factor * share[way]! })),
      ),
    }
  }
  const rise = [{ member: leg, factor: cos }]
  return [
    { name: 'length', mm: length, asked: true, param: 'length', terms: [long] },
    { name: 'width', mm: width, asked: true, param: 'width', terms: [short] },
    across('corner to corner', length, width, [[long], [short]]),
    { name: 'overall height', mm: values.height as Mm, asked: true, param: 'height', terms: rise },
    { name: 'feet, along the length', mm: feetLength, asked, terms: [long, splayed(0)] },
    { name: 'feet, along the width', mm: feetWidth, asked, terms: [short, splayed(1)] },
    across('feet, corner to corner', feetLength, feetWidth, [
      [long, splayed(0)],
      [short, splayed(1)],
    ]),
    { name: 'clear under the frame', mm: lower, asked: false, terms: rise },
    ...(stretcher
      ? [
          {
            name: 'clear under the stretchers',
            mm: (values.stretcherHeight as Mm) - stretcher.height,
            asked: false,
            terms: [],
          },
        ]
      : []),
  ]
}
