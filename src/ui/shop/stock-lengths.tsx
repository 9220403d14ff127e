import type { CarriedSection } from '../../core/shop.ts'
import { inch } from '../../core/units.ts'
import { MmField } from '../fields/length-field.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { unitsOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

type Stock = CarriedSection['stock']

/** Money is kept in whole cents and typed with two places. */
const cents = (money: number): number => Math.round(money * 100)

/** Lengths that a section is bought in; `plain` leaves out price and count. */
export function StockLengths(props: {
  readonly stock: Stock
  readonly shop: ShopPart['shop']
  readonly plain?: boolean
  /** A length without a price of its own has one by the section's rate. */
  readonly rated?: boolean
  readonly onChange: (stock: Stock) => void
}) {
  const { stock, shop } = props
  const replace = (at: number, next: Stock[number]) =>
    props.onChange(stock.map((old, index) => (index === at ? next : old)))
  const priced = stock.filter(({ price }) => price !== undefined).length
  return (
    <div className="stock-lengths">
      {stock.map((one, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a length has no name but its place in the list
        <div key={at} className={props.plain ? 'stock-length plain' : 'stock-length'}>
          <MmField
            label="Length"
            value={one.length}
            reading={shop.reading}
            possible={{ over: 0 }}
            onChange={(length) => length !== undefined && replace(at, { ...one, length })}
          />
          {!props.plain && (
            <>
              <NumberField
                label={`Price each, ${shop.currency}`}
                optional
                value={one.price === undefined ? undefined : one.price / 100}
                onChange={(money) => {
                  const { price: _, ...rest } = one
                  replace(at, money === undefined ? rest : { ...rest, price: cents(money) })
                }}
              />
              <NumberField
                label="Only so many"
                optional
                value={one.count}
                whole
                most={100_000}
                onChange={(n) => {
                  const { count: _, ...rest } = one
                  replace(at, n === undefined ? rest : { ...rest, count: n })
                }}
              />
            </>
          )}
          <button
            type="button"
            aria-label={`Take out length ${at + 1}`}
            onClick={() => props.onChange(stock.filter((_, index) => index !== at))}
          >
            ✕
          </button>
        </div>
      ))}
      {!props.rated && priced > 0 && priced < stock.length && (
        <p className="problem">Give a price for every length or for none, so that they can be compared.</p>
      )}
      <button
        type="button"
        onClick={() =>
          props.onChange([
            ...stock,
            { length: stock.at(-1)?.length ?? (unitsOf(shop.reading) === 'in' ? 240 * inch : 6000) },
          ])
        }
      >
        Add a length
      </button>
    </div>
  )
}
