import type { CarriedSection } from '../shop.ts'
import { fromSteps, type Mm, stepsDown } from '../units.ts'
import { pricedStock } from './rate.ts'

/** A length as it is delivered: a whole stick, or one of its two halves, `price` then being that of the stick and its cut. */
export interface Delivered {
  readonly length: Mm
  readonly price?: number
  /** Halves where they are halves. */
  readonly count?: number
  readonly halfOf?: Mm
}

/** What the supplier's cut usually takes: a coarse band saw or a chop saw; common practice. */
export const usualTake: Mm = 3

/** Half of a stick after the supplier's cut, in whole steps down: each is as long at least. */
export const halfLength = (length: Mm, takes: Mm): Mm =>
  fromSteps(stepsDown(Math.max(0, (length - takes) / 2)))

/** The lengths that a section comes in, with prices: whole, or cut in half where the shop wants that. */
export const deliveredStock = (carried: CarriedSection): readonly Delivered[] => {
  const { inHalves } = carried
  const whole = pricedStock(carried)
  if (!inHalves?.wanted) return whole
  return whole.map(({ length, price, count }) => ({
    length: halfLength(length, inHalves.takes),
    halfOf: length,
    ...(price !== undefined && { price: price + inHalves.cents }),
    ...(count !== undefined && { count: 2 * count }),
  }))
}
