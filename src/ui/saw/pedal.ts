import { useEffect, useRef } from 'react'

/** Two presses of a pedal nearer than this are one, ms: no saw makes two cuts in it. */
export const bounce = 1500

const editable = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('input, textarea, select, [contenteditable]') !== null

/** On a key of the screen Enter and Space press that key; only what no key uses is the pedal's. */
const onKey = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('button, a, summary, label') !== null

/**
 * A foot pedal or a big button that acts as a keyboard: Enter, Space and Page Down check off, Page Up takes back. A key that
 * is held down counts once, and so do two presses of one kind within `bounce`. Nothing while a field is typed in.
 */
export function usePedal(check: (() => void) | undefined, undo: (() => void) | undefined): void {
  const latest = useRef({ check, undo })
  latest.current = { check, undo }
  useEffect(() => {
    const last = { check: Number.NEGATIVE_INFINITY, undo: Number.NEGATIVE_INFINITY }
    const press = (event: KeyboardEvent) => {
      const isUndo = event.key === 'PageUp'
      const isCheck = event.key === 'PageDown' || event.key === 'Enter' || event.key === ' '
      if (!(isUndo || isCheck) || event.ctrlKey || event.altKey || event.metaKey) return
      if (event.defaultPrevented || editable(event.target)) return
      if ((event.key === 'Enter' || event.key === ' ') && onKey(event.target)) return
      event.preventDefault()
      const does = isUndo ? 'undo' : 'check'
      if (event.repeat || event.timeStamp - last[does] < bounce) return
      last[does] = event.timeStamp
      latest.current[does]?.()
    }
    document.addEventListener('keydown', press)
    return () => document.removeEventListener('keydown', press)
  }, [])
}
