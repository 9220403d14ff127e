import { usualTake } from '../../core/buy/halves.ts'
import type { CarriedSection } from '../../core/shop.ts'
import { Flag } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { saysOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

/** Whether the supplier cuts this section in half, for how much, and what the cut takes of the length. */
export function InHalvesFields(props: {
  readonly carried: CarriedSection
  readonly shop: ShopPart['shop']
  readonly onChange: (next: CarriedSection) => void
}) {
  const { carried, shop } = props
  const { inHalves } = carried
  const set = (some: Partial<NonNullable<CarriedSection['inHalves']>>) =>
    inHalves && props.onChange({ ...carried, inHalves: { ...inHalves, ...some } })
  const offer = (on: boolean) => {
    const { inHalves: _, ...rest } = carried
    props.onChange(on ? { ...rest, inHalves: { wanted: false, cents: 0, takes: usualTake } } : rest)
  }
  return (
    <>
      <Flag
        label="The supplier can cut it in half"
        hint="For a short truck or a small rack. Stock then has a switch for it, and says what it changes."
        value={inHalves !== undefined}
        onChange={offer}
      />
      {inHalves && (
        <>
          <NumberField
            label={`Price of a cut, ${shop.currency}`}
            value={inHalves.cents / 100}
            hint={`Added to each ${saysOf(shop).stick}.`}
            onChange={(money) => money !== undefined && set({ cents: Math.round(money * 100) })}
          />
          <MmField
            label="The cut takes"
            hint="Of the length; both halves are reckoned equal."
            value={inHalves.takes}
            reading={shop.reading}
            onChange={(takes) => takes !== undefined && set({ takes })}
          />
        </>
      )}
    </>
  )
}
