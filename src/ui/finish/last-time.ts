import { useMemo } from 'react'
import { type LastTime, lastTimeOf } from '../../core/finish/last-time.ts'
import type { Job } from '../../core/job.ts'
import { useApp } from '../app.ts'

/** What was learned when the job that this one was copied from was made; undefined where there is nothing. */
export function useLastTime(job: Job): LastTime | undefined {
  const jobs = useApp((state) => state.jobs)
  const progress = useApp((state) => state.progress)
  const facts = useApp((state) => state.facts)
  return useMemo(() => lastTimeOf(job, jobs, progress, facts), [job, jobs, progress, facts])
}
