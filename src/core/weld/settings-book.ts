import type { WeldSetting } from '../shop.ts'
import { inch, type Mm } from '../units.ts'

/** Ways of welding with wire that a record may name; another name that a file brought is kept. */
export const processes = ['wire, short-circuit', 'wire, spray or pulse', 'flux-core wire'] as const

/** What the starting ranges are for, and goes without saying. */
export const usualProcess: string = processes[0]

/** A place to begin on scrap of the same wall. Never an instruction. */
export interface StartingRange {
  readonly name: string
  readonly thickness: Mm
  readonly wire: string
  readonly volts: readonly [number, number]
  /** Wire speed of .030 and .035 wire, in/min; absent where that wire is not used. */
  readonly thin?: readonly [number, number]
  readonly thick?: readonly [number, number]
}

// Short-circuit, 75/25 argon and CO2, mild steel: reference.md 5.5, common practice there. Sheet thickness by its gauge.
const rows: readonly StartingRange[] = [
  { name: '22 ga', thickness: 0.0299, wire: '.023 to .030', volts: [14, 15], thin: [90, 130] },
  {
    name: '20 ga',
    thickness: 0.0359,
    wire: '.023 to .030',
    volts: [14.5, 16],
    thin: [110, 150],
    thick: [80, 110],
  },
  { name: '18 ga', thickness: 0.0478, wire: '.030', volts: [15.5, 17], thin: [140, 180], thick: [100, 140] },
  { name: '16 ga', thickness: 0.0598, wire: '.030', volts: [16.5, 18], thin: [170, 220], thick: [130, 170] },
  {
    name: '14 ga',
    thickness: 0.0747,
    wire: '.030 to .035',
    volts: [17, 18.5],
    thin: [210, 270],
    thick: [160, 210],
  },
  {
    name: '12 ga',
    thickness: 0.1046,
    wire: '.030 to .035',
    volts: [17.5, 19],
    thin: [240, 310],
    thick: [190, 240],
  },
  {
    name: '1/8 in',
    thickness: 0.12,
    wire: '.030 to .035',
    volts: [18, 20],
    thin: [270, 350],
    thick: [210, 280],
  },
  {
    name: '3/16 in',
    thickness: 0.1875,
    wire: '.035',
    volts: [19, 21.5],
    thin: [330, 400],
    thick: [250, 330],
  },
  { name: '1/4 in', thickness: 0.25, wire: '.035', volts: [20, 22], thick: [280, 370] },
]

export const startingRanges: readonly StartingRange[] = rows.map((row) => ({
  ...row,
  thickness: row.thickness * inch,
}))

/** The row nearest to a wall, by ratio; undefined for a wall more than a third away from every row. */
export function startingRange(wall: Mm): StartingRange | undefined {
  const away = ({ thickness }: StartingRange) => Math.abs(Math.log(wall / thickness))
  const best = startingRanges.reduce((near, row) => (away(row) < away(near) ? row : near))
  return away(best) <= Math.log(4 / 3) ? best : undefined
}

/** The shop's own record nearest to a wall and joint: same joint first, then the nearest wall, the newest of equals. */
export function nearestSetting(
  book: readonly WeldSetting[],
  wall: Mm,
  joint: string,
): WeldSetting | undefined {
  const rank = (of: WeldSetting) =>
    Math.abs(Math.log(of.wall / wall)) + (of.joint === joint ? 0 : 0.2) + (of.result === 'bad' ? 5 : 0)
  return book.reduce<WeldSetting | undefined>(
    (best, one) => (best === undefined || rank(one) <= rank(best) ? one : best),
    undefined,
  )
}
