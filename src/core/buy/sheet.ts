import type { SheetDrop } from '../facts.ts'
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

/** Plates out of one rest that lies on the rack. */
export interface FromDrop extends Pick<FromSheet, 'turn' | 'straight'> {
  readonly drop: SheetDrop
  readonly gives: number
}

/** Sheet or plate for one mark: out of which sheet of the shop, or what it needs at least. */
export interface SheetLine {
  readonly cut: PlateCut
  /** Rests on the rack that some of them come out of, the smallest first. */
  readonly drops: readonly FromDrop[]
  /** How many are then still to be cut out of what is bought. */
  readonly open: number
  /** The sheet that costs least for all that are open, or where no price is known has the least area. */
  readonly from?: FromSheet
  /** Sheets of this thickness are carried, but it fits none. */
  readonly tooSmall: boolean
  /** Kilograms of the sheets, or of the open plates where they come out of none. */
  readonly mass: number
}

export function sheetLine(
  cut: PlateCut,
  sheets: readonly CarriedSheet[],
  lying: readonly SheetDrop[] = [],
): SheetLine {
  const ofThis = ({ thickness }: { readonly thickness: Mm }) =>
    Math.abs(thickness - cut.thickness) <= sameSheet
  const { drops, open } = outOfDrops(cut, lying.filter(ofThis))
  const thick = sheets.filter(ofThis)
  const found = open === 0 ? [] : thick.flatMap((sheet) => outOf({ ...cut, count: open }, sheet) ?? [])
  const priced = found.every(({ sheet }) => sheet.price !== undefined)
  const cost = ({ sheet, sheets: count }: FromSheet) =>
    count * (priced ? sheet.price! : sheet.length * sheet.width)
  const from = found.reduce<FromSheet | undefined>(
    (best, one) => (best === undefined || cost(one) < cost(best) ? one : best),
    undefined,
  )
  return {
    cut,
    drops,
    open,
    tooSmall: open > 0 && thick.length > 0 && !from,
    mass: from ? from.sheets * massOf(from.sheet) : cut.mass * open,
    ...(from ? { from } : {}),
  }
}

const massOf = ({ length, width, thickness }: CarriedSheet): number =>
  (length * width * thickness * steelDensity) / 1e9

/** As many as the rests give, the smallest that serve first, so that the greater ones stay. */
function outOfDrops(cut: PlateCut, lying: readonly SheetDrop[]): Pick<SheetLine, 'drops' | 'open'> {
  const drops: FromDrop[] = []
  let open = cut.count
  for (const drop of lying.toSorted((a, b) => a.length * a.width - b.length * b.width)) {
    const way = open > 0 ? outOf({ ...cut, count: 1 }, drop) : undefined
    if (!way) continue
    const gives = Math.min(open, way.perSheet)
    drops.push({ drop, gives, turn: way.turn, straight: way.straight })
    open -= gives
  }
  return { drops, open }
}

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
