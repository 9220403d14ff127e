import { useState } from 'react'
import type { Loop } from '../../core/fitup/loops.ts'
import { testName } from '../../core/fitup/real.ts'
import { angleOfGap, endsInTest, errorOfEach, type ScrapTest } from '../../core/fitup/scraps.ts'
import { parseAngle } from '../../core/reading/parse.ts'
import { Choice } from '../fields/choice.tsx'
import { AngleField, MmField } from '../fields/length-field.tsx'
import { degrees } from './closing-words.ts'
import type { Bench } from './will-it-close.tsx'

/** What was put together and what it showed, as it was typed. */
interface Shown {
  readonly test: ScrapTest
  readonly side: 'sharp' | 'blunt'
  readonly way: 'angle' | 'gap'
  readonly angle: string
  readonly reach?: number | undefined
  readonly gap?: number | undefined
}

/** The error of each end, degrees; undefined until enough was typed. */
function errorOf({ test, side, way, angle, reach, gap }: Shown, sides: number): number | undefined {
  const parsed = parseAngle(angle)
  const shown =
    way === 'angle'
      ? angle.trim() !== '' && parsed.ok
        ? parsed.value
        : undefined
      : gap !== undefined && reach
        ? angleOfGap(gap, reach)
        : undefined
  return shown === undefined ? undefined : errorOfEach(test, sides, side === 'sharp' ? shown : -shown)
}

/** The test on scraps: the error of every end from what two or half a ring of them show. */
export function Scraps({ loop, bench }: { readonly loop: Loop; readonly bench: Bench }) {
  const { shop, measured, onGauge } = bench
  const [shown, setShown] = useState<Shown>({ test: 'pair', side: 'sharp', way: 'angle', angle: '' })
  const n = loop.pieces.length
  const each = measured(testName(loop.id))
  const change = (some: Partial<Shown>) => {
    const next = { ...shown, ...some }
    setShown(next)
    const error = errorOf(next, n)
    const emptied = some.angle !== undefined || 'gap' in some
    if (error !== undefined || emptied) onGauge(testName(loop.id), error)
  }
  if (!loop.ring) return null
  const times = endsInTest(shown.test, n)
  return (
    <details className="fit-fold">
      <summary>
        <span>A test on scraps</span>
        <span className="dim">
          {each === undefined
            ? 'not made'
            : `each end ${degrees(each)} ${each >= 0 ? 'too far from' : 'too near'} square`}
        </span>
      </summary>
      <div className="fit-fields">
        <Choice
          label="What is put together"
          value={shown.test}
          options={[
            { value: 'pair', label: 'Two scraps of one setting' },
            ...(n % 2 === 0
              ? [{ value: 'row' as const, label: `${n / 2} scraps against a straightedge` }]
              : []),
          ]}
          onChange={(test) => change({ test })}
          hint={`It shows the error of one end ${times} times over: ¼° each is ${degrees(times / 4)}.`}
        />
        <Choice
          label="The corner comes out"
          value={shown.side}
          options={[
            { value: 'sharp', label: 'too sharp, gap inside' },
            { value: 'blunt', label: 'too blunt, gap outside' },
          ]}
          onChange={(side) => change({ side })}
        />
        <Choice
          label="Measured as"
          value={shown.way}
          options={[
            { value: 'angle', label: 'an angle' },
            { value: 'gap', label: 'a gap' },
          ]}
          onChange={(way) => change({ way })}
        />
        {shown.way === 'angle' ? (
          <AngleField
            label="Error that it shows"
            optional
            value={shown.angle}
            onChange={(angle) => change({ angle })}
          />
        ) : (
          <>
            <MmField
              label="From where they touch to the gap"
              value={shown.reach}
              reading={shop.reading}
              possible={{ over: 0 }}
              onChange={(reach) => change({ reach })}
            />
            <MmField
              label="Gap"
              optional
              value={shown.gap}
              reading={shop.reading}
              onChange={(gap) => change({ gap })}
            />
          </>
        )}
        {each !== undefined && (
          <p>
            Each end is {degrees(each)} off. Set the head {degrees(each)}{' '}
            {each >= 0 ? 'nearer to' : 'further from'} square; {2 * n} ends would leave{' '}
            {degrees(2 * n * each)}.{' '}
            <button type="button" onClick={() => change({ angle: '', gap: undefined })}>
              Take the test back
            </button>
          </p>
        )}
      </div>
    </details>
  )
}
