import { useSyncExternalStore } from 'react'

/** Whether the window is narrower than so many px; followed as it turns or is resized. */
export function useNarrow(px: number): boolean {
  const query = `(max-width: ${px - 1}px)`
  return useSyncExternalStore(
    (told) => {
      if (typeof matchMedia !== 'function') return () => undefined
      const list = matchMedia(query)
      list.addEventListener('change', told)
      return () => list.removeEventListener('change', told)
    },
    () => typeof matchMedia === 'function' && matchMedia(query).matches,
  )
}
