import type { ReactNode } from 'react'
import type { FinishStep } from '../../core/finish/steps.ts'
import { DoneMark } from '../saw/cut-bar.tsx'

interface StepsProps {
  readonly steps: readonly FinishStep[]
  readonly isDone: (step: FinishStep) => boolean
  readonly onTick: (step: FinishStep) => void
}

/** Steps as keys as large as a glove. What is the same at many joints is said once, with a key for each joint. */
export function Steps({ steps, ...rest }: StepsProps) {
  const groups = new Map<string, FinishStep[]>()
  for (const step of steps) {
    const name = step.each?.text ?? step.id
    groups.set(name, [...(groups.get(name) ?? []), step])
  }
  const alone = [...groups.values()].flatMap((group) => (group.length === 1 ? group : []))
  return (
    <>
      {[...groups].map(([text, group]) =>
        group.length > 1 ? <Each key={text} text={text} steps={group} {...rest} /> : null,
      )}
      {alone.length > 0 && (
        <ul className="finish-steps">
          {alone.map((step) => (
            <li key={step.id}>
              <Key step={step} {...rest}>
                {step.text} <small>{step.why}</small>
              </Key>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

/** One kind of work at many joints: flats of all of them, then their corners. */
function Each({ text, steps, ...rest }: StepsProps & { readonly text: string }) {
  const done = steps.filter(rest.isDone).length
  return (
    <fieldset className="finish-each">
      <legend>
        {text}{' '}
        <span className={done === steps.length ? 'state cut' : 'state'}>
          {done} of {steps.length}
        </span>
      </legend>
      <p className="dim">{steps[0]!.why}</p>
      <ul className="finish-joints">
        {steps.map((step) => (
          <li key={step.id}>
            <Key step={step} {...rest}>
              {step.each?.joint}
            </Key>
          </li>
        ))}
      </ul>
    </fieldset>
  )
}

function Key(props: Omit<StepsProps, 'steps'> & { readonly step: FinishStep; readonly children: ReactNode }) {
  const { step } = props
  const done = props.isDone(step)
  return (
    // biome-ignore lint/a11y/useSemanticElements: a key as large as a glove, with a word for its state
    <button
      type="button"
      role="checkbox"
      aria-checked={done}
      className={done ? 'finish-step done' : 'finish-step'}
      onClick={() => props.onTick(step)}
    >
      <span className="finish-box">{done && <DoneMark />}</span>
      <span>{props.children}</span>
      <span className="finish-state">{done ? 'done' : 'to go'}</span>
    </button>
  )
}
