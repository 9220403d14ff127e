import { dearest, type Model } from './model.ts'

/** What is still to be placed on what; `most` is how many sticks of each kind there are. */
interface Wanted {
  readonly model: Model
  readonly pricing: readonly number[]
  readonly demand: readonly number[]
  readonly box: { readonly most: readonly number[] }
}

/** Worth of one piece per item and of one more stick per kind, in shares of the dearest stick. */
export interface Prices {
  readonly worth: readonly number[]
  readonly kindWorth: readonly number[]
  /** What they prove, in the same shares. */
  readonly bound: number
}

/**
 * Worths without any pattern: every piece pays for its length on the cheapest stick. No fill is worth too much; `richest`
 * is what one of each kind can be worth at the most.
 */
export function evenPrices({
  model: { items, kinds },
  pricing,
  demand,
  box,
}: Wanted): Prices & { readonly richest: readonly number[] } {
  const scale = dearest(pricing)
  const perSize = Math.min(
    ...kinds.map(({ room }, kind) =>
      box.most[kind]! > 0 && room > 0 ? pricing[kind]! / scale / room : Number.POSITIVE_INFINITY,
    ),
  )
  const each = Number.isFinite(perSize) ? perSize : 0
  const worth = items.map(({ size }, item) => (demand[item]! > 0 ? each * size : 0))
  const bound = worth.reduce((sum, value, item) => sum + value * demand[item]!, 0)
  const richest = kinds.map(
    ({ room, uncut }) => each * Math.max(0, room, uncut === undefined ? 0 : items[uncut]!.size),
  )
  return { worth, kindWorth: kinds.map(() => 0), bound, richest }
}

/** So much of the first as `hold` says, the rest of the other. */
export function between(held: Prices, own: Prices, hold: number): Prices {
  const mixed = (a: readonly number[], b: readonly number[]) =>
    a.map((value, at) => hold * value + (1 - hold) * b[at]!)
  return { worth: mixed(held.worth, own.worth), kindWorth: mixed(held.kindWorth, own.kindWorth), bound: 0 }
}
