import { type ReactNode, useCallback, useEffect, useId, useRef, useState } from 'react'
import { createPortal } from 'react-dom'
import type { Result } from '../../core/result.ts'
import { Keypad, type KeypadKind } from './keypad.tsx'

/** How long the hand must rest before what is typed is taken, ms. Enter and leaving the field take it at once. */
const rest = 350

export interface TypedFieldProps {
  readonly label: string
  /** What is kept, as text: a person sees their own number again. */
  readonly value: string
  /** What was understood, in words, or what was not and where. */
  readonly read: (text: string) => Result<string>
  readonly onChange: (text: string) => void
  readonly keypad: KeypadKind
  /** Shown in the field after a text that names no unit of its own: `in`, `°`. */
  readonly unit?: string | undefined
  readonly optional?: boolean | undefined
  readonly hint?: ReactNode
  /** What is wrong with the value that is kept, said by the plan. */
  readonly problem?: string | undefined
  /** DOM id of the input, so that a dimension on the drawing can focus it. */
  readonly id?: string | undefined
  /** Label is for screen readers only: the column head says it. */
  readonly bare?: boolean
}

const coarse = () => typeof matchMedia === 'function' && matchMedia('(pointer: coarse)').matches

let padsOpen = 0

/** Room below the page for a keypad; from one field to the next two are open for a moment. */
function leaveRoom(more: 1 | -1): void {
  padsOpen += more
  document.documentElement.toggleAttribute('data-keypad', padsOpen > 0)
}

/** A press that never becomes a click is over by then, ms. */
const pressOver = 700

/**
 * Runs what moves the page once a press on something else is through. The keypad goes with the field, and the page under
 * the finger with it: the key that was pressed would not be there any more when the finger is lifted.
 */
function useAfterPress(watching: boolean): (run: () => void) => void {
  const pressed = useRef(false)
  useEffect(() => {
    if (!watching) return
    const press = () => {
      pressed.current = true
    }
    const through = () => {
      pressed.current = false
    }
    window.addEventListener('pointerdown', press, true)
    window.addEventListener('click', through, true)
    return () => {
      window.removeEventListener('pointerdown', press, true)
      window.removeEventListener('click', through, true)
      pressed.current = false
    }
  }, [watching])
  return (run) => {
    if (!pressed.current) return run()
    const once = () => {
      clearTimeout(timer)
      window.removeEventListener('click', once)
      run()
    }
    const timer = setTimeout(once, pressOver)
    window.addEventListener('click', once)
  }
}

/**
 * A field whose text is read as it is typed. What was understood stands under it at once; text that is not
 * understood gets a message and is never kept: on leaving the field the old value stands there again.
 */
export function TypedField(props: TypedFieldProps) {
  const made = useId()
  const id = props.id ?? made
  const input = useRef<HTMLInputElement>(null)
  const [draft, setDraft] = useState<string | null>(null)
  const [refused, setRefused] = useState<string | null>(null)
  const [pad, setPad] = useState(false)
  const afterPress = useAfterPress(pad || draft !== null)
  const latest = useRef(props)
  latest.current = props

  const text = draft ?? props.value
  const empty = text.trim() === ''
  const understood: Result<string> =
    empty && props.optional ? { ok: true, value: 'left out' } : props.read(text)
  const typing = draft !== null && draft !== props.value
  const wrong = typing && !understood.ok ? understood.problems[0]?.text : undefined

  const keep = useCallback((given: string) => {
    const { read, optional, value, onChange } = latest.current
    const fine = (given.trim() === '' && optional) || read(given).ok
    if (fine && given !== value) onChange(given)
    return fine
  }, [])

  useEffect(() => {
    if (draft === null) return
    const timer = setTimeout(() => keep(draft), rest)
    return () => clearTimeout(timer)
  }, [draft, keep])

  useEffect(() => {
    if (!pad) return
    leaveRoom(1)
    // The page has room below for the keypad now; the field moves above it.
    input.current?.scrollIntoView?.({ block: 'nearest' })
    return () => leaveRoom(-1)
  }, [pad])

  const leave = () => {
    const kept = draft === null || keep(draft)
    afterPress(() => {
      setPad(false)
      if (draft === null) return
      if (!kept) {
        const result = latest.current.read(draft)
        const why = result.ok ? '' : (result.problems[0]?.text ?? '')
        setRefused(`${why} ${props.value === '' ? 'It is left empty.' : `It stays ${props.value}.`}`.trim())
      }
      setDraft(null)
    })
  }

  const change = (next: string) => {
    setRefused(null)
    setDraft(next)
  }

  const insert = (piece: string, takeBack = 0) => {
    const box = input.current
    const from =
      (box?.selectionStart ?? text.length) - (box?.selectionStart === box?.selectionEnd ? takeBack : 0)
    const to = box?.selectionEnd ?? text.length
    const at = Math.max(0, from)
    change(text.slice(0, at) + piece + text.slice(to))
    requestAnimationFrame(() => box?.setSelectionRange(at + piece.length, at + piece.length))
  }

  const says = wrong ?? (understood.ok ? understood.value : '')
  const message = wrong ?? refused ?? props.problem
  const messageId = `${id}-message`
  return (
    <div className={message ? 'field has-problem' : 'field'}>
      <label htmlFor={id} className={props.bare ? 'heard' : undefined}>
        {props.label}
        {props.optional && !props.bare && <span className="dim"> (may be left out)</span>}
      </label>
      <div className="typed">
        {props.unit && /\d\s*$/.test(text) && (
          <span className="unit-after" aria-hidden="true">
            <span className="as-typed">{text}</span>
            {props.unit}
          </span>
        )}
        <input
          ref={input}
          id={id}
          type="text"
          inputMode={pad ? 'none' : props.keypad === 'plain' ? 'decimal' : 'text'}
          autoComplete="off"
          spellCheck={false}
          value={text}
          aria-invalid={message !== undefined && message !== null}
          aria-describedby={messageId}
          onChange={(event) => change(event.target.value)}
          onFocus={(event) => {
            event.target.select()
            if (coarse()) setPad(true)
          }}
          onBlur={leave}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              if (keep(text)) event.currentTarget.select()
            } else if (event.key === 'Escape') {
              setDraft(null)
              setRefused(null)
              setPad(false)
            }
          }}
        />
        <button
          type="button"
          className="pad-key"
          aria-label={`Keypad for ${props.label}`}
          aria-expanded={pad}
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => {
            setPad(!pad)
            input.current?.focus()
          }}
        >
          <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
            <path d="M2 2h4v4H2zM8 2h4v4H8zM14 2h4v4h-4zM2 8h4v4H2zM8 8h4v4H8zM14 8h4v4h-4zM8 14h4v4H8z" />
          </svg>
        </button>
      </div>
      <p id={messageId} className={message ? 'message' : 'echo'} role={message ? 'alert' : undefined}>
        {/* What was understood stays in sight as long as the hand is in the field, kept already or not. */}
        {message ?? (draft === null ? '' : says)}
      </p>
      {props.hint && <p className="hint">{props.hint}</p>}
      {pad &&
        createPortal(
          <Keypad
            kind={props.keypad}
            says={says || text}
            wrong={wrong !== undefined}
            type={insert}
            back={() => insert('', 1)}
            done={() => input.current?.blur()}
          />,
          document.body,
        )}
    </div>
  )
}
