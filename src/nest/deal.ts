import type { Row } from './angled.ts'
import type { Bundle, Model } from './model.ts'

// The search does not tell alike pieces apart; here each gets its own name again, in the order of the problem.

/** Deals out what an item stands for, one bundle at each call. */
export function openHand({ items }: Model): (item: number) => Bundle {
  const places = items.map(() => ({ bundle: 0, times: 0 }))
  return (item) => {
    const place = places[item]!
    const { bundles } = items[item]!
    while (place.times >= bundles[place.bundle]!.times) {
      place.bundle += 1
      place.times = 0
    }
    place.times += 1
    return bundles[place.bundle]!
  }
}

/** Rows whose pieces all lie there as the first of their like, with the parts that they are. */
export function dealt(model: Model, rows: readonly Row[]): Row[] {
  const hand = openHand(model)
  return rows.map(({ stock, pieces }) => {
    const parts = new Map<number, number[]>()
    for (const [item, { bundles }] of model.items.entries()) {
      const first = bundles[0]!.pieces
      const lying = pieces.filter(({ part }) => part === first[0]!.part).length
      for (let dealtOut = 0; dealtOut < lying; dealtOut += first[0]!.count)
        for (const [at, { part, count }] of hand(item).pieces.entries()) {
          const like = first[at]!.part
          parts.set(like, [...(parts.get(like) ?? []), ...Array<number>(count).fill(part)])
        }
    }
    return { stock, pieces: pieces.map((piece) => ({ ...piece, part: parts.get(piece.part)!.shift()! })) }
  })
}
