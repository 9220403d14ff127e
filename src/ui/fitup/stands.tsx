import { useMemo } from 'react'
import { standsOf } from '../../core/fitup/centering.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Mm } from '../../core/units.ts'
import { LengthText } from '../fields/length-text.tsx'
import type { Bench } from './will-it-close.tsx'

/** Centering: distances from edge to edge for every member that stands on another, both ways. */
export function Stands({ bench }: { readonly bench: Bench }) {
  const { plan, shop } = bench
  const stands = useMemo(() => standsOf(plan.frame), [plan.frame])
  if (stands.length === 0) return null
  const names = new Map(plan.frame.members.map(({ id, name }) => [id, name]))
  const shown = (mm: Mm) => <LengthText of={showLength(mm, shop.reading)} />
  return (
    <section className="fit-part" aria-labelledby="fit-center">
      <h2 id="fit-center">Where one stands on another</h2>
      <p className="dim">
        Edge to edge, from both sides: the two of a pair tell on each other. Along: from the points of the
        piece underneath.
      </p>
      <ul className="stands">
        {stands.map(({ joint, on, by, along, across }) => (
          <li key={joint}>
            <b>
              {names.get(by)} on {names.get(on)}
            </b>
            <span>
              along {shown(along[0])} and {shown(along[1])}
            </span>
            <span>
              across {shown(across[0])} and {shown(across[1])}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
