import { type ReactNode, useState } from 'react'
import { feetOf, standsOnFloor } from '../../core/finish/floor.ts'
import { leveling } from '../../core/finish/leveling.ts'
import { resolveLength } from '../../core/reading/parse.ts'
import { say, unitOf } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { MmField } from '../fields/length-field.tsx'
import type { Copy } from './finish.tsx'

/** A length among the job's parameters, mm; undefined where it is not given. */
function given({ view }: Copy, name: string, shop: Shop): number | undefined {
  const typed = view.job.build.params[name]
  if (typeof typed !== 'string' && typeof typed !== 'number') return undefined
  const mm = resolveLength(typed, view.job.units ?? unitOf(shop.reading))
  return mm.ok ? mm.value : undefined
}

/** Level: how far the floor lies low under each foot, against what the feet can do. */
export function Leveling(props: { readonly of: Copy; readonly shop: Shop; readonly children: ReactNode }) {
  const { of, shop } = props
  const feet = feetOf(of.plan.frame)
  const [least, setLeast] = useState(
    given(of, 'levelerLeast', shop) ?? (unitOf(shop.reading) === 'in' ? 9.525 : 10),
  )
  const [most, setMost] = useState(
    given(of, 'levelerMost', shop) ?? (unitOf(shop.reading) === 'in' ? 25.4 : 25),
  )
  const names = feet.map(({ number }) => `floor:foot-${number}`)
  const lows = names.map((name) => of.measured(name))
  const known = lows.filter((mm) => mm !== undefined)
  const set = feet.length > 0 && known.length === feet.length ? leveling(known, least, most) : undefined
  if (feet.length === 0 && !standsOnFloor(of.plan.frame)) return null
  return (
    <section aria-labelledby="finish-level">
      <h2 id="finish-level">Level</h2>
      {feet.length > 0 && (
        <>
          <div className="finish-fields">
            <MmField
              label="Feet turned all the way in"
              value={least}
              reading={shop.reading}
              onChange={(mm) => mm !== undefined && setLeast(mm)}
            />
            <MmField
              label="Feet turned out as far as they go"
              value={most}
              reading={shop.reading}
              onChange={(mm) => mm !== undefined && setMost(mm)}
            />
            {names.map((name, at) => (
              <MmField
                key={name}
                label={`Floor low under foot ${at + 1}, ${feet[at]!.lies}`}
                optional
                value={lows[at]}
                reading={shop.reading}
                onChange={(mm) => of.onGauge(name, mm)}
              />
            ))}
          </div>
          {set ? (
            <p role="status">
              {set.beyond.length > 0
                ? `The floor falls further than the feet reach: foot ${set.beyond.join(', ')}. Shim it, or turn the table to where the floor is better.`
                : `Set the feet to ${set.settings.map((mm, at) => `${at + 1}: ${say(mm, shop.reading)}`).join(', ')}, floor to cap.`}
            </p>
          ) : (
            <p className="dim">
              Measure from a straight line over the floor at every foot; 0 where the floor is highest.
            </p>
          )}
        </>
      )}
      {props.children}
    </section>
  )
}
