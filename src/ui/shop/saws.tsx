import { kerfOf } from '../../core/parts/demand.ts'
import type { Blade, Saw } from '../../core/shop.ts'
import { Choice, Flag, Pick } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { TextField } from '../fields/text-field.tsx'
import type { ShopPart } from './shop.tsx'

/** An id that none of the others has: `saw-3`. */
export function freeId(kind: string, taken: readonly { readonly id: string }[]): string {
  let n = taken.length + 1
  while (taken.some(({ id }) => id === `${kind}-${n}`)) n += 1
  return `${kind}-${n}`
}

/** The saws: what a set-up must know of each. */
export function Saws({ shop, change }: ShopPart) {
  const { saws } = shop
  const replace = (saw: Saw) => change({ saws: saws.map((old) => (old.id === saw.id ? saw : old)) })
  const add = () => {
    const like = saws.at(-1)
    if (like)
      change({ saws: [...saws, { ...like, id: freeId('saw', saws), name: `Saw ${saws.length + 1}` }] })
  }
  return (
    <section className="shop-part" aria-labelledby="saws-head">
      <h2 id="saws-head">Saws</h2>
      {saws.map((saw, at) => (
        <details key={saw.id} className="shop-item" open={saws.length === 1}>
          <summary>
            <strong>{saw.name}</strong>
            <span className="dim">
              stop on the {saw.stopSide}, {saw.swings} swings
              {at === 0 && saws.length > 1 && ', the usual one'}
            </span>
          </summary>
          <SawFields saw={saw} reading={shop.reading} onChange={replace} />
          {saws.length > 1 && (
            <button
              type="button"
              onClick={() =>
                change({
                  saws: saws.filter(({ id }) => id !== saw.id),
                  sections: shop.sections.map(({ saw: usual, ...rest }) =>
                    usual === undefined || usual === saw.id ? rest : { ...rest, saw: usual },
                  ),
                })
              }
            >
              Take {saw.name} out
            </button>
          )}
        </details>
      ))}
      <p>
        <button type="button" onClick={add}>
          Add a saw
        </button>
      </p>
    </section>
  )
}

function SawFields(props: {
  readonly saw: Saw
  readonly reading: ShopPart['shop']['reading']
  readonly onChange: (saw: Saw) => void
}) {
  const { saw, reading } = props
  const set = (some: Partial<Saw>) => props.onChange({ ...saw, ...some })
  const limit = (some: Partial<Saw['limits']>) => set({ limits: { ...saw.limits, ...some } })
  const minute = (some: Partial<Saw['minutes']>) => set({ minutes: { ...saw.minutes, ...some } })
  return (
    <div className="shop-fields">
      <TextField label="Name" value={saw.name} onChange={(name) => set({ name })} />
      <Choice
        label="The stop stands, facing the fence, on the"
        options={[
          { value: 'left', label: 'left' },
          { value: 'right', label: 'right' },
        ]}
        value={saw.stopSide}
        onChange={(stopSide) => set({ stopSide })}
      />
      <Choice
        label="For a miter there swings the"
        options={[
          { value: 'head', label: 'head' },
          { value: 'vise', label: 'vise' },
        ]}
        value={saw.swings}
        onChange={(swings) => set({ swings })}
      />
      <Choice
        label="At a square cut the scale reads"
        options={[
          { value: '0', label: '0°' },
          { value: '90', label: '90°' },
        ]}
        value={saw.readsAtSquare === 90 ? '90' : '0'}
        onChange={(reads) => set({ readsAtSquare: reads === '90' ? 90 : 0 })}
      />
      <Choice
        label="The vise holds"
        hint="Where the rest behind the blade is scrap, the piece on the stop’s side must be held."
        options={[
          { value: 'stick', label: 'the stick’s side' },
          { value: 'stop', label: 'the stop’s side' },
          { value: 'both', label: 'both' },
        ]}
        value={saw.viseHolds}
        onChange={(viseHolds) => set({ viseHolds })}
      />
      <MmField
        label="Least to hold"
        hint="The shortest piece that the vise grips safely; see the machine’s manual."
        value={saw.leastToHold}
        reading={reading}
        onChange={(mm) => mm !== undefined && set({ leastToHold: mm })}
      />
      <MmField
        label="Clean-up cut of a mill end"
        hint="What comes off a new end, the kerf included. 0 for none."
        value={saw.cleanUp}
        reading={reading}
        possible={{ least: kerfOf(saw), orNone: true, why: 'the kerf of the blade is taken off with it' }}
        onChange={(mm) => mm !== undefined && set({ cleanUp: mm })}
      />
      <Choice
        label="Square cuts of equal tube, side by side"
        hint="As many as the vise holds, all of them. Miters are never cut so: the long point would move. One on the other they may be; the plan counts them one by one."
        options={(['1', '2', '3', '4'] as const).map((value) => ({
          value,
          label: value === '1' ? 'one at a time' : value,
        }))}
        value={String(saw.gang ?? 1) as '1' | '2' | '3' | '4'}
        onChange={(gang) => set({ gang: Number(gang) })}
      />
      <Flag
        label="Compound cuts from a cradle"
        hint="A block that holds the stick rolled about its length, so that one miter makes the cut."
        value={saw.cradle ?? true}
        onChange={(cradle) => set({ cradle })}
      />
      <Flag
        label="Compound cuts on a wedge"
        hint="One end of a blank raised, its faces flat in the vise."
        value={saw.ramp ?? true}
        onChange={(ramp) => set({ ramp })}
      />
      <fieldset className="group">
        <legend>Limits</legend>
        <NumberField
          label="Greatest miter, far end of the blade toward the stop"
          value={saw.limits.towardStop}
          most={89}
          unit="°"
          onChange={(deg) => deg !== undefined && limit({ towardStop: deg })}
        />
        <NumberField
          label="Greatest miter, far end of the blade away from the stop"
          value={saw.limits.awayFromStop}
          most={89}
          unit="°"
          onChange={(deg) => deg !== undefined && limit({ awayFromStop: deg })}
        />
        <NumberField
          label="Greatest bevel (0: it does not tilt)"
          value={saw.limits.bevel}
          most={89}
          unit="°"
          onChange={(deg) => deg !== undefined && limit({ bevel: deg })}
        />
        <MmField
          label="Longest stop"
          value={saw.limits.longestStop}
          reading={reading}
          possible={{ over: 0 }}
          onChange={(mm) => mm !== undefined && limit({ longestStop: mm })}
        />
      </fieldset>
      <Blades saw={saw} reading={reading} onChange={set} />
      <fieldset className="group">
        <legend>Minutes, for the order of work</legend>
        {(
          [
            ['head', 'To change the head angle'],
            ['stop', 'To move the stop'],
            ['load', 'To load a stick'],
            ['turn', 'To turn it'],
            ['cut', 'For a cut'],
          ] as const
        ).map(([name, label]) => (
          <NumberField
            key={name}
            label={label}
            value={saw.minutes[name]}
            most={600}
            unit=" min"
            onChange={(value) => value !== undefined && minute({ [name]: value })}
          />
        ))}
      </fieldset>
    </div>
  )
}

function Blades(props: {
  readonly saw: Saw
  readonly reading: ShopPart['shop']['reading']
  readonly onChange: (some: { readonly blades: readonly Blade[]; readonly blade: string }) => void
}) {
  const { blades, blade, cleanUp } = props.saw
  const replace = (next: Blade) =>
    props.onChange({ blades: blades.map((old) => (old.id === next.id ? next : old)), blade })
  const remove = (id: string) => {
    const left = blades.filter((one) => one.id !== id)
    props.onChange({ blades: left, blade: blade === id ? (left[0]?.id ?? blade) : blade })
  }
  return (
    <fieldset className="group">
      <legend>Blades</legend>
      {blades.length > 1 && (
        <Pick
          label="On the saw now"
          options={blades.map(({ id, name }) => ({ value: id, label: name }))}
          value={blade}
          onChange={(id) => props.onChange({ blades, blade: id })}
        />
      )}
      {blades.map((one) => (
        <div key={one.id} className="blade">
          <TextField label="Blade" value={one.name} onChange={(name) => replace({ ...one, name })} />
          <MmField
            label="Kerf"
            value={one.kerf}
            reading={props.reading}
            possible={{
              over: 0,
              ...(cleanUp > 0 &&
                one.id === blade && { most: cleanUp, why: 'the clean-up cut of a mill end takes it' }),
            }}
            onChange={(kerf) => kerf !== undefined && replace({ ...one, kerf })}
          />
          {blades.length > 1 && (
            <button type="button" aria-label={`Take ${one.name} out`} onClick={() => remove(one.id)}>
              ✕
            </button>
          )}
        </div>
      ))}
      <button
        type="button"
        onClick={() => {
          const like = blades.at(-1)
          const next = {
            id: freeId('blade', blades),
            name: `Blade ${blades.length + 1}`,
            kerf: like?.kerf ?? 2.5,
          }
          props.onChange({ blades: [...blades, next], blade })
        }}
      >
        Add a blade
      </button>
    </fieldset>
  )
}
