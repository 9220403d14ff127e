import type { BuiltSize, Plan, PlatePart } from '../../core/plan-shapes.ts'
import { showMass } from '../../core/reading/show.ts'
import type { Reading, Shop } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import { inch } from '../../core/units.ts'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { capital, count } from '../words.ts'
import { builtOut, platesOut } from './tables-out.ts'

/** Sizes of the finished thing: what was asked, and what the rounded lengths really give. */
export function BuiltSizes({ plan, reading }: { plan: Plan; reading: Reading }) {
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
                  {Math.abs(size.exact - size.built) <= sameLength ? 'the same' : builtWords(size)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <TakeTable name={plan.name} what="sizes built" table={() => builtOut(plan, reading)} />
    </section>
  )
}

/** What is built, finer than any tape: to 0.01 mm or 0.001 in, and how much more or less than asked. */
function builtWords({ exact, built, printed }: BuiltSize): string {
  const { unit } = printed.built
  const [per, places] = unit === 'in' ? [inch, 3] : [1, 2]
  const off = built - exact
  return `${(built / per).toFixed(places)} ${unit}, ${(Math.abs(off) / per).toFixed(places)} ${off > 0 ? 'more' : 'less'}`
}

/** Plates and bought parts, and the mass of it all. */
export function PlatesAndHardware(props: {
  readonly plan: Plan
  readonly shop: Shop
  readonly chosen: string | null
  readonly onChoose: (mark: string) => void
  /** Shows the drawing of this plate alone. */
  readonly onDraw: (mark: string) => void
}) {
  const { plan, shop, chosen } = props
  const hardware = new Map<string, number>()
  for (const { kind, text, count: n } of plan.frame.hardware)
    hardware.set(text ?? kind, (hardware.get(text ?? kind) ?? 0) + n)
  const plates = new Map<string, { readonly plate: PlatePart; readonly n: number }>()
  for (const plate of plan.plates) plates.set(plate.mark, { plate, n: (plates.get(plate.mark)?.n ?? 0) + 1 })
  return (
    <section className="figures" aria-labelledby="rest-head">
      <h2 id="rest-head">Plates, hardware, mass</h2>
      <ul className="plain-list">
        {[...plates].map(([mark, { plate, n }]) => (
          <li key={mark} className={mark === chosen ? 'plate-line chosen' : 'plate-line'}>
            <button
              type="button"
              className="mark mark-key"
              aria-pressed={mark === chosen}
              aria-label={`${mark}, show it on the drawing`}
              onClick={() => props.onChoose(mark)}
            >
              {mark}
            </button>
            <span>
              {n > 1 && `${n} × `}
              {plate.name}: {plate.text}, {showMass(plate.mass, shop.mass)}
              {n > 1 && ' each'}
            </span>
            <button
              type="button"
              className="drawing-key"
              aria-label={`Drawing of ${mark}`}
              onClick={() => props.onDraw(mark)}
            >
              Drawing
            </button>
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
      {plates.size + hardware.size > 0 && (
        <TakeTable name={plan.name} what="plates and hardware" table={() => platesOut(plan, shop.mass)} />
      )}
    </section>
  )
}

/** So many warnings stand open; the rest are one tap away, so that the parts stay in sight. */
const mostOpen = 3

/** What the plan warns of. Choosing one shows its part. */
export function Warnings({ plan, onChoose }: { plan: Plan; onChoose: (mark: string) => void }) {
  if (plan.warnings.length === 0) return null
  const lines = plan.warnings.map((warning) => (
    <WarningLine key={`${warning.code} ${warning.text}`} plan={plan} warning={warning} onChoose={onChoose} />
  ))
  const rest = lines.slice(mostOpen)
  return (
    <section className="warnings" aria-label={count(lines.length, 'warning')}>
      {lines.slice(0, mostOpen)}
      {rest.length > 0 && (
        <details>
          <summary>{count(rest.length, 'more warning')}</summary>
          {rest}
        </details>
      )}
    </section>
  )
}

function WarningLine(props: {
  readonly plan: Plan
  readonly warning: Plan['warnings'][number]
  readonly onChoose: (mark: string) => void
}) {
  const { text, members } = props.warning
  const part = props.plan.parts.find((one) => members?.some((id) => one.members.includes(id)))
  return (
    <div className="warning">
      <p>
        <strong>Mind: </strong>
        {capital(text)}
      </p>
      {part && (
        <button type="button" onClick={() => props.onChoose(part.mark)}>
          Show {part.mark}
        </button>
      )}
    </div>
  )
}
