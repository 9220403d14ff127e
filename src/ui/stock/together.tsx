import type { JobView } from '../../app/state.ts'
import type { Nest } from '../../core/nest.ts'
import { useActions, useApp } from '../app.ts'
import { capital, saysOf } from '../words.ts'

/** Which other jobs are bought along, laid out on the same sticks; each keeps its own pieces. */
export function Together({ view, nest }: { view: JobView; nest: Nest | null }) {
  const actions = useActions()
  const jobs = useApp((state) => state.jobs)
  const accepted = useApp((state) => state.progress.accepted)
  const says = saysOf(useApp((state) => state.shop))
  const together = view.together ?? []
  const nameOf = (id: string) => jobs.find((job) => job.id === id)?.name ?? 'a job that is not here'
  if (accepted[view.id] !== undefined)
    return together.length === 0 ? null : (
      <section className="together" aria-labelledby="together-head">
        <h2 id="together-head">Bought together</h2>
        <Named jobs={nest?.jobs ?? []} nameOf={nameOf} />
      </section>
    )
  const open = jobs.filter(({ id }) => id !== view.id && accepted[id] === undefined)
  if (open.length === 0) return null
  const toggle = (id: string) =>
    void actions.nestTogether(
      view.id,
      together.includes(id) ? together.filter((other) => other !== id) : [...together, id],
    )
  return (
    <section className="together" aria-labelledby="together-head">
      <h2 id="together-head">Buy together with</h2>
      <div className="together-jobs">
        {open.map((job) => (
          <label key={job.id} className={together.includes(job.id) ? 'option chosen' : 'option'}>
            <input type="checkbox" checked={together.includes(job.id)} onChange={() => toggle(job.id)} />
            <span>
              {job.name}
              {job.quantity > 1 && ` × ${job.quantity}`}
            </span>
          </label>
        ))}
      </div>
      {together.length > 0 && nest && nest.jobs.length > 1 ? (
        <Named jobs={nest.jobs} nameOf={nameOf} />
      ) : (
        <p className="dim">
          {capital(says.sticks)} are then shared: one layout, one purchase, one run at the saw.
        </p>
      )}
    </section>
  )
}

function Named({ jobs, nameOf }: { jobs: readonly string[]; nameOf: (id: string) => string }) {
  return (
    <>
      <ul>
        {jobs.map((id, at) => (
          <li key={id}>
            <span className="mark">
              {at + 1}A, {at + 1}B …
            </span>{' '}
            {nameOf(id)}
          </li>
        ))}
      </ul>
      <p className="dim">At the saw the pieces of all of them are cut in one run, under these marks.</p>
    </>
  )
}
