import './note.css'
import { useId, useState } from 'react'
import { tickName } from '../../core/facts/fold.ts'
import { useActions, useApp } from '../app.ts'

/** What a person writes about one step of one copy (`of`: its id), or about all of it (`job`). Kept by its key, or on leaving. */
export function Note(props: {
  readonly job: string
  readonly copy: number
  readonly of: string
  readonly label: string
  /** What was written at the same place last time. */
  readonly before?: readonly string[] | undefined
}) {
  const { job, copy, of, before = [] } = props
  const id = useId()
  const { note } = useActions()
  const kept = useApp((state) => state.progress.notes[tickName(job, copy, of)]?.text ?? '')
  const [draft, setDraft] = useState<string | null>(null)
  const text = draft ?? kept
  const keep = () => {
    if (draft !== null && draft.trim() !== kept) void note(job, copy, of, draft)
    setDraft(null)
  }
  return (
    <div className="note">
      {before.map((one, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: what was written then does not change
        <p key={at} className="last-time">
          <b>Last time:</b> {one}
        </p>
      ))}
      <div className="field">
        <label htmlFor={id}>{props.label}</label>
        <textarea
          id={id}
          rows={2}
          maxLength={2000}
          value={text}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={keep}
        />
      </div>
      {draft !== null && draft.trim() !== kept && (
        <button type="button" onClick={keep}>
          Keep the note
        </button>
      )}
    </div>
  )
}
