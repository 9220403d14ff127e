import type { CuttingWay } from '../core/nest.ts'
import type { Shape } from '../core/plan-shapes.ts'
import { pound, say } from '../core/reading/show.ts'
import type { Reading, Shop } from '../core/shop.ts'

/** The trade's words for stock and what is left of it, as this shop says them. */
export interface Says {
  readonly stick: string
  readonly sticks: string
  readonly drop: string
  readonly drops: string
}

const words: Readonly<Record<Shop['says'], Says>> = {
  'stick and drop': { stick: 'stick', sticks: 'sticks', drop: 'drop', drops: 'drops' },
  'length and offcut': { stick: 'length', sticks: 'lengths', drop: 'offcut', drops: 'offcuts' },
}

export const saysOf = (shop: Shop): Says => words[shop.says]

/** How a bare number is read in this shop. */
export const unitsOf = (reading: Reading): 'in' | 'mm' => (reading.kind === 'mm' ? 'mm' : 'in')

/** What a shape's ends are called; the little picture stands beside it. */
export const shapeWords: Readonly<Record<Shape, string>> = {
  square: 'square',
  'ends opposed': 'ends opposed',
  'ends parallel': 'ends parallel',
  'ends leaning one way': 'ends leaning one way',
  'one end mitered': 'one end mitered',
  'ends crossed': 'ends a quarter turn apart',
}

/** What the ways of cutting are called. */
export const wayWords: Readonly<Record<CuttingWay, string>> = {
  'square first': 'square first',
  'from the stick': 'miter from the stick',
  paired: 'paired blanks',
}

/** `1 piece`, `3 pieces`. */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** What calipers read, finer than any tape: to a tenth of a millimeter or a thousandth of an inch. */
export const fine = ({ kind }: Reading): Reading =>
  kind === 'mm' ? { kind, step: 0.1 } : { kind: 'inch-decimal', places: 3 }

export const sayFine = (mm: number, reading: Reading): string => say(mm, fine(reading))

/** Kilograms as a number in the unit of the shop, to a gram or so. */
export const massIn = (kg: number, unit: 'lb' | 'kg'): number =>
  Number((unit === 'lb' ? kg / pound : kg).toFixed(3))
