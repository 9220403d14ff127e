import type { NestProblem, NestSection } from '../core/nest.ts'
import { type Answer, type Solve, type SolveBudget, usualBudget } from './protocol.ts'

/** What the client needs of a worker; tests give their own. */
export interface WorkerLike {
  postMessage(message: Solve): void
  terminate(): void
  onmessage: ((event: { readonly data: Answer }) => void) | null
  onerror: ((event: { readonly message?: string }) => void) | null
}

export interface SolverOptions {
  readonly make: () => WorkerLike
  readonly budget?: SolveBudget
  /** Runs `what` after `ms`; gives a way to call it off. */
  readonly later: (what: () => void, ms: number) => () => void
}

/** A worker that has had nothing to do for so long is ended: it holds memory that a tablet can use. */
const idleMs = 60_000

interface Request {
  readonly id: number
  readonly problem: NestProblem
  readonly budget: SolveBudget
  readonly better: (nest: NestSection) => void
  readonly resolve: (nest: NestSection) => void
  readonly reject: (error: Error) => void
  best?: NestSection
}

/** Name and version of the solver, written into every nest. A change of its results is a new version. */
export const solverName = 'longpoint-nest 4'

/**
 * Nests one section at a time, in the order asked. `stop` resolves with the best nest so far, or rejects where there is
 * none yet; a worker that crashes rejects its request and is replaced for the next. Answers to a request that is over
 * are dropped.
 */
export function makeSolver({ make, later, budget = usualBudget }: SolverOptions) {
  let worker: WorkerLike | undefined
  let now: Request | undefined
  let number = 0
  const queue: Request[] = []
  let cancelIdle: () => void = () => {}

  const end = () => {
    worker?.terminate()
    worker = undefined
  }

  const next = () => {
    now = queue.shift()
    if (!now) {
      cancelIdle = later(end, idleMs)
      return
    }
    cancelIdle()
    const { id, problem, budget: most } = now
    try {
      worker ??= hear(make())
      worker.postMessage({ kind: 'solve', id, problem, budget: most })
    } catch (error) {
      crash(error instanceof Error ? error.message : String(error))
    }
  }

  const crash = (why: string) => {
    const over = now
    now = undefined
    end()
    over?.reject(new Error(`The nest stopped with an error: ${why}`))
    next()
  }

  const hear = (made: WorkerLike): WorkerLike => {
    made.onmessage = ({ data }) => {
      if (worker !== made || !now || data.id !== now.id) return
      if (data.kind === 'better') {
        now.best = data.nest
        now.better(data.nest)
        return
      }
      const over = now
      now = undefined
      if (data.kind === 'end') over.resolve(data.nest)
      else over.reject(new Error(data.error))
      next()
    }
    made.onerror = ({ message }) => {
      if (worker === made) crash(message ?? 'the worker could not be run')
    }
    return made
  }

  /** Over by the person's wish: what was found so far is the answer. */
  const stopped = (request: Request) => {
    if (request.best) request.resolve(request.best)
    else request.reject(new Error('Stopped before a nest was found.'))
  }

  return {
    name: solverName,
    solve(problem: NestProblem, better: (nest: NestSection) => void, most: SolveBudget = budget) {
      number += 1
      const id = number
      const done = new Promise<NestSection>((resolve, reject) => {
        queue.push({ id, problem, budget: most, better, resolve, reject })
      })
      const stop = () => {
        const waiting = queue.findIndex((request) => request.id === id)
        const [request] = waiting >= 0 ? queue.splice(waiting, 1) : []
        if (request) stopped(request)
        if (now?.id !== id) return
        const over = now
        now = undefined
        end()
        stopped(over)
        next()
      }
      if (!now) next()
      return { done, stop }
    },
  }
}

/** The solver of the browser. */
export const browserSolver = () =>
  makeSolver({
    make: () =>
      new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }) as unknown as WorkerLike,
    later(what, ms) {
      const timer = setTimeout(what, ms)
      return () => clearTimeout(timer)
    },
  })
