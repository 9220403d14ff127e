import { useState } from 'react'
import type { Seam } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import type { WeldSetting } from '../../core/shop.ts'
import { nearestSetting, startingRange } from '../../core/weld/settings-book.ts'
import { useActions, useShop } from '../app.ts'
import { Choice } from '../fields/choice.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { TextField } from '../fields/text-field.tsx'

const sayRecord = (of: WeldSetting): string =>
  [
    `${of.volts} V`,
    `wire ${of.wire}`,
    `${of.wireSpeed} in/min of wire`,
    of.gas,
    ...(of.travel === undefined ? [] : [`travel ${of.travel} in/min`]),
    of.result,
    ...(of.note ? [of.note] : []),
  ].join(', ')

/** Settings for the seam at hand: the shop's nearest record, else a place to begin on scrap. */
export function Settings({ seam }: { readonly seam: Seam }) {
  const shop = useShop()
  const record = nearestSetting(shop.settings ?? [], seam.size, seam.class)
  const range = startingRange(seam.size)
  return (
    <details className="weld-settings">
      <summary>
        <span>Machine settings</span>
        <span className="dim">
          {record
            ? `worked here: ${record.volts} V, ${record.wireSpeed} in/min`
            : range
              ? 'none of this shop yet'
              : ''}
        </span>
      </summary>
      {record ? (
        <p>
          <b>
            This shop, {say(record.wall, shop.reading)} wall, {record.joint}:
          </b>{' '}
          {sayRecord(record)}.
        </p>
      ) : (
        <p>This shop has no record for this wall yet.</p>
      )}
      {range && (
        <p className="dim">
          A place to begin on scrap of the same wall, never an instruction: about {range.name},{' '}
          {range.volts[0]} to {range.volts[1]} V, wire {range.wire}
          {range.thin && `, ${range.thin[0]} to ${range.thin[1]} in/min of .030`}
          {range.thick && `, ${range.thick[0]} to ${range.thick[1]} in/min of .035`} (short-circuit, 75/25
          argon and CO2, mild steel). The chart in the machine’s lid and its manual come first.
        </p>
      )}
      <NewRecord seam={seam} before={record} />
    </details>
  )
}

function NewRecord({ seam, before }: { readonly seam: Seam; readonly before: WeldSetting | undefined }) {
  const shop = useShop()
  const { saveShop } = useActions()
  const [volts, setVolts] = useState<number | undefined>(before?.volts)
  const [wireSpeed, setWireSpeed] = useState<number | undefined>(before?.wireSpeed)
  const [travel, setTravel] = useState<number | undefined>(before?.travel)
  const [wire, setWire] = useState(before?.wire ?? '.030')
  const [gas, setGas] = useState(before?.gas ?? '75/25')
  const [result, setResult] = useState<WeldSetting['result']>('good')
  const [note, setNote] = useState('')
  const [kept, setKept] = useState(false)
  const keep = async () => {
    if (volts === undefined || wireSpeed === undefined) return
    const record: WeldSetting = {
      process: 'wire, short-circuit',
      wall: seam.size,
      joint: seam.class,
      wire,
      gas,
      volts,
      wireSpeed,
      ...(travel === undefined ? {} : { travel }),
      result,
      ...(note.trim() === '' ? {} : { note: note.trim() }),
    }
    const problems = await saveShop({ ...shop, settings: [...(shop.settings ?? []), record] })
    setKept(problems.length === 0)
  }
  return (
    <div className="weld-record">
      <NumberField label="Volts" value={volts} least={1} most={60} unit=" V" onChange={setVolts} />
      <NumberField
        label="Wire speed"
        value={wireSpeed}
        least={1}
        most={2000}
        unit=" in/min"
        onChange={setWireSpeed}
      />
      <NumberField
        label="Travel"
        optional
        value={travel}
        least={1}
        most={200}
        unit=" in/min"
        onChange={setTravel}
      />
      <TextField label="Wire" value={wire} onChange={setWire} />
      <TextField label="Gas" value={gas} onChange={setGas} />
      <Choice
        label="It went"
        value={result}
        options={[
          { value: 'good', label: 'good' },
          { value: 'fair', label: 'fair' },
          { value: 'bad', label: 'bad' },
        ]}
        onChange={setResult}
      />
      <TextField label="Note" optional value={note} onChange={setNote} />
      <button
        type="button"
        disabled={volts === undefined || wireSpeed === undefined}
        onClick={() => void keep()}
      >
        Keep in the settings book
      </button>
      <output>{kept ? 'Kept for this shop.' : ''}</output>
    </div>
  )
}
