import encodeQR from 'qr'
import { useEffect, useMemo, useState } from 'react'

const quiet = 4

/** One path of all dark squares, with the quiet edge that ISO/IEC 18004 asks for. */
export function codePath(text: string): { readonly path: string; readonly side: number } {
  const rows = encodeQR(text, 'raw', { ecc: 'low', encoding: 'alphanumeric', border: quiet })
  const path = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('')
  return { path, side: rows.length }
}

/** Milliseconds for which each of several codes stands: a camera needs two or three looks. */
const each = 900

/** The codes of one job: one stands still, several follow each other round and round, or are turned by hand. */
export function CodeRow({ codes, name }: { readonly codes: readonly string[]; readonly name: string }) {
  const [at, setAt] = useState(0)
  const [running, setRunning] = useState(() => !window.matchMedia('(prefers-reduced-motion: reduce)').matches)
  const place = at % codes.length
  const { path, side } = useMemo(() => codePath(codes[place] ?? ''), [codes, place])
  useEffect(() => {
    if (!running || codes.length < 2) return
    const timer = setInterval(() => setAt((now) => now + 1), each)
    return () => clearInterval(timer)
  }, [running, codes])
  const turn = (by: number) => {
    setRunning(false)
    setAt((now) => (now + by + codes.length) % codes.length)
  }
  return (
    <div className="code-row">
      <svg
        className="code"
        viewBox={`0 0 ${side} ${side}`}
        role="img"
        aria-label={`Code ${place + 1} of ${codes.length} of ${name}`}
        shapeRendering="crispEdges"
      >
        <rect width={side} height={side} fill="#fff" />
        <path d={path} fill="#000" />
      </svg>
      {codes.length > 1 && (
        <>
          <p>
            Code {place + 1} of {codes.length}. They may be read in any order, and round again.
          </p>
          <p className="keys-row">
            <button type="button" onClick={() => turn(-1)}>
              Code before
            </button>
            <button type="button" onClick={() => setRunning(!running)}>
              {running ? 'Stand still' : 'Run by itself'}
            </button>
            <button type="button" onClick={() => turn(1)}>
              Next code
            </button>
          </p>
        </>
      )}
    </div>
  )
}
