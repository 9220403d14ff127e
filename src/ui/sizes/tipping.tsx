import { useMemo } from 'react'
import type { Plan } from '../../core/plan-shapes.ts'
import { say, showMass } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { tippingOf } from '../../core/tipping.ts'

/** What lies so low cannot tip over its feet, mm. */
const low = 250

/** How soon it tips: an estimate of the steel alone, where the feet are decided. */
export function Tipping({ plan, shop }: { readonly plan: Plan; readonly shop: Shop }) {
  const tip = useMemo(() => tippingOf(plan), [plan])
  if (!tip || plan.frame.size[2] < low) return null
  const length = (mm: number) => say(mm, shop.reading)
  return (
    <section className="figures" aria-labelledby="tip-head">
      <h2 id="tip-head">Tipping</h2>
      {tip.inside <= 0 ? (
        <p>It does not stand by itself: its weight hangs past the line between two feet.</p>
      ) : (
        <p>
          The line between two feet lies {length(tip.inside)} from under the middle.{' '}
          {Number.isFinite(tip.load) ? (
            <>
              The edge on top reaches {length(tip.outside)} past it:{' '}
              <strong>about {showMass(tip.load, shop.mass)} set on that edge tips it</strong>, or a sideways
              push of {showMass(tip.push, shop.mass)} at the top. Feet farther apart help.
            </>
          ) : (
            <>
              The edge on top lies inside it, so no load there tips it; a sideways push of{' '}
              {showMass(tip.push, shop.mass)} at the top does.
            </>
          )}
        </p>
      )}
      <p className="dim">
        An estimate: its own steel only, {showMass(plan.mass, shop.mass)}, on a level floor, standing still.
        Try the finished piece before anyone leans on it.
      </p>
    </section>
  )
}
