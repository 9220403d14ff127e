import { useState } from 'react'
import type { BenchCut } from '../../core/plan-shapes.ts'
import { say } from '../../core/reading/show.ts'
import { firstPiece } from '../../core/saw/first-piece.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp } from '../app.ts'
import { MmField } from '../fields/length-field.tsx'
import { LengthText } from '../fields/length-text.tsx'

/** What the first piece of a set-up came out at: right, or by how much the stop is to be moved and what becomes of it. */
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
  readonly onBad: () => void
}) {
  const { job, cut, wanted, what, moved, shop } = props
  const actions = useActions()
  const before = useApp((state) => state.progress.measured[`${cut.done}/${what}`])
  const [got, setGot] = useState<number | undefined>(undefined)
  // Another round empties the field.
  const [round, setRound] = useState(0)
  const { setUp } = cut
  const found =
    got === undefined
      ? undefined
      : firstPiece(got, wanted, { stop: setUp.printed.stop.mm + moved, ramp: setUp.ramp }, shop)
  const told = found?.ok ? found.value : undefined
  const write = (measured: number) => actions.measure(job, { piece: cut.done!, what, got: measured, wanted })
  const move = (by: number) => actions.moveStop(job, setUp.id, moved + by)
  const again = () => {
    setGot(undefined)
    setRound(round + 1)
  }
  /** The stop is moved, and the piece stays as it is: what it measures is written down. */
  const keep = async (measured: number, by: number) => {
    await write(measured)
    await move(by)
    again()
  }
  const recut = async (by: number) => {
    await move(by)
    again()
  }
  const scrap = async (by: number) => {
    await move(by)
    props.onBad()
  }
  return (
    <div className="measured-piece">
      {before && got === undefined && (
        <p className="state cut">Written down: {say(before.got, shop.reading)}. Cut the next.</p>
      )}
      <MmField
        key={round}
        label={`The ${what} that you got`}
        value={got}
        reading={shop.reading}
        optional
        possible={{ over: 0 }}
        onChange={setGot}
      />
      {found && !found.ok && <p className="problem">{found.problems[0]?.text}</p>}
      {got !== undefined && told?.within && (
        <button type="button" onClick={() => void write(got).then(again)}>
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
            . Then what becomes of this piece?
          </p>
          <div className="left-over-keys">
            {told.piece === 'recut' && (
              <button type="button" onClick={() => void recut(told.by)}>
                Stop moved, piece recut
              </button>
            )}
            <button type="button" onClick={() => void keep(got, told.by)}>
              Stop moved, piece kept
            </button>
            <button type="button" onClick={() => void scrap(told.by)}>
              Stop moved, piece no good
            </button>
          </div>
        </>
      )}
    </div>
  )
}
