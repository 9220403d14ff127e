import { fold } from '../core/facts/fold.ts'
import type { Fact, Progress } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { CuttingWay, Nest, NestProblem, NestSection } from '../core/nest.ts'
import { isSealed, sealNest } from '../core/nest-seal.ts'
import { plan } from '../core/plan.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { bad, good, type Result } from '../core/result.ts'
import { chosenWay, offerOf, type WayOffer, waysFor } from '../core/saw/offer.ts'
import type { Shop } from '../core/shop.ts'
import { startShop } from '../core/shop-start.ts'
import { type JobFile, readJobFile } from '../door/job-file.ts'
import { readShopFile } from '../door/shop-file.ts'
import { solve, usualSteps } from '../nest/solve.ts'
import type { Said } from './said.ts'

/** What a command needs from outside. */
export interface Outside {
  readonly read: (file: string) => string
  /** SHA-256 of a text, hex. */
  readonly hash: (text: string) => Promise<string>
}

/** A plan that both judges let pass, with the shop that it was made for and what is done of it. */
export interface Planned {
  readonly plan: Plan
  readonly shop: Shop
  readonly progress: Progress
  readonly job: Job
  readonly facts: readonly Fact[]
  /** What each way of cutting comes to; empty where the nest was accepted already. */
  readonly offers: readonly WayOffer[]
}

/** Reads a file through its door; every problem says which file it is in. */
function open<T>(file: string, outside: Outside, door: (text: string) => Result<T>): Result<T> {
  let text: string
  try {
    text = outside.read(file)
  } catch (error) {
    const code = (error as { readonly code?: unknown }).code
    return bad('unreadable', `${file} cannot be read${typeof code === 'string' ? ` (${code})` : ''}.`)
  }
  const read = door(text)
  if (read.ok) return read
  return {
    ok: false,
    problems: read.problems.map((problem, at) =>
      at === 0 ? { ...problem, text: `${file}: ${problem.text}` } : problem,
    ),
  }
}

/** The nest that the file's facts say to work by, if they name one; paper may hang by it, so it must be unchanged. */
async function acceptedNest(
  { job, nests = [] }: JobFile,
  progress: Progress,
  { hash }: Outside,
): Promise<Result<Nest | undefined>> {
  const id = progress.accepted[job.id]
  if (id === undefined) return good(undefined)
  const nest = nests.find((each) => each.id === id)
  if (!nest) return bad('nest-missing', `The facts say to work by nest ${id}, which the file does not hold.`)
  return (await isSealed(nest, hash))
    ? good(nest)
    : bad(
        'nest-changed',
        `Nest ${id} was changed after it was accepted: its content no longer has this hash.`,
      )
}

/** The nest of one section, whole: where counted stock runs out there is none. */
function nestOf(problem: NestProblem): Result<NestSection> {
  // Counted steps and no clock: the same file gives the same plan on every machine.
  const solved = solve(problem, { steps: usualSteps })
  if (!solved.ok) return solved
  const { nest, unplaced } = solved.value
  const short = problem.parts.flatMap(({ mark }, at) =>
    (unplaced[at] ?? 0) > 0 ? [`${unplaced[at]} of ${mark}`] : [],
  )
  if (short.length === 0) return good(nest)
  return bad(
    'stock-runs-out',
    `The stock is counted and runs out: no steel is left for ${short.join(', ')}. Give more sticks, or leave the count out to buy as many as are needed.`,
  )
}

/** A new nest of all of these; undefined when there is nothing. */
async function newNest(
  demand: readonly NestProblem[],
  job: string,
  { hash }: Outside,
): Promise<Result<Nest | undefined>> {
  const sections: NestSection[] = []
  for (const problem of demand) {
    const nest = nestOf(problem)
    if (!nest.ok) return nest
    sections.push(nest.value)
  }
  if (sections.length === 0) return good(undefined)
  return good(await sealNest({ sections, jobs: [job], solver: 'longpoint' }, hash))
}

/** A plan, and what each way of cutting comes to. */
interface Compared {
  readonly plan: Plan
  readonly offers: readonly WayOffer[]
}

/** What is open of the job planned in every way that it can be cut, and of these plans the one to work by. */
async function inEveryWay(
  { job }: JobFile,
  first: Plan,
  shop: Shop,
  progress: Progress,
  outside: Outside,
): Promise<Result<Compared>> {
  const offers: WayOffer[] = []
  const plans = new Map<CuttingWay, Result<Plan>>()
  for (const { way, demand } of waysFor(first, shop, progress)) {
    const nest = await newNest(demand, first.job, outside)
    if (nest.ok && !nest.value) return good({ plan: first, offers: [] })
    const made = nest.ok ? plan(job, shop, nest.value, progress) : nest
    plans.set(way, made)
    const offer = made.ok ? offerOf(made.value, way, shop) : undefined
    if (offer) offers.push(offer)
  }
  // A way that asks for nothing else than square first is square first.
  const chosen = plans.get(chosenWay(job, shop, offers)) ?? plans.get('square first')!
  return chosen.ok ? good({ plan: chosen.value, offers }) : chosen
}

/** Faults that the judges found: a plan with any is not shown. */
const faultsOf = ({ verdict }: Plan): readonly string[] =>
  verdict ? [...verdict.nest.faults, ...verdict.run.faults] : []

async function planned(
  file: JobFile,
  shop: Shop,
  progress: Progress,
  outside: Outside,
): Promise<Result<Compared>> {
  const accepted = await acceptedNest(file, progress, outside)
  if (!accepted.ok) return accepted
  const first = plan(file.job, shop, accepted.value, progress)
  if (!first.ok) return first
  if (accepted.value) return good({ plan: first.value, offers: [] })
  return inEveryWay(file, first.value, shop, progress, outside)
}

/** One line for all of them. */
export const refused = (problems: readonly { readonly text: string; readonly field?: string }[]): Said => ({
  code: 1,
  out: '',
  err: `${problems.map(({ text }) => text.replaceAll(/\s+/g, ' ')).join(' ')}\n`,
})

/** The plan of a job file, for the shop of `shopFile`, else the file's own, else the usual one; or what is wrong. */
export async function plannedFrom(
  jobFile: string,
  shopFile: string | undefined,
  outside: Outside,
): Promise<Result<Planned>> {
  const file = open(jobFile, outside, readJobFile)
  if (!file.ok) return file
  const given = shopFile === undefined ? undefined : open(shopFile, outside, readShopFile)
  if (given && !given.ok) return given
  const shop = given?.value ?? file.value.shop ?? startShop(file.value.job.units ?? 'mm')
  const progress = fold(file.value.facts ?? [])
  const made = await planned(file.value, shop, progress, outside)
  if (!made.ok)
    return {
      ok: false,
      problems: made.problems.map((problem) => ({
        ...problem,
        text: `${problem.field ? `job.${problem.field}: ` : ''}${problem.text}`,
      })),
    }
  const { plan: told, offers } = made.value
  const faults = faultsOf(told)
  if (faults.length > 0)
    return bad('faulty', `The plan does not stand up to its own check and is not shown: ${faults.join(' ')}`)
  const { job, facts = [] } = file.value
  return good({ plan: told, shop, progress, job, facts, offers })
}
