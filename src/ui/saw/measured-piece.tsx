import { useState } from 'react'
import type { BenchCut } from '../../core/plan-shapes.ts'
import { readingStep, say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { sameLength } from '../../core/tolerance.ts'
import { useActions } from '../app.ts'
import { MmField } from '../fields/length-field.tsx'

/** What the first piece of a set-up came out at: right, or by how much the stop is to be moved. */
export function MeasuredPiece(props: {
  readonly job: string
  /** The first cut of the set-up, done. */
  readonly cut: BenchCut
  readonly wanted: number
  /** `long point`, `length`. */
  readonly what: string
  /** How far the stop is set off what is printed already, mm. */
  readonly moved: number
  readonly shop: Shop
}) {
  const { job, cut, wanted, what, moved, shop } = props
  const actions = useActions()
  const [got, setGot] = useState<number | undefined>(undefined)
  const off = got === undefined ? 0 : got - wanted
  const right = Math.abs(off) <= (shop.tolerance ?? readingStep(shop.reading) / 2) + sameLength
  const write = (measured: number) => actions.measure(job, { piece: cut.done!, what, got: measured, wanted })
  const move = async (measured: number) => {
    await write(measured)
    await actions.moveStop(job, cut.setUp.id, moved - off)
  }
  return (
    <div className="measured-piece">
      <MmField
        label={`The ${what} that you got`}
        value={got}
        reading={shop.reading}
        optional
        onChange={setGot}
      />
      {got !== undefined && right && (
        <button type="button" onClick={() => void write(got)}>
          Right: write it down
        </button>
      )}
      {got !== undefined && !right && (
        <>
          <p>
            <b>
              {say(Math.abs(off), shop.reading)} too {off > 0 ? 'long' : 'short'}.
            </b>{' '}
            Move the stop that much {off > 0 ? 'toward' : 'away from'} the blade.
            {off > 0
              ? ' Then push this piece to the stop once more and cut the rest off.'
              : ' Keep this piece if it will do; else press Miscut.'}
          </p>
          <button type="button" onClick={() => void move(got)}>
            The stop is moved
          </button>
        </>
      )}
    </div>
  )
}
