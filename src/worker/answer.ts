import type { NestProblem } from '../core/nest.ts'
import { solving } from '../nest/solve.ts'
import type { WholeSolver } from '../nest/whole.ts'
import type { Answer, Solve } from './protocol.ts'

/**
 * Solves one request and says what comes of it: better nests, then the end, or in words why there is none. Never
 * throws. `stop` ends the search with the best nest so far. The solver for whole numbers is loaded only where the search
 * asks for it; where it cannot be, the search goes on by itself.
 */
export async function answer(
  { id, problem, budget }: Solve,
  stop: () => boolean,
  say: (answer: Answer) => void,
  load?: () => Promise<WholeSolver>,
): Promise<void> {
  try {
    const search = solving(problem, {
      steps: budget.steps,
      stop,
      better: (nest) => say({ kind: 'better', id, nest, cost: nest.cost, bound: nest.bound }),
    })
    let step = search.next()
    while (!step.done) step = search.next(await load?.().catch(() => undefined))
    const solved = step.value
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

/** A nest of some of the pieces is no nest to work by: the table would lack a leg. */
function tooLittle({ parts }: NestProblem, unplaced: readonly number[]): string {
  const wanted = parts.reduce((sum, { count }) => sum + count, 0)
  const left = unplaced.reduce((sum, count) => sum + count, 0)
  const which = parts.flatMap(({ mark }, at) => (unplaced[at]! > 0 ? [`${unplaced[at]} × ${mark}`] : []))
  return `The stock on hand holds ${wanted - left} of ${wanted} pieces; there is no room for ${which.join(', ')}.`
}
