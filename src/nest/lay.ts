import type { NestPart, NestPiece, NestProblem, NestStick, StockLength } from '../core/nest.ts'
import { dropBehind, front, junction } from '../core/stick-room.ts'
import { addedUp } from '../core/tolerance.ts'
import { fromSteps, type Mm, stepsDown, stepsNearest } from '../core/units.ts'
import type { Row } from './angled.ts'
import { type Lying, usedUncut } from './fit.ts'
import { priceOf } from './model.ts'

// Rows of pieces become sticks with names, places and drops.

/** `A5`, and `A5.b` for the blank that it is made from; a blank that is split bears the name of its first piece. */
function nameOf(part: NestPart, number: number) {
  const makes = part.makes?.[number - (part.first ?? 1)]
  if (makes) {
    const [{ piece, mark, key, copy }] = makes
    return { piece, mark, key, job: part.job, copy, blank: `${piece}.b`, makes }
  }
  const piece = `${part.mark}${number}`
  return {
    piece,
    mark: part.mark,
    key: part.key,
    job: part.job,
    copy: 1 + Math.floor((number - 1) / part.perCopy),
    ...(!part.finished && { blank: `${piece}.b` }),
  }
}

/** Sticks in the given order, S1 first; the pieces of a part are numbered in that order. */
export function lay(problem: NestProblem, rows: readonly Row[]): NestStick[] {
  const next = problem.parts.map(({ first }) => first ?? 1)
  const taken = problem.stock.map(() => 0)
  return rows.map((row, index) => {
    const stock = problem.stock[row.stock]!
    taken[row.stock]! += 1
    const comesAlong = stock.halfOf !== undefined && taken[row.stock]! % 2 === 0
    const { places, drop } = placesOf(problem, stock, row.pieces)
    const pieces = row.pieces.map(({ part, turn, ends }, at): NestPiece => {
      const number = next[part]!
      next[part] = number + 1
      const [lead, trail] = places[at]!
      return {
        ...nameOf(problem.parts[part]!, number),
        turn,
        ends: [
          { x: lead, ...ends[0] },
          { x: trail, ...ends[1] },
        ],
      }
    })
    return {
      id: `S${index + 1}`,
      from: stock.rack === undefined ? 'buy' : 'rack',
      ...(stock.rack !== undefined && { rack: stock.rack }),
      length: stock.length,
      price: comesAlong ? 0 : priceOf(problem.stock, row.stock),
      ...(stock.halfOf !== undefined && { halfOf: stock.halfOf }),
      ends: stock.ends,
      way: problem.way,
      pieces,
      drop,
    }
  })
}

/**
 * Where both ends of each piece stand on the mid-line, x = 0 at the tail, and what is left on the short side, mm. What
 * a stick's length lacks to whole steps is not counted.
 */
function placesOf(
  problem: NestProblem,
  stock: StockLength,
  row: readonly Lying[],
): { readonly places: readonly (readonly [Mm, Mm])[]; readonly drop: Mm } {
  const [only] = row
  if (!only) return { places: [], drop: stock.length }
  if (row.length === 1 && usedUncut(stock, only.mid, only.ends)) return { places: [[only.mid, 0]], drop: 0 }
  let x = fromSteps(stepsDown(stock.length)) - front(problem, stock.ends[0], only.ends[0])
  const places: (readonly [Mm, Mm])[] = []
  for (const [index, { mid, ends }] of row.entries()) {
    const after = row[index + 1]
    places.push([clean(x), clean(x - mid)])
    x -= mid + (after ? junction(problem, ends[1], after.ends[0]) : 0)
  }
  return { places, drop: clean(dropBehind(problem, stock.ends[1], x, row.at(-1)!.ends[1])) }
}

/** The whole step that a place is meant to be, without what adding up in floating point has put on it. */
function clean(x: Mm): Mm {
  const step = fromSteps(stepsNearest(x))
  return Math.abs(step - x) <= addedUp ? step : x
}
