import type { Certificate } from '../core/check/certificate.ts'
import type { NestProblem, NestSection } from '../core/nest.ts'

// What passes between the app and the nest's worker. Plain data both ways; `id` names the request.

/** Counted steps, so that the same problem gives the same nest; a clock may only end the search. */
export interface SolveBudget {
  readonly steps: number
  readonly seconds: number
}

/** Most problems of a shop are proved long before; the seconds are for a slow tablet and an odd problem. */
export const usualBudget: SolveBudget = { steps: 60_000_000, seconds: 20 }

export interface Solve {
  readonly kind: 'solve'
  readonly id: number
  readonly problem: NestProblem
  readonly budget: SolveBudget
}

/** A usable nest of all pieces, better than the last one told. Cost and bound in cents, or mm where nothing is priced. */
export interface Better {
  readonly kind: 'better'
  readonly id: number
  readonly nest: NestSection
  readonly cost: number
  readonly bound: number
}

export interface End {
  readonly kind: 'end'
  readonly id: number
  readonly why: 'proved' | 'budget' | 'stopped'
  readonly nest: NestSection
  readonly certificate?: Certificate
}

export interface Failed {
  readonly kind: 'failed'
  readonly id: number
  /** In words for the person. */
  readonly error: string
}

export type Answer = Better | End | Failed
