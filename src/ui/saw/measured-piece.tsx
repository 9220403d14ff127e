import { useState } from 'react'
import type { BenchCut } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import { firstPiece } from '../../core/saw/first-piece.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions } from '../app.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'

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
  const { setUp } = cut
  const found =
    got === undefined
      ? undefined
      : firstPiece(got, wanted, { stop: setUp.printed.stop.mm + moved, ramp: setUp.ramp }, shop)
  const told = found?.ok ? found.value : undefined
  const write = (measured: number) => actions.measure(job, { piece: cut.done!, what, got: measured, wanted })
  const move = async (measured: number, by: number) => {
    await write(measured)
    await actions.moveStop(job, setUp.id, moved + by)
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
      {found && !found.ok && <p className="problem">{found.problems[0]?.text}</p>}
      {got !== undefined && told?.within && (
        <button type="button" onClick={() => void write(got)}>
          Right: write it down
        </button>
      )}
      {got !== undefined && told && !told.within && (
        <>
          <p>
            <b>
              {say(Math.abs(told.off), shop.reading)} too {told.off > 0 ? 'long' : 'short'}.
            </b>{' '}
            Move the stop {told.by < 0 ? 'toward' : 'away from'} the blade, to{' '}
            <b>
              <LengthText of={told.stop} />
            </b>
            .{' '}
            {told.piece === 'recut'
              ? 'Then push this piece to the stop once more and cut the rest off.'
              : 'Keep this piece if it will do; else press Miscut.'}
          </p>
          <button type="button" onClick={() => void move(got, told.by)}>
            The stop is moved
          </button>
        </>
      )}
    </div>
  )
}
