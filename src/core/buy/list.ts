import type { Progress, SheetDrop } from '../facts.ts'
import type { Nest } from '../nest.ts'
import type { Plan } from '../plan-shapes.ts'
import type { Shop } from '../shop.ts'
import { type BarLine, barLines } from './bars.ts'
import { type FlatBarLine, fromBar } from './flat-bar.ts'
import { type PlateCut, plateCuts } from './plate-cuts.ts'
import { type SheetLine, sheetLine } from './sheet.ts'

/** Bought parts of one kind, for all copies. */
export interface HardwareLine {
  readonly text: string
  readonly count: number
}

/** Everything that must be bought for one order, or for several bought together. */
export interface BuyList {
  /** Sticks of the nest; empty where there is none yet. */
  readonly bars: readonly BarLine[]
  readonly flat: readonly FlatBarLine[]
  readonly sheets: readonly SheetLine[]
  readonly hardware: readonly HardwareLine[]
}

/** The buy list of these plans, whose nest is `nest`: each figure follows from plan and nest. */
export function buyList(
  plans: readonly Plan[],
  nest: Nest | undefined,
  shop: Shop,
  { rack, opened, sheets = [] }: Pick<Progress, 'rack' | 'opened'> & Partial<Pick<Progress, 'sheets'>>,
): BuyList {
  const { lines, rest } = fromBar(plateCuts(plans), shop, rack)
  return {
    bars: nest ? barLines(nest, rack, opened) : [],
    flat: lines,
    sheets: sheetLines(rest, shop, sheets),
    hardware: hardwareLines(plans),
  }
}

/** Each rest on the rack serves one line: what is left of it then is for the person to see. */
function sheetLines(cuts: readonly PlateCut[], shop: Shop, lying: readonly SheetDrop[]): SheetLine[] {
  let left = lying
  return cuts.map((cut) => {
    const line = sheetLine(cut, shop.sheets ?? [], left)
    left = left.filter((drop) => line.drops.every((used) => used.drop !== drop))
    return line
  })
}

function hardwareLines(plans: readonly Plan[]): readonly HardwareLine[] {
  const lines = new Map<string, number>()
  for (const { frame, quantity } of plans)
    for (const { kind, text = kind, count } of frame.hardware)
      lines.set(text, (lines.get(text) ?? 0) + count * quantity)
  return [...lines].map(([text, count]) => ({ text, count }))
}

export interface Totals {
  /** Sticks of the nest, with those that are there already. */
  readonly sticks: number
  /** Kilograms of all steel on the list. */
  readonly mass: number
  /** Whole cents of what has a price; absent where nothing has. */
  readonly price?: number
  /** What the price does not hold, in words: empty where it holds everything. */
  readonly unpriced: readonly string[]
}

export function totalsOf({ bars, flat, sheets, hardware }: BuyList): Totals {
  const toBuy = flat.filter(({ onRack }) => !onRack)
  const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0)
  const prices = [
    ...bars.map(({ price, count }) => times(price, count)),
    ...toBuy.map(({ bars: whole }) => whole && times(whole.price, whole.count)),
    ...sheets.map(({ from }) => from && times(from.sheet.price, from.sheets)),
  ]
  const known = prices.filter((price) => price !== undefined)
  return {
    sticks: sum(bars.map(({ count }) => count)),
    mass: sum([...bars, ...flat, ...sheets].map(({ mass }) => mass)),
    ...(known.length > 0 ? { price: sum(known) } : {}),
    unpriced: [
      ...(bars.some(({ price }) => price === undefined)
        ? [bars.every(({ price }) => price === undefined) ? 'tube and bar' : 'the other tube and bar']
        : []),
      ...(toBuy.some(({ bars: whole }) => whole?.price === undefined) ? ['flat bar'] : []),
      ...(sheets.some(({ open, from }) => open > 0 && from?.sheet.price === undefined)
        ? ['sheet and plate']
        : []),
      ...(hardware.length > 0 ? ['hardware'] : []),
    ],
  }
}

const times = (price: number | undefined, count: number): number | undefined =>
  price === undefined ? undefined : price * count
