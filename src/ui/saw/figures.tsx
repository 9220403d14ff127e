import type { AngleShown, SetUp, Shown } from '../../core/plan-shapes.ts'
import type { Saw } from '../../core/shop.ts'
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

function BigAngle({ label, of }: { label: string; of: AngleShown }) {
  return (
    <div className="figure">
      <p className="figure-label">{label}</p>
      <p className="figure-value" data-figure="angle">
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

/** The numbers to set, and nothing beside them that could be set instead; how they are meant stands under both. */
export function Figures({ setUp, saw }: { setUp: SetUp; saw: Saw }) {
  const { miter, stop, lean } = setUp.printed
  return (
    <>
      <div className="figures">
        <BigAngle
          label={saw.readsAtSquare === 90 ? 'Miter on the scale (square is 90)' : 'Miter, from square'}
          of={miter}
        />
        <BigLength label={`Stop at the ${setUp.stopSide}, along the fence from the teeth`} of={stop} />
      </div>
      <div className="figure-notes">
        {setUp.swing !== 0 && lean && (
          <p className="lean">{capital(lean)}. Read the stop after the blade is swung.</p>
        )}
        {setUp.tilt !== 0 && <p className="lean">Bevel {degrees(setUp.tilt)}.</p>}
        {setUp.roll !== 0 && <p className="lean">In the cradle, rolled {degrees(setUp.roll)}.</p>}
        {setUp.ramp !== 0 && <p className="lean">On the wedge, raised {degrees(setUp.ramp)}.</p>}
        {setUp.stopSide !== saw.stopSide && (
          <p className="lean other-side">
            <b>The stop moves to the {setUp.stopSide} of the blade</b>: what is kept must be in the vise.
          </p>
        )}
      </div>
    </>
  )
}
