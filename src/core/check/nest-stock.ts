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
  readonly halfOf?: Mm | undefined
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
    const usual = kind.rack !== undefined || priced > 0 ? 0 : (kind.halfOf ?? kind.length)
    const name = nameOf({ ...kind, price: kind.price ?? usual })
    const count = kind.count ?? (kind.rack === undefined ? Number.POSITIVE_INFINITY : 1)
    left.set(name, (left.get(name) ?? 0) + count)
  }
  for (const stick of pricedAlike(sticks)) {
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
  faults.push(...stock.flatMap(halfFaults), ...pairFaults(sticks))
  const sum = sticks.reduce((all, { price }) => all + price, 0)
  if (!(Math.abs(sum - cost) <= sameLength))
    faults.push(
      `section ${sectionKey(section)}: a cost of ${plain(cost)} is stated; the sticks come to ${plain(sum)}`,
    )
  return faults
}

/** Every half at the price of its pair: that of the next half of the same stick, where it comes along for nothing. */
function pricedAlike(sticks: NestSection['sticks']): NestSection['sticks'] {
  return sticks.map((stick) => {
    if (stick.halfOf === undefined || stick.price !== 0) return stick
    const payer = sticks.find((each) => each.price > 0 && halvesName(each) === halvesName(stick))
    return { ...stick, price: payer?.price ?? 0 }
  })
}

const halvesName = ({ length, halfOf, ends }: Omit<Kind, 'price'>): string =>
  JSON.stringify([stepsDown(length), halfOf ?? null, ends.map(endName)])

/** Two halves and a cut are no longer than their stick. */
const halfFaults = ({ length, halfOf, rack, count }: NestSection['stock'][number]): string[] => {
  if (halfOf === undefined) return []
  const faults: string[] = []
  if (!(2 * length <= halfOf + sameLength))
    faults.push(`two halves of ${mm(length)} are longer than the ${mm(halfOf)} that they are cut from`)
  if (rack !== undefined) faults.push(`the rack piece ${rack} is offered as a half to be bought`)
  if (count !== undefined && count % 2 === 1)
    faults.push(`${count} halves of ${mm(halfOf)} are offered; they come in pairs`)
  return faults
}

/** Of halves alike one in two is paid, and of an odd number one more: a stick is bought whole. */
function pairFaults(sticks: NestSection['sticks']): string[] {
  const alike = new Map<string, { paid: number; along: number; halfOf: Mm }>()
  for (const stick of sticks) {
    if (stick.halfOf === undefined) continue
    const found = alike.get(halvesName(stick)) ?? { paid: 0, along: 0, halfOf: stick.halfOf }
    if (stick.price > 0) found.paid += 1
    else found.along += 1
    alike.set(halvesName(stick), found)
  }
  return [...alike.values()].flatMap(({ paid, along, halfOf }) =>
    // Where the stick itself costs nothing there is nothing to pay.
    paid === 0 || paid === Math.ceil((paid + along) / 2)
      ? []
      : [
          `${paid + along} halves of ${mm(halfOf)} are ${Math.ceil((paid + along) / 2)} sticks; ${paid} of them are paid`,
        ],
  )
}

const nameOf = ({ length, ends, rack, price, halfOf }: Kind): string =>
  JSON.stringify([stepsDown(length), rack ?? null, price, halfOf ?? null, ends.map((end) => endName(end))])

const endName = (end: StickEnd): string => (typeof end === 'string' ? end : `${end.p} ${end.q}`)
