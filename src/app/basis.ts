import type { Progress } from '../core/facts.ts'
import { revisionName } from '../core/revision.ts'
import type { Desk } from './desk.ts'

/** All that a plan of the rest depends on, as a text to compare. */
export function basisOf(desk: Desk, progress: Progress, id: string): string {
  const { made, spoiled, rack, opened, kept, scrapped, loaded, blades, joined, accepted } = progress
  const job = desk.jobs.get(id)
  return JSON.stringify([
    job && revisionName(job),
    desk.shop && revisionName(desk.shop),
    accepted,
    made.map((one) => [one.id, one.used]),
    spoiled.map((one) => one.id),
    [rack, opened, kept, scrapped, loaded, blades, joined],
  ])
}
