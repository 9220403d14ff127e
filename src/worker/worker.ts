import { solve } from '../nest/solve.ts'
import type { Answer, Solve } from './protocol.ts'

// The nest, off the main thread. One request at a time; it is stopped by ending the worker.

const answer = (message: Answer): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<Solve>) => {
  const { id, problem, budget } = data
  const until = performance.now() + budget.seconds * 1000
  try {
    const solved = solve(problem, {
      steps: budget.steps,
      stop: () => performance.now() > until,
      better: (nest) => answer({ kind: 'better', id, nest, cost: nest.cost, bound: nest.bound }),
    })
    if (!solved.ok) {
      answer({ kind: 'failed', id, error: solved.problems.map(({ text }) => text).join(' ') })
      return
    }
    const { nest, certificate } = solved.value
    answer({
      kind: 'end',
      id,
      why: nest.proved ? 'proved' : 'budget',
      nest,
      ...(certificate ? { certificate } : {}),
    })
  } catch (error) {
    answer({ kind: 'failed', id, error: error instanceof Error ? error.message : String(error) })
  }
})
