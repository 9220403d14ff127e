import type { NestSection, StickEnd } from '../nest.ts'
import { sectionKey } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import { type Mm, stepsDown } from '../units.ts'
import { mm, plain } from './words.ts'

interface Kind {
  readonly length: Mm
  readonly ends: readonly [StickEnd, StickEnd]
  readonly rack?: string | undefined
  readonly price: number
}

/** Every stick is one that was offered, at its price, no more often than offered; their prices make the cost. */
export function stockFaults({ section, stock, sticks, cost }: NestSection): string[] {
  const faults: string[] = []
  const bought = stock.filter(({ rack }) => rack === undefined)
  const priced = bought.filter(({ price }) => price !== undefined).length
  if (priced > 0 && priced < bought.length)
    faults.push(
      `section ${sectionKey(section)}: some of the stock to be bought has a price and some has none`,
    )
  const left = new Map<string, number>()
  for (const kind of stock) {
    // Without any price cost is the length bought; what lies on the rack is worth 0 unless said.
    const usual = kind.rack !== undefined || priced > 0 ? 0 : kind.length
    const name = nameOf({ ...kind, price: kind.price ?? usual })
    const count = kind.count ?? (kind.rack === undefined ? Number.POSITIVE_INFINITY : 1)
    left.set(name, (left.get(name) ?? 0) + count)
  }
  for (const stick of sticks) {
    if ((stick.from === 'rack') !== (stick.rack !== undefined))
      faults.push(
        `stick ${stick.id}: is said to be from ${stick.from}, but names ${stick.rack ?? 'no rack piece'}`,
      )
    const name = nameOf(stick)
    const count = left.get(name)
    const words = `${mm(stick.length)}${stick.rack === undefined ? '' : ` (rack ${stick.rack})`} at ${plain(stick.price)}`
    if (count === undefined)
      faults.push(`stick ${stick.id}: ${words} is not in the stock offered, with these ends`)
    else if (count < 1) faults.push(`stick ${stick.id}: ${words} is used more often than it is there`)
    if (count !== undefined) left.set(name, count - 1)
  }
  const sum = sticks.reduce((all, { price }) => all + price, 0)
  if (!(Math.abs(sum - cost) <= sameLength))
    faults.push(
      `section ${sectionKey(section)}: a cost of ${plain(cost)} is stated; the sticks come to ${plain(sum)}`,
    )
  return faults
}

const nameOf = ({ length, ends, rack, price }: Kind): string =>
  JSON.stringify([stepsDown(length), rack ?? null, price, ends.map((end) => endName(end))])

const endName = (end: StickEnd): string => (typeof end === 'string' ? end : `${end.p} ${end.q}`)
