import { useState } from 'react'
import { faceOf } from '../../core/fitup/closing.ts'
import { type OpenAt, readJoint } from '../../core/fitup/joint-look.ts'
import type { Loop } from '../../core/fitup/loops.ts'
import { Choice } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { degrees } from './closing-words.ts'
import type { Bench } from './will-it-close.tsx'

/** A joint that stands open: what it says about the saw, and what to set. */
export function BadJoint({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { plan, shop } = bench
  const [at, setAt] = useState<OpenAt>('outside')
  const [gap, setGap] = useState<number | undefined>(undefined)
  const [cut, setCut] = useState<'over' | 'swung'>(turnsOver(bench) ? 'over' : 'swung')
  const upright = at === 'top' || at === 'bottom'
  const member = plan.frame.members.find(({ id }) => id === loop.pieces[0]!.member)
  const across = upright ? (member?.section.height ?? 0) : faceOf(loop, 0)
  const look = gap !== undefined && gap > 0 ? readJoint(at, gap, across, cut === 'over') : undefined
  return (
    <section className="fit-part" aria-labelledby="fit-bad">
      <h2 id="fit-bad">A joint that does not close</h2>
      <div className="fit-fields">
        <Choice
          label="It is open at the"
          value={at}
          options={(['outside', 'inside', 'top', 'bottom'] as const).map((value) => ({
            value,
            label: value,
          }))}
          onChange={setAt}
        />
        {upright && (
          <Choice
            label="Between its two cuts the piece was"
            value={cut}
            options={[
              { value: 'over', label: 'turned over' },
              { value: 'swung', label: 'not turned, the head was swung' },
            ]}
            onChange={setCut}
          />
        )}
        <MmField label="Gap" value={gap} reading={shop.reading} onChange={setGap} />
      </div>
      {look ? (
        <>
          <p className="fit-says" role="status">
            {look.cause}
          </p>
          <p>
            {look.set}: {degrees(look.each)}.
          </p>
        </>
      ) : (
        <p>Hold the two pieces where they belong, the closed side touching, and measure the gap.</p>
      )}
    </section>
  )
}

/** Whether the plan's programs turn a piece over between two cuts. */
const turnsOver = ({ plan }: Bench): boolean =>
  plan.run?.programs.some(({ steps }) =>
    steps.some((step) => 'turn' in step && (step.turn === 'flip' || step.turn === 'over')),
  ) ?? true
