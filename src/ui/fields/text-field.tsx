import { type ReactNode, useEffect, useId, useRef, useState } from 'react'

/** Plain words, kept when the hand rests, and at once on Enter or on leaving. Empty is refused unless `optional`. */
export function TextField(props: {
  readonly label: string
  readonly value: string
  readonly onChange: (text: string) => void
  readonly optional?: boolean | undefined
  readonly lines?: number
  readonly hint?: ReactNode
  /** What is wrong with the text that is kept, said by the plan. */
  readonly problem?: string | undefined
  readonly id?: string
}) {
  const made = useId()
  const id = props.id ?? made
  const [draft, setDraft] = useState<string | null>(null)
  const latest = useRef(props)
  latest.current = props
  const refused = draft !== null && draft.trim() === '' && !props.optional
  const message = refused ? `It needs a name. It stays ${props.value}.` : props.problem

  useEffect(() => {
    if (draft === null) return
    const timer = setTimeout(() => {
      const { value, optional, onChange } = latest.current
      if ((draft.trim() !== '' || optional) && draft !== value) onChange(draft)
    }, 500)
    return () => clearTimeout(timer)
  }, [draft])

  const leave = () => {
    if (draft !== null && !refused && draft.trim() !== props.value) props.onChange(draft.trim())
    setDraft(null)
  }
  const box = {
    id,
    value: draft ?? props.value,
    autoComplete: 'off',
    'aria-invalid': message !== undefined,
    'aria-describedby': message !== undefined ? `${id}-message` : undefined,
    onBlur: leave,
  } as const
  return (
    <div className={message !== undefined ? 'field has-problem' : 'field'}>
      <label htmlFor={id}>
        {props.label}
        {props.optional && <span className="dim"> (may be left out)</span>}
      </label>
      {props.lines ? (
        <textarea {...box} rows={props.lines} onChange={(event) => setDraft(event.target.value)} />
      ) : (
        <input
          {...box}
          type="text"
          onChange={(event) => setDraft(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') leave()
            if (event.key === 'Escape') setDraft(null)
          }}
        />
      )}
      {message !== undefined && (
        <p id={`${id}-message`} className="message" role="alert">
          {message}
        </p>
      )}
      {props.hint && <p className="hint">{props.hint}</p>}
    </div>
  )
}
