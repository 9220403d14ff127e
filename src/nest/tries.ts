import type { Aim } from './aims.ts'
import { correct } from './correct.ts'
import { dive, type Manner } from './dive.ts'
import type { Question } from './ledger.ts'
import { commonDivisor, type Fill } from './model.ts'
import { openRelaxation, type Pool, type Relaxed, relax, type Task } from './relax.ts'
import { type Asking, type WholeSolver, wholeNest } from './whole.ts'
import { type Work, within } from './work.ts'

// Ways to fill sticks: value correction, dives, the solver for whole numbers. Each that is better is taken.

/** The best nest so far. */
export interface Best {
  readonly cost: number
  readonly fills: readonly Fill[]
  /** Undefined, or no cheaper: it stays. */
  take(fills: readonly Fill[] | undefined): void
}

export interface Tries {
  /** Rounds of value correction, as long as they help; none once the best costs the bound. */
  correct(at: Pick<Aim, 'relaxed' | 'box'>, rounds: number, bound: number, manner?: 'most' | 'any'): void
  dive(aim: Aim, manner: Manner): void
  /** By the solver, which is asked for once. */
  solve(aim: Aim, what: 'aim alone' | 'any better'): Asking<void>
}

export function openTries({ model, pricing }: Question, pool: Pool, best: Best, work: Work): Tries {
  const demand = model.items.map(({ count }) => count)
  const unit = pricing.reduce(commonDivisor, 0)
  const severalPaid = pricing.filter((price) => price > 0).length > 1
  const taskOf = ({ box, relaxed }: { box: Aim['box']; relaxed: Relaxed }): Task => ({
    model,
    pricing,
    demand,
    box,
    hint: relaxed.worth,
  })
  const inVain = (aim: Aim): boolean => work.over || aim.cost >= best.cost
  let solver: WholeSolver | 'not asked' | undefined = 'not asked'

  return {
    correct(at, rounds, bound, manner) {
      while (bound < best.cost) {
        const better = correct(taskOf(at), at.relaxed, best.cost, rounds, work, manner)
        if (!better) return
        best.take(better)
      }
    },
    dive(aim, manner) {
      if (inVain(aim)) return
      const task = taskOf(aim)
      // Begun anew: an answer of long standing lies in a corner that few dives come down from.
      const anew = openRelaxation(task, pool)
      const relaxed = anew.solve(work)
      if (!relaxed) return
      best.take(within(work, work.left / 2, (part) => dive(task, anew, relaxed, best.cost, manner, part)))
    },
    *solve(aim, what) {
      if (inVain(aim)) return
      if (solver === 'not asked') solver = yield
      if (!solver) return
      const task = taskOf(aim)
      const relaxed = severalPaid ? relax(task, pool, work) : aim.relaxed
      if (!relaxed) return
      // First for the bound itself: that takes the fewest patterns.
      const next = aim.cost + unit
      best.take(
        wholeNest(task, relaxed, Math.min(best.cost, next), solver, work, pool) ??
          (what === 'any better' && next < best.cost
            ? wholeNest(task, relaxed, best.cost, solver, work, pool)
            : undefined),
      )
    },
  }
}
