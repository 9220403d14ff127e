import { attempt, type Desk, groupOf, Refusal } from './desk.ts'
import { wantNest } from './nesting.ts'
import { publish } from './publish.ts'
import { wantedOf } from './view.ts'

// Jobs that are bought together: one nest serves them all, and each keeps its own parts.

/**
 * Buys this job together with these others, and no longer with any that are not named. All must be without an accepted
 * nest: steel that is cut by one layout is not laid out again by another.
 */
export async function nestTogether(desk: Desk, id: string, others: readonly string[]): Promise<void> {
  const before = groupOf(desk, id)
  const done = await attempt(desk, false, async () => {
    const { progress } = desk.store.getState()
    const group = [id, ...others.filter((other) => other !== id)]
    const laid = group.find((job) => progress.accepted[job] !== undefined)
    if (laid !== undefined)
      throw new Refusal(
        `${desk.jobs.get(laid)?.body.name ?? laid} is laid out already and works by that; only jobs without an accepted layout are bought together.`,
      )
    // In one order, whoever of them was asked: the same jobs give the same nest.
    const inOrder = [...desk.jobs.keys()].filter((job) => group.includes(job)).sort()
    const gone = inOrder.flatMap((job) => groupOf(desk, job))
    for (const job of [...before, ...gone]) desk.together.delete(job)
    if (inOrder.length > 1) for (const job of inOrder) desk.together.set(job, inOrder)
    const state = desk.store.getState()
    const first = desk.jobs.get(id)
    const wanted = first && wantedOf(desk, state, id)
    if (wanted && !wanted.ok) {
      for (const job of inOrder) desk.together.delete(job)
      throw new Refusal(wanted.problems.map(({ text }) => text).join(' '))
    }
    publish(desk, {}, new Set([...before, ...gone, ...inOrder]))
    return true
  })
  if (done) wantNest(desk, id)
}
