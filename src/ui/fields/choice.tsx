import { type ReactNode, useId } from 'react'

export interface Option<T extends string> {
  readonly value: T
  readonly label: ReactNode
  /** A little picture before the label. */
  readonly picture?: ReactNode
}

/** One of a few, all in sight: radio buttons that look like keys. */
export function Choice<T extends string>(props: {
  readonly label: string
  readonly options: readonly Option<T>[]
  readonly value: T
  readonly onChange: (value: T) => void
  readonly hint?: ReactNode
  readonly problem?: string | undefined
}) {
  const name = useId()
  return (
    <fieldset className="field choice">
      <legend>{props.label}</legend>
      <div className="options">
        {props.options.map((option) => (
          <label key={option.value} className={option.value === props.value ? 'option chosen' : 'option'}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === props.value}
              onChange={() => props.onChange(option.value)}
            />
            {option.picture}
            <span>{option.label}</span>
          </label>
        ))}
      </div>
      {props.problem && (
        <p className="message" role="alert">
          {props.problem}
        </p>
      )}
      {props.hint && <p className="hint">{props.hint}</p>}
    </fieldset>
  )
}

/** Letters that surely stand in one line of a list: it does not grow by itself with what is chosen. */
const oneLine = 22

/** One of many: the browser's own list. */
export function Pick<T extends string>(props: {
  readonly label: string
  readonly options: readonly { readonly value: T; readonly label: string }[]
  readonly value: T
  readonly onChange: (value: T) => void
  readonly hint?: ReactNode
  readonly problem?: string | undefined
  readonly bare?: boolean
  readonly id?: string | undefined
}) {
  const made = useId()
  const id = props.id ?? made
  const chosen = props.options.find(({ value }) => value === props.value)?.label ?? ''
  return (
    <div className={props.problem ? 'field has-problem' : 'field'}>
      <label htmlFor={id} className={props.bare ? 'heard' : undefined}>
        {props.label}
      </label>
      <select
        id={id}
        className={chosen.length > oneLine ? 'two-lines' : undefined}
        value={props.value}
        onChange={(event) => props.onChange(event.target.value as T)}
      >
        {props.options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
      {props.problem && (
        <p className="message" role="alert">
          {props.problem}
        </p>
      )}
      {props.hint && <p className="hint">{props.hint}</p>}
    </div>
  )
}

/** Yes or no. */
export function Flag(props: {
  readonly label: string
  readonly value: boolean
  readonly onChange: (value: boolean) => void
  readonly hint?: ReactNode
}) {
  return (
    <div className="field">
      <label className="flag">
        <input
          type="checkbox"
          checked={props.value}
          onChange={(event) => props.onChange(event.target.checked)}
        />
        <span>{props.label}</span>
      </label>
      {props.hint && <p className="hint">{props.hint}</p>}
    </div>
  )
}
