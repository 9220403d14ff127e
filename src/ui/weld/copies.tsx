import { Pick } from '../fields/choice.tsx'

/** Which of the ordered quantity is on the bench. */
export function Copies(props: {
  copies: readonly number[]
  copy: number
  open: (copy: number) => number
  total: number
  onChoose: (copy: number) => void
}) {
  const { copies, copy, open, total } = props
  if (copies.length === 1) return null
  const done = (one: number) => total - open(one)
  const say = (one: number) => (open(one) === 0 ? 'done' : `${done(one)} of ${total}`)
  if (copies.length > 8)
    return (
      <Pick
        label="Copy on the bench"
        value={String(copy)}
        options={copies.map((one) => ({ value: String(one), label: `Copy ${one}: ${say(one)}` }))}
        onChange={(value) => props.onChoose(Number(value))}
      />
    )
  return (
    <fieldset className="copies">
      <legend className="heard">Copy on the bench</legend>
      {copies.map((one) => (
        <button key={one} type="button" aria-pressed={one === copy} onClick={() => props.onChoose(one)}>
          <span>
            Copy {one}
            <small> {say(one)}</small>
          </span>
        </button>
      ))}
    </fieldset>
  )
}
