import { pivotLeast } from '../core/tolerance.ts'

// The basis of a linear program with its inverse, prices and amounts, kept up to date pivot by pivot.

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

export interface Basis {
  readonly size: number
  /** Of the variable in each place of the basis, a little shifted. */
  readonly amounts: Float64Array
  readonly prices: Float64Array
  /** Of all columns together: what a look through them costs. */
  entries(): number
  costOf(number: number): number
  add(column: Column): void
  setAmount(row: number, amount: number): void
  /** The variable that saves most per unit, more than `above`, or the first that does; −1 if there is none. */
  entering(above: number, first: boolean): number
  /** The variable that takes the place of the one at `at`, whose amount is too little, and keeps all prices right. */
  mending(at: number): number
  /** How the amounts go down with one unit of a variable; it holds until the next is asked for. */
  changeBy(number: number): Float64Array
  pivot(at: number, number: number, change: Float64Array): void
  beginAnew(): void
  /** Variables with their amounts as they are without the shift. */
  real(): (readonly [number: number, amount: number])[]
  fork(): Basis
}

/** Pivots between two looks at how far rounding has built up. */
const lookEvery = 100

/** Rounding that calls for a fresh inversion: far below what decides anything, far above one pivot's. */
const drifted = 1e-8

/** All variables with their entries one behind the other: number v has those from starts[v] to starts[v + 1]. */
interface Table {
  count: number
  costs: Float64Array
  starts: Int32Array
  rows: Int32Array
  values: Float64Array
}

/** Entries of a change below this are what rounding left of a 0. */
const zero = 1e-13

interface State {
  readonly table: Table
  readonly places: Int32Array<ArrayBuffer>
  readonly exact: Float64Array<ArrayBuffer>
  readonly shifted: Float64Array<ArrayBuffer>
  readonly inverse: Float64Array<ArrayBuffer>
  readonly amounts: Float64Array<ArrayBuffer>
  readonly prices: Float64Array<ArrayBuffer>
}

export function openBasis(rows: readonly Row[]): Basis {
  const size = rows.length
  const table: Table = {
    count: 0,
    costs: new Float64Array(64),
    starts: new Int32Array(64),
    rows: new Int32Array(256),
    values: new Float64Array(256),
  }
  // Numbers: 0 … size−1 what is missing of a row, size … 2·size−1 its slack, then the columns.
  for (const [row, { missing }] of rows.entries()) addTo(table, { cost: missing, rows: [row], values: [1] })
  for (const [row, { sense }] of rows.entries())
    addTo(table, { cost: 0, rows: [row], values: [sense === 'at least' ? -1 : 1] })
  // Amounts are shifted by a little that differs from row to row: ties, and with them standing still, get rare.
  const exact = Float64Array.from(rows, ({ amount }) => amount)
  const shifted = exact.map((amount, row) => amount + 1e-7 * (1 + ((row * 37) % 101) / 101))
  const basis = basisOf(rows, {
    table,
    places: new Int32Array(size),
    exact,
    shifted,
    inverse: new Float64Array(size * size),
    amounts: new Float64Array(size),
    prices: new Float64Array(size),
  })
  basis.beginAnew()
  return basis
}

function addTo(table: Table, { cost, rows, values }: Column): void {
  const number = table.count
  const start = table.starts[number]!
  if (number + 2 > table.costs.length) {
    table.costs = longer(table.costs, new Float64Array(2 * table.costs.length))
    table.starts = longer(table.starts, new Int32Array(2 * table.starts.length))
  }
  while (start + rows.length > table.rows.length) {
    table.rows = longer(table.rows, new Int32Array(2 * table.rows.length))
    table.values = longer(table.values, new Float64Array(2 * table.values.length))
  }
  table.costs[number] = cost
  table.rows.set(rows, start)
  table.values.set(values, start)
  table.starts[number + 1] = start + rows.length
  table.count += 1
}

function longer<T extends Float64Array | Int32Array>(from: T, to: T): T {
  to.set(from)
  return to
}

function basisOf(rows: readonly Row[], state: State): Basis {
  const size = rows.length
  const { table, places, exact, shifted, inverse, amounts, prices } = state
  /** 1 for each variable in the basis. */
  let inside = new Uint8Array(2 * table.count)
  for (const number of places) inside[number] = 1
  let sinceLook = 0
  /** Kept from pivot to pivot for the memory alone. */
  const change = new Float64Array(size)
  const entries = new Int32Array(size)
  const line = new Float64Array(size)

  function room(): void {
    if (inside.length >= table.count) return
    const more = new Uint8Array(2 * table.count)
    more.set(inside)
    inside = more
  }

  function reprice(): void {
    prices.fill(0)
    for (let at = 0; at < size; at += 1) {
      const cost = table.costs[places[at]!]!
      if (cost === 0) continue
      for (let row = 0, entry = at * size; row < size; row += 1, entry += 1)
        prices[row]! += cost * inverse[entry]!
    }
  }

  function timesInverse(right: Float64Array, into: Float64Array): void {
    for (let at = 0, entry = 0; at < size; at += 1) {
      let sum = 0
      for (let row = 0; row < size; row += 1, entry += 1) sum += inverse[entry]! * right[row]!
      into[at] = sum
    }
  }

  function beginAnew(): void {
    inverse.fill(0)
    inside.fill(0)
    for (const [row, { sense }] of rows.entries()) {
      const number = sense === 'at least' && shifted[row]! >= 0 ? row : size + row
      places[row] = number
      inside[number] = 1
      inverse[row * size + row] = table.values[table.starts[number]!]!
    }
    timesInverse(shifted, amounts)
    reprice()
  }

  function invertAnew(): void {
    const matrix = new Float64Array(size * size)
    for (let at = 0; at < size; at += 1)
      for (let entry = table.starts[places[at]!]!; entry < table.starts[places[at]! + 1]!; entry += 1)
        matrix[table.rows[entry]! * size + at] = table.values[entry]!
    if (!invert(matrix, inverse, size)) {
      beginAnew()
      return
    }
    timesInverse(shifted, amounts)
    reprice()
  }

  /** The greatest miss of a row when the amounts of the basis are put into it. */
  function drift(): number {
    const left = shifted.slice()
    for (let at = 0; at < size; at += 1)
      for (let entry = table.starts[places[at]!]!; entry < table.starts[places[at]! + 1]!; entry += 1)
        left[table.rows[entry]!]! -= table.values[entry]! * amounts[at]!
    return left.reduce((most, miss) => Math.max(most, Math.abs(miss)), 0)
  }

  function saves(number: number): number {
    let saved = -table.costs[number]!
    const end = table.starts[number + 1]!
    for (let entry = table.starts[number]!; entry < end; entry += 1)
      saved += prices[table.rows[entry]!]! * table.values[entry]!
    return saved
  }

  /** What is missing never comes back by itself: its price keeps it out. */
  function entering(above: number, first: boolean): number {
    room()
    const { count, costs, starts, rows: entries, values } = table
    let [best, most] = [-1, above]
    for (let number = size, entry = starts[size]!; number < count; number += 1) {
      const end = starts[number + 1]!
      let saved = -costs[number]!
      for (; entry < end; entry += 1) saved += prices[entries[entry]!]! * values[entry]!
      if (saved <= most || inside[number] === 1) continue
      if (first) return number
      best = number
      most = saved
    }
    return best
  }

  function mending(at: number): number {
    room()
    const { count, costs, starts, rows: entries, values } = table
    const start = at * size
    let [best, least, pivot] = [-1, Number.POSITIVE_INFINITY, 0]
    for (let number = 0, entry = 0; number < count; number += 1) {
      const end = starts[number + 1]!
      const from = entry
      let by = 0
      for (; entry < end; entry += 1) by -= inverse[start + entries[entry]!]! * values[entry]!
      if (by <= pivotLeast || inside[number] === 1) continue
      let dear = costs[number]!
      for (let again = from; again < end; again += 1) dear -= prices[entries[again]!]! * values[again]!
      const ratio = Math.max(0, dear) / by
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && by > pivot)) {
        best = number
        least = Math.min(ratio, least)
        pivot = by
      }
    }
    return best
  }

  function changeBy(number: number): Float64Array {
    change.fill(0)
    for (let entry = table.starts[number]!; entry < table.starts[number + 1]!; entry += 1) {
      const value = table.values[entry]!
      for (let at = 0, cell = table.rows[entry]!; at < size; at += 1, cell += size)
        change[at]! += inverse[cell]! * value
    }
    return change
  }

  function pivot(at: number, number: number, change: Float64Array): void {
    const by = change[at]!
    const own = at * size
    const share = saves(number) / by
    // Most of a line is 0 while the basis still has much of what it began with.
    let filled = 0
    for (let row = 0; row < size; row += 1) {
      const value = inverse[own + row]!
      if (value === 0) continue
      prices[row]! -= share * value
      line[filled] = inverse[own + row] = value / by
      entries[filled] = row
      filled += 1
    }
    const amount = amounts[at]! / by
    const dense = 2 * filled > size
    for (let other = 0; other < size; other += 1) {
      const factor = change[other]!
      if (other === at || (factor < zero && factor > -zero)) continue
      const start = other * size
      if (dense)
        for (let row = 0, cell = start; row < size; row += 1, cell += 1)
          inverse[cell]! -= factor * inverse[own + row]!
      else
        for (let entry = 0; entry < filled; entry += 1)
          inverse[start + entries[entry]!]! -= factor * line[entry]!
      amounts[other]! -= factor * amount
    }
    amounts[at] = amount
    room()
    inside[places[at]!] = 0
    inside[number] = 1
    places[at] = number
    sinceLook += 1
    if (sinceLook < lookEvery) return
    sinceLook = 0
    // What is no number any more has drifted too.
    if (!(drift() <= drifted)) invertAnew()
  }

  return {
    size,
    amounts,
    prices,
    entries: () => table.starts[table.count]!,
    costOf: (number) => table.costs[number]!,
    add: (column) => addTo(table, column),
    setAmount(row, amount) {
      const more = amount - exact[row]!
      if (more === 0) return
      exact[row] = amount
      shifted[row]! += more
      for (let at = 0; at < size; at += 1) amounts[at]! += more * inverse[at * size + row]!
    },
    entering,
    mending,
    changeBy,
    pivot,
    beginAnew,
    real() {
      const plain = new Float64Array(size)
      timesInverse(exact, plain)
      return Array.from(places, (number, at) => [number, plain[at]!] as const)
    },
    fork: () =>
      basisOf(rows, {
        table,
        places: places.slice(),
        exact: exact.slice(),
        shifted: shifted.slice(),
        inverse: inverse.slice(),
        amounts: amounts.slice(),
        prices: prices.slice(),
      }),
  }
}

/** Inverse by elimination with the greatest pivot of each column; the matrix is used up. False where there is none. */
function invert(
  matrix: Float64Array<ArrayBuffer>,
  inverse: Float64Array<ArrayBuffer>,
  size: number,
): boolean {
  inverse.fill(0)
  for (let row = 0; row < size; row += 1) inverse[row * size + row] = 1
  const swap = (lines: Float64Array, a: number, b: number) => {
    const kept = lines.slice(a * size, (a + 1) * size)
    lines.copyWithin(a * size, b * size, (b + 1) * size)
    lines.set(kept, b * size)
  }
  for (let at = 0; at < size; at += 1) {
    let best = at
    for (let row = at + 1; row < size; row += 1)
      if (Math.abs(matrix[row * size + at]!) > Math.abs(matrix[best * size + at]!)) best = row
    if (Math.abs(matrix[best * size + at]!) < pivotLeast) return false
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
  return true
}
