import { type LandingLine, landingLines } from '../../core/parts/landing-lines.ts'
import type { Plan } from '../../core/plan-shapes.ts'
import { LengthText } from '../fields/length-text.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { useNarrow } from './narrow.ts'
import { landingsOut } from './tables-out.ts'

/** Layout marks: where each part lands on another, both edges from one named end, never chained. */
export function LandingsTable({ plan, name }: { plan: Plan; name: string }) {
  const lines = landingLines(plan)
  const narrow = useNarrow(600)
  if (lines.length === 0) return null
  return (
    <section className="figures" aria-labelledby="landings-head">
      <h2 id="landings-head">Layout marks</h2>
      <p className="dim">
        Both edges are measured from the one end named, along the outer box. Put an X on the side that is
        covered.
      </p>
      {narrow ? <Cards lines={lines} /> : <Lines lines={lines} />}
      <TakeTable name={name} what="layout marks" table={() => landingsOut(plan)} />
    </section>
  )
}

type Props = { readonly lines: readonly LandingLine[] }

function Lines({ lines }: Props) {
  return (
    <div className="scroll-x">
      <table>
        <thead>
          <tr>
            <th scope="col">on</th>
            <th scope="col">lands</th>
            <th scope="col">face</th>
            <th scope="col">from end</th>
            <th scope="col">near edge</th>
            <th scope="col">far edge</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ key, on, by, landing, face }) => (
            <tr key={key}>
              <th scope="row">{on}</th>
              <td>{by}</td>
              <td>{face}</td>
              <td className="mark">{landing.from}</td>
              <td className="number">
                <LengthText of={landing.printed.near} lies />
              </td>
              <td className="number">
                <LengthText of={landing.printed.far} lies />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** Beside each other on a phone the columns would leave no room for the numbers. */
function Cards({ lines }: Props) {
  return (
    <ul className="part-cards">
      {lines.map(({ key, on, by, landing, face }) => (
        <li key={key} className="landing-card">
          <p>
            <b>{on}</b>, {face}
          </p>
          <p>
            from end <b>{landing.from}</b>: <LengthText of={landing.printed.near} lies /> to{' '}
            <LengthText of={landing.printed.far} lies />
          </p>
          <p className="dim">{by} lands there</p>
        </li>
      ))}
    </ul>
  )
}
