import { type ReactNode, useState } from 'react'
import { mil, powderPerSquareMeter, squareMetersPerLiter, surfaceOf } from '../../core/finish/surface.ts'
import { closedTubes } from '../../core/finish/vents.ts'
import type { Frame } from '../../core/frame/frame.ts'
import { showMass, unitOf } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { Choice } from '../fields/choice.tsx'
import { NumberField } from '../fields/number-field.tsx'

const squareFoot = (12 * 25.4) ** 2 / 1e6
const gallon = 3.785411784

/** What a coat covers, and what it takes. */
export function Coating(props: { readonly frame: Frame; readonly shop: Shop; readonly children: ReactNode }) {
  const { frame, shop } = props
  const us = unitOf(shop.reading) === 'in'
  const [kind, setKind] = useState<'powder' | 'paint'>('powder')
  const [film, setFilm] = useState(us ? 2.5 : 65)
  const [gravity, setGravity] = useState(1.5)
  const [solids, setSolids] = useState(50)
  const [use, setUse] = useState(60)
  const area = surfaceOf(frame) / 1e6
  const microns = us ? film * mil * 1000 : film
  const powder = area * powderPerSquareMeter(microns, gravity, use / 100)
  const liters = area / squareMetersPerLiter(microns, solids / 100, use / 100)
  const closed = closedTubes(frame).length
  return (
    <section aria-labelledby="finish-coat">
      <h2 id="finish-coat">Coat</h2>
      <p className="finish-big">
        {us ? `${(area / squareFoot).toFixed(1)} ft²` : `${area.toFixed(2)} m²`}{' '}
        <small>outside surface, one copy</small>
      </p>
      <p className="warning">
        Paint, powder, solvent and acid: fresh air, nothing that sparks near spray, gloves and goggles for
        acid. The sheet that comes with the stuff comes first.
        {closed > 0 ? ' No closed tube goes into an oven or a galvanizing bath without its vent hole.' : ''}
      </p>
      <div className="finish-fields">
        <Choice
          label="What goes on"
          value={kind}
          options={[
            { value: 'powder', label: 'powder' },
            { value: 'paint', label: 'paint' },
          ]}
          onChange={setKind}
        />
        <NumberField
          label="Film"
          value={film}
          least={us ? 0.1 : 5}
          unit={us ? ' mil' : ' µm'}
          onChange={(value) => value !== undefined && setFilm(value)}
        />
        {kind === 'powder' ? (
          <NumberField
            label="Specific gravity"
            value={gravity}
            least={0.5}
            most={5}
            onChange={(value) => value !== undefined && setGravity(value)}
          />
        ) : (
          <NumberField
            label="Solids by volume"
            value={solids}
            least={1}
            most={100}
            unit=" %"
            onChange={(value) => value !== undefined && setSolids(value)}
          />
        )}
        <NumberField
          label="Share that stays on the steel"
          value={use}
          least={1}
          most={100}
          unit=" %"
          onChange={(value) => value !== undefined && setUse(value)}
        />
      </div>
      <p className="finish-big" role="status">
        {kind === 'powder'
          ? `${showMass(powder, shop.mass)} of powder`
          : us
            ? `${(liters / gallon).toFixed(2)} gal of paint`
            : `${liters.toFixed(2)} l of paint`}{' '}
        <small>an estimate</small>
      </p>
      {props.children}
    </section>
  )
}
