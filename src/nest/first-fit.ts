import type { Fill, Model } from './model.ts'

// The first answer, at once: longest pieces first, each where it fits, and the cheapest stick for what is on it.

interface Open {
  kind: number
  left: number
  readonly counts: number[]
}

/** Which open stick takes the next piece: the first that has room, or the one that it fills best. */
export type Rule = 'first fit' | 'best fit'

/**
 * Places the pieces of `demand`, the longest first. Where no open stick has room, a new one of the kind that `prefer`
 * puts first among those with room is opened. What finds no room is left out.
 */
export const firstFit = (
  model: Model,
  demand: readonly number[],
  available: readonly number[],
  rule: Rule,
  prefer: (a: number, b: number) => number,
): Fill[] => gather(placed(model, demand, available, rule, prefer))

function placed(
  model: Model,
  demand: readonly number[],
  available: readonly number[],
  rule: Rule,
  prefer: (a: number, b: number) => number,
): Open[] {
  const left = [...available]
  const order = [...model.kinds.keys()].sort(prefer)
  const sticks: Open[] = []
  const done: Open[] = []
  const open = (kind: number, room: number): Open => {
    left[kind]! -= 1
    return { kind, left: room, counts: new Array<number>(model.items.length).fill(0) }
  }
  for (let item = 0; item < model.items.length; item += 1) {
    const { size } = model.items[item]!
    if (demand[item] === 0) continue
    // A stick without room for one piece has none for the next of the same size.
    let roomy = sticks.filter((stick) => stick.left >= size)
    for (let piece = 0; piece < demand[item]!; piece += 1) {
      const uncut = model.kinds.findIndex((kind, at) => kind.uncut === item && left[at]! > 0)
      if (uncut >= 0) {
        const stick = open(uncut, 0)
        stick.counts[item] = 1
        done.push(stick)
        continue
      }
      let stick: Open | undefined
      if (rule === 'first fit') [stick] = roomy
      else for (const each of roomy) if (!stick || each.left < stick.left) stick = each
      if (!stick) {
        const kind = order.find((at) => left[at]! > 0 && model.kinds[at]!.room >= size)
        if (kind === undefined) break
        stick = open(kind, model.kinds[kind]!.room)
        sticks.push(stick)
        roomy.push(stick)
      }
      stick.counts[item]! += 1
      stick.left -= size
      const full = stick
      if (full.left < size) roomy = roomy.filter((each) => each !== full)
    }
  }
  return [...done, ...sticks.map((stick) => cheaper(model, stick, left))]
}

/** The same pieces on the cheapest kind that holds them and is still there. */
function cheaper(model: Model, stick: Open, left: number[]): Open {
  const { room, price } = model.kinds[stick.kind]!
  const used = room - stick.left
  let best = stick.kind
  for (const [kind, other] of model.kinds.entries())
    if (left[kind]! > 0 && other.room >= used && other.price < model.kinds[best]!.price) best = kind
  if (model.kinds[best]!.price >= price) return stick
  left[best]! -= 1
  left[stick.kind]! += 1
  return { ...stick, kind: best, left: model.kinds[best]!.room - used }
}

/** Equal sticks together. */
export function gather(sticks: readonly { kind: number; counts: readonly number[] }[]): Fill[] {
  const fills = new Map<string, Fill>()
  for (const { kind, counts } of sticks) {
    const name = `${kind}:${counts.join()}`
    fills.set(name, { kind, counts, times: (fills.get(name)?.times ?? 0) + 1 })
  }
  return [...fills.values()]
}

/** The best of a few orders of opening sticks: by price for the room, by length, by price. */
export function greedyFills(
  model: Model,
  demand: readonly number[],
  available: readonly number[],
  pricing: readonly number[],
): Fill[] {
  const { kinds } = model
  const perRoom = (kind: number) => pricing[kind]! / Math.max(1, kinds[kind]!.room)
  const prefers = [
    (a: number, b: number) => perRoom(a) - perRoom(b) || kinds[b]!.room - kinds[a]!.room || a - b,
    (a: number, b: number) => kinds[b]!.room - kinds[a]!.room || pricing[a]! - pricing[b]! || a - b,
    (a: number, b: number) => pricing[a]! - pricing[b]! || kinds[b]!.room - kinds[a]!.room || a - b,
  ]
  const task: Model = {
    ...model,
    kinds: kinds.map((kind, at) => ({ ...kind, price: pricing[at]! })),
  }
  const scoreOf = (sticks: readonly Open[]) => [
    -sticks.reduce((sum, { counts }) => counts.reduce((all, count) => all + count, sum), 0),
    sticks.reduce((sum, { kind }) => sum + pricing[kind]!, 0),
    sticks.length,
  ]
  let best: readonly Open[] = []
  let score = scoreOf(best)
  for (const prefer of prefers)
    for (const rule of ['first fit', 'best fit'] as const) {
      const sticks = placed(task, demand, available, rule, prefer)
      const own = scoreOf(sticks)
      const at = own.findIndex((value, index) => value !== score[index])
      if (at < 0 || own[at]! > score[at]!) continue
      best = sticks
      score = own
    }
  return gather(best)
}
