import { type Certificate, checkCertificate } from '../core/check/certificate.ts'
import type { NestProblem, NestSection, StockLength, Turning } from '../core/nest.ts'
import { badAll, good, type Problem, type Result } from '../core/result.ts'
import { fromSteps, stepsUp } from '../core/units.ts'
import { type Row, rowsOf } from './angled.ts'
import { dealt, openHand } from './deal.ts'
import { everyRow, fewAngled } from './every-row.ts'
import { faultsOf } from './faults.ts'
import { fits, gives, type Lying, need } from './fit.ts'
import { lay } from './lay.ts'
import {
  countOf,
  type Fill,
  isPriced,
  type Model,
  modelOf,
  paidFor,
  priceOf,
  sticksOf,
  turnsOf,
  unitsPer,
} from './model.ts'
import { leastRow, lyings } from './row.ts'
import { type Proof, type Searched, search } from './search.ts'
import { groupsOf } from './together.ts'
import { type Asking, answered, type WholeSolver } from './whole.ts'
import { openWork, type Work, within } from './work.ts'

/** How far a search may go. */
export interface Budget {
  /** Counted steps: the same problem and steps give the same nest. A step is about the look at one sum of lengths. */
  readonly steps: number
  /** Asked now and then; true ends the search with the best so far. */
  readonly stop?: () => boolean
  /** Hears of every nest of all pieces that is better than the last. */
  readonly better?: (nest: NestSection) => void
}

/** A few seconds on a tablet at the worst; most problems of a shop are proved long before. */
export const usualSteps = 60_000_000

export interface Solved {
  readonly nest: NestSection
  /** The fewest sticks at this cost, checked like the cost. */
  readonly provedSticks: boolean
  /**
   * Proof of the cost, in whole cents where stock is priced, else in whole steps of length (halves of these where sticks
   * are delivered in halves); only when `nest.proved`.
   */
  readonly certificate?: Certificate
  readonly priced: boolean
  /** The nest once more as indices: stick by stick, stock and parts of the problem. */
  readonly rows: readonly {
    readonly stock: number
    readonly pieces: readonly { readonly part: number; readonly turn: Turning }[]
  }[]
  /** Pieces per part that found no room where stock is counted. */
  readonly unplaced: readonly number[]
  /** The budget or `stop` ended the search. */
  readonly ended: boolean
}

/**
 * Nests one section: least cost, then fewest sticks, then one long drop. `proved` only where `checkCertificate`, which
 * shares no code with the search, says that the proof holds. Problems: figures that cannot be, prices on some stock
 * only, a part that fits no stick.
 */
export const solve = (given: NestProblem, budget: Budget, whole?: WholeSolver): Result<Solved> =>
  answered(solving(given, budget), whole)

/**
 * The same in steps: it yields where the search by itself does not close the gap quickly and a solver for whole numbers
 * would help. Give it one, or undefined, and it goes on from there.
 */
export function* solving(given: NestProblem, budget: Budget): Asking<Result<Solved>> {
  const faults = faultsOf(given)
  if (faults.length > 0) return badAll(faults)
  const problem = counted(given)
  const tooLong = longerThanStock(problem)
  if (tooLong.length > 0) return badAll(tooLong)

  const model = modelOf(problem)
  const work = openWork(budget.steps, budget.stop)
  const section = (rows: readonly Row[], bound: number, proved: boolean): NestSection => ({
    section: given.section,
    kerf: given.kerf,
    trim: given.trim,
    grip: given.grip,
    way: given.way,
    demand: given.parts,
    stock: given.stock,
    sticks: lay(given, rows),
    ...costAndBound(problem, rows, bound, proved),
    proved,
  })
  let told: readonly number[] | undefined
  const tell = (fills: readonly Fill[], bound: number) => {
    if (!budget.better) return
    const rows = rowsFor(problem, model, fills)
    const score = [costOfRows(problem, rows), rows.length]
    if (placedCount(rows) < model.pieces || (told && !isLess(score, told))) return
    told = score
    budget.better(section(rows, bound, false))
  }

  const first = yield* search(model, problem, work, tell)
  const firstRows = fewRows(problem, model, rowsFor(problem, model, first.fills), work)
  const unplaced = unplacedBy(problem, firstRows)
  const partial = unplaced.some((count) => count > 0)
  // With pieces left out there is no nest of all to bound: what can be placed is a problem of its own.
  const { searched, rows } = partial
    ? rest(problem, unplaced, firstRows, work)
    : { searched: first, rows: fewerPaid(problem, firstRows, work) }
  const cost = costOfRows(problem, rows)
  const holds = (proof: Proof | undefined, sum: number): boolean =>
    proof !== undefined &&
    (unitsPer(problem.stock) === 2 || proof.cost >= sum) &&
    checkCertificate(
      problem,
      proof.certificate,
      sum,
      proof.pricing,
      unitsPer(problem.stock) === 2 ? 'in pairs' : 'one by one',
    ) === 'holds'
  const proved = !partial && holds(searched.proof, cost)
  const perStick = searched.sticksProof?.pricing
  const withSticks = perStick && rows.reduce((sum, { stock }) => sum + perStick[stock]!, 0)
  const provedSticks =
    proved &&
    unitsPer(problem.stock) === 1 &&
    ((searched.fewestByCount && rows.length <= sticksOf(searched.fills)) ||
      (withSticks !== undefined && holds(searched.sticksProof, withSticks)))
  // Not even a bound is said that the judge has not seen.
  const said = [searched.proof, searched.firstProof].find(
    (proof) => proved || holds(proof, Math.min(cost, proof?.cost ?? 0)),
  )
  const bound = Math.min(cost, said?.cost ?? 0)
  return good({
    nest: section(rows, bound, proved),
    provedSticks,
    ...(proved && searched.proof && { certificate: searched.proof.certificate }),
    priced: isPriced(problem.stock),
    rows: rows.map(({ stock, pieces }) => ({
      stock,
      pieces: pieces.map(({ part, turn }) => ({ part, turn })),
    })),
    unplaced,
    ended: work.over,
  })
}

const unplacedBy = ({ parts }: NestProblem, rows: readonly Row[]): number[] => {
  const left = parts.map(({ count }) => count)
  for (const { pieces } of rows) for (const { part } of pieces) left[part]! -= 1
  return left
}

/** The nest of the pieces that found room, for the least cost of these. */
function rest(
  problem: NestProblem,
  unplaced: readonly number[],
  known: readonly Row[],
  work: Work,
): { readonly searched: Searched; readonly rows: readonly Row[] } {
  const parts = problem.parts.map((part, at) => ({ ...part, count: part.count - unplaced[at]! }))
  const model = modelOf({ ...problem, parts })
  const searched = answered(search(model, { ...problem, parts }, work, () => {}))
  const rows = rowsFor({ ...problem, parts }, model, searched.fills)
  return { searched, rows: placedCount(rows) < placedCount(known) ? known : rows }
}

/** Few pieces with angled ends: the rows of the complete search where these are better than what was found. */
function fewRows(problem: NestProblem, model: Model, known: readonly Row[], work: Work): readonly Row[] {
  if (model.square || model.pieces > fewAngled || unitsPer(problem.stock) > 1) return known
  const rows = within(work, work.left / 2, (part) => everyRow(problem, model, part))
  if (!rows) return known
  const score = (of: readonly Row[]) => [-placedCount(of), costOfRows(problem, of), of.length]
  return isLess(score(rows), score(known)) ? dealt(model, rows) : known
}

/** Halves of several lengths may each leave one that is paid and not used: then one length alone may cost less. */
function fewerPaid(problem: NestProblem, known: readonly Row[], work: Work): readonly Row[] {
  const halves = [...problem.stock.keys()].filter((at) => problem.stock[at]!.halfOf !== undefined)
  const odd = halves.filter((at) => sticksPerKind(problem, known)[at]! % 2 === 1)
  let best = known
  if (odd.length < 2) return best
  for (const only of halves) {
    const alone: NestProblem = {
      ...problem,
      stock: problem.stock.map((each, at) =>
        at === only || each.halfOf === undefined ? each : { ...each, count: 0 },
      ),
    }
    const model = modelOf(alone)
    const { fills } = within(work, work.left / 2, (part) => answered(search(model, alone, part, () => {})))
    const rows = rowsFor(alone, model, fills)
    if (placedCount(rows) === placedCount(known) && costOfRows(problem, rows) < costOfRows(problem, best))
      best = rows
  }
  return best
}

/** A rack piece without a count is one. */
const counted = (problem: NestProblem): NestProblem => ({
  ...problem,
  stock: problem.stock.map((stock): StockLength => {
    const count = countOf(stock)
    return count === undefined ? stock : { ...stock, count }
  }),
})

function longerThanStock(problem: NestProblem): Problem[] {
  const there = problem.stock.filter(({ count }) => count !== 0)
  const all = lyings(problem)
  const groups = groupsOf(problem.parts)
  const single = all.flatMap((ways, part) => {
    if (there.some((stock) => ways.some((lying) => fits(problem, stock, [lying])))) return []
    const { mark, mid } = problem.parts[part]!
    const best = there
      .flatMap((stock) =>
        ways.map(({ ends }) => ({ length: stock.length, most: gives(problem, stock, ends) })),
      )
      .reduce((a, b) => (b.most > a.most ? b : a), { length: 0, most: Number.NEGATIVE_INFINITY })
    const text =
      best.length === 0
        ? `Part ${mark} needs ${shown(mid)} mm; there is no stick.`
        : `Part ${mark} needs ${shown(mid)} mm; a stick of ${shown(best.length)} mm gives the most, ${shown(Math.max(0, best.most))} mm.`
    return [{ code: 'too-long', text, field: `parts[${part}]` }]
  })
  if (single.length > 0) return single
  return groups.flatMap((group) => {
    const counts = problem.parts.map(({ count }, part) => (group.includes(part) ? count : 0))
    const rows = there.map((stock) => ({ stock, row: leastRow(problem, all, stock, counts) }))
    if (rows.some(({ stock, row }) => fits(problem, stock, row))) return []
    const longest = Math.max(0, ...there.map(({ length }) => length))
    const least = Math.min(...rows.map(({ stock, row }) => need(problem, stock, row)))
    const names = group.map((part) => `${counts[part]} × ${problem.parts[part]!.mark}`).join(', ')
    const text = `${names} are to come from one stick and need ${shown(least)} mm of it; the longest is ${shown(longest)} mm.`
    return [{ code: 'too-long', text, field: `parts[${group[0]}]` }]
  })
}

const shown = (length: number): string => String(+length.toFixed(3))

function rowsFor(problem: NestProblem, model: Model, fills: readonly Fill[]): Row[] {
  const rows = model.square ? squareRows(problem, model, fills) : dealt(model, rowsOf(problem, model, fills))
  return rows.filter(({ pieces }) => pieces.length > 0)
}

/** Longest pieces first on each stick; sticks with more of the longest first, so that equal ones follow each other. */
function squareRows(problem: NestProblem, model: Model, fills: readonly Fill[]): Row[] {
  const hand = openHand(model)
  const square = { p: 0, q: 0 }
  const sorted = fills.toSorted((a, b) => {
    const at = a.counts.findIndex((count, item) => count !== b.counts[item])
    return at < 0 ? a.kind - b.kind : b.counts[at]! - a.counts[at]!
  })
  return sorted.flatMap(({ kind, counts, times }) =>
    Array.from({ length: times }, (): Row => {
      const pieces: Lying[] = []
      const put = (part: number): void => {
        const { mid, turns } = problem.parts[part]!
        const turn = turnsOf(turns)[0]!
        pieces.push({ part, turn, ends: [square, square], mid: fromSteps(stepsUp(mid)) })
      }
      for (const [item, count] of counts.entries())
        for (let each = 0; each < count; each += 1)
          for (const piece of hand(item).pieces)
            for (let time = 0; time < piece.count; time += 1) put(piece.part)
      return { stock: model.kinds[kind]!.stock, pieces }
    }),
  )
}

const placedCount = (rows: readonly Row[]): number => rows.reduce((sum, { pieces }) => sum + pieces.length, 0)

const sticksPerKind = ({ stock }: NestProblem, rows: readonly Row[]): number[] =>
  stock.map((_, at) => rows.filter((row) => row.stock === at).length)

const costOfRows = (problem: NestProblem, rows: readonly Row[]): number =>
  paidFor(problem.stock, sticksPerKind(problem, rows))

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, index) => value !== b[index])
  return at >= 0 && a[at]! < b[at]!
}

/** Whole cents as they are; lengths back in mm, kind by kind, so that three sticks of 6096 mm are 18288 mm. */
function costAndBound(problem: NestProblem, rows: readonly Row[], bound: number, proved: boolean) {
  const { stock } = problem
  const cost = sticksPerKind(problem, rows).reduce(
    (sum, count, at) =>
      sum + priceOf(stock, at) * (stock[at]!.halfOf === undefined ? count : Math.ceil(count / 2)),
    0,
  )
  if (proved) return { cost, bound: cost }
  const least = bound / unitsPer(stock)
  return { cost, bound: Math.min(cost, isPriced(stock) ? Math.ceil(least) : fromSteps(least)) }
}
