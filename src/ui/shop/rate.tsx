import { sayMoney } from '../../core/buy/money.ts'
import { soldLength } from '../../core/buy/order-text.ts'
import { pricedStock } from '../../core/buy/rate.ts'
import type { CarriedSection, Rate } from '../../core/shop.ts'
import { Choice } from '../fields/choice.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { saysOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

type Per = Rate['per'] | 'stick'

/** By what the supplier counts; the nest counts whole cents per stick, and what each length comes to is said. */
export function RateFields(props: {
  readonly carried: CarriedSection
  readonly shop: ShopPart['shop']
  readonly onChange: (next: CarriedSection) => void
}) {
  const { carried, shop } = props
  const { rate } = carried
  const choose = (per: Per) => {
    const { rate: _, ...rest } = carried
    props.onChange(per === 'stick' ? rest : { ...rest, rate: { per, cents: rate?.cents ?? 0 } })
  }
  return (
    <>
      <Choice<Per>
        label="The price is"
        value={rate?.per ?? 'stick'}
        options={[
          { value: 'stick', label: `per ${saysOf(shop).stick}` },
          { value: 'foot', label: 'per foot' },
          { value: 'meter', label: 'per meter' },
          { value: 'pound', label: 'per pound' },
          { value: 'kilogram', label: 'per kilogram' },
        ]}
        onChange={choose}
      />
      {rate && (
        <NumberField
          label={`Price per ${rate.per}, ${shop.currency}`}
          value={+(rate.cents / 100).toFixed(6)}
          hint={rateWords(carried, shop)}
          onChange={(money) =>
            money !== undefined &&
            props.onChange({ ...carried, rate: { ...rate, cents: +(money * 100).toFixed(4) } })
          }
        />
      )}
    </>
  )
}

/** What every length comes to: `20 ft: $62.00`. */
function rateWords(carried: CarriedSection, shop: ShopPart['shop']): string {
  const each = pricedStock(carried).map(
    ({ length, price = 0 }) => `${soldLength(length, shop.reading)}: ${sayMoney(price, shop.currency)}`,
  )
  const by = carried.rate?.per === 'pound' || carried.rate?.per === 'kilogram' ? 'Mass by formula; r' : 'R'
  return `${each.join(', ')}. ${by}ounded to the nearest cent for each ${saysOf(shop).stick}; a price of its own below comes first.`
}
