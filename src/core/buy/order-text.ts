import type { SheetDrop } from '../facts.ts'
import { roundCorners } from '../frame/cap.ts'
import { decimals, nearest } from '../reading/round.ts'
import { readingStep, say, showLength, showMass, unitOf } from '../reading/show.ts'
import { gaugeOfSheet } from '../section/gauge.ts'
import { sectionName } from '../section/name.ts'
import type { Reading, Shop } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { inch, type Mm } from '../units.ts'
import type { BarLine } from './bars.ts'
import type { FlatBarLine } from './flat-bar.ts'
import { type BuyList, type HardwareLine, totalsOf } from './list.ts'
import { sayMoney } from './money.ts'
import type { PlateCut } from './plate-cuts.ts'
import type { SheetLine } from './sheet.ts'

// The buy list in the words of an order: what stands on the screen and on paper, and is sent to the supplier.

/** A length as sticks are sold: whole feet, `20 ft`, or tenths of a meter from 1 m on, `6.5 m`; any other as it is read. */
export function soldLength(mm: Mm, reading: Reading): string {
  const feet = unitOf(reading) === 'in'
  const per = feet ? 12 * inch : 100
  const many = nearest(mm / per)
  if (many < (feet ? 1 : 10) || Math.abs(many * per - mm) > sameLength) return say(mm, reading)
  return feet ? `${many} ft` : `${decimals(many / 10, 1)} m`
}

const sixtyFourths: Reading = { kind: 'inch-fraction', denominator: 64 }

/** Thickness of sheet and plate: `16 ga`, `1/4 in`, `5 mm`. */
export function sheetText(thickness: Mm, reading: Reading): string {
  const gauge = gaugeOfSheet(thickness)
  if (gauge !== undefined) return `${gauge} ga`
  // Sheets of 1.5 and 2 mm are two, however coarsely the tape is read; nor is 10 mm a plate of 3/8 in.
  const inches = unitOf(reading) === 'in'
  for (const each of inches ? [reading, sixtyFourths] : []) {
    const { mm, text } = showLength(thickness, each)
    if (Math.abs(mm - thickness) <= sameLength) return `${text} in`
  }
  const metric = !inches || Math.abs(nearest(thickness * 2) / 2 - thickness) <= sameLength
  return metric ? `${decimals(thickness, 2)} mm` : `${decimals(thickness / inch, 4)} in`
}

interface Words {
  readonly stick: string
  readonly sticks: string
}

const wordsOf = ({ says }: Shop): Words =>
  says === 'stick and drop' ? { stick: 'stick', sticks: 'sticks' } : { stick: 'length', sticks: 'lengths' }

const many = (count: number, { stick, sticks }: Words): string => `${count} ${count === 1 ? stick : sticks}`

const each = (price: number | undefined, { currency }: Shop): string =>
  price === undefined ? '' : `, ${sayMoney(price, currency)} each`

/** `2 × 2 × 11 ga square tube, 3 sticks 20 ft`, and `, each cut in half` where it is delivered so. */
export const barText = (
  { section, length, count, halves }: Pick<BarLine, 'section' | 'length' | 'count' | 'halves'>,
  shop: Shop,
): string =>
  `${sectionName(section, shop.reading)}, ${many(count, wordsOf(shop))} ${soldLength(length, shop.reading)}` +
  (halves ? `, ${count === 1 ? '' : 'each '}cut in half` : '')

/** What the halves are, and that one is left: `halves of 119 15/16 in at least, the cut in the price; one half is left`. */
export function halvesText({ halves, price }: Pick<BarLine, 'halves' | 'price'>, { reading }: Shop): string {
  if (!halves) return ''
  const cut = price === undefined ? '' : ', the cut in the price'
  return `halves of ${say(halves.length, reading)}${cut}${halves.spare ? '; one half is left over' : ''}`
}

/** `2 × 3/8 in flat bar, at least 11 1/4 in`, or whole sticks of it. */
export function flatText({ section, needed, bars, onRack }: FlatBarLine, shop: Shop): string {
  const name = sectionName(section, shop.reading)
  if (onRack) return `${name}: on the rack, ${say(onRack.length, shop.reading)}`
  if (!bars) return `${name}, at least ${sayUp(needed, shop.reading)}`
  return barText({ section, ...bars }, shop)
}

/** What is sawn from it: `4 × 2 in (P1 Foot cap)`. */
export const flatCuts = ({ cuts, needed }: FlatBarLine, { reading }: Shop): string =>
  `for ${cuts.map(({ count, length, mark, name }) => `${count} × ${say(length, reading)} (${mark} ${name})`).join(', ')}; ` +
  `${sayUp(needed, reading)} of it with kerfs, clean-up cuts and what the vise holds`

/** Up to the next step of the reading: what is at least needed is not rounded down. */
export const roundUp = (mm: Mm, reading: Reading): Mm => {
  const step = readingStep(reading)
  return Math.ceil(mm / step - sameLength) * step
}

const sayUp = (mm: Mm, reading: Reading): string => say(roundUp(mm, reading), reading)

/** `1 sheet 16 ga, 48 in × 96 in`, or what size it takes at least. */
export function sheetOrder({ cut, from, open, drops }: SheetLine, { reading }: Shop): string {
  const thick = sheetText(cut.thickness, reading)
  if (open === 0)
    return `${thick}: on the rack, ${drops.map(({ drop }) => dropText(drop, reading)).join(', ')}`
  if (!from)
    return `${thick} sheet or plate, for ${open} × at least ${sayUp(cut.long, reading)} × ${sayUp(cut.short, reading)}`
  const { sheet, sheets } = from
  return `${thick}, ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'} ${say(sheet.length, reading)} × ${say(sheet.width, reading)}`
}

/** A rest of sheet: `30 in × 20 in`. */
export const dropText = ({ length, width }: Pick<SheetDrop, 'length' | 'width'>, reading: Reading): string =>
  `${say(length, reading)} × ${say(width, reading)}`

/** What it is for and how it comes out of its sheet. */
export function sheetCuts({ cut, from, tooSmall, drops, open }: SheetLine, { reading }: Shop): string {
  const what = `for ${cut.count} × ${cut.mark} ${cut.name}, ${shapeText(cut)} ${say(cut.long, reading)} × ${say(cut.short, reading)} over all${dropsText(drops, open, reading)}`
  if (open === 0) return what
  if (tooSmall)
    return `${what}: fits no sheet of this thickness here; needs at least ${sayUp(cut.long, reading)} × ${sayUp(cut.short, reading)}`
  if (!from) return `${what}; no sheet of this thickness is carried in Shop`
  const rows = open > 1 ? `, ${from.perSheet} to a sheet in rows` : ''
  return `${what}${from.straight ? '' : `, only turned by ${decimals(from.turn, 1)}°`}${rows}`
}

/** `; 1 fits the rest of 30 in × 20 in, 2 to buy`. */
function dropsText(drops: SheetLine['drops'], open: number, reading: Reading): string {
  if (drops.length === 0) return ''
  const each = drops.map(
    ({ drop, gives, straight, turn }) =>
      `${gives} ${gives === 1 ? 'fits' : 'fit'} the rest of ${dropText(drop, reading)}${straight ? '' : `, turned by ${decimals(turn, 1)}°`}`,
  )
  return `; ${each.join(', ')}${open > 0 ? `, ${open} to buy` : ''}`
}

const shapeText = ({ polygon, rectangle }: PlateCut): string =>
  polygon.length === roundCorners ? 'round' : rectangle ? 'rectangle' : `${polygon.length} sides`

export const hardwareText = ({ text, count }: HardwareLine): string => `${count} × ${text}`

/** `In all 3 sticks, 66.1 kg, $85.00, without hardware`. */
export function totalText(list: BuyList, shop: Shop): string {
  const { sticks, mass, price, unpriced } = totalsOf(list)
  const money = price === undefined ? '' : `, ${sayMoney(price, shop.currency)}`
  const without = price !== undefined && unpriced.length > 0 ? `, without ${unpriced.join(', ')}` : ''
  const counted = sticks > 0 ? `${many(sticks, wordsOf(shop))}, ` : ''
  return `In all ${counted}${showMass(mass, shop.mass)}${money}${without}`
}

/** The list, a line for each thing, and what it comes to. */
export function buyRows(list: BuyList, shop: Shop): readonly string[] {
  return [
    ...list.bars.map((line) =>
      [`${barText(line, shop)}${each(line.price, shop)}`, halvesText(line, shop)].filter(Boolean).join(', '),
    ),
    ...list.flat.map(
      (line) =>
        `${flatText(line, shop)}${line.onRack ? '' : each(line.bars?.price, shop)}, ${flatCuts(line, shop)}`,
    ),
    ...list.sheets.map(
      (line) => `${sheetOrder(line, shop)}${each(line.from?.sheet.price, shop)}, ${sheetCuts(line, shop)}`,
    ),
    ...list.hardware.map(hardwareText),
    totalText(list, shop),
  ]
}

/** The whole list as plain text, to be pasted into a message to the supplier: what is there already is left out. */
export function orderText(name: string, list: BuyList, shop: Shop): string {
  const open = toBuy(list)
  const { bars, flat, sheets, hardware } = open
  const nothing = [bars, flat, sheets, hardware].every(({ length }) => length === 0)
  return [name, ...(nothing ? ['Nothing to buy.'] : buyRows(open, shop))].join('\n')
}

const toBuy = (list: BuyList): BuyList => ({
  ...list,
  bars: list.bars
    .filter(({ count, there }) => there < count)
    .map((line) => {
      const count = line.count - line.there
      return { ...line, count, there: 0, mass: (line.mass * count) / line.count }
    }),
  flat: list.flat.filter(({ onRack }) => !onRack),
  sheets: list.sheets.filter(({ open }) => open > 0),
})
