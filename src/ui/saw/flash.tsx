import { useEffect, useRef, useState } from 'react'

/** How long the button says what was just cut, ms: a bouncing tap must not check off the next piece too. */
export const settle = 600

/**
 * Covers the panel once for each fact that reached the disk. It never covers on the first showing: that would
 * flash for what was done before.
 */
export function Flash({ flash }: { flash: number }) {
  const first = useRef(flash)
  if (flash === first.current) return null
  return <div key={flash} className="saw-flash" data-flash={flash} aria-hidden="true" />
}

export interface CheckOff {
  /** A fact is on its way to the disk. */
  readonly busy: boolean
  /** What was just done, for a moment after it is on disk. */
  readonly just: { readonly name: string } | null
  /** Does `act`, and says `name` when `id` is done by then. Nothing while another one is on its way or just said. */
  readonly check: (id: string, name: string, act: () => Promise<void>) => void
}

/** Checks things off one at a time: busy until it is on disk, said as done only if the app then says so too. */
export function useCheckOff(isDone: (id: string) => boolean): CheckOff {
  const [busy, setBusy] = useState(false)
  const [just, setJust] = useState<CheckOff['just']>(null)
  const latest = useRef(isDone)
  latest.current = isDone
  useEffect(() => {
    if (!just) return
    const timer = setTimeout(() => setJust(null), settle)
    return () => clearTimeout(timer)
  }, [just])
  const check: CheckOff['check'] = (id, name, act) => {
    if (busy || just) return
    setBusy(true)
    // A failed save is said by the shell; here the button only goes back to what is still to be done.
    // The store has the fact by now; React may show it a moment later. Until then no tap counts either.
    const settled = () =>
      setTimeout(() => {
        setBusy(false)
        if (latest.current(id)) setJust({ name })
      }, 0)
    act().then(settled, settled)
  }
  return { busy, just, check }
}
