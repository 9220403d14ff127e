import type { WeldStep } from '../../core/plan-shapes.ts'
import { DoneMark } from '../saw/cut-bar.tsx'
import { doneWords, kindWords, type Stage } from './list.ts'

/** Every step of one copy, stretch by stretch; a tap checks it, another takes the check back. */
export function Checklist(props: {
  readonly stages: readonly Stage[]
  readonly numbers: ReadonlyMap<string, number>
  readonly isDone: (step: WeldStep) => boolean
  readonly now: string | undefined
  readonly onTick: (step: WeldStep) => void
}) {
  const { stages, isDone, now } = props
  return (
    <div className="weld-stages">
      {stages.map((stage) => {
        const done = stage.steps.filter(isDone).length
        const holdsNow = stage.steps.some((step) => step.id === now)
        const all = done === stage.steps.length
        return (
          // Opening and closing stays the person's own: only a stretch that becomes the one at hand opens by itself.
          <details key={`${stage.id} ${holdsNow}`} open={holdsNow}>
            <summary>
              <span>{stage.title}</span>
              <span className={all ? 'state cut' : holdsNow ? 'state now' : 'state'}>
                {all ? 'done' : `${done} of ${stage.steps.length}`}
              </span>
            </summary>
            <ol>
              {stage.steps.map((step) => (
                <Line key={step.id} {...props} step={step} done={isDone(step)} isNow={step.id === now} />
              ))}
            </ol>
          </details>
        )
      })}
    </div>
  )
}

/** The text of a step without the word for its kind, which stands before it already. */
function withoutWord({ kind, text }: WeldStep): string {
  const word = `${kindWords[kind]} `
  return text.startsWith(word) ? text.slice(word.length) : text
}

function Line(props: {
  step: WeldStep
  numbers: ReadonlyMap<string, number>
  done: boolean
  isNow: boolean
  onTick: (step: WeldStep) => void
}) {
  const { step, done, isNow } = props
  const number = step.joint === undefined ? undefined : props.numbers.get(step.joint)
  return (
    <li>
      {/* biome-ignore lint/a11y/useSemanticElements: a key as large as a glove, with a word for its state */}
      <button
        type="button"
        role="checkbox"
        aria-checked={done}
        aria-current={isNow ? 'step' : undefined}
        className={done ? 'weld-step done' : isNow ? 'weld-step now' : 'weld-step'}
        onClick={() => props.onTick(step)}
      >
        <span className="weld-box">{done && <DoneMark />}</span>
        <span className="weld-text">
          <b>{kindWords[step.kind]}</b>
          {number !== undefined && (
            <span className="joint-number">
              <span className="heard">joint</span> {number}
            </span>
          )}{' '}
          {withoutWord(step)}
        </span>
        <span className="weld-state">{done ? doneWords[step.kind] : isNow ? 'on now' : 'to go'}</span>
      </button>
    </li>
  )
}
