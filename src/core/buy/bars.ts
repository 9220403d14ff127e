import type { RackPiece } from '../facts.ts'
import type { Nest, NestSection, NestStick } from '../nest.ts'
import { massPerLength } from '../section/mass.ts'
import { type Section, sectionKey } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'

/** One line of the buy list: so many of one length of one section. */
export interface BarLine {
  readonly section: Section
  readonly length: Mm
  readonly count: number
  /** Of one, in whole cents; absent where nothing has a price. */
  readonly price?: number
  /** All of the line, kg. */
  readonly mass: number
  /** Of these, already there: bought and on the rack, or bought and on the saw. */
  readonly there: number
  /** Delivered cut in half: how long each half is, and whether the nest leaves one of them whole. */
  readonly halves?: { readonly length: Mm; readonly spare: boolean }
}

/** True where the stock of this section has prices, so that cost counts cents and not length. */
export const hasPrices = (section: Pick<NestSection, 'stock'>): boolean =>
  section.stock.some((stock) => stock.rack === undefined && stock.price !== undefined)

/** What a nest needs bought, longest first within a section. */
export function barLines(
  nest: Nest,
  rack: readonly RackPiece[],
  opened: Readonly<Record<string, string | null>>,
): readonly BarLine[] {
  return nest.sections.flatMap((part) => {
    const bought = part.sticks.filter((stick) => stick.from === 'buy')
    const whole = ({ halfOf, length }: NestStick) => halfOf ?? length
    const lengths = [...new Set(bought.map(whole))].sort((a, b) => b - a)
    return lengths.map((length): BarLine => {
      const sticks = bought.filter((stick) => whole(stick) === length)
      const first = sticks[0]!
      const per = first.halfOf === undefined ? 1 : 2
      const count = Math.ceil(sticks.length / per)
      const onSaw = sticks.filter((stick) => opened[`${nest.id}/${stick.id}`] !== undefined).length
      const lying = rack.filter(
        (piece) =>
          piece.from === 'bought' &&
          sectionKey(piece.section) === sectionKey(part.section) &&
          Math.abs(piece.length - first.length) <= sameLength,
      ).length
      return {
        section: part.section,
        length,
        count,
        ...(hasPrices(part) ? { price: Math.max(...sticks.map(({ price }) => price)) } : {}),
        mass: (massPerLength(part.section) * length * count) / 1000,
        there: Math.min(count, Math.floor((onSaw + lying) / per)),
        ...(per === 2 && { halves: { length: first.length, spare: sticks.length % 2 === 1 } }),
      }
    })
  })
}
