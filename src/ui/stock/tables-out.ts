import type { BuyList } from '../../core/buy/list.ts'
import { halvesText, roundUp, sheetText } from '../../core/buy/order-text.ts'
import { rackMarks } from '../../core/facts/rack-mark.ts'
import type { RackPiece, SheetDrop } from '../../core/facts.ts'
import { type Nest, piecesIn } from '../../core/nest.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import { sectionName } from '../../core/section/name.ts'
import type { Shop } from '../../core/shop.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'
import { massIn, saysOf } from '../words.ts'

const money = (cents: number | undefined): Cell => (cents === undefined ? '' : cents / 100)

/** Everything on the buy list, also what lies there already, a row for each thing. */
export function buyOut({ bars, flat, sheets, hardware }: BuyList, shop: Shop): TableOut {
  const { reading, mass: unit } = shop
  const length = (mm: number) => showLength(mm, reading)
  return {
    heads: [
      'what',
      'pieces',
      'there already',
      'length',
      'width',
      `each (${shop.currency})`,
      `mass (${unit})`,
      'note',
    ],
    rows: [
      ...bars.map((line): Cell[] => [
        sectionName(line.section, reading),
        line.count,
        line.there,
        length(line.length),
        '',
        money(line.price),
        massIn(line.mass, unit),
        halvesText(line, shop),
      ]),
      ...flat.map(({ section, bars: whole, needed, onRack, mass, cuts }): Cell[] => [
        sectionName(section, reading),
        whole?.count ?? 1,
        onRack ? 1 : 0,
        length(onRack?.length ?? whole?.length ?? roundUp(needed, reading)),
        '',
        money(onRack ? undefined : whole?.price),
        massIn(mass, unit),
        `for ${cuts.map(({ count, mark }) => `${count} × ${mark}`).join(', ')}`,
      ]),
      ...sheets.map(({ cut, from, open, mass }): Cell[] => [
        `${sheetText(cut.thickness, reading)} sheet or plate`,
        from?.sheets ?? open,
        cut.count - open,
        length(from?.sheet.length ?? roundUp(cut.long, reading)),
        length(from?.sheet.width ?? roundUp(cut.short, reading)),
        money(from?.sheet.price),
        massIn(mass, unit),
        `for ${cut.count} × ${cut.mark}`,
      ]),
      ...hardware.map(({ text, count }): Cell[] => [text, count, 0, '', '', '', '', '']),
    ],
  }
}

/** Every piece by the stick that it is cut from, from the leading end on; what is left stands last. */
export function sticksOut(nest: Nest, job: string, parts: readonly Part[], shop: Shop): TableOut {
  const { reading } = shop
  const { stick: word, drop } = saysOf(shop)
  const cutLength = (of: string, mark: string): Cell =>
    (of === job && parts.find((part) => part.mark === mark)?.printed.length) || ''
  return {
    heads: [word, `whole ${word}`, 'section', 'from', 'piece', 'copy', 'cut length'],
    rows: nest.sections.flatMap(({ section, sticks }) =>
      sticks.flatMap((stick): Cell[][] => {
        const own = [
          stick.id,
          showLength(stick.length, reading),
          sectionName(section, reading),
          stick.from === 'rack' ? 'rack' : 'bought',
        ]
        const pieces = stick.pieces
          .flatMap(piecesIn)
          .map(({ piece, copy, mark, job: of }): Cell[] => [...own, piece, copy, cutLength(of, mark)])
        const kind = stick.drop >= shop.leastDrop ? drop : 'scrap'
        return [...pieces, ...(stick.drop > 0 ? [[...own, kind, '', showLength(stick.drop, reading)]] : [])]
      }),
    ),
  }
}

/** What lies on the rack, piece by piece. */
export function rackOut(rack: readonly RackPiece[], shop: Shop): TableOut {
  const marks = rackMarks(rack)
  return {
    heads: ['mark', 'section', 'length', 'came as', `price (${shop.currency})`],
    rows: rack.map(({ id, section, length, from, price }) => [
      marks.get(id) ?? '',
      sectionName(section, shop.reading),
      showLength(length, shop.reading),
      from === 'drop' ? saysOf(shop).drop : from,
      money(price),
    ]),
  }
}

/** Rests of sheet and plate, one by one. */
export const sheetDropsOut = (sheets: readonly SheetDrop[], { reading }: Shop): TableOut => ({
  heads: ['sheet', 'length', 'width'],
  rows: sheets.map(({ thickness, length, width }) => [
    sheetText(thickness, reading),
    showLength(length, reading),
    showLength(width, reading),
  ]),
})
