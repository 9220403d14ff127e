import { dualSlack, pivotLeast } from '../core/tolerance.ts'
import { spend, type Work } from './work.ts'

// A small linear program that grows by columns: least cost of columns so that each row has at least or at most its
// amount. Revised simplex with a dense inverse; a row that cannot be met pays for each unit that is missing.

export interface Row {
  readonly sense: 'at least' | 'at most'
  readonly amount: number
  /** Cost of a missing unit of an "at least" row. */
  readonly missing: number
}

export interface Column {
  readonly cost: number
  readonly rows: readonly number[]
  readonly values: readonly number[]
}

export interface Simplex {
  /** Adds a column; its number counts from 0 in the order of adding. */
  add(column: Column): void
  /** Goes to the least cost over the columns that are there; false when the work is over first. */
  solve(work: Work): boolean
  /** What one more unit of each row's amount would cost. */
  duals(): Float64Array
  /** Column numbers with how much of each is used, nothing that is not used. */
  used(): (readonly [column: number, amount: number])[]
  /** Units missing over all rows. */
  missing(): number
}

/** Pivots between two fresh inversions, so that rounding does not build up. */
const refreshEvery = 50

/** Pivots without progress after which the first fitting column enters, which cannot go round in a circle. */
const stalledAfter = 200

export function openSimplex(rows: readonly Row[]): Simplex {
  const size = rows.length
  // Numbers: 0 … size−1 what is missing of a row, size … 2·size−1 its slack, then the columns.
  const columns: Column[] = []
  const slackSign = rows.map(({ sense }) => (sense === 'at least' ? -1 : 1))
  const basis = rows.map(({ sense }, row) => (sense === 'at least' ? row : size + row))
  const inBasis = new Set(basis)
  // Amounts are shifted by a little that differs from row to row: ties, and with them standing still, get rare.
  const shifted = rows.map(({ amount }, row) => amount + 1e-7 * (1 + ((row * 37) % 101) / 101))
  let inverse = identity(size)
  let amounts = Float64Array.from(shifted)
  let prices = new Float64Array(size)
  let sinceRefresh = 0

  const costOf = (number: number): number =>
    number < size ? rows[number]!.missing : number < 2 * size ? 0 : columns[number - 2 * size]!.cost

  function eachEntry(number: number, take: (row: number, value: number) => void): void {
    if (number < size) take(number, 1)
    else if (number < 2 * size) take(number - size, slackSign[number - size]!)
    else {
      const column = columns[number - 2 * size]!
      for (const [at, row] of column.rows.entries()) take(row, column.values[at]!)
    }
  }

  function reprice(): void {
    prices = new Float64Array(size)
    for (let at = 0; at < size; at += 1) {
      const cost = costOf(basis[at]!)
      if (cost === 0) continue
      for (let row = 0; row < size; row += 1) prices[row]! += cost * inverse[at * size + row]!
    }
  }

  function refresh(): void {
    sinceRefresh = 0
    const matrix = new Float64Array(size * size)
    for (let at = 0; at < size; at += 1)
      eachEntry(basis[at]!, (row, value) => {
        matrix[row * size + at] = value
      })
    inverse = inverted(matrix, size)
    amounts = applied(shifted)
    reprice()
  }

  function applied(right: ArrayLike<number>): Float64Array<ArrayBuffer> {
    const result = new Float64Array(size)
    for (let at = 0; at < size; at += 1) {
      let sum = 0
      for (let row = 0; row < size; row += 1) sum += inverse[at * size + row]! * right[row]!
      result[at] = sum
    }
    return result
  }

  /** What one unit of a slack or a column saves; above 0 it should enter. */
  function saves(number: number): number {
    if (number < 2 * size) return slackSign[number - size]! * prices[number - size]!
    const { rows: at, values, cost } = columns[number - 2 * size]!
    let saved = -cost
    for (let entry = 0; entry < at.length; entry += 1) saved += prices[at[entry]!]! * values[entry]!
    return saved
  }

  /** What is missing never comes back: its price keeps it out. */
  function entering(first: boolean): number {
    let [best, most] = [-1, dualSlack]
    for (let number = size; number < 2 * size + columns.length; number += 1) {
      const saved = saves(number)
      if (saved <= most || inBasis.has(number)) continue
      if (first) return number
      best = number
      most = saved
    }
    return best
  }

  function leaving(change: Float64Array): number {
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

  function pivot(at: number, number: number, change: Float64Array): void {
    const by = change[at]!
    const line = inverse.subarray(at * size, (at + 1) * size)
    const share = saves(number) / by
    for (let row = 0; row < size; row += 1) {
      prices[row]! -= share * line[row]!
      line[row]! /= by
    }
    const amount = amounts[at]! / by
    for (let other = 0; other < size; other += 1) {
      const factor = change[other]!
      if (other === at || factor === 0) continue
      const start = other * size
      for (let row = 0; row < size; row += 1) inverse[start + row]! -= factor * line[row]!
      amounts[other]! -= factor * amount
    }
    amounts[at] = amount
    inBasis.delete(basis[at]!)
    inBasis.add(number)
    basis[at] = number
    sinceRefresh += 1
  }

  function solve(work: Work): boolean {
    refresh()
    let stalled = 0
    for (;;) {
      const number = entering(stalled > stalledAfter)
      if (number < 0) return true
      const change = new Float64Array(size)
      eachEntry(number, (row, value) => {
        for (let at = 0; at < size; at += 1) change[at]! += inverse[at * size + row]! * value
      })
      const at = leaving(change)
      // Every cost is at least 0, so that no column can save without end: only rounding can say so.
      if (at < 0) return true
      stalled = amounts[at]! > 1e-9 * change[at]! ? 0 : stalled + 1
      pivot(at, number, change)
      if (sinceRefresh >= refreshEvery) refresh()
      // A row operation over the inverse is much cheaper than a state of a fill: about a tenth.
      if (!spend(work, 1 + Math.ceil((size * size) / 10))) return false
    }
  }

  const real = (): (readonly [number, number])[] => {
    const exact = applied(rows.map(({ amount }) => amount))
    return basis.map((number, at) => [number, exact[at]!] as const).filter(([, amount]) => amount > 1e-9)
  }

  return {
    add: (column) => {
      columns.push(column)
    },
    solve,
    duals: () => Float64Array.from(prices),
    used: () =>
      real()
        .filter(([number]) => number >= 2 * size)
        .map(([number, amount]) => [number - 2 * size, amount] as const),
    missing: () =>
      real()
        .filter(([number]) => number < size)
        .reduce((sum, [, amount]) => sum + amount, 0),
  }
}

function identity(size: number): Float64Array<ArrayBuffer> {
  const matrix = new Float64Array(size * size)
  for (let row = 0; row < size; row += 1) matrix[row * size + row] = 1
  return matrix
}

/** Inverse by elimination with the greatest pivot of each column; the matrix is used up. */
function inverted(matrix: Float64Array, size: number): Float64Array<ArrayBuffer> {
  const inverse = identity(size)
  const swap = (lines: Float64Array, a: number, b: number) => {
    const kept = lines.slice(a * size, (a + 1) * size)
    lines.copyWithin(a * size, b * size, (b + 1) * size)
    lines.set(kept, b * size)
  }
  for (let at = 0; at < size; at += 1) {
    let best = at
    for (let row = at + 1; row < size; row += 1)
      if (Math.abs(matrix[row * size + at]!) > Math.abs(matrix[best * size + at]!)) best = row
    if (best !== at) {
      swap(matrix, at, best)
      swap(inverse, at, best)
    }
    const by = matrix[at * size + at]!
    for (let column = 0; column < size; column += 1) {
      matrix[at * size + column]! /= by
      inverse[at * size + column]! /= by
    }
    for (let row = 0; row < size; row += 1) {
      const factor = matrix[row * size + at]!
      if (row === at || factor === 0) continue
      for (let column = at; column < size; column += 1)
        matrix[row * size + column]! -= factor * matrix[at * size + column]!
      for (let column = 0; column < size; column += 1)
        inverse[row * size + column]! -= factor * inverse[at * size + column]!
    }
  }
  return inverse
}
