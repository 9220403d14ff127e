import { halfLength } from '../../core/buy/halves.ts'
import { sayMoney } from '../../core/buy/money.ts'
import { soldLength } from '../../core/buy/order-text.ts'
import { say } from '../../core/reading/show.ts'
import type { CarriedSection, Shop } from '../../core/shop.ts'
import { Flag } from '../fields/choice.tsx'
import { saysOf } from '../words.ts'

/** For the sections of this job that the supplier can cut: delivered whole or in halves. */
export function DeliveredInHalf(props: {
  readonly carried: readonly CarriedSection[]
  readonly shop: Shop
  readonly onChange: (carried: CarriedSection, wanted: boolean) => void
}) {
  const offered = props.carried.filter(({ inHalves, stock }) => inHalves && stock.length > 0)
  if (offered.length === 0) return null
  return (
    <section className="delivered" aria-labelledby="delivered-head">
      <h2 id="delivered-head">Delivered cut in half</h2>
      {offered.map((carried) => (
        <Flag
          key={carried.name}
          label={carried.name}
          hint={halvesHint(carried, props.shop)}
          value={carried.inHalves!.wanted}
          onChange={(wanted) => props.onChange(carried, wanted)}
        />
      ))}
      <p className="dim">
        “What other {saysOf(props.shop).sticks} would change” says what it changes. A{' '}
        {saysOf(props.shop).stick} is paid whole, also where one of its halves is not needed.
      </p>
    </section>
  )
}

/** `20 ft comes as two of 119 15/16 in: the cut takes 1/8 in and costs $3.00.` */
function halvesHint({ stock, inHalves }: CarriedSection, { reading, currency }: Shop): string {
  const { takes, cents } = inHalves!
  const each = stock.map(
    ({ length }) =>
      `${soldLength(length, reading)} comes as two of ${say(halfLength(length, takes), reading)}`,
  )
  return `${each.join(', ')}: the cut takes ${say(takes, reading)} and costs ${cents > 0 ? sayMoney(cents, currency) : 'nothing'}.`
}
