import { useState } from 'react'
import { tickName } from '../../core/facts/fold.ts'
import type { Bodies } from '../../core/facts.ts'
import { sayMachine } from '../../core/finish/record.ts'
import type { Seam } from '../../core/plan-shapes.ts'
import { wallName } from '../../core/section/name.ts'
import type { WeldSetting } from '../../core/shop.ts'
import { nearestSetting, processes, startingRange, usualProcess } from '../../core/weld/settings-book.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { Choice, Pick } from '../fields/choice.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { TextField } from '../fields/text-field.tsx'

/** What this copy was welded with, for the build record: the record less how it went there. */
const setTo = ({ result: _result, ...record }: WeldSetting, seam: Seam): Bodies['setTo'] => ({
  ...record,
  wall: seam.size,
  joint: seam.class,
})

/** Settings for the seam at hand: the shop's nearest record, else a place to begin on scrap. */
export function Settings(props: { readonly seam: Seam; readonly job: string; readonly copy: number }) {
  const { seam, job, copy } = props
  const shop = useShop()
  const { setMachine } = useActions()
  const used = useApp((state) => state.progress.settings[tickName(job, copy, `${seam.class}, ${seam.size}`)])
  const record = nearestSetting(shop.settings ?? [], seam.size, seam.class)
  const range = startingRange(seam.size)
  return (
    <details className="weld-settings">
      <summary>
        <span>Machine settings</span>
        <span className="dim">
          {used
            ? `set to ${used.volts} V, ${used.wireSpeed} in/min`
            : record
              ? `worked here: ${record.volts} V, ${record.wireSpeed} in/min`
              : range
                ? 'none of this shop yet'
                : ''}
        </span>
      </summary>
      {used && (
        <p>
          <b>This one is welded with:</b> {sayMachine(used)}.
        </p>
      )}
      {record ? (
        <>
          <p>
            <b>
              This shop, {wallName(record.wall, shop.reading)} wall, {record.joint}, it went {record.result}:
            </b>{' '}
            {sayMachine(record)}.
          </p>
          <button type="button" onClick={() => void setMachine(job, copy, setTo(record, seam))}>
            I weld with these
          </button>
        </>
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
      <NewRecord seam={seam} before={used ?? record} job={job} copy={copy} />
    </details>
  )
}

function NewRecord(props: {
  readonly seam: Seam
  readonly before: Bodies['setTo'] | undefined
  readonly job: string
  readonly copy: number
}) {
  const { seam, before, job, copy } = props
  const shop = useShop()
  const { saveShop, setMachine } = useActions()
  const [volts, setVolts] = useState<number | undefined>(before?.volts)
  const [wireSpeed, setWireSpeed] = useState<number | undefined>(before?.wireSpeed)
  const [travel, setTravel] = useState<number | undefined>(before?.travel)
  const [process, setProcess] = useState(before?.process ?? usualProcess)
  const [wire, setWire] = useState(before?.wire ?? '.030')
  const [gas, setGas] = useState(before?.gas ?? '75/25')
  const [result, setResult] = useState<WeldSetting['result']>('good')
  const [note, setNote] = useState('')
  const [kept, setKept] = useState(false)
  const keep = async () => {
    if (volts === undefined || wireSpeed === undefined) return
    const record: WeldSetting = {
      process,
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
    const problems = await saveShop({ ...shop, settings: [...(shop.settings ?? []), record] }, shop)
    await setMachine(job, copy, setTo(record, seam))
    setKept(problems.length === 0)
  }
  return (
    <div className="weld-record">
      <Pick
        label="Process"
        value={process}
        options={[...new Set([...processes, process])].map((value) => ({ value, label: value }))}
        onChange={setProcess}
      />
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
      <output>{kept ? 'Kept for this shop, and in the record of this job.' : ''}</output>
    </div>
  )
}
