// The seed of the long lane and dice that repeat: `const roll = dice('nest')`, then `roll()`, `roll.whole(3, 16)`.

/** Given by `npm run prove`; 1 when a file of the lane is run by hand without it. */
export const seed: number = Number(process.env.PROVE_SEED ?? 1) >>> 0

export interface Dice {
  /** A number from 0 up to, not including, 1. */
  (): number
  /** A whole number from `least` to `most`, both included. */
  whole(least: number, most: number): number
  /** A number from `least` up to `most`. */
  between(least: number, most: number): number
  /** One of the list, which must not be empty. */
  pick<T>(list: readonly T[]): T
}

/** Mulberry32: 32 bits of state, the same row of numbers for the same start on every machine. */
export function mulberry32(start: number): () => number {
  let state = start >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

/** Dice of their own for each name, so that one more test does not change what another one rolls. */
export function dice(name: string, from: number = seed): Dice {
  let start = from >>> 0
  for (const letter of name) start = Math.imul(start ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0
  const next = mulberry32(start)
  return Object.assign(next, {
    whole: (least: number, most: number) => least + Math.floor(next() * (most - least + 1)),
    between: (least: number, most: number) => least + next() * (most - least),
    pick<T>(list: readonly T[]): T {
      if (list.length === 0) throw new Error('nothing to pick from')
      return list[Math.floor(next() * list.length)] as T
    },
  })
}
