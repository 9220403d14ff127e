import { dualSlack, pivotLeast } from '../core/tolerance.ts'
import { type Basis, type Column, openBasis, type Row } from './basis.ts'
import { spend, type Work } from './work.ts'

// A small linear program that grows by columns: least cost of columns so that each row has at least or at most its
// amount. Revised simplex with a dense inverse; a row that cannot be met pays for each unit that is missing. Amounts
// may change afterwards: dual steps then repair the basis, which is far cheaper than to begin anew.

export interface Simplex {
  /** Adds a column; its number counts from 0 in the order of adding. */
  add(column: Column): void
  setAmount(row: number, amount: number): void
  /** Goes to the least cost over the columns that are there; false when the work is over first. */
  solve(work: Work): boolean
  /** What one more unit of each row's amount would cost. */
  duals(): Float64Array
  /** Column numbers with how much of each is used, nothing that is not used. */
  used(): (readonly [column: number, amount: number])[]
  /** Units missing over all rows, and the cost of the columns that are used. */
  standing(): { readonly missing: number; readonly cost: number }
  /** A second one that stands where this one does and goes on by itself; both know every column that is added. */
  fork(): Simplex
}

/** Pivots without progress after which the first fitting column enters, which cannot go round in a circle. */
const stalledAfter = 200

/** Dual steps per row after which the basis is begun anew: many fewer mend a changed amount. */
const mostMending = 20

/** Amounts of the basis below this are too little by rounding alone. */
const negligible = 1e-9

export const openSimplex = (rows: readonly Row[]): Simplex => simplexOf(rows, openBasis(rows))

function simplexOf(rows: readonly Row[], basis: Basis): Simplex {
  const { size } = basis

  function leaving(change: Float64Array): number {
    const { amounts } = basis
    let [best, least, pivot] = [-1, Number.POSITIVE_INFINITY, 0]
    for (let at = 0; at < size; at += 1) {
      const by = change[at]!
      if (by <= pivotLeast) continue
      const ratio = Math.max(0, amounts[at]!) / by
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && by > pivot)) {
        best = at
        least = Math.min(ratio, least)
        pivot = by
      }
    }
    return best
  }

  /** Dual steps until no amount is too little. False when the work is over, or when it leads nowhere. */
  function mend(work: Work): 'mended' | 'stuck' | 'over' {
    const { amounts } = basis
    for (let steps = 0; ; steps += 1) {
      let [at, worst] = [-1, -negligible]
      for (let row = 0; row < size; row += 1)
        if (amounts[row]! < worst) {
          at = row
          worst = amounts[row]!
        }
      if (at < 0) return 'mended'
      if (steps > mostMending * size) return 'stuck'
      const best = basis.mending(at)
      if (best < 0) return 'stuck'
      basis.pivot(at, best, basis.changeBy(best))
      if (!spend(work, costOfPivot())) return 'over'
    }
  }

  // A row operation over the inverse, or an entry of a column looked at, is much cheaper than a state of a fill.
  const costOfPivot = () => 1 + Math.ceil((size * size + basis.entries()) / 10)

  function solve(work: Work): boolean {
    const mended = mend(work)
    if (mended === 'over') return false
    if (mended === 'stuck') basis.beginAnew()
    let stalled = 0
    for (;;) {
      const number = basis.entering(dualSlack, stalled > stalledAfter)
      if (number < 0) return true
      const change = basis.changeBy(number)
      const at = leaving(change)
      // Every cost is at least 0, so that no column can save without end: only rounding can say so.
      if (at < 0) return true
      stalled = basis.amounts[at]! > 1e-9 * change[at]! ? 0 : stalled + 1
      basis.pivot(at, number, change)
      if (!spend(work, costOfPivot())) return false
    }
  }

  const real = (): (readonly [number, number])[] => basis.real().filter(([, amount]) => amount > 1e-9)

  return {
    add: basis.add,
    setAmount: basis.setAmount,
    solve,
    duals: () => Float64Array.from(basis.prices),
    used: () =>
      real()
        .filter(([number]) => number >= 2 * size)
        .map(([number, amount]) => [number - 2 * size, amount] as const),
    standing() {
      let [missing, cost] = [0, 0]
      for (const [number, amount] of real())
        if (number < size) missing += amount
        else if (number >= 2 * size) cost += amount * basis.costOf(number)
      return { missing, cost }
    },
    fork: () => simplexOf(rows, basis.fork()),
  }
}
