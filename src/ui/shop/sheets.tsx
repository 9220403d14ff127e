import { sheetText } from '../../core/buy/order-text.ts'
import { say } from '../../core/reading/show.ts'
import { resolveSheet } from '../../core/section/given.ts'
import type { CarriedSheet, Reading } from '../../core/shop.ts'
import { inch } from '../../core/units.ts'
import { MmField } from '../fields/length-field.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { TypedField } from '../fields/typed-field.tsx'
import { unitsOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

/** Usual sizes to begin with: 4 × 8 ft of 16 ga, 2500 × 1250 mm of 1.5; common practice. */
const start = (units: 'in' | 'mm'): CarriedSheet =>
  units === 'in'
    ? { thickness: 0.0598 * inch, length: 96 * inch, width: 48 * inch }
    : { thickness: 1.5, length: 2500, width: 1250 }

/** Sheet and plate that this shop carries: the buy list says which of them a top comes out of. */
export function Sheets({ shop, change }: ShopPart) {
  const sheets = shop.sheets ?? []
  const replace = (at: number, next: CarriedSheet) =>
    change({ sheets: sheets.map((old, index) => (index === at ? sized(next) : old)) })
  return (
    <section className="shop-part" aria-labelledby="sheets-head">
      <h2 id="sheets-head">Sheet and plate carried</h2>
      <p className="dim">
        Tops and other plates are looked for in these; the buy list says which one, or what size it takes.
      </p>
      <div className="stock-lengths">
        {sheets.map((sheet, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a sheet has no name but its place in the list
          <Sheet key={at} at={at} sheet={sheet} shop={shop} onChange={(next) => replace(at, next)}>
            <button
              type="button"
              aria-label={`Take out sheet ${at + 1}, ${sheetText(sheet.thickness, shop.reading)}`}
              onClick={() => change({ sheets: sheets.filter((_, index) => index !== at) })}
            >
              ✕
            </button>
          </Sheet>
        ))}
        <button
          type="button"
          onClick={() => change({ sheets: [...sheets, sheets.at(-1) ?? start(unitsOf(shop.reading))] })}
        >
          Add a sheet
        </button>
      </div>
    </section>
  )
}

/** The greater side is the length, whichever was typed first. */
const sized = (sheet: CarriedSheet): CarriedSheet => ({
  ...sheet,
  length: Math.max(sheet.length, sheet.width),
  width: Math.min(sheet.length, sheet.width),
})

function Sheet(props: {
  readonly at: number
  readonly sheet: CarriedSheet
  readonly shop: ShopPart['shop']
  readonly onChange: (next: CarriedSheet) => void
  readonly children: React.ReactNode
}) {
  const { sheet, shop, onChange } = props
  const { reading } = shop
  const side = (name: 'length' | 'width', label: string) => (
    <MmField
      label={label}
      value={sheet[name]}
      reading={reading}
      possible={{ over: 0 }}
      onChange={(mm) => mm !== undefined && onChange({ ...sheet, [name]: mm })}
    />
  )
  return (
    <fieldset className="stock-length sheet">
      <legend className="heard">Sheet {props.at + 1}</legend>
      <Thickness
        value={sheet.thickness}
        reading={reading}
        onChange={(thickness) => onChange({ ...sheet, thickness })}
      />
      {side('length', 'Sheet length')}
      {side('width', 'Sheet width')}
      <NumberField
        label={`Price each, ${shop.currency}`}
        optional
        value={sheet.price === undefined ? undefined : sheet.price / 100}
        onChange={(money) => {
          const { price: _, ...rest } = sheet
          onChange(money === undefined ? rest : { ...rest, price: Math.round(money * 100) })
        }}
      />
      <NumberField
        label="Only so many"
        optional
        value={sheet.count}
        whole
        most={100_000}
        onChange={(n) => {
          const { count: _, ...rest } = sheet
          onChange(n === undefined ? rest : { ...rest, count: n })
        }}
      />
      {props.children}
    </fieldset>
  )
}

/** A length, or a gauge of sheet: `16 ga` is 0.0598 in here, and 0.065 in as the wall of a tube. */
export function Thickness(props: {
  readonly value: number
  readonly reading: Reading
  readonly onChange: (mm: number) => void
}) {
  const { value, reading, onChange } = props
  const units = unitsOf(reading)
  const shown = sheetText(value, reading)
  return (
    <TypedField
      label="Thickness"
      keypad={units}
      unit={units}
      value={shown.endsWith(` ${units}`) ? shown.slice(0, -1 - units.length) : shown}
      read={(text) => {
        const thick = resolveSheet(text, units)
        return thick.ok ? { ok: true, value: say(thick.value, precise[units]) } : thick
      }}
      onChange={(text) => {
        const thick = resolveSheet(text, units)
        if (thick.ok) onChange(thick.value)
      }}
    />
  )
}

const precise = {
  in: { kind: 'inch-decimal', places: 3 },
  mm: { kind: 'mm', step: 0.1 },
} as const
