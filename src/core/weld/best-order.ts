import { type HeatModel, type Heats, type HotSeam, heats } from './heat.ts'

export interface Ordered {
  readonly order: readonly number[]
  readonly index: number
  /** The index of going round: the seams of each block as they were given. */
  readonly round: number
}

interface Question {
  readonly seams: readonly HotSeam[]
  readonly near: Float64Array
  readonly model: HeatModel
}

/** Up to so many seams every order is looked at. */
const fewest = 8
/** Multiplications that exchanging may cost: some ten milliseconds, the same on every machine; of many seams a few looks more. */
const budget = (n: number): number => Math.max(2_000_000, 5 * n * n)

/** Of more seams than this only the worst ones change places: every two of them are too many to look at. */
const many = 200

const slack = 1e-12
const less = (a: Heats, b: Heats): boolean =>
  a.index < b.index - slack || (a.index <= b.index + slack && a.sum < b.sum - slack)

/**
 * The order of seams with the least index that was found, block after block: seams change places only within their
 * block. Never worse than going round; for up to eight seams none is better.
 */
export function bestOrder(blocks: readonly (readonly number[])[], asked: Question): Ordered {
  const round = blocks.flat()
  const score = (order: readonly number[]) => heats(order, asked.seams, asked.near, asked.model)
  const going = score(round)
  if (round.length <= fewest) {
    const order = everyOrder(blocks, asked, round)
    return { order, index: score(order).index, round: going.index }
  }
  const starts = [greedy(blocks, asked), round]
  const ways = round.length > many ? [true] : [true, false]
  const tries = ways.flatMap((worstFirst) =>
    starts.map((order) => exchange(order, blocks, asked, worstFirst, { left: budget(round.length) })),
  )
  const best = tries.reduce((least, one) => (less(one.heats, least.heats) ? one : least))
  return { order: best.order, index: best.heats.index, round: going.index }
}

/** The coolest seam of the block next; of equals the one farthest from the last seam, so no neighbors in a row. */
function greedy(blocks: readonly (readonly number[])[], { seams, near, model }: Question): number[] {
  const n = seams.length
  const hot = new Float64Array(n)
  const order: number[] = []
  let time = 0
  for (const block of blocks) {
    const left = new Set(block)
    while (left.size > 0) {
      const last = order.at(-1)
      let best = -1
      for (const k of left) {
        if (best < 0) {
          best = k
          continue
        }
        const colder = hot[k]! - hot[best]!
        const nearer = last === undefined ? 0 : near[last * n + k]! - near[last * n + best]!
        const slackHere = 1e-9 * (Math.abs(hot[best]!) + 1e-300)
        if (colder < -slackHere || (Math.abs(colder) <= slackHere && nearer < -1e-9)) best = k
      }
      left.delete(best)
      order.push(best)
      time += seams[best]!.minutes
      const weight = seams[best]!.q * Math.exp(time / model.tau)
      for (let k = 0; k < n; k++) hot[k]! += weight * near[best * n + k]!
      time += model.gap
    }
  }
  return order
}

/**
 * Seams change places within their block as long as that is better: every two in turn, or the worst one before them,
 * since the index falls only where it or one before it moves.
 */
function exchange(
  start: readonly number[],
  blocks: readonly (readonly number[])[],
  { seams, near, model }: Question,
  worstFirst: boolean,
  looks: { left: number },
): { order: readonly number[]; heats: Heats } {
  const order = [...start]
  let best = heats(order, seams, near, model)
  const bounds: (readonly [number, number])[] = []
  const blockAt: (readonly [number, number])[] = []
  for (const block of blocks) {
    const bound = [blockAt.length, blockAt.length + block.length] as const
    bounds.push(bound)
    for (let k = 0; k < block.length; k++) blockAt.push(bound)
  }
  const swap = (one: number, two: number) => {
    const kept = order[one]!
    order[one] = order[two]!
    order[two] = kept
  }
  const better = (one: number, two: number): boolean => {
    swap(one, two)
    const made = heats(order, seams, near, model, best.index + slack)
    const walked = made.index > best.index + slack ? made.worst : order.length
    looks.left -= (walked * walked) / 2
    if (less(made, best)) {
      best = made
      return true
    }
    swap(one, two)
    return false
  }
  const coolWorst = (): boolean => {
    const { worst } = best
    const [first, end] = blockAt[worst] ?? [0, 0]
    for (let other = first; other < end && looks.left > 0; other++)
      if (other !== worst && better(worst, other)) return true
    return false
  }
  while (worstFirst && looks.left > 0 && coolWorst());
  for (let more = true; more; ) {
    more = false
    for (const [first, end] of bounds)
      for (let one = first; one < end; one++)
        for (let two = one + 1; two < end; two++) {
          if (looks.left <= 0) return { order, heats: best }
          if (better(one, two)) more = true
        }
  }
  return { order, heats: best }
}

/** Every order of every block, left as soon as it is no better than the best so far. */
function everyOrder(
  blocks: readonly (readonly number[])[],
  { seams, near, model }: Question,
  round: readonly number[],
): readonly number[] {
  let best: readonly number[] = round
  let least = heats(round, seams, near, model)
  const order: number[] = []
  const fill = (block: number, left: readonly number[]): void => {
    const now = heats(order, seams, near, model)
    if (now.index > least.index + slack) return
    if (left.length === 0) {
      if (block + 1 < blocks.length) fill(block + 1, blocks[block + 1]!)
      else if (less(now, least)) {
        best = [...order]
        least = now
      }
      return
    }
    for (const k of left) {
      order.push(k)
      fill(
        block,
        left.filter((one) => one !== k),
      )
      order.pop()
    }
  }
  if (blocks.length > 0) fill(0, blocks[0]!)
  return best
}
