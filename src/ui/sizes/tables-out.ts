import { landingLines } from '../../core/parts/landing-lines.ts'
import type { Part, Plan, Shown } from '../../core/plan-shapes.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Reading } from '../../core/shop.ts'
import type { TableOut } from '../fields/table-text.ts'
import { shapeWords } from '../words.ts'

const said = ({ text, unit, lies }: Shown): string => `${text} ${unit}${lies ? ` ${lies}` : ''}`

/** The parts as on the screen, and the exact mm beside them for programs that count. */
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
      'cut length mm',
    ],
    rows: parts.map((part) => {
      const { length, longPoint, shortPoint, angles } = part.printed
      return [
        part.mark,
        part.name,
        sectionName(part.section, reading),
        part.count * quantity,
        said(length),
        said(longPoint),
        said(shortPoint),
        angles[0].text,
        angles[1].text,
        shapeWords[part.shape],
        Number(length.mm.toFixed(4)),
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
    said(landing.printed.near),
    said(landing.printed.far),
  ]),
})
