import { layersOf, type Thing } from './fill.ts'
import { spend, type Work } from './work.ts'

// The most valuable sets of pieces for sticks of all rooms at once: one table over the sums of lengths.

/** Cells of the table at most: past it the table is dearer than lists of the sums that can be reached. */
const mostCells = 4_000_000

export interface Fills {
  /** Value of the best set for a stick with this room. */
  value(room: number): number
  counts(room: number): number[]
}

/** Kept from call to call for the memory alone: every call writes what it reads. */
let values = new Float64Array(1024)
let taken = new Uint8Array(1024)

/**
 * The table for all rooms up to `most`; undefined where it would be too large, or when the work is over. It holds until
 * the next one is asked for.
 */
export function fillsUpTo(things: readonly Thing[], most: number, work: Work): Fills | undefined {
  const layers = layersOf(things, most)
  const width = Math.max(0, most) + 1
  if (!(width * Math.max(1, layers.length) <= mostCells)) return undefined
  if (values.length < width) values = new Float64Array(2 * width)
  if (taken.length < width * layers.length) taken = new Uint8Array(2 * width * layers.length)
  values.fill(0, 0, width)
  const [sums, marks] = [values, taken]
  for (const [at, { size, value }] of layers.entries()) {
    const start = at * width
    marks.fill(0, start, start + width)
    for (let room = most; room >= size; room -= 1) {
      const better = sums[room - size]! + value
      if (better <= sums[room]!) continue
      sums[room] = better
      marks[start + room] = 1
    }
  }
  // A cell of a table costs much less than a state of a list.
  if (!spend(work, 1 + Math.ceil((width * layers.length) / 8))) return undefined
  return {
    value: (room) => values[Math.max(0, room)]!,
    counts(room) {
      const counts = things.map(() => 0)
      let left = Math.max(0, room)
      for (let at = layers.length - 1; at >= 0; at -= 1) {
        if (taken[at * width + left] === 0) continue
        counts[layers[at]!.thing]! += layers[at]!.copies
        left -= layers[at]!.size
      }
      return counts
    },
  }
}
