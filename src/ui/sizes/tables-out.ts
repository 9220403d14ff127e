import { landingLines } from '../../core/parts/landing-lines.ts'
import type { Part, Plan, PlatePart } from '../../core/plan-shapes.ts'
import type { MarkingOut } from '../../core/plates/marking-out.ts'
import { showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Reading } from '../../core/shop.ts'
import type { Mm } from '../../core/units.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'
import { fine, massIn, shapeWords } from '../words.ts'

/** Every part once, as on the screen. */
export function partsOut(parts: readonly Part[], quantity: number, reading: Reading): TableOut {
  return {
    heads: [
      'mark',
      'part',
      'section',
      'pieces',
      'cut length',
      'long point',
      'short point',
      'end A',
      'end B',
      'ends',
    ],
    rows: parts.map((part) => {
      const { length, longPoint, shortPoint, angles } = part.printed
      return [
        part.mark,
        part.name,
        sectionName(part.section, reading),
        part.count * quantity,
        length,
        longPoint,
        shortPoint,
        ...angles,
        shapeWords[part.shape],
      ]
    }),
  }
}

/** The layout marks as on the screen. */
export const landingsOut = (plan: Plan): TableOut => ({
  heads: ['on', 'lands', 'face', 'from end', 'near edge', 'far edge'],
  rows: landingLines(plan).map(({ on, by, face, landing }) => [
    on,
    by,
    face,
    landing.from,
    landing.printed.near,
    landing.printed.far,
  ]),
})

/** What was asked, and what the rounded lengths really give: finer than any tape. */
export const builtOut = ({ sizes }: Plan, reading: Reading): TableOut => ({
  heads: ['size', 'asked', 'by the drawing', 'built', 'more than drawn'],
  rows: sizes.map(({ name, asked, exact, built, printed }) => [
    name,
    asked ? 'asked' : 'follows',
    printed.exact,
    showLength(built, fine(reading)),
    showLength(built - exact, fine(reading)),
  ]),
})

/** Plates and bought parts of one, and what they weigh. */
export function platesOut({ plates, frame }: Plan, unit: 'lb' | 'kg'): TableOut {
  const marks = new Map<string, { readonly plate: PlatePart; readonly n: number }>()
  for (const plate of plates) marks.set(plate.mark, { plate, n: (marks.get(plate.mark)?.n ?? 0) + 1 })
  const hardware = new Map<string, number>()
  for (const { kind, text = kind, count } of frame.hardware)
    hardware.set(text, (hardware.get(text) ?? 0) + count)
  return {
    heads: ['mark', 'what', 'pieces', 'size', `each (${unit})`],
    rows: [
      ...[...marks].map(([mark, { plate, n }]) => [
        mark,
        plate.name,
        n,
        plate.text,
        massIn(plate.mass, unit),
      ]),
      ...[...hardware].map(([text, n]) => ['', text, n, '', '']),
    ],
  }
}

/** Every corner and hole of a plate from two factory edges, and the diagonals to check by. */
export function markingsOut(marking: MarkingOut, reading: Reading): TableOut {
  const length = (mm: Mm) => showLength(mm, reading)
  const { circle, corners, holes, slots, diagonals } = marking
  const point = (name: string, [x, y]: readonly [Mm, Mm], what: string, size: Cell) => [
    name,
    length(x),
    length(y),
    what,
    size,
  ]
  return {
    heads: ['point', 'from the left edge', 'from the lower edge', 'what', 'its size'],
    rows: [
      ...(circle ? [point('middle', circle.at, 'radius', length(circle.radius))] : []),
      ...corners.map((corner, at) => point(`corner ${at + 1}`, corner, 'corner', '')),
      ...holes.map(({ at: middle, diameter }, at) =>
        point(`hole ${at + 1}`, middle, 'hole, diameter', length(diameter)),
      ),
      ...slots.flatMap(({ ends, width }, at) =>
        ends.map((end, k) => point(`slot ${at + 1}, end ${k + 1}`, end, 'slot end, diameter', length(width))),
      ),
      ...diagonals.map(({ from, to, length: mm }) => [
        `corner ${from + 1} to ${to + 1}`,
        '',
        '',
        'check: from corner to corner',
        length(mm),
      ]),
    ],
  }
}
