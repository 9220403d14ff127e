import { useState } from 'react'
import { dropText, sheetText } from '../../core/buy/order-text.ts'
import type { Bodies, SheetDrop } from '../../core/facts.ts'
import type { Shop } from '../../core/shop.ts'
import { inch } from '../../core/units.ts'
import { Count } from '../fields/count.tsx'
import { MmField } from '../fields/length-field.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { Thickness } from '../shop/sheets.tsx'
import { unitsOf } from '../words.ts'
import { sheetDropsOut } from './tables-out.ts'

interface DropsProps {
  readonly sheets: readonly SheetDrop[]
  readonly shop: Shop
  readonly onFound: (body: Bodies['sheetFound']) => void
  readonly onCorrect: (sheet: string, length: number, width: number) => void
  readonly onDiscard: (sheet: string) => void
}

/** Rests of sheet and plate that lie there: a top that fits one is not bought. */
export function SheetDrops(props: DropsProps) {
  const { sheets, shop } = props
  return (
    <section className="rack" aria-labelledby="sheet-drops-head">
      <h2 id="sheet-drops-head">Rests of sheet and plate</h2>
      {sheets.length === 0 && (
        <p className="dim">None. Put one in, and the buy list says which top or plate comes out of it.</p>
      )}
      <ul className="rack-list">
        {alike(sheets).map((group) => (
          <DropGroup key={group[0]!.id} {...props} group={group} />
        ))}
      </ul>
      {sheets.length > 0 && (
        <TakeTable name={shop.name} what="rests of sheet" table={() => sheetDropsOut(sheets, shop)} />
      )}
      <AddSheetDrop shop={shop} onFound={props.onFound} />
    </section>
  )
}

/** Rests alike together, the thickest and then the largest first. */
function alike(sheets: readonly SheetDrop[]): readonly (readonly SheetDrop[])[] {
  const groups = new Map<string, SheetDrop[]>()
  for (const drop of sheets.toSorted(
    (a, b) => b.thickness - a.thickness || b.length * b.width - a.length * a.width,
  )) {
    const key = `${drop.thickness} ${drop.length} ${drop.width}`
    groups.set(key, [...(groups.get(key) ?? []), drop])
  }
  return [...groups.values()]
}

function DropGroup(props: DropsProps & { readonly group: readonly SheetDrop[] }) {
  const { group, shop } = props
  const [correcting, setCorrecting] = useState(false)
  const one = group[0]!
  const { reading } = shop
  const name = `${sheetText(one.thickness, reading)}, ${dropText(one, reading)}`
  const of = group.length > 1 ? 'one ' : ''
  return (
    <li className="rack-line">
      <p>
        {group.length > 1 && <b>{group.length} × </b>}
        {name}
      </p>
      <div className="rack-keys">
        <button
          type="button"
          aria-expanded={correcting}
          aria-label={`Correct ${of}${name}`}
          onClick={() => setCorrecting(!correcting)}
        >
          Correct{of && ' one'}
        </button>
        <button type="button" aria-label={`Discard ${of}${name}`} onClick={() => props.onDiscard(one.id)}>
          Discard{of && ' one'}
        </button>
      </div>
      {correcting && (
        <div className="rack-fields">
          <MmField
            label="Real length"
            value={one.length}
            reading={reading}
            possible={{ over: 0 }}
            onChange={(mm) => mm !== undefined && props.onCorrect(one.id, mm, one.width)}
          />
          <MmField
            label="Real width"
            value={one.width}
            reading={reading}
            possible={{ over: 0 }}
            onChange={(mm) => mm !== undefined && props.onCorrect(one.id, one.length, mm)}
          />
        </div>
      )}
    </li>
  )
}

function AddSheetDrop({ shop, onFound }: Pick<DropsProps, 'shop' | 'onFound'>) {
  const { reading } = shop
  const usual = unitsOf(reading) === 'in' ? 0.0598 * inch : 1.5
  const [thickness, setThickness] = useState(shop.sheets?.[0]?.thickness ?? usual)
  const [length, setLength] = useState<number | undefined>()
  const [width, setWidth] = useState<number | undefined>()
  const [many, setMany] = useState(1)
  const whole = length !== undefined && width !== undefined
  const add = () => {
    if (!whole) return
    const body = { thickness, length: Math.max(length, width), width: Math.min(length, width) }
    for (let n = 0; n < many; n++) onFound(body)
    setLength(undefined)
    setWidth(undefined)
    setMany(1)
  }
  return (
    <details className="rack-add">
      <summary>Put in a rest of sheet</summary>
      <div className="rack-fields">
        <Thickness value={thickness} reading={reading} onChange={setThickness} />
        <MmField
          label="Sheet length"
          value={length}
          reading={reading}
          possible={{ over: 0 }}
          onChange={setLength}
        />
        <MmField
          label="Sheet width"
          value={width}
          reading={reading}
          possible={{ over: 0 }}
          onChange={setWidth}
        />
        <Count label="How many rests" value={many} most={200} onChange={setMany} />
        <div className="rack-keys">
          <button type="button" disabled={!whole} onClick={add}>
            Put it in
          </button>
        </div>
      </div>
    </details>
  )
}
