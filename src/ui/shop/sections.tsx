import { useState } from 'react'
import type { SectionGiven } from '../../core/job.ts'
import { say, showMass } from '../../core/reading/show.ts'
import { resolveSection } from '../../core/section/given.ts'
import { massPerLength } from '../../core/section/mass.ts'
import { sectionName } from '../../core/section/name.ts'
import { sectionKey } from '../../core/section/section.ts'
import type { CarriedSection, Reading } from '../../core/shop.ts'
import { Pick } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { OwnSection } from '../fields/section-field.tsx'
import { TextField } from '../fields/text-field.tsx'
import { unitsOf } from '../words.ts'
import { InHalvesFields } from './in-halves.tsx'
import { RateFields } from './rate.tsx'
import type { ShopPart } from './shop.tsx'
import { StockLengths } from './stock-lengths.tsx'

/** The sections that this shop carries, each with the lengths it is bought in. */
export function Sections({ shop, change }: ShopPart) {
  const { sections, reading } = shop
  const replace = (at: number, next: CarriedSection) =>
    change({ sections: sections.map((old, index) => (index === at ? next : old)) })
  return (
    <section className="shop-part" aria-labelledby="sections-head">
      <h2 id="sections-head">Sections carried</h2>
      {sections.length === 0 && (
        <p className="dim">None yet. A section that is not carried is bought in the usual lengths below.</p>
      )}
      {sections.map((carried, at) => (
        <details key={sectionKey(carried.section)} className="shop-item">
          <summary>
            <strong>{carried.name}</strong>
            <span className="dim">
              {sectionName(carried.section, reading)},{' '}
              {carried.stock.map(({ length }) => say(length, reading)).join(', ') || 'the usual lengths'}
            </span>
          </summary>
          <Carried
            carried={carried}
            shop={shop}
            onChange={(next) => replace(at, next)}
            onRemove={() => change({ sections: sections.filter((_, index) => index !== at) })}
          />
        </details>
      ))}
      <AddSection shop={shop} onAdd={(carried) => change({ sections: [...sections, carried] })} />
      <fieldset className="group usual">
        <legend>Usual lengths of all other sections</legend>
        <StockLengths
          stock={shop.usualLengths.map((length) => ({ length }))}
          shop={shop}
          plain
          onChange={(stock) => change({ usualLengths: stock.map(({ length }) => length) })}
        />
      </fieldset>
    </section>
  )
}

function Carried(props: {
  readonly carried: CarriedSection
  readonly shop: ShopPart['shop']
  readonly onChange: (next: CarriedSection) => void
  readonly onRemove: () => void
}) {
  const { carried, shop } = props
  const { section, measured } = carried
  const set = (some: Partial<CarriedSection>) => props.onChange({ ...carried, ...some })
  // Both sides of a square are one size; of another section the side that was not measured is as listed.
  const square = section.width === section.height
  const measure = (side: 'width' | 'height', mm: number | undefined) => {
    const { measured: before, ...rest } = carried
    if (mm === undefined) return props.onChange(rest)
    const listed = square ? { width: mm, height: mm } : { width: section.width, height: section.height }
    props.onChange({ ...rest, measured: { ...listed, ...before, [side]: mm } })
  }
  return (
    <div className="shop-fields">
      <TextField label="Name" value={carried.name} onChange={(name) => set({ name })} />
      {shop.saws.length > 1 && (
        <Pick
          label="Usually cut on"
          options={shop.saws.map(({ id, name }) => ({ value: id, label: name }))}
          value={carried.saw ?? shop.saws[0]!.id}
          onChange={(saw) => set({ saw })}
        />
      )}
      <MmField
        label="Width of this delivery, measured"
        optional
        hint="A 40 may be 40.5; stops with the long side outward follow it."
        value={measured?.width}
        reading={shop.reading}
        possible={{ over: 0 }}
        onChange={(mm) => measure('width', mm)}
      />
      <MmField
        label="Height of this delivery, measured"
        optional
        value={measured?.height}
        reading={shop.reading}
        possible={{ over: 0 }}
        onChange={(mm) => measure('height', mm)}
      />
      <p className="dim">{massWords(carried, shop.reading, shop.mass)}</p>
      <fieldset className="group">
        <legend>Lengths it is bought in</legend>
        <RateFields carried={carried} shop={shop} onChange={props.onChange} />
        <StockLengths
          stock={carried.stock}
          shop={shop}
          rated={carried.rate !== undefined}
          onChange={(stock) => set({ stock })}
        />
        <InHalvesFields carried={carried} shop={shop} onChange={props.onChange} />
      </fieldset>
      <p>
        <button type="button" onClick={props.onRemove}>
          Carry {carried.name} no longer
        </button>
      </p>
    </div>
  )
}

/** Mass per foot or per meter by formula, and the corner it is reckoned with. */
function massWords({ section }: CarriedSection, reading: Reading, unit: 'lb' | 'kg'): string {
  const inches = unitsOf(reading) === 'in'
  const per = inches ? 0.3048 : 1
  const corner = section.cornerRadius > 0 ? `, outside corner ${+section.cornerRadius.toFixed(2)} mm` : ''
  return `${showMass(massPerLength(section) * per, unit)} per ${inches ? 'foot' : 'meter'} by formula${corner}.`
}

function AddSection(props: {
  readonly shop: ShopPart['shop']
  readonly onAdd: (carried: CarriedSection) => void
}) {
  const { shop } = props
  const units = unitsOf(shop.reading)
  const start: SectionGiven =
    units === 'in'
      ? { kind: 'square-tube', width: '2', wall: '1/8' }
      : { kind: 'square-tube', width: 40, wall: 3 }
  const [open, setOpen] = useState(false)
  const [given, setGiven] = useState<SectionGiven>(start)
  const resolved = resolveSection(given, units)
  const twice =
    resolved.ok && shop.sections.some(({ section }) => sectionKey(section) === sectionKey(resolved.value))
  if (!open)
    return (
      <p>
        <button type="button" onClick={() => setOpen(true)}>
          Add a section
        </button>
      </p>
    )
  return (
    <div className="add-section">
      <OwnSection value={given} reading={shop.reading} units={units} onChange={setGiven} />
      {!resolved.ok && (
        <p className="problem" role="alert">
          {resolved.problems[0]?.text}
        </p>
      )}
      {twice && <p className="problem">This section is carried already.</p>}
      <p className="keys-row">
        <button
          type="button"
          className="go"
          disabled={!resolved.ok || twice}
          onClick={() => {
            if (!resolved.ok) return
            props.onAdd({
              section: resolved.value,
              name: sectionName(resolved.value, shop.reading),
              stock: shop.usualLengths.map((length) => ({ length })),
            })
            setOpen(false)
            setGiven(start)
          }}
        >
          Carry {resolved.ok ? sectionName(resolved.value, shop.reading) : 'it'}
        </button>
        <button type="button" onClick={() => setOpen(false)}>
          Not now
        </button>
      </p>
    </div>
  )
}
