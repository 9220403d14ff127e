import type { NestResult } from '../../src/cli/nest-result.ts'

// A nest as `nest --json` prints it, checked once more from the text of the documents (design.md 7, formats.md) in plain
// millimeters, sharing nothing with src/: patterns by their cuts, proofs by an own search for the dearest stick.

export interface Problem {
  readonly name?: string
  readonly kerf?: number
  readonly trim?: number
  readonly grip?: number
  readonly width?: number
  readonly stock: readonly {
    readonly length: number
    readonly price?: number
    readonly count?: number
    readonly rack?: boolean
    readonly ends?: readonly string[]
  }[]
  readonly parts: readonly {
    readonly length: number
    readonly count: number
    readonly ends?: readonly number[]
    readonly turns?: string
    readonly same?: string
  }[]
}

const tan = (degrees: number) => Math.tan((degrees * Math.PI) / 180)
const slack = 1e-6

/** Slopes as they lie after a turning: formats.md, "over (−s, −u), end (u, s), flip (−u, −s)". */
function turned([a, b]: readonly number[], turn: string): readonly [number, number] {
  const [s, u] = [tan(a!), -tan(b!)]
  if (turn === 'over') return [-s, -u]
  if (turn === 'end') return [u, s]
  if (turn === 'flip') return [-u, -s]
  return [s, u]
}

function needOf(
  problem: Problem,
  at: number,
  row: readonly { readonly part: number; readonly turn: string }[],
) {
  const { kerf = 0, trim = 0, grip = 0, width = 0, stock, parts } = problem
  const { rack = false, ends = rack || trim === 0 ? ['cut', 'cut'] : ['mill', 'mill'] } = stock[at]!
  const cut = (slope: number) => kerf * Math.hypot(1, slope)
  const pieces = row.map(({ part, turn }) => {
    const { length, ends: angles = [0, 0] } = parts[part]!
    const [lead, trail] = turned(angles, turn)
    return { lead, trail, mid: length - (width / 2) * (Math.abs(lead) + Math.abs(trail)) }
  })
  const [first, last] = [pieces[0]!, pieces.at(-1)!]
  const uncut = rack && ends.every((end) => end === 'cut') && row.length === 1
  if (uncut && first.lead === 0 && first.trail === 0 && Math.abs(first.mid - stock[at]!.length) < slack)
    return first.mid
  const clean = (end: string, slope: number) => (end === 'mill' && trim > 0 ? Math.max(trim, cut(slope)) : 0)
  let need = (Math.abs(first.lead) * width) / 2 + clean(ends[0]!, first.lead)
  need += (Math.abs(last.trail) * width) / 2
  need += Math.max(clean(ends[1]!, last.trail), grip > 0 ? grip + cut(last.trail) : 0)
  for (const [index, { mid, trail }] of pieces.entries()) {
    need += mid
    const next = pieces[index + 1]
    if (!next) continue
    need +=
      Math.abs(trail - next.lead) < 1e-9
        ? cut(trail)
        : (Math.abs(trail - next.lead) * width) / 2 + cut(trail) + cut(next.lead)
  }
  return need
}

/**
 * What square pieces on one stick are worth at the most, where that is more than `limit`: all sums of lengths that may come
 * to more, part by part, so many copies at once that any number of them adds up. Of two sums the longer one that is worth
 * no more is left.
 */
function dearerStick(
  problem: Problem,
  at: number,
  duals: readonly number[],
  limit: number,
): number | undefined {
  const { kerf = 0, parts, stock } = problem
  const { rack = false, length: whole } = stock[at]!
  // What must share a stick lies there wholly or not at all.
  const names = new Set(parts.map(({ same }, part) => same ?? part))
  const lying = [...names].map((name) => {
    const own = [...parts.keys()].filter((part) => (parts[part]!.same ?? part) === name)
    const each = (of: (part: number) => number) =>
      typeof name === 'number' ? of(name) : own.reduce((sum, part) => sum + parts[part]!.count * of(part), 0)
    return {
      size: each((part) => parts[part]!.length + kerf),
      worth: each((part) => duals[part]!),
      count: typeof name === 'number' ? parts[name]!.count : 1,
      alone: typeof name === 'number' || own.reduce((sum, part) => sum + parts[part]!.count, 0) === 1,
    }
  })
  for (const { size, worth, alone } of lying)
    if (rack && alone && Math.abs(size - kerf - whole) < slack && worth > limit) return worth
  // Clean-up cuts and grip around a piece of half the stick, which is never used uncut.
  const half = { length: whole / 2, count: 1 }
  const around = needOf({ ...problem, parts: [half] }, at, [{ part: 0, turn: 'none' }]) - half.length
  const room = whole - around + kerf + slack
  const lots = lying
    .flatMap(({ size, worth, count }) => {
      const copies: number[] = []
      for (let left = count; left > 0; left -= copies.at(-1)!) copies.push(Math.min(left, 2 ** copies.length))
      return copies.map((each) => ({ size: each * size, worth: each * worth }))
    })
    .filter(({ size, worth }) => worth > 0 && size <= room)
    .sort((a, b) => b.worth / b.size - a.worth / a.size)
  let sums = [{ size: 0, worth: 0 }]
  for (const [index, lot] of lots.entries()) {
    const next = lots[index + 1]
    const all = [
      ...sums,
      ...sums.map(({ size, worth }) => ({ size: size + lot.size, worth: worth + lot.worth })),
    ].sort((a, b) => a.size - b.size || b.worth - a.worth)
    let most = -1
    sums = []
    for (const sum of all) {
      if (sum.size > room || sum.worth <= most) continue
      most = sum.worth
      if (most > limit) return most
      if (next && sum.worth + ((room - sum.size) * next.worth) / next.size > limit) sums.push(sum)
    }
  }
  return undefined
}

/** Whether some sum of the prices lies from `from` up to, not including, `below`. */
function anySum(prices: readonly number[], from: number, below: number): boolean {
  const [price, ...rest] = prices
  if (price === undefined) return from <= slack && below > slack
  for (let sum = 0; sum < below; sum += price) if (anySum(rest, from - sum, below - sum)) return true
  return false
}

/** What is wrong with the answer to a problem, in words; nothing where it is right. */
export function recheck(problem: Problem, result: NestResult): string[] {
  const { stock, parts } = problem
  const faults: string[] = []
  const left = parts.map(({ count }) => count)
  const used = stock.map(() => 0)
  const priced =
    stock.every(({ rack }) => rack) || stock.some(({ price, rack }) => !rack && price !== undefined)
  const priceOf = (at: number) => stock[at]!.price ?? (priced || stock[at]!.rack ? 0 : stock[at]!.length)
  const slanted = parts.some(({ ends }) => ends?.some((end) => end !== 0))
  for (const { stock: at, count, pieces, order } of result.patterns) {
    used[at]! += count
    for (const { part, count: each } of pieces) left[part]! -= each * count
    if (slanted !== (order !== undefined)) faults.push('an order where none belongs, or none where one does')
    const row = order ?? pieces.flatMap(({ part, count: each }) => Array(each).fill({ part, turn: 'none' }))
    for (const [part] of parts.entries()) {
      const inPieces = pieces.find((each) => each.part === part)?.count ?? 0
      if (row.filter((each) => each.part === part).length !== inPieces) faults.push('order and pieces differ')
    }
    for (const { part, turn } of row) {
      const { turns = 'all' } = parts[part]!
      if (turn !== 'none' && turns !== 'all' && turns !== turn) faults.push(`part ${part} turned ${turn}`)
    }
    const need = needOf(problem, at, row)
    if (!(need <= stock[at]!.length + slack)) faults.push(`${need} mm from a stick of ${stock[at]!.length}`)
  }
  for (const name of new Set(parts.flatMap(({ same }) => same ?? []))) {
    const sticks = result.patterns
      .filter(({ pieces }) => pieces.some(({ part }) => parts[part]!.same === name))
      .reduce((sum, { count }) => sum + count, 0)
    if (sticks > 1) faults.push(`pieces of ${name} on ${sticks} sticks`)
  }
  for (const { part, count } of result.unplaced ?? []) left[part]! -= count
  if (left.some((count) => count !== 0)) faults.push(`pieces are off by ${left}`)
  for (const [at, { count, rack }] of stock.entries())
    if (used[at]! > (count ?? (rack ? 1 : Number.POSITIVE_INFINITY)))
      faults.push(`stock ${at} used ${used[at]} times`)
  if (result.sticks !== used.reduce((sum, count) => sum + count, 0)) faults.push('sticks are miscounted')
  const cost = used.reduce((sum, count, at) => sum + count * priceOf(at), 0)
  if (Math.abs(cost - result.cost) > slack)
    faults.push(`a cost of ${result.cost}; the sticks come to ${cost}`)
  if (result.bound > result.cost + slack) faults.push('the bound is above the cost')
  if (result.proved !== (result.certificate !== undefined))
    faults.push('proved without certificate, or the reverse')
  if (result.proved && result.unplaced) faults.push('proved with pieces left out')
  if (!result.certificate || slanted) return faults
  const { scale, leaves } = result.certificate
  for (const { branch, duals, stockDuals, branchDuals } of leaves) {
    let sum = duals.reduce((all, dual, part) => all + dual * parts[part]!.count, 0)
    for (const [at, dual] of stockDuals.entries()) {
      if (dual > 0 || (dual < 0 && stock[at]!.count === undefined && !stock[at]!.rack))
        faults.push('a stock dual')
      sum += dual === 0 ? 0 : dual * (stock[at]!.count ?? 1)
    }
    for (const [index, bound] of branch.entries()) {
      const most = 'atMost' in bound
      if (most ? branchDuals[index]! > 0 : branchDuals[index]! < 0) faults.push('a branch dual')
      sum += branchDuals[index]! * (most ? bound.atMost : bound.atLeast)
    }
    const prices = [...new Set(stock.map((_, at) => priceOf(at)))].filter((price) => price > 0)
    if (anySum(prices, sum / scale - slack, result.cost - slack))
      faults.push(`a leaf proves ${sum / scale} only, of ${result.cost}`)
    for (const [at] of stock.entries()) {
      let limit = scale * priceOf(at) - stockDuals[at]!
      for (const [index, bound] of branch.entries()) if (bound.stock === at) limit -= branchDuals[index]!
      const worth = dearerStick(problem, at, duals, limit * (1 + 1e-12))
      if (worth !== undefined) faults.push(`a stick of stock ${at} is worth ${worth}, over ${limit}`)
    }
  }
  return faults
}
