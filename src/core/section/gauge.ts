import gauges from '../../../shared/reference/gauges.json'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { inch } from '../units.ts'

// Gauge numbers differ by product: a tube's wall is BWG, sheet is MSG. 16 ga is 0.065 in of tube, 0.0598 in of sheet.
const tables = {
  tube: gauges.bwg_tube_wall_in.values,
  sheet: gauges.carbon_steel_msg_in.values,
} as const

export type GaugeProduct = keyof typeof tables

const entries = (product: GaugeProduct): readonly (readonly [number, Mm])[] =>
  Object.entries(tables[product]).map(([number, thick]) => [Number(number), thick * inch])

const thickness = (product: GaugeProduct, number: number): Mm | undefined =>
  entries(product).find(([known]) => known === number)?.[1]

/** Wall of a steel tube of this gauge (BWG), mm; undefined for a number that is not in the table. */
export const tubeGauge = (number: number): Mm | undefined => thickness('tube', number)

/** Thickness of uncoated carbon steel sheet of this gauge (MSG), mm; undefined for a number not in the table. */
export const sheetGauge = (number: number): Mm | undefined => thickness('sheet', number)

/** Numbers that the table has, thick to thin. */
export const gaugesOf = (product: GaugeProduct): readonly number[] =>
  entries(product)
    .map(([number]) => number)
    .sort((a, b) => a - b)

/** The gauge whose tube wall this is; undefined for a wall that is none. No usual metric or fraction wall is one. */
export const gaugeOfWall = (wall: Mm): number | undefined =>
  entries('tube').find(([, thick]) => Math.abs(thick - wall) <= sameLength)?.[0]

/** The gauge whose sheet is this thick; undefined for a thickness that is none, as all metric and fraction ones. */
export const gaugeOfSheet = (thick: Mm): number | undefined =>
  entries('sheet').find(([, known]) => Math.abs(known - thick) <= sameLength)?.[0]
