import { useEffect, useRef, useState } from 'react'
import type { BenchCut } from '../../core/plan-shapes.ts'

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
  /** A cut is on its way to the disk. */
  readonly busy: boolean
  /** What was just cut, for a moment after it is on disk. */
  readonly just: { readonly name: string } | null
  readonly check: (cut: BenchCut, name: string) => void
}

/** Checks a cut off: busy until it is on disk, and said as done only if the plan then says so too. */
export function useCheckOff(cuts: readonly BenchCut[], onCut: (cut: BenchCut) => Promise<void>): CheckOff {
  const [busy, setBusy] = useState(false)
  const [just, setJust] = useState<CheckOff['just']>(null)
  const latest = useRef(cuts)
  latest.current = cuts
  useEffect(() => {
    if (!just) return
    const timer = setTimeout(() => setJust(null), settle)
    return () => clearTimeout(timer)
  }, [just])
  const check = (cut: BenchCut, name: string) => {
    if (busy || just) return
    setBusy(true)
    const isDone = () =>
      latest.current.some((one) => one.product.id === cut.product.id && one.done !== undefined)
    onCut(cut)
      .finally(() => setBusy(false))
      .then(
        () => {
          // The store has the fact by now; what React shows of it may come a moment later.
          setTimeout(() => isDone() && setJust({ name }), 0)
        },
        () => undefined,
      )
  }
  return { busy, just, check }
}
