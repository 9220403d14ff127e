import type { Fact, Progress } from '../facts.ts'
import type { Job } from '../job.ts'
import type { Mm } from '../units.ts'
import { minutesName, type Stage, stages, timesOf } from './times.ts'

/** What was learned when the job that this one was copied from was made. */
export interface LastTime {
  readonly job: string
  /** Its name, where it is still on the list. */
  readonly name?: string
  /** What was written, by step: `job` for the whole. */
  readonly notes: Readonly<Record<string, readonly string[]>>
  /** Minutes of one copy, the mean of those that are known; of the saw, of all copies together. */
  readonly minutes: Readonly<Partial<Record<Stage, number>>>
  /** What was measured, copy by copy, by the name that it is kept under (`size:…`, `angle:…`). */
  readonly measured: Readonly<Record<string, readonly Mm[]>>
  readonly miscuts: readonly { readonly label: string; readonly why: string }[]
}

/** The nearest job up the line of copies that anything was done on; undefined where there is none. */
function sourceOf(job: Job, jobs: readonly Job[], facts: readonly Fact[]): string | undefined {
  if (job.from === undefined) return undefined
  const worked = new Set(facts.map((fact) => fact.job))
  const seen = new Set([job.id])
  for (let id: string | undefined = job.from; id !== undefined && !seen.has(id); ) {
    if (worked.has(id)) return id
    seen.add(id)
    id = jobs.find((one) => one.id === id)?.from
  }
  return undefined
}

/** What a job that was copied can learn from the one before; undefined where it learns from none, or nothing was kept. */
export function lastTimeOf(
  job: Job,
  jobs: readonly Job[],
  progress: Progress,
  facts: readonly Fact[],
): LastTime | undefined {
  const id = sourceOf(job, jobs, facts)
  if (id === undefined) return undefined
  const name = jobs.find((one) => one.id === id)?.name
  const notes = gathered(progress.notes, id, ({ text }) => text)
  const gauged = gathered(progress.gauged, id, ({ value }) => value)
  const miscuts = progress.spoiled.filter((one) => one.job === id).map(({ label, why }) => ({ label, why }))
  const copies = [
    ...new Set(facts.flatMap((one) => (one.job === id && one.copy !== undefined ? [one.copy] : []))),
  ]
  const clocks = copies.map((copy) => timesOf(facts, id, copy))
  const minutes: Partial<Record<Stage, number>> = {}
  for (const stage of stages) {
    const given = gauged[minutesName(stage)]
    const told = clocks.flatMap((times) => times.filter((one) => one.stage === stage && one.minutes > 0))
    const all = given ?? told.map((one) => one.minutes)
    if (all.length > 0) minutes[stage] = all.reduce((sum, one) => sum + one, 0) / all.length
  }
  const measured = Object.fromEntries(Object.entries(gauged).filter(([of]) => !of.startsWith('minutes:')))
  const nothing =
    [notes, measured, minutes].every((one) => Object.keys(one).length === 0) && miscuts.length === 0
  if (nothing) return undefined
  return { job: id, ...(name === undefined ? {} : { name }), notes, minutes, measured, miscuts }
}

/** What is kept as `job/copy/of`, of all copies of one job, by `of`. */
function gathered<V, T>(
  kept: Readonly<Record<string, V>>,
  job: string,
  says: (one: V) => T,
): Readonly<Record<string, readonly T[]>> {
  const found: Record<string, T[]> = {}
  for (const [name, one] of Object.entries(kept)) {
    if (!name.startsWith(`${job}/`)) continue
    const rest = name.slice(job.length + 1)
    const of = rest.slice(rest.indexOf('/') + 1)
    found[of] = [...(found[of] ?? []), says(one)]
  }
  return found
}
