import type { NestProblem, Slope, StockLength } from '../core/nest.ts'
import { front, junction, tail } from '../core/stick-room.ts'
import type { Mm } from '../core/units.ts'
import { type Lying, need, turnEnds } from './fit.ts'
import { turnsOf } from './model.ts'

// Pieces with angled ends in a row: which one next to which, and how turned, so that they need the least of a stick.

/** Every way that a part may lie, ways that look the same taken once. */
export function lyings({ parts }: NestProblem): readonly (readonly Lying[])[] {
  return parts.map(({ mid, ends, turns }, part) => {
    const ways = new Map<string, Lying>()
    for (const turn of turnsOf(turns)) {
      const turned = turnEnds(ends, turn)
      const name = turned.map(slopeName).join()
      if (!ways.has(name)) ways.set(name, { part, turn, ends: turned, mid })
    }
    return [...ways.values()]
  })
}

const slopeName = ({ p, q }: Slope): string => `${p}/${q}`

/** Rows are tried completely while there are at most so many sets of pieces with an end slope to go on from. */
const mostStates = 20_000

/**
 * The row of these pieces (how many of each part) that needs the least of the stick. Exact for few kinds of pieces:
 * the least rest of a row depends only on the pieces still to come and on the slope that the last one left.
 */
export function leastRow(
  problem: NestProblem,
  ways: readonly (readonly Lying[])[],
  stock: StockLength,
  counts: readonly number[],
): Lying[] {
  const parts = [...counts.keys()].filter((part) => counts[part]! > 0)
  const ends = parts.reduce((sum, part) => sum + ways[part]!.length, 0)
  const sets = parts.reduce((product, part) => product * (counts[part]! + 1), 1)
  if (sets * ends > mostStates) return insertedRow(problem, ways, stock, counts)
  interface Step {
    readonly length: Mm
    readonly lying?: Lying
  }
  const known = new Map<string, Step>()
  const least = (left: readonly number[], last: Lying | undefined): Step => {
    const name = `${parts.map((part) => left[part]).join()}|${last ? slopeName(last.ends[1]) : 'start'}`
    const answer = known.get(name)
    if (answer) return answer
    let best: Step = { length: last ? tail(problem, stock.ends[1], last.ends[1]) : 0 }
    let placed = false
    for (const part of parts) {
      if (left[part] === 0) continue
      for (const lying of ways[part]!) {
        const before = last
          ? junction(problem, last.ends[1], lying.ends[0])
          : front(problem, stock.ends[0], lying.ends[0])
        const length = before + lying.mid + least(left.with(part, left[part]! - 1), lying).length
        if (placed && length >= best.length) continue
        placed = true
        best = { length, lying }
      }
    }
    known.set(name, best)
    return best
  }
  const row: Lying[] = []
  let left = counts
  for (let step = least(left, undefined); step.lying; step = least(left, step.lying)) {
    row.push(step.lying)
    left = left.with(step.lying.part, left[step.lying.part]! - 1)
  }
  return row
}

/** The row with one more piece put where it costs least; `length` is what it then needs. */
export function insert(
  problem: NestProblem,
  stock: StockLength,
  row: readonly Lying[],
  choices: readonly Lying[],
): Lying[] {
  let best: { row: Lying[]; length: Mm } | undefined
  for (const lying of choices)
    for (let at = row.length; at >= 0; at -= 1) {
      const longer = row.toSpliced(at, 0, lying)
      const length = need(problem, stock, longer)
      if (!best || length < best.length) best = { row: longer, length }
    }
  return best?.row ?? [...row]
}

function insertedRow(
  problem: NestProblem,
  ways: readonly (readonly Lying[])[],
  stock: StockLength,
  counts: readonly number[],
): Lying[] {
  const parts = [...counts.keys()].sort((a, b) => problem.parts[b]!.mid - problem.parts[a]!.mid || a - b)
  let row: Lying[] = []
  for (const part of parts)
    for (let piece = 0; piece < counts[part]!; piece += 1) row = insert(problem, stock, row, ways[part]!)
  return row
}
