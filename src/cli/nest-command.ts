import { bad, good, type Result } from '../core/result.ts'
import { type NestRequest, readNestProblems } from '../door/nest-problem.ts'
import { type Solved, solving } from '../nest/solve.ts'
import type { WholeSolver } from '../nest/whole.ts'
import { type NestResult, nestResult } from './nest-result.ts'
import { nestText } from './nest-text.ts'
import type { Said } from './said.ts'

const usage = 'usage: npm run -s nest -- FILE [--seconds N] [--json]'

/** For each problem, unless said otherwise. */
const usualSeconds = 10

/** More than any clock lets through: on the command line the clock ends a search, and a problem done early ends itself. */
const steps = 20_000_000_000

/** What the command needs from outside. */
export interface Outside {
  readonly read: (file: string) => string
  /** Seconds, from any start. */
  readonly clock: () => number
  /** Loads the solver for whole numbers where the search needs it; absent, or in vain: the search goes on by itself. */
  readonly load?: () => Promise<(secondsLeft: () => number) => WholeSolver>
}

interface Asked {
  readonly file: string
  readonly seconds: number
  readonly json: boolean
}

function asked(args: readonly string[]): Result<Asked> {
  let file: string | undefined
  let seconds = usualSeconds
  let json = false
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at]!
    if (arg === '--json') json = true
    else if (arg === '--seconds') {
      at += 1
      const given = args[at]
      seconds = given === undefined || given.trim() === '' ? Number.NaN : Number(given)
      if (!(Number.isFinite(seconds) && seconds > 0))
        return bad('usage', `--seconds is ${given ?? 'without a number'}; it must be more than 0; ${usage}`)
    } else if (arg.startsWith('--')) return bad('usage', `${arg} is no option; ${usage}`)
    else if (file !== undefined) return bad('usage', `two files were given, ${file} and ${arg}; ${usage}`)
    else file = arg
  }
  return file === undefined ? bad('usage', `no file was given; ${usage}`) : good({ file, seconds, json })
}

function open(file: string, { read }: Outside): Result<readonly NestRequest[]> {
  let text: string
  try {
    text = read(file)
  } catch (error) {
    const code = (error as { readonly code?: unknown }).code
    return bad('unreadable', `${file} cannot be read${typeof code === 'string' ? ` (${code})` : ''}.`)
  }
  const requests = readNestProblems(text)
  if (requests.ok) return requests
  return {
    ok: false,
    problems: requests.problems.map((each) => ({ ...each, text: `${file}: ${each.text}` })),
  }
}

/** Solves every problem of a file, in their order. The first that cannot be solved is the answer to all. */
async function solveAll(
  file: string,
  requests: readonly NestRequest[],
  seconds: number,
  outside: Outside,
): Promise<Result<NestResult[]>> {
  const { clock } = outside
  const results: NestResult[] = []
  for (const [at, request] of requests.entries()) {
    const start = clock()
    const solved = await solveOne(request, () => seconds - (clock() - start), outside)
    if (!solved.ok) {
      const where = requests.length > 1 ? `problem ${at}: ` : ''
      return {
        ok: false,
        problems: solved.problems.map((each) => ({ ...each, text: `${file}: ${where}${each.text}` })),
      }
    }
    results.push(nestResult(request, solved.value, clock() - start))
  }
  return good(results)
}

/** The solver for whole numbers is only loaded where the search asks for it. */
export async function solveOne(
  { problem }: Pick<NestRequest, 'problem'>,
  left: () => number,
  { load }: Pick<Outside, 'load'>,
): Promise<Result<Solved>> {
  const search = solving(problem, { steps, stop: () => left() < 0 })
  let step = search.next()
  while (!step.done) {
    const open = await load?.().catch(() => undefined)
    step = search.next(open?.(left))
  }
  return step.value
}

const oneLine = (problems: readonly { readonly text: string }[]): string => {
  const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : ''
  return `${problems[0]!.text.replaceAll(/\s+/g, ' ')}${more}\n`
}

/** `nest FILE [--seconds N] [--json]`: text or JSON on standard output, or one line on standard error. */
export async function nestCommand(args: readonly string[], outside: Outside): Promise<Said> {
  const failed = ({ problems }: { readonly problems: readonly { readonly text: string }[] }): Said => ({
    code: 1,
    out: '',
    err: oneLine(problems),
  })
  const given = asked(args)
  if (!given.ok) return failed(given)
  const { file, seconds, json } = given.value
  const requests = open(file, outside)
  if (!requests.ok) return failed(requests)
  const results = await solveAll(file, requests.value, seconds, outside)
  if (!results.ok) return failed(results)
  const unread = requests.value.flatMap((request) => request.unread)
  return {
    code: 0,
    out: json
      ? `${JSON.stringify(results.value, null, 2)}\n`
      : results.value.map((result, at) => nestText(requests.value[at]!, result)).join('\n'),
    err: unread.length > 0 ? `${file}: not known and not read: ${unread.join(', ')}\n` : '',
  }
}
