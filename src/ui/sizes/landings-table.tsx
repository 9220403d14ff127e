import type { Landing, Part, Plan } from '../../core/plan-shapes.ts'
import { LengthText } from '../fields/length-text.tsx'

/** A face in words that can be found on the steel: the member lies as it does in the frame. */
const faceWords: Readonly<Record<Landing['face'], string>> = {
  '+y': 'left side, seen from end A',
  '-y': 'right side, seen from end A',
  '+z': 'upper face',
  '-z': 'underside',
}

interface Line {
  readonly key: string
  readonly on: string
  readonly by: string
  readonly landing: Landing
  readonly times: number
}

const nameOf = (plan: Plan, id: string): string =>
  plan.frame.members.find((member) => member.id === id)?.name ??
  plan.frame.plates.find((plate) => plate.id === id)?.name ??
  id

/** Landings that read the same on parts of one mark are one line, with how often. */
export function landingLines(plan: Plan): readonly Line[] {
  const markOf = new Map<string, Part>(
    plan.parts.flatMap((part) => part.members.map((id) => [id, part] as const)),
  )
  const lines = new Map<string, Line>()
  for (const landing of plan.landings) {
    const on = markOf.get(landing.on)
    const by = markOf.get(landing.by)
    const onText = on ? `${on.mark}, ${nameOf(plan, landing.on)}` : nameOf(plan, landing.on)
    const byText = by ? `${by.mark}, ${nameOf(plan, landing.by)}` : nameOf(plan, landing.by)
    const { near, far } = landing.printed
    const same = [landing.on, by?.mark ?? landing.by, landing.face, landing.from, near.text, far.text].join(
      ' ',
    )
    const before = lines.get(same)
    lines.set(same, { key: same, on: onText, by: byText, landing, times: (before?.times ?? 0) + 1 })
  }
  return [...lines.values()]
}

/** Layout marks: where each part lands on another, both edges from one named end, never chained. */
export function LandingsTable({ plan }: { plan: Plan }) {
  const lines = landingLines(plan)
  if (lines.length === 0) return null
  return (
    <section className="figures" aria-labelledby="landings-head">
      <h2 id="landings-head">Layout marks</h2>
      <p className="dim">
        Both edges are measured from the one end named, along the outer box. Put an X on the side that is
        covered.
      </p>
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
            {lines.map(({ key, on, by, landing }) => (
              <tr key={key}>
                <th scope="row">{on}</th>
                <td>{by}</td>
                <td>{faceWords[landing.face]}</td>
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
    </section>
  )
}
