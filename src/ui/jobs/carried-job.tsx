import { useMemo, useState } from 'react'
import type { Carried } from '../../app/state.ts'
import { buildOf } from '../../core/builds/index.ts'
import { frameOf } from '../../core/draft.ts'
import { useActions, useShop } from '../app.ts'
import { SmallDrawing } from '../drawing/small.tsx'
import type { Place } from '../shell/route.ts'
import { count } from '../words.ts'
import { sizeWords } from './size-words.ts'

/** A job that came by link or by codes: what it is, before it is opened. */
export function CarriedJob(props: {
  readonly carried: Carried
  /** It was opened or left: where to go now. */
  readonly onDone: (where: Place) => void
}) {
  const { carried, onDone } = props
  const shop = useShop()
  const { openFile } = useActions()
  const [faults, setFaults] = useState<readonly string[]>([])
  const { job, facts } = carried
  const frame = useMemo(() => frameOf(job, shop), [job, shop])
  const open = async () => {
    const { job: id, rival, problems } = await openFile(carried.text)
    setFaults(problems.map(({ text }) => text))
    if (id === undefined || problems.length > 0) return
    onDone(rival ? { station: 'jobs' } : { station: 'sizes', job: id })
  }
  return (
    <div className="carried">
      {frame.ok && <SmallDrawing frame={frame.value} />}
      <p>
        <strong>{job.name}</strong>
      </p>
      <p>
        {buildOf(job.build.kind)?.title ?? job.build.kind}
        {frame.ok ? `, ${sizeWords(frame.value, shop)}` : ', its sizes cannot be built yet'}
        {job.quantity > 1 && `, ${job.quantity} of them`}
        {facts > 0 && `, with ${count(facts, 'cut or entry', 'cuts and entries')} of its log`}
      </p>
      {faults.map((text) => (
        <p key={text} className="problem" role="alert">
          {text}
        </p>
      ))}
      <p className="keys-row">
        <button type="button" className="button go" onClick={() => void open()}>
          Open this job
        </button>
        <button type="button" onClick={() => onDone({ station: 'jobs' })}>
          Leave it
        </button>
      </p>
    </div>
  )
}
