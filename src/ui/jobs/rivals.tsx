import { useMemo } from 'react'
import type { Revision } from '../../app/ports.ts'
import { frameOf } from '../../core/draft.ts'
import type { Job } from '../../core/job.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp, useShop } from '../app.ts'
import { SmallDrawing } from '../drawing/small.tsx'
import { count } from '../words.ts'
import { differences } from './differences.ts'
import { sizeWords } from './size-words.ts'

const isJob = (revision: Revision<Job> | Revision<Shop>): revision is Revision<Job> =>
  'build' in revision.body

/** Second versions of a job or the shop, from another tab or device: both are kept, and the person chooses. */
export function Rivals() {
  const rivals = useApp((state) => state.rivals)
  if (rivals.length === 0) return null
  return (
    <>
      {rivals.map((rival) => (
        <Rival key={`${rival.id} ${rival.device} ${rival.rev}`} rival={rival} />
      ))}
    </>
  )
}

function Rival({ rival }: { readonly rival: Revision<Job> | Revision<Shop> }) {
  const jobs = useApp((state) => state.jobs)
  const shop = useShop()
  const { settle, settleApart } = useActions()
  const standing: Job | Shop | undefined = isJob(rival) ? jobs.find(({ id }) => id === rival.id) : shop
  if (!standing) return null
  const lines = differences(standing, rival.body)
  return (
    <section className="rivals" aria-label={`Two versions of ${standing.name}`}>
      <h2>Two versions of {standing.name}</h2>
      <p>It was changed in two places at once. Nothing is lost until one is chosen.</p>
      <div className="rival-pair">
        <div className="rival">
          <h3>On the list now</h3>
          {isJob(rival) && <JobWords job={standing as Job} />}
          <ul className="plain-list">
            {lines.map(({ what, here }) => (
              <li key={what}>
                {what}: <strong>{here}</strong>
              </li>
            ))}
          </ul>
          <button type="button" onClick={() => void settle({ ...rival, body: standing } as typeof rival)}>
            Keep this one
          </button>
        </div>
        <div className="rival">
          <h3>The other</h3>
          {isJob(rival) && <JobWords job={rival.body} />}
          <ul className="plain-list">
            {lines.map(({ what, there }) => (
              <li key={what}>
                {what}: <strong>{there}</strong>
              </li>
            ))}
          </ul>
          <button type="button" onClick={() => void settle(rival)}>
            Take the other
          </button>
          {isJob(rival) && (
            <button type="button" onClick={() => void settleApart(rival)}>
              Keep both, as two jobs
            </button>
          )}
        </div>
      </div>
    </section>
  )
}

function JobWords({ job }: { readonly job: Job }) {
  const shop = useShop()
  const frame = useMemo(() => frameOf(job, shop), [job, shop])
  return (
    <>
      {frame.ok && <SmallDrawing frame={frame.value} />}
      <p>
        {job.name}, {count(job.quantity, 'copy', 'copies')}
        {frame.ok && `, ${sizeWords(frame.value, shop)}`}
      </p>
    </>
  )
}
