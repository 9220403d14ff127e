import { soldLength } from '../../core/buy/order-text.ts'
import { unitOf } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import { startInUnit } from '../../core/shop-start.ts'
import { Choice, Flag, Pick } from '../fields/choice.tsx'
import { TextField } from '../fields/text-field.tsx'
import type { ShopPart } from './shop.tsx'

const readings: readonly { readonly value: string; readonly label: string; readonly reading: Reading }[] = [
  ...([8, 16, 32, 64] as const).map((denominator) => ({
    value: `in/${denominator}`,
    label: `inches, to 1/${denominator}`,
    reading: { kind: 'inch-fraction', denominator } as const,
  })),
  ...([2, 3] as const).map((places) => ({
    value: `in.${places}`,
    label: `decimal inches, to ${places === 2 ? '0.01' : '0.001'}`,
    reading: { kind: 'inch-decimal', places } as const,
  })),
  ...([1, 0.5, 0.1] as const).map((step) => ({
    value: `mm${step}`,
    label: `millimeters, to ${step}`,
    reading: { kind: 'mm', step } as const,
  })),
]

const nameOf = (reading: Reading): string =>
  readings.find((one) => JSON.stringify(one.reading) === JSON.stringify(reading))?.value ?? readings[1]!.value

/** How lengths are read and said here, and how the screens stand. */
export function ReadingAndWords({ shop, change }: ShopPart) {
  return (
    <section className="shop-part" aria-labelledby="reading-head">
      <h2 id="reading-head">Reading and words</h2>
      <div className="shop-fields">
        <TextField label="Name of the shop" value={shop.name} onChange={(name) => change({ name })} />
        <Pick
          label="Lengths are read in"
          options={readings}
          value={nameOf(shop.reading)}
          hint="As fine as the tape and the stop are read. Lengths are rounded once, at the end."
          onChange={(value) => {
            const found = readings.find((one) => one.value === value)
            if (found) change({ reading: found.reading })
          }}
        />
        <OtherUnit shop={shop} change={change} />
        <Choice
          label="What comes from the mill, and what is left of it"
          options={[
            { value: 'stick and drop', label: 'stick, drop' },
            { value: 'length and offcut', label: 'length, offcut' },
          ]}
          value={shop.says}
          onChange={(says) => change({ says })}
        />
        <Choice
          label="Mass in"
          options={[
            { value: 'lb', label: 'pounds' },
            { value: 'kg', label: 'kilograms' },
          ]}
          value={shop.mass}
          onChange={(mass) => change({ mass })}
        />
        <TextField
          label="Sign of the money"
          value={shop.currency}
          onChange={(currency) => change({ currency })}
        />
        <Choice
          label="Paper"
          options={[
            { value: 'Letter', label: 'Letter' },
            { value: 'A4', label: 'A4' },
          ]}
          value={shop.paper}
          onChange={(paper) => change({ paper })}
        />
        <Choice
          label="The main button stands at the thumb of the"
          options={[
            { value: 'left', label: 'left hand' },
            { value: 'right', label: 'right hand' },
          ]}
          value={shop.hand}
          onChange={(hand) => change({ hand })}
        />
        <Flag
          label="Daylight: black on white, heavy lines"
          value={shop.daylight}
          onChange={(daylight) => change({ daylight })}
        />
      </div>
    </section>
  )
}

/** Figures that nobody has changed yet may begin again in the unit that was chosen. */
function OtherUnit({ shop, change }: ShopPart) {
  const start = startInUnit(shop)
  if (!start) return null
  const [before, now] = unitOf(shop.reading) === 'in' ? ['mm', 'inches'] : ['inches', 'mm']
  const lengths = (start.usualLengths ?? []).map((length) => soldLength(length, shop.reading)).join(' and ')
  return (
    <div className="other-unit">
      <p>
        Bought lengths, kerf and the rest still stand as they began in {before}. In {now} they begin with{' '}
        {lengths}, and with paper, mass and words to match.
      </p>
      <button type="button" onClick={() => change(start)}>
        Begin in {now}
      </button>
    </div>
  )
}
