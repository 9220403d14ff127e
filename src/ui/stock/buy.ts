import type { RackPiece } from '../../core/facts.ts'
import type { Nest, NestSection } from '../../core/nest.ts'
import { say, showMass } from '../../core/reading/show.ts'
import { massPerLength } from '../../core/section/mass.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import type { Mm } from '../../core/units.ts'
import { saysOf } from '../words.ts'

/** One line of the buy list: so many of one length of one section. */
export interface BuyLine {
  readonly section: Section
  readonly length: Mm
  readonly count: number
  /** Of one, in whole cents; absent where nothing has a price. */
  readonly price?: number
  /** All of the line, kg. */
  readonly mass: number
  /** Of these, already there: bought and on the rack, or bought and on the saw. */
  readonly there: number
}

/** Money is kept in whole cents. */
export const sayMoney = (cents: number, currency: string): string => `${currency}${(cents / 100).toFixed(2)}`

/** True where the stock of this section has prices, so that cost counts cents and not length. */
export const hasPrices = (section: NestSection): boolean =>
  section.stock.some((stock) => stock.rack === undefined && stock.price !== undefined)

/** What a nest needs bought, longest first within a section. */
export function buyLines(
  nest: Nest,
  rack: readonly RackPiece[],
  opened: Readonly<Record<string, string | null>>,
): readonly BuyLine[] {
  return nest.sections.flatMap((part) => {
    const bought = part.sticks.filter((stick) => stick.from === 'buy')
    const lengths = [...new Set(bought.map((stick) => stick.length))].sort((a, b) => b - a)
    return lengths.map((length): BuyLine => {
      const sticks = bought.filter((stick) => stick.length === length)
      const onSaw = sticks.filter((stick) => opened[`${nest.id}/${stick.id}`] !== undefined).length
      const lying = rack.filter(
        (piece) =>
          piece.from === 'bought' &&
          sectionKey(piece.section) === sectionKey(part.section) &&
          Math.abs(piece.length - length) <= sameLength,
      ).length
      return {
        section: part.section,
        length,
        count: sticks.length,
        ...(hasPrices(part) ? { price: sticks[0]?.price ?? 0 } : {}),
        mass: (massPerLength(part.section) * length * sticks.length) / 1000,
        there: Math.min(sticks.length, onSaw + lying),
      }
    })
  })
}

export interface Totals {
  readonly count: number
  readonly mass: number
  /** Absent unless every line has a price. */
  readonly price?: number
}

export function totalsOf(lines: readonly BuyLine[]): Totals {
  const sum = (of: (line: BuyLine) => number) => lines.reduce((total, line) => total + of(line), 0)
  const priced = lines.length > 0 && lines.every((line) => line.price !== undefined)
  return {
    count: sum((line) => line.count),
    mass: sum((line) => line.mass),
    ...(priced ? { price: sum((line) => (line.price ?? 0) * line.count) } : {}),
  }
}

/** The buy list as plain text, to be pasted into a message to the supplier. */
export function buyText(name: string, lines: readonly BuyLine[], shop: Shop): string {
  const says = saysOf(shop)
  const rows = lines.map((line) => {
    const price = line.price === undefined ? '' : `, ${sayMoney(line.price, shop.currency)} each`
    return `${line.count} × ${say(line.length, shop.reading)}  ${sectionName(line.section, shop.reading)}, ${showMass(line.mass, shop.mass)}${price}`
  })
  const totals = totalsOf(lines)
  const price = totals.price === undefined ? '' : `, ${sayMoney(totals.price, shop.currency)}`
  const word = totals.count === 1 ? says.stick : says.sticks
  return [name, ...rows, `In all ${totals.count} ${word}, ${showMass(totals.mass, shop.mass)}${price}`].join(
    '\n',
  )
}
