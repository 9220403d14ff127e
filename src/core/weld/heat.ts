import type { Mm } from '../units.ts'

/** How heat dies away: along the steel by L, mm; in time by tau, minutes. `gap`: minutes from one seam to the next. */
export interface HeatModel {
  readonly L: Mm
  readonly tau: number
  readonly gap: number
}

export const usualHeat: HeatModel = { L: 150, tau: 10, gap: 0.5 }

/** Hand travel on thin steel, mm/min: 15 in/min, within the 10 to 20 of reference.md 5.5 (common practice). */
export const travel = 381

export interface HotSeam {
  /** Relative heat: length × size², the hottest seam 1. */
  readonly q: number
  readonly minutes: number
}

export interface Heats {
  /** The worst preheat of any seam. */
  readonly index: number
  /** All of them added up: parts what the index leaves alike. */
  readonly sum: number
  /** Place in the order of the seam that has the worst. */
  readonly worst: number
}

/** How near every two seams are to each other as heat counts: exp(−d/L). */
export function nearness(far: Float64Array, { L }: HeatModel): Float64Array {
  const near = new Float64Array(far.length)
  for (let at = 0; at < far.length; at++) near[at] = Math.exp(-far[at]! / L)
  return near
}

/**
 * Preheat of every seam welded in this order: Σ over earlier i of q_i · exp(−d_ik/L) · exp(−(t_k − end_i)/τ). The next
 * seam begins `gap` after the one before has ended. Left as soon as one is hotter than `most`: the index is then above it.
 */
export function heats(
  order: readonly number[],
  seams: readonly HotSeam[],
  near: Float64Array,
  model: HeatModel,
  most = Number.POSITIVE_INFINITY,
): Heats {
  const n = seams.length
  const weights = new Float64Array(order.length)
  let time = 0
  let index = 0
  let sum = 0
  let worst = 0
  for (let at = 0; at < order.length; at++) {
    const k = order[at]!
    const row = k * n
    let total = 0
    for (let before = 0; before < at; before++) total += weights[before]! * near[row + order[before]!]!
    const preheat = total * Math.exp(-time / model.tau)
    if (preheat > index) {
      index = preheat
      worst = at
      if (index > most) break
    }
    sum += preheat
    time += seams[k]!.minutes
    weights[at] = seams[k]!.q * Math.exp(time / model.tau)
    time += model.gap
  }
  return { index, sum, worst }
}
