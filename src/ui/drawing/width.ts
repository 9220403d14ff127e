import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/** The inner width of an element in whole px, followed as it changes; `before` until it is on screen. */
export function useWidth<E extends HTMLElement>(before: number): readonly [RefObject<E | null>, number] {
  const element = useRef<E>(null)
  const [width, setWidth] = useState(before)
  useLayoutEffect(() => {
    const measured = element.current
    if (!measured) return
    // Rounded down, so that what is drawn to it never makes the page scroll sideways.
    const read = () => setWidth((old) => Math.floor(measured.clientWidth) || old)
    read()
    if (typeof ResizeObserver === 'undefined') return
    const observer = new ResizeObserver(read)
    observer.observe(measured)
    return () => observer.disconnect()
  }, [])
  return [element, width]
}
