import type { HandCut, Part, Run } from '../../core/plan-shapes.ts'
import { layOutOf } from '../../core/saw/lay-out.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'
import { calledOf, onKey } from './say.ts'
import type { Station } from './work.ts'

/** Every set-up in the order of work, with what is set and which pieces are cut at it. */
export const setUpsOut = (stations: readonly Station[], products: Run['products'], shop: Shop): TableOut => ({
  heads: [
    'set-up',
    'saw',
    'section',
    'miter',
    'miter leans',
    'bevel',
    'bevel leans',
    'cradle or wedge',
    'stop',
    'long side',
    'weld seam',
    'cuts',
    'cut',
    'pieces',
  ],
  rows: stations.map(({ setUp, number, cuts, cut }) => {
    const { printed } = setUp
    return [
      number,
      shop.saws.find(({ id }) => id === setUp.saw)?.name ?? setUp.saw,
      sectionName(setUp.section, shop.reading),
      printed.miter,
      printed.lean,
      printed.bevel ?? '',
      printed.bevelLean ?? '',
      [printed.roll, printed.ramp].filter(Boolean).join('; '),
      printed.stop,
      printed.longSide,
      printed.seam ?? '',
      cuts.length,
      cut,
      cuts.map(({ product }) => onKey(calledOf(product, products))).join(', '),
    ]
  }),
})

/** How the pieces that are left to the hand are marked out: a row for each edge, or line, of each mark. */
export function byHandOut(pieces: readonly HandCut[], parts: readonly Part[], shop: Shop): TableOut {
  const marks = [...new Set(pieces.map(({ left }) => left.mark))]
  return {
    heads: ['mark', 'pieces', 'edge or line', 'in from the end', 'then along it', 'why by hand'],
    rows: marks.flatMap((mark): Cell[][] => {
      const own = pieces.filter(({ left }) => left.mark === mark)
      const names = own.map(({ product }) => product.id).join(', ')
      const why = own[0]!.left.why
      const part = parts.find((one) => one.mark === mark)
      if (!part) return [[mark, names, '', '', '', why]]
      const { lines } = layOutOf(part, shop.reading)
      return lines.map(({ from, length }, at) => [mark, names, at + 1, from, length, why])
    }),
  }
}
