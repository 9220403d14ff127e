import { extentTurned, flushTurns, turnInto } from '../geometry/in-rectangle.ts'
import { steelDensity } from '../section/mass.ts'
import type { CarriedSheet } from '../shop.ts'
import { sameLength, sameSheet } from '../tolerance.ts'
import { type Deg, type Mm, type Rad, toDeg } from '../units.ts'
import type { PlateCut } from './plate-cuts.ts'

/** Between two plates out of one sheet, for the cut; common practice. */
export const betweenPlates: Mm = 5

/** Where a plate comes from. `turn`: counterclockwise, from how its outline is drawn; length of the sheet along. */
export interface FromSheet {
  readonly sheet: CarriedSheet
  readonly turn: Deg
  /** Sides of the plate lie along sides of the sheet. */
  readonly straight: boolean
  /** In rows, 5 mm between; a closer layout may give more. */
  readonly perSheet: number
  readonly sheets: number
}

/** Sheet or plate for one mark: out of which sheet of the shop, or what it needs at least. */
export interface SheetLine {
  readonly cut: PlateCut
  /** The sheet that costs least for all of them, or where no price is known has the least area. */
  readonly from?: FromSheet
  /** Sheets of this thickness are carried, but it fits none. */
  readonly tooSmall: boolean
  /** Kilograms of the sheets, or of the plates where they come out of none. */
  readonly mass: number
}

export function sheetLine(cut: PlateCut, sheets: readonly CarriedSheet[]): SheetLine {
  const thick = sheets.filter(({ thickness }) => Math.abs(thickness - cut.thickness) <= sameSheet)
  const found = thick.flatMap((sheet) => outOf(cut, sheet) ?? [])
  const priced = found.every(({ sheet }) => sheet.price !== undefined)
  const cost = ({ sheet, sheets: count }: FromSheet) =>
    count * (priced ? sheet.price! : sheet.length * sheet.width)
  const from = found.reduce<FromSheet | undefined>(
    (best, one) => (best === undefined || cost(one) < cost(best) ? one : best),
    undefined,
  )
  return {
    cut,
    tooSmall: thick.length > 0 && !from,
    mass: from ? from.sheets * massOf(from.sheet) : cut.mass * cut.count,
    ...(from ? { from } : {}),
  }
}

const massOf = ({ length, width, thickness }: CarriedSheet): number =>
  (length * width * thickness * steelDensity) / 1e9

/** How a plate comes out of one sheet, most to a sheet; undefined where it does not, or there are too few. */
function outOf({ polygon, count }: PlateCut, sheet: CarriedSheet): FromSheet | undefined {
  const fits = turnInto(polygon, sheet.length, sheet.width)
  if (fits === undefined) return undefined
  const straight = flushTurns(polygon)
    .map((turn) => ({ turn, perSheet: inRows(extentTurned(polygon, turn), sheet) }))
    .reduce((best, one) => (one.perSheet > best.perSheet ? one : best))
  const perSheet = Math.max(1, straight.perSheet)
  const turn: Rad = straight.perSheet > 0 ? straight.turn : fits
  const sheets = Math.ceil(count / perSheet)
  if (sheets > (sheet.count ?? Infinity)) return undefined
  return { sheet, turn: toDeg(turn), straight: straight.perSheet > 0, perSheet, sheets }
}

const inRows = ([along, across]: readonly [Mm, Mm], { length, width }: CarriedSheet): number =>
  Math.floor((length + betweenPlates + sameLength) / (along + betweenPlates)) *
  Math.floor((width + betweenPlates + sameLength) / (across + betweenPlates))
