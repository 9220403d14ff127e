import { type Fill, type Model, missingOf } from './model.ts'

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
export function firstFit(
  model: Model,
  demand: readonly number[],
  available: readonly number[],
  rule: Rule,
  prefer: (a: number, b: number) => number,
): Fill[] {
  const left = [...available]
  const order = [...model.kinds.keys()].sort(prefer)
  const sticks: Open[] = []
  const done: Open[] = []
  for (const [item, { size }] of model.items.entries()) {
    // A stick without room for one piece has none for the next of the same size.
    let roomy = sticks.filter((open) => open.left >= size)
    for (let piece = 0; piece < demand[item]!; piece += 1) {
      const uncut = model.kinds.findIndex((kind, at) => kind.uncut === item && left[at]! > 0)
      if (uncut >= 0) {
        left[uncut]! -= 1
        const counts = model.items.map((_, at) => (at === item ? 1 : 0))
        done.push({ kind: uncut, left: 0, counts })
        continue
      }
      let stick: Open | undefined
      if (rule === 'first fit') [stick] = roomy
      else for (const open of roomy) if (!stick || open.left < stick.left) stick = open
      if (!stick) {
        const kind = order.find((at) => left[at]! > 0 && model.kinds[at]!.room >= size)
        if (kind === undefined) continue
        left[kind]! -= 1
        stick = { kind, left: model.kinds[kind]!.room, counts: model.items.map(() => 0) }
        sticks.push(stick)
        roomy.push(stick)
      }
      stick.counts[item]! += 1
      stick.left -= size
      const full = stick
      if (full.left < size) roomy = roomy.filter((open) => open !== full)
    }
  }
  return gather([...done, ...sticks.map((stick) => cheaper(model, stick, left))])
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
    items: model.items.map((item, at) => ({ ...item, count: demand[at]! })),
  }
  let best: Fill[] | undefined
  for (const prefer of prefers)
    for (const rule of ['first fit', 'best fit'] as const) {
      const fills = firstFit(task, demand, available, rule, prefer)
      if (!best || better(task, fills, best)) best = fills
    }
  return best ?? []
}

function better(model: Model, a: readonly Fill[], b: readonly Fill[]): boolean {
  const score = (fills: readonly Fill[]) => [
    missingOf(model, fills).reduce((sum, count) => sum + count, 0),
    fills.reduce((sum, { kind, times }) => sum + model.kinds[kind]!.price * times, 0),
    fills.reduce((sum, { times }) => sum + times, 0),
  ]
  const [left, right] = [score(a), score(b)]
  const at = left.findIndex((value, index) => value !== right[index])
  return at >= 0 && left[at]! < right[at]!
}
