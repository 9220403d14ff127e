import type { JobView } from '../../app/state.ts'
import { wish } from '../../core/parts/one-stick.ts'
import type { Part } from '../../core/plan-shapes.ts'
import { sectionKey } from '../../core/section/section.ts'
import { useActions, useShop } from '../app.ts'
import { saysOf } from '../words.ts'

/** Parts that share a stick, wish by wish. */
const wishesOf = (parts: readonly Part[]): readonly (readonly Part[])[] =>
  [...new Set(parts.flatMap(({ oneStick }) => oneStick ?? []))].map((name) =>
    parts.filter(({ oneStick }) => oneStick === name),
  )

/** `A × 4 and B × 2`. */
const sayParts = (parts: readonly Part[]): string =>
  parts.map(({ mark, count }) => (count > 1 ? `${mark} × ${count}` : mark)).join(' and ')

/** Wants all pieces of the part that is chosen from one stick, alone or with others of its section. */
export function OneStick(props: {
  readonly view: JobView
  readonly part: Part
  readonly parts: readonly Part[]
  /** Pieces are cut or the layout is accepted: it stays as it is. */
  readonly fixed: boolean
}) {
  const { view, part, fixed } = props
  const actions = useActions()
  const { stick } = saysOf(useShop())
  const key = sectionKey(part.section)
  const others = props.parts.filter(({ mark, section }) => mark !== part.mark && sectionKey(section) === key)
  if (fixed || (part.count === 1 && others.length === 0)) return null
  const shares = ({ mark, oneStick }: Part) =>
    mark !== part.mark && oneStick !== undefined && oneStick === part.oneStick
  const beside = others.filter(shares)
  const want = (wanted: readonly Part[] | undefined) =>
    void actions.editJob(view.id, { oneStick: wish(view.job, part, wanted) })
  const alone = part.oneStick !== undefined
  const options = [
    ...(part.count > 1
      ? [{ label: `all ${part.count} ${part.mark}`, on: alone, to: alone ? undefined : [] }]
      : []),
    ...others.map((other) => {
      const on = beside.includes(other)
      // One that shares a stick with others brings them along.
      const joined = others.filter(({ oneStick }) => oneStick !== undefined && oneStick === other.oneStick)
      const rest = beside.filter((one) => one !== other)
      return { label: `with ${other.mark}`, on, to: on ? rest : [...new Set([...beside, ...joined, other])] }
    }),
  ]
  return (
    <fieldset className="field one-stick">
      <legend>
        {part.mark} from one {stick}
      </legend>
      <div className="options">
        {options.map(({ label, on, to }) => (
          <label key={label} className={on ? 'option chosen' : 'option'}>
            <input type="checkbox" checked={on} onChange={() => want(to)} />
            <span>{label}</span>
          </label>
        ))}
      </div>
      <p className="hint">
        For one color, or where all must be equally straight.
        {view.job.quantity > 1 && ` For each of the ${view.job.quantity} copies by itself.`}
      </p>
    </fieldset>
  )
}

/** What is wanted from one stick, where nothing is chosen. */
export function Wanted({ parts, quantity }: { parts: readonly Part[]; quantity: number }) {
  const { stick } = saysOf(useShop())
  const wishes = wishesOf(parts)
  if (wishes.length === 0) return null
  return (
    <p>
      From one {stick}
      {quantity > 1 && ' in each copy'}: {wishes.map(sayParts).join('; ')}.
    </p>
  )
}

/** A wish that no stick can fulfill must be given up somewhere: where there is no layout to choose a part in. */
export function WishBack({ view }: { view: JobView }) {
  const actions = useActions()
  const { stick } = saysOf(useShop())
  const wishes = wishesOf(view.plan?.parts ?? [])
  if (wishes.length === 0) return null
  return (
    <section className="ways" aria-labelledby="wish-back-head">
      <h3 id="wish-back-head">Wanted from one {stick}</h3>
      {wishes.map((parts) => (
        <p key={parts[0]!.mark}>
          <button
            type="button"
            onClick={() => {
              const members = parts.flatMap((part) => part.members)
              void actions.editJob(view.id, { oneStick: wish(view.job, { members }, undefined) })
            }}
          >
            {sayParts(parts)}: from any {stick}
          </button>
        </p>
      ))}
    </section>
  )
}
