import type { AngleShown, SetUp, Shown } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import { stackedOnly } from '../../core/saw/caution.ts'
import type { Reading, Saw } from '../../core/shop.ts'
import { Digits } from '../fields/length-text.tsx'
import { capital } from '../words.ts'
import { degrees } from './say.ts'

const halves: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4' }

/** `22½°` as digits with a typeset fraction, so that a half degree is as easy to read as a half inch. */
export function spelledAngle(text: string): string {
  const bare = text.replace(/°$/, '')
  const half = halves[bare.slice(-1)]
  if (!half) return bare
  const whole = bare.slice(0, -1)
  return whole ? `${whole} ${half}` : half
}

function BigAngle({ label, of, figure = 'angle' }: { label: string; of: AngleShown; figure?: string }) {
  return (
    <div className="figure">
      <p className="figure-label">{label}</p>
      <p className="figure-value" data-figure={figure}>
        <Digits text={spelledAngle(of.text)} />
        <span className="degree" aria-hidden="true">
          °
        </span>
        <span className="heard">degrees</span>
      </p>
      {of.rise && <p className="figure-note">{of.rise}</p>}
    </div>
  )
}

function BigLength({ label, of }: { label: string; of: Shown }) {
  return (
    <div className="figure">
      <p className="figure-label">{label}</p>
      <p className="figure-value" data-figure="stop">
        <Digits text={of.text} />
        <span className="figure-unit"> {of.unit}</span>
      </p>
    </div>
  )
}

const plain = (angle: number): AngleShown => ({ deg: Math.abs(angle), text: degrees(angle) })

/** The numbers to set, and nothing beside them that could be set instead. */
export const figureCount = ({ printed, roll, ramp }: SetUp): number =>
  2 + [printed.bevel !== undefined, roll !== 0, ramp !== 0].filter(Boolean).length

/** The stop as it is to be set: as printed, or as the first piece corrected it until the head moves. */
export function stopToSet({ printed: { stop } }: SetUp, moved: number, reading: Reading): Shown {
  if (moved === 0) return stop
  const { mm, text, unit } = showLength(stop.mm + moved, reading)
  return { mm, text, unit }
}

export function Figures(props: { setUp: SetUp; saw: Saw; moved?: number; reading: Reading }) {
  const { setUp, saw, moved = 0, reading } = props
  const { miter, bevel } = setUp.printed
  const stop = stopToSet(setUp, moved, reading)
  return (
    <div className="set-figures">
      <BigAngle
        label={saw.readsAtSquare === 90 ? 'Miter on the scale (square is 90)' : 'Miter, from square'}
        of={miter}
      />
      {bevel && <BigAngle label="Bevel, from upright" of={bevel} figure="bevel" />}
      {setUp.roll !== 0 && <BigAngle label="Turned in the cradle" of={plain(setUp.roll)} figure="roll" />}
      {setUp.ramp !== 0 && <BigAngle label="Wedge" of={plain(setUp.ramp)} figure="ramp" />}
      <BigLength
        label={`Stop at the ${setUp.stopSide}, along the fence from the teeth${moved === 0 ? '' : ', corrected'}`}
        of={stop}
      />
    </div>
  )
}

/** How the numbers are meant: which way the blade leans, how the piece lies, and when the stop is read. */
export function FigureNotes({ setUp, saw }: { setUp: SetUp; saw: Saw }) {
  const { lean, bevelLean, roll, ramp, seam, longSide } = setUp.printed
  return (
    <div className="figure-notes">
      {longSide && (
        <p className="lies-how">
          <b>{capital(longSide)}.</b>
        </p>
      )}
      {setUp.swing !== 0 && lean && (
        <p className="lean">{capital(lean)}. Read the stop after the blade is swung.</p>
      )}
      {bevelLean && <p className="lean">{capital(bevelLean)}.</p>}
      {[roll, ramp, seam].map((words) => words && <p key={words} className="lean">{`${capital(words)}.`}</p>)}
      {(saw.gang ?? 1) > 1 && setUp.swing !== 0 && <p className="lean">{stackedOnly}</p>}
      {setUp.stopSide !== saw.stopSide && (
        <p className="lean other-side">
          <b>The stop moves to the {setUp.stopSide} of the blade</b>: what is kept must be in the vise.
        </p>
      )}
    </div>
  )
}
