import { spend, type Work } from './work.ts'

// The most valuable set of pieces for one stick: a bounded knapsack, solved over the sums that can be reached.

export interface Thing {
  readonly size: number
  readonly value: number
  readonly count: number
}

export interface Filled {
  readonly value: number
  readonly counts: number[]
}

/** So many copies of one thing, taken together or not; doubling numbers of copies add up to any number. */
interface Layer {
  readonly thing: number
  readonly copies: number
  readonly size: number
  readonly value: number
}

export function layersOf(things: readonly Thing[], room: number): Layer[] {
  const order = [...things.keys()]
    .filter((at) => things[at]!.value > 0 && things[at]!.size <= room && things[at]!.count > 0)
    .sort((a, b) => things[b]!.value / things[b]!.size - things[a]!.value / things[a]!.size || a - b)
  return order.flatMap((thing) => {
    const { size, value, count } = things[thing]!
    const layers: Layer[] = []
    let left = Math.min(count, Math.floor(room / size))
    for (let copies = 1; left > 0; copies *= 2) {
      const taken = Math.min(copies, left)
      layers.push({ thing, copies: taken, size: taken * size, value: taken * value })
      left -= taken
    }
    return layers
  })
}

/** States by number: where each came from and by which layer. The number 0 is the empty stick. */
interface States {
  sizes: Float64Array
  values: Float64Array
  parents: Int32Array
  layers: Int32Array
  length: number
}

/** Kept from call to call for the memory alone: every call writes what it reads. */
const states: States = {
  sizes: new Float64Array(1024),
  values: new Float64Array(1024),
  parents: new Int32Array(1024),
  layers: new Int32Array(1024),
  length: 0,
}
let lists: readonly [Int32Array, Int32Array] = [new Int32Array(1024), new Int32Array(1024)]

function addState(size: number, value: number, parent: number, layer: number): number {
  const at = states.length
  if (at === states.sizes.length) {
    const longer = <T extends Float64Array | Int32Array>(from: T, to: T): T => {
      to.set(from)
      return to
    }
    states.sizes = longer(states.sizes, new Float64Array(at * 2))
    states.values = longer(states.values, new Float64Array(at * 2))
    states.parents = longer(states.parents, new Int32Array(at * 2))
    states.layers = longer(states.layers, new Int32Array(at * 2))
  }
  states.sizes[at] = size
  states.values[at] = value
  states.parents[at] = parent
  states.layers[at] = layer
  states.length += 1
  return at
}

function greedy(things: readonly Thing[], layers: readonly Layer[], room: number): Filled {
  const counts = things.map(() => 0)
  let [left, value] = [room, 0]
  for (const layer of layers)
    if (layer.size <= left) {
      counts[layer.thing]! += layer.copies
      left -= layer.size
      value += layer.value
    }
  return { value, counts }
}

/**
 * The most valuable set of things that fits into the room and is worth more than `above`; undefined if there is none,
 * or if the work is over before one was found. Exact for whole values below 2^52, else to the last bits of a double.
 *
 * Things by value per size; of two states the larger that is worth no more is dropped, and so is every state that
 * cannot become worth more than the best known, its room filled with the things to come, the last one in part.
 */
export function bestFill(
  things: readonly Thing[],
  room: number,
  above: number,
  work: Work,
): Filled | undefined {
  const layers = layersOf(things, room)
  if (layers.length === 0) return undefined
  // Sizes and values of all layers before the one at an index: what is still to come follows by subtraction.
  const sizeTo = new Float64Array(layers.length + 1)
  const valueTo = new Float64Array(layers.length + 1)
  for (const [at, layer] of layers.entries()) {
    sizeTo[at + 1] = sizeTo[at]! + layer.size
    valueTo[at + 1] = valueTo[at]! + layer.value
  }
  const start = greedy(things, layers, room)
  let best = Math.max(above, start.value)
  let bestState = -1

  states.length = 0
  let [list, next] = lists
  list[0] = addState(0, 0, -1, -1)
  let length = 1
  for (const [at, layer] of layers.entries()) {
    if (next.length < 2 * length) next = new Int32Array(4 * length)
    let kept = 0
    let worth = -1
    let [stay, take] = [0, 0]
    // Layers before `whole` fit wholly into what is left; it only goes down while the sizes go up.
    let whole = layers.length
    while (stay < length || take < length) {
      const staying = stay < length ? states.sizes[list[stay]!]! : Number.POSITIVE_INFINITY
      const taking = take < length ? states.sizes[list[take]!]! + layer.size : Number.POSITIVE_INFINITY
      const takes = taking < staying
      const from = list[takes ? take : stay]!
      const size = takes ? taking : staying
      if (takes) take += 1
      else stay += 1
      if (size > room) break
      const value = states.values[from]! + (takes ? layer.value : 0)
      if (value <= worth) continue
      worth = value
      while (whole > at + 1 && sizeTo[whole]! - sizeTo[at + 1]! > room - size) whole -= 1
      let possible = value + valueTo[whole]! - valueTo[at + 1]!
      const partly = layers[whole]
      if (partly)
        possible += ((room - size - (sizeTo[whole]! - sizeTo[at + 1]!)) * partly.value) / partly.size
      if (possible <= best) continue
      const state = takes ? addState(size, value, from, at) : from
      if (value > best) {
        best = value
        bestState = state
      }
      next[kept] = state
      kept += 1
    }
    ;[list, next] = [next, list]
    length = kept
    if (length === 0 || !spend(work, stay + take)) break
  }
  lists = [list, next]
  if (bestState < 0) return start.value > above ? start : undefined
  const counts = things.map(() => 0)
  for (let state = bestState; state > 0; state = states.parents[state]!) {
    const layer = layers[states.layers[state]!]!
    counts[layer.thing]! += layer.copies
  }
  return { value: best, counts }
}
