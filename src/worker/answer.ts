import type { NestProblem } from '../core/nest.ts'
import { solve } from '../nest/solve.ts'
import type { WholeSolver } from '../nest/whole.ts'
import type { Answer, End, Solve } from './protocol.ts'

/**
 * Solves one request and says what comes of it: better nests, then the end, or in words why there is none. Never
 * throws. `stop` ends the search with the best nest so far.
 */
export function answer(
  { id, problem, budget }: Solve,
  stop: () => boolean,
  say: (answer: Answer) => void,
  whole?: WholeSolver,
): void {
  try {
    const solved = solve(problem, {
      steps: budget.steps,
      stop,
      ...(whole && { whole }),
      better: (nest) => say({ kind: 'better', id, nest, cost: nest.cost, bound: nest.bound }),
    })
    if (!solved.ok) {
      say({ kind: 'failed', id, error: solved.problems.map(({ text }) => text).join(' ') })
      return
    }
    const { nest, certificate, unplaced } = solved.value
    if (unplaced.some((count) => count > 0)) {
      say({ kind: 'failed', id, error: tooLittle(problem, unplaced) })
      return
    }
    const why = nest.proved ? 'proved' : 'budget'
    say({ kind: 'end', id, why, nest, ...(certificate && { certificate }) })
  } catch (error) {
    say({ kind: 'failed', id, error: error instanceof Error ? error.message : String(error) })
  }
}

/** Steps of the search by itself before the solver for whole numbers is loaded: well over what most orders take. */
const quickSteps = 12_000_000

/**
 * The same in two stages: what the search finds quickly by itself is proved or told as a better nest; only then is the
 * solver for whole numbers loaded, and the search goes through once more with it. Where it cannot be loaded, the search
 * goes on by itself.
 */
export async function answerInStages(
  request: Solve,
  stop: () => boolean,
  say: (answer: Answer) => void,
  load: () => Promise<WholeSolver>,
): Promise<void> {
  const { budget } = request
  let open: End | undefined
  const quick = { ...request, budget: { ...budget, steps: Math.min(budget.steps, quickSteps) } }
  answer(quick, stop, (said) => {
    if (said.kind === 'end' && said.why !== 'proved') open = said
    else say(said)
  })
  if (!open) return
  const first = open
  if (stop() || budget.steps <= quickSteps) return say(first)
  const whole = await load().catch(() => undefined)
  answer(
    request,
    stop,
    (said) => {
      if (said.kind === 'better' && said.cost >= first.nest.cost) return
      const worse = said.kind === 'failed' || (said.kind === 'end' && said.nest.cost > first.nest.cost)
      say(worse ? first : said)
    },
    whole,
  )
}

/** A nest of some of the pieces is no nest to work by: the table would lack a leg. */
function tooLittle({ parts }: NestProblem, unplaced: readonly number[]): string {
  const wanted = parts.reduce((sum, { count }) => sum + count, 0)
  const left = unplaced.reduce((sum, count) => sum + count, 0)
  const which = parts.flatMap(({ mark }, at) => (unplaced[at]! > 0 ? [`${unplaced[at]} × ${mark}`] : []))
  return `The stock on hand holds ${wanted - left} of ${wanted} pieces; there is no room for ${which.join(', ')}.`
}
