import { leveling } from '../../core/finish/leveling.ts'
import { say } from '../../core/reading/show.ts'
import { MmField } from '../fields/length-field.tsx'
import type { Bench } from './will-it-close.tsx'

export const footName = (at: number): string => `foot:${at + 1}`

/** Level: by how much each foot hangs over the flat table, against what the leveling feet can do. */
export function Level({ bench }: { readonly bench: Bench }) {
  const { plan, shop, measured, onGauge } = bench
  const { reading } = shop
  if (!plan.leveler) return null
  const { least, most, setting } = plan.leveler
  const count = plan.frame.hardware
    .filter(({ kind }) => kind === 'leveler')
    .reduce((sum, one) => sum + one.count, 0)
  const gaps = Array.from({ length: count }, (_, at) => measured(footName(at)))
  const known = gaps.filter((mm) => mm !== undefined)
  const set = known.length === count ? leveling(known, least, most) : undefined
  return (
    <section className="fit-part" aria-labelledby="fit-level">
      <h2 id="fit-level">Do the feet stand level?</h2>
      <p className="dim">
        Before the leveling feet are in: stand it on the flat table and measure the gap under each foot; 0
        where it touches. The leveling feet reach from {say(least, reading)} to {say(most, reading)}, planned
        at {say(setting, reading)}.
      </p>
      <div className="fit-fields">
        {gaps.map((gap, at) => (
          <MmField
            key={footName(at)}
            label={`Foot ${at + 1}, gap`}
            optional
            value={gap}
            reading={reading}
            onChange={(mm) => onGauge(footName(at), mm)}
          />
        ))}
      </div>
      {!set ? (
        <p>Measure all {count} to know.</p>
      ) : set.beyond.length > 0 ? (
        <p role="status" className="fit-says state now">
          Foot {set.beyond.join(', ')} cannot reach: the gaps differ by more than the{' '}
          {say(most - least, reading)} that the feet can do. Mend the leg or shim its cap before it is welded
          out.
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
