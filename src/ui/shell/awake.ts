import { useEffect } from 'react'

/**
 * Keeps the screen on while `on` holds. The browser lets the lock go whenever the page is hidden, so it is asked
 * for again when the page comes back. Where there is no such lock, or the battery forbids it, nothing happens.
 */
export function useAwake(on: boolean): void {
  useEffect(() => {
    if (!on || !('wakeLock' in navigator)) return
    let lock: WakeLockSentinel | null = null
    let ended = false
    const hold = async () => {
      if (document.visibilityState !== 'visible') return
      try {
        const got = await navigator.wakeLock.request('screen')
        if (ended) await got.release()
        else lock = got
      } catch {
        // Refused: the screen dims as the machine is set; work goes on.
      }
    }
    const again = () => void hold()
    again()
    document.addEventListener('visibilitychange', again)
    return () => {
      ended = true
      document.removeEventListener('visibilitychange', again)
      lock?.release().catch(() => undefined)
    }
  }, [on])
}
