import type { Plan } from '../../core/plan-shapes.ts'
import { showMass } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import { LengthText } from '../fields/length-text.tsx'
import { capital, count } from '../words.ts'

/** Sizes of the finished thing: what was asked, and what the rounded lengths really give. */
export function BuiltSizes({ plan }: { plan: Plan }) {
  if (plan.sizes.length === 0) return null
  return (
    <section className="figures" aria-labelledby="built-head">
      <h2 id="built-head">Asked and built</h2>
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th scope="col">size</th>
              <th scope="col">by the drawing</th>
              <th scope="col">built from the lengths above</th>
            </tr>
          </thead>
          <tbody>
            {plan.sizes.map((size) => (
              <tr key={size.name}>
                <th scope="row">{size.asked ? <strong>{size.name}, asked</strong> : size.name}</th>
                <td className="number">
                  <LengthText of={size.printed.exact} lies />
                </td>
                <td className="number">
                  {Math.abs(size.exact - size.built) <= sameLength ? (
                    'the same'
                  ) : (
                    <>
                      <LengthText of={size.printed.built} lies />
                      <small className="dim"> ({builtError(size.built - size.exact)})</small>
                    </>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

/** How far the built size is off, to a hundredth of a millimeter. */
const builtError = (mm: number) => `${mm > 0 ? '+' : '−'}${Math.abs(mm).toFixed(2)} mm`

/** Plates and bought parts, and the mass of it all. */
export function PlatesAndHardware({ plan, shop }: { plan: Plan; shop: Shop }) {
  const hardware = new Map<string, number>()
  for (const { kind, text, count: n } of plan.frame.hardware)
    hardware.set(text ?? kind, (hardware.get(text ?? kind) ?? 0) + n)
  return (
    <section className="figures" aria-labelledby="rest-head">
      <h2 id="rest-head">Plates, hardware, mass</h2>
      <ul className="plain-list">
        {plan.plates.map((plate) => (
          <li key={plate.id}>
            <span className="mark">{plate.mark}</span> {plate.name}: {plate.text},{' '}
            {showMass(plate.mass, shop.mass)}
          </li>
        ))}
        {[...hardware].map(([text, n]) => (
          <li key={text}>
            {n} × {text}
          </li>
        ))}
        <li>
          <strong>{showMass(plan.mass, shop.mass)}</strong> steel in one
          {plan.quantity > 1 && (
            <>
              , <strong>{showMass(plan.mass * plan.quantity, shop.mass)}</strong> in all {plan.quantity}
            </>
          )}
          , by formula, without welds and coating
        </li>
      </ul>
    </section>
  )
}

/** What the plan warns of. Choosing one shows its part. */
export function Warnings({ plan, onChoose }: { plan: Plan; onChoose: (mark: string) => void }) {
  if (plan.warnings.length === 0) return null
  return (
    <section className="warnings" aria-label={count(plan.warnings.length, 'warning')}>
      {plan.warnings.map((warning) => {
        const part = plan.parts.find(({ members }) => warning.members?.some((id) => members.includes(id)))
        return (
          <div key={`${warning.code} ${warning.text}`} className="warning">
            <p>
              <strong>Mind: </strong>
              {capital(warning.text)}
            </p>
            {part && (
              <button type="button" onClick={() => onChoose(part.mark)}>
                Show {part.mark}
              </button>
            )}
          </div>
        )
      })}
    </section>
  )
}
