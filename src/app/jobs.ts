import type { Job, Params } from '../core/job.ts'
import { unitOf } from '../core/reading/show.ts'
import { rebased } from '../core/rebased.ts'
import type { Problem } from '../core/result.ts'
import { type Revision, revisionName } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'
import { readStoredJob, readStoredShop } from '../door/stored.ts'
import { attempt, type Desk, jobKey, jobOf, Refusal, savedKey, shopKey } from './desk.ts'
import { jobList, publish, readDisk, soil } from './publish.ts'
import type { Actions, JobView } from './state.ts'

const elsewhere = (what: string) =>
  `${what} was changed in another tab meanwhile. Both versions are kept; choose which one stands.`

/** Saves a job over the revision that is on the desk. Where another tab was faster, both are kept and that is said. */
export async function saveJob(desk: Desk, job: Job, over: Revision<Job> | undefined): Promise<void> {
  const { saved, won } = await desk.ports.disk.saveJob(job, over ? revisionName(over) : null)
  if (!won) {
    const words = `${elsewhere(`The job “${job.name}”`)} Until then this tab changes its own version only.`
    return setAside(desk, jobKey(job.id), saved, words)
  }
  desk.own.add(savedKey(saved))
  desk.jobs.set(job.id, saved)
  publish(desk, { jobs: jobList(desk) }, [job.id])
}

/** Never resolves: what was wished stands beside the other version, and is not what the list shows. */
async function setAside(
  desk: Desk,
  key: string,
  rival: Revision<Job> | Revision<Shop>,
  words: string,
): Promise<never> {
  desk.asides.set(key, { rival, words, dismissed: false })
  await readDisk(desk)
  throw new Refusal(words)
}

/**
 * The revision that a wish was made on. Own saves that were still under way then are part of it; what another tab saved
 * meanwhile is not, so that the disk refuses to write over it.
 */
const basis = <R extends Revision<Job> | Revision<Shop> | null>(desk: Desk, seen: R, now: R): R =>
  now === null || desk.own.has(savedKey(now)) ? now : seen

/** Without the fields that were taken away: what is stored says only what was given. */
const given = (job: Job): Job =>
  Object.fromEntries(Object.entries(job).filter(([, value]) => value !== undefined)) as unknown as Job

/** A name that no job of this list has yet. */
export function freeName(name: string, jobs: readonly Job[]): string {
  const names = new Set(jobs.map((job) => job.name))
  let free = name
  for (let number = 2; names.has(free); number++) free = `${name} ${number}`
  return free
}

const isSame = (one: Job, two: Job): boolean => JSON.stringify(one) === JSON.stringify(two)

type JobActions = Pick<
  Actions,
  'newJob' | 'copyJob' | 'removeJob' | 'editJob' | 'editParams' | 'saveShop' | 'settle' | 'settleApart'
>

export function jobActions(desk: Desk): JobActions {
  const { ports, store } = desk

  /** A job that could not be read back is not saved: what is wrong stands beside the field, the job stays as it was. */
  async function edit(id: string, change: (job: Job) => Job): Promise<void> {
    const seen = desk.jobs.get(id)
    await attempt(desk, undefined, async () => {
      const now = jobOf(desk, id)
      const aside = desk.asides.get(jobKey(id))
      const over = aside ? (aside.rival as Revision<Job>) : basis(desk, seen ?? now, now)
      const edited = change(over.body)
      const read = readStoredJob(edited)
      if (!read.ok) return tell(id, read.problems)
      if (!aside) return saveJob(desk, edited, over)
      // A field that is left says again what it said when the hand rested: that is kept already.
      const rival = isSame(edited, over.body) ? over : await ports.disk.saveAside(edited, over)
      await setAside(desk, jobKey(id), rival, aside.words)
    })
  }

  function tell(id: string, problems: readonly Problem[]): void {
    const { views } = store.getState()
    const view = views[id]
    if (!view) throw new Refusal(problems.map(({ text }) => text).join(' '))
    const told: JobView = { ...view, problems, stale: view.plan !== null }
    store.setState({ views: { ...views, [id]: told } })
  }

  return {
    newJob: (kind) =>
      attempt(desk, '', async () => {
        const { shop, jobs } = store.getState()
        const started = desk.planner.newJob(kind, unitOf(shop.reading), ports.ids.make())
        if (!started.ok) throw new Refusal(started.problems.map(({ text }) => text).join(' '))
        const job = { ...started.value, name: freeName(started.value.name, jobs) }
        await saveJob(desk, job, undefined)
        return job.id
      }),

    copyJob: (id) =>
      attempt(desk, '', async () => {
        const { body } = jobOf(desk, id)
        const name = freeName(`${body.name} copy`, store.getState().jobs)
        const copy = { ...body, id: ports.ids.make(), name, from: id }
        await saveJob(desk, copy, undefined)
        return copy.id
      }),

    removeJob: (id) =>
      attempt(desk, undefined, async () => {
        await ports.disk.removeJob(id)
        desk.searches.get(id)?.drop()
        desk.asides.delete(jobKey(id))
        for (const kept of [desk.jobs, desk.candidates, desk.offers, desk.searches, desk.planned])
          kept.delete(id)
        if (desk.shown === id) desk.shown = null
        // Steel that its accepted nest waited for is free again.
        soil(desk)
        publish(desk, { jobs: jobList(desk) }, [])
      }),

    editJob: (id, change) => edit(id, (job) => given({ ...job, ...change })),

    editParams: (id, change) =>
      edit(id, (job) => {
        const merged = Object.entries({ ...job.build.params, ...change })
        const params: Params = Object.fromEntries(merged.filter(([, value]) => value !== undefined))
        return { ...job, build: { ...job.build, params } }
      }),

    saveShop: (wanted: Shop, from?: Shop) => {
      const seen = desk.shop
      return attempt<readonly Problem[]>(
        desk,
        [{ code: 'not-saved', text: 'The shop was not saved.' }],
        async () => {
          // Two keys may be pressed before the first is on the disk.
          const shop = from ? rebased(store.getState().shop, from, wanted) : wanted
          const read = readStoredShop(shop)
          if (!read.ok) return read.problems
          const aside = desk.asides.get(shopKey)
          if (aside) return setAside(desk, shopKey, aside.rival, aside.words)
          const over = basis(desk, seen, desk.shop)
          const { saved, won } = await ports.disk.saveShop(shop, over && revisionName(over))
          if (!won) {
            const words = `${elsewhere('The shop')} Until then this tab keeps no more changes of the shop.`
            return setAside(desk, shopKey, saved, words)
          }
          desk.own.add(savedKey(saved))
          desk.shop = saved
          soil(desk)
          publish(desk, { shop: saved.body, shopLost: false }, desk.shown === null ? [] : [desk.shown])
          return []
        },
      )
    },

    settle: (chosen) =>
      attempt(desk, undefined, async () => {
        const { rivals } = store.getState()
        const current = 'build' in chosen.body ? desk.jobs.get(chosen.id) : desk.shop
        const sameDocument = rivals.filter(
          (rival) => rival.id === chosen.id && 'build' in rival.body === 'build' in chosen.body,
        )
        await ports.disk.settle(chosen, current ? [current, ...sameDocument] : sameDocument)
        await readDisk(desk)
      }),

    settleApart: (rival) =>
      attempt(desk, undefined, async () => {
        const standing = jobOf(desk, rival.id)
        const name = freeName(rival.body.name, store.getState().jobs)
        // The copy first: should the device die in between, the second version is there twice and not gone.
        await saveJob(desk, { ...rival.body, id: ports.ids.make(), name }, undefined)
        await ports.disk.settle(standing, [rival])
        await readDisk(desk)
      }),
  }
}
