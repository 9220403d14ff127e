import type {
  NestPart,
  NestPiece,
  NestProblem,
  NestStick,
  Slope,
  StickEnd,
  StockLength,
} from '../core/nest.ts'
import { fromSteps, type Mm, stepsDown } from '../core/units.ts'
import type { Row } from './angled.ts'
import { front, junction, kerfAt, type Lying, usedUncut } from './fit.ts'
import { priceOf } from './model.ts'

// Rows of pieces become sticks with names, places and drops.

/** `A5`, and `A5.b` for the square blank that it is made from. */
function nameOf(part: NestPart, number: number, way: NestProblem['way']) {
  const piece = `${part.mark}${number}`
  const blank = way === 'square first' && !part.finished
  return {
    piece,
    mark: part.mark,
    key: part.key,
    job: part.job,
    copy: 1 + Math.floor((number - 1) / part.perCopy),
    ...(blank && { blank: `${piece}.b` }),
  }
}

const slopeOf = (end: StickEnd): Slope => (typeof end === 'string' ? { p: 0, q: 0 } : end)

/** Sticks in the given order, S1 first; the pieces of a part are numbered in that order. */
export function lay(problem: NestProblem, rows: readonly Row[]): NestStick[] {
  const next = problem.parts.map(({ first }) => first ?? 1)
  return rows.map((row, index) => {
    const stock = problem.stock[row.stock]!
    const { places, drop } = placesOf(problem, stock, row.pieces)
    const pieces = row.pieces.map(({ part, turn, ends }, at): NestPiece => {
      const number = next[part]!
      next[part] = number + 1
      const [lead, trail] = places[at]!
      return {
        ...nameOf(problem.parts[part]!, number, problem.way),
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
      price: priceOf(problem.stock, row.stock),
      ends: stock.ends,
      way: problem.way,
      pieces,
      drop,
    }
  })
}

/**
 * Where both ends of each piece stand on the mid-line, x = 0 at the tail, and what is left on the short side, mm. All
 * on whole steps: a piece that is no whole number of them is given the next one up.
 */
function placesOf(
  problem: NestProblem,
  stock: StockLength,
  row: readonly Lying[],
): { readonly places: readonly (readonly [Mm, Mm])[]; readonly drop: Mm } {
  const [only] = row
  if (!only) return { places: [], drop: stock.length }
  const length = stepsDown(stock.length)
  if (row.length === 1 && usedUncut(stock, problem.parts[only.part]!.mid, only.ends))
    return { places: [[problem.parts[only.part]!.mid, 0]], drop: 0 }
  let at = front(problem, stock.ends[0], only.ends[0])
  const places: (readonly [Mm, Mm])[] = []
  for (const [index, { mid, ends }] of row.entries()) {
    places.push([fromSteps(length - at), fromSteps(length - at - mid)])
    const after = row[index + 1]
    at += mid + (after ? junction(problem, ends[1], after.ends[0]) : 0)
  }
  const last = row.at(-1)!.ends[1]
  const tail = slopeOf(stock.ends[1])
  const { width, height } = problem.section
  const slant = Math.abs(last.p - tail.p) * (width / 2) + Math.abs(last.q - tail.q) * (height / 2)
  // A cut end costs no kerf: the blade may run out of the steel, and then nothing is left.
  const left = fromSteps(length - at - kerfAt(problem.kerf, last)) - slant
  return { places, drop: Math.max(0, left) }
}
