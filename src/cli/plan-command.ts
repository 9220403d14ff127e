import { fold } from '../core/facts/fold.ts'
import type { Progress } from '../core/facts.ts'
import type { Nest, NestProblem, NestSection } from '../core/nest.ts'
import { isSealed, sealNest } from '../core/nest-seal.ts'
import { openDemand } from '../core/parts/demand.ts'
import { plan } from '../core/plan.ts'
import type { Plan } from '../core/plan-shapes.ts'
import { bad, good, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { startShop } from '../core/shop-start.ts'
import { type JobFile, readJobFile } from '../door/job-file.ts'
import { readShopFile } from '../door/shop-file.ts'
import { solve, usualSteps } from '../nest/solve.ts'
import { planText } from './plan-text.ts'
import type { Said } from './said.ts'
import { toTubePlan } from './tube-plan.ts'

const usage = 'usage: npm run -s plan -- FILE [--shop FILE] [--json]'

/** What the command needs from outside. */
export interface Outside {
  readonly read: (file: string) => string
  /** SHA-256 of a text, hex. */
  readonly hash: (text: string) => Promise<string>
}

interface Asked {
  readonly file: string
  readonly shop?: string
  readonly json: boolean
}

function asked(args: readonly string[]): Result<Asked> {
  let file: string | undefined
  let shop: string | undefined
  let json = false
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at]!
    if (arg === '--json') json = true
    else if (arg === '--shop') {
      at += 1
      shop = args[at]
      if (shop === undefined) return bad('usage', `--shop needs a file; ${usage}`)
    } else if (arg.startsWith('--')) return bad('usage', `${arg} is no option; ${usage}`)
    else if (file !== undefined) return bad('usage', `two files were given, ${file} and ${arg}; ${usage}`)
    else file = arg
  }
  if (file === undefined) return bad('usage', `no file was given; ${usage}`)
  return good(shop === undefined ? { file, json } : { file, shop, json })
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

/** A new nest of all that is still to be cut; undefined when nothing is. */
async function newNest(made: Plan, progress: Progress, outside: Outside): Promise<Result<Nest | undefined>> {
  const sections: NestSection[] = []
  for (const problem of openDemand(made.demand, progress.made, made.job, undefined)) {
    const nest = nestOf(problem)
    if (!nest.ok) return nest
    sections.push(nest.value)
  }
  if (sections.length === 0) return good(undefined)
  return good(await sealNest({ sections, jobs: [made.job], solver: 'longpoint' }, outside.hash))
}

/** Faults that the judges found: a plan with any is not shown. */
const faultsOf = ({ verdict }: Plan): readonly string[] =>
  verdict ? [...verdict.nest.faults, ...verdict.run.faults] : []

async function planned(file: JobFile, shop: Shop, outside: Outside): Promise<Result<Plan>> {
  const progress = fold(file.facts ?? [])
  const accepted = await acceptedNest(file, progress, outside)
  if (!accepted.ok) return accepted
  const first = plan(file.job, shop, accepted.value, progress)
  if (!first.ok || accepted.value) return first
  const nest = await newNest(first.value, progress, outside)
  if (!nest.ok) return nest
  return nest.value ? plan(file.job, shop, nest.value, progress) : first
}

const refused = (problems: readonly { readonly text: string; readonly field?: string }[]): Said => ({
  code: 1,
  out: '',
  err: `${problems.map(({ text }) => text.replaceAll(/\s+/g, ' ')).join(' ')}\n`,
})

/** The plan command from its arguments to what it prints. */
export async function planCommand(args: readonly string[], outside: Outside): Promise<Said> {
  const wanted = asked(args)
  if (!wanted.ok) return refused(wanted.problems)
  const file = open(wanted.value.file, outside, readJobFile)
  if (!file.ok) return refused(file.problems)
  const given = wanted.value.shop === undefined ? undefined : open(wanted.value.shop, outside, readShopFile)
  if (given && !given.ok) return refused(given.problems)
  const shop = given?.value ?? file.value.shop ?? startShop(file.value.job.units ?? 'mm')
  const made = await planned(file.value, shop, outside)
  if (!made.ok)
    return refused(
      made.problems.map((problem) => ({
        ...problem,
        text: `${problem.field ? `job.${problem.field}: ` : ''}${problem.text}`,
      })),
    )
  const faults = faultsOf(made.value)
  if (faults.length > 0)
    return refused([
      { text: `The plan does not stand up to its own check and is not shown: ${faults.join(' ')}` },
    ])
  const out = wanted.value.json
    ? `${JSON.stringify(toTubePlan(made.value), null, 2)}\n`
    : planText(made.value, shop)
  return { code: 0, out, err: '' }
}
