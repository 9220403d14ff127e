import type { Run } from '../../core/plan-shapes.ts'
import { capital } from '../words.ts'

/** Pieces that no saw of the shop finishes, by what hinders them, with the ways out. */
export function ByHand({ left = [] }: Pick<Run, 'left'>) {
  if (left.length === 0) return null
  const reasons = [...new Set(left.map(({ why }) => why))]
  return (
    <section className="by-hand" aria-labelledby="by-hand-head">
      <h2 id="by-hand-head">Not finished by a saw here</h2>
      {reasons.map((why) => {
        const same = left.filter((one) => one.why === why)
        return (
          <div key={why}>
            <p>
              <b>{same.map(({ piece }) => piece).join(', ')}</b>: {why}
            </p>
            <ul>
              {(same[0]?.ways ?? []).map((way) => (
                <li key={way}>{capital(way)}</li>
              ))}
            </ul>
          </div>
        )
      })}
    </section>
  )
}
