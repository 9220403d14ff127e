import { feetOf, footPlate } from '../../core/finish/floor.ts'
import { leveling } from '../../core/finish/leveling.ts'
import { say } from '../../core/reading/show.ts'
import { MmField } from '../fields/length-field.tsx'
import type { Bench } from './will-it-close.tsx'

export const footName = (at: number): string => `foot:${at + 1}`

/** Level: by how much each foot hangs over the flat table, against what the leveling feet can do. */
export function Level({ bench }: { readonly bench: Bench }) {
  const { plan, shop, measured, onGauge } = bench
  const { reading } = shop
  const feet = feetOf(plan.frame)
  if (!plan.leveler || feet.length === 0) return null
  const { least, most, setting } = plan.leveler
  const plate = footPlate(plan.frame)
  const gaps = feet.map((_, at) => measured(footName(at)))
  const known = gaps.filter((mm) => mm !== undefined)
  const set = known.length === feet.length ? leveling(known, least, most) : undefined
  return (
    <section className="fit-part" aria-labelledby="fit-level">
      <h2 id="fit-level">{plate ? `Does the ${plate} lie flat?` : 'Do the feet stand level?'}</h2>
      <p className="dim">
        Before the leveling feet are in: stand it on the flat table and measure the gap under{' '}
        {plate ? `the ${plate} at each of its holes` : 'each foot'}; 0 where it touches. The leveling feet
        reach from {say(least, reading)} to {say(most, reading)}, planned at {say(setting, reading)}.
      </p>
      <div className="fit-fields">
        {gaps.map((gap, at) => (
          <MmField
            key={footName(at)}
            label={`Gap at ${plate ? 'hole' : 'foot'} ${at + 1}, ${feet[at]!.lies}`}
            optional
            value={gap}
            reading={reading}
            onChange={(mm) => onGauge(footName(at), mm)}
          />
        ))}
      </div>
      {!set ? (
        <p>Measure all {feet.length} to know.</p>
      ) : set.beyond.length > 0 ? (
        <p role="status" className="fit-says state now">
          Foot {set.beyond.join(', ')} cannot reach: the gaps differ by more than the{' '}
          {say(most - least, reading)} that the feet can do.{' '}
          {plate
            ? `Straighten the ${plate}, or shim under that foot.`
            : 'Mend the leg or shim its cap before it is welded out.'}
        </p>
      ) : (
        <p role="status" className="fit-says state cut">
          The feet reach. On a level floor set them to{' '}
          {set.settings.map((mm, at) => `${at + 1}: ${say(mm, reading)}`).join(', ')}.
        </p>
      )}
    </section>
  )
}
