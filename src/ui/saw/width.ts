import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/** The width of an element in whole pixels, followed as it changes; `start` until it is known. */
export function useWidth(start: number): readonly [RefObject<HTMLDivElement | null>, number] {
  const box = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(start)
  useLayoutEffect(() => {
    const element = box.current
    if (!element) return
    const read = () => {
      const now = Math.floor(element.clientWidth)
      if (now > 0) setWidth(now)
    }
    read()
    if (typeof ResizeObserver === 'undefined') return
    const observer = new ResizeObserver(read)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [box, width]
}
