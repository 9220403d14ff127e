import type { NestPart, NestProblem } from '../../src/core/nest.ts'
import type { Dice } from '../prove/seed.ts'
import { drop, mill, part, problem } from './stock.ts'

// Classes of random problems, rolled anew for each seed. The recipes of the literature are from memory.

const oneOfEach = (sizes: readonly number[]): NestPart[] => {
  const counts = new Map<number, number>()
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1)
  return [...counts].map(([size, count]) => part(size, count, { mark: `L${size}-` }))
}

/** Falkenauer's uniform class: sizes 20 to 100 in 150 (J. Heuristics 2, 1996). */
export const uniform = (roll: Dice, pieces: number): NestProblem =>
  problem(oneOfEach(Array.from({ length: pieces }, () => roll.whole(20, 100))), [mill(150)])

/** Falkenauer's triplets: 1000 filled exactly by three, the first 380 to 490; the least is pieces / 3 by making. */
export function triplets(roll: Dice, pieces: number): NestProblem {
  const sizes = Array.from({ length: pieces / 3 }, () => {
    const first = roll.whole(380, 490)
    const second = roll.whole(250, Math.floor((1000 - first) / 2))
    return [first, second, 1000 - first - second]
  })
  return problem(oneOfEach(sizes.flat()), [mill(1000)])
}

/** A shop's order: 2 to 25 lengths, 5 to 200 pieces, 6 and 6.5 m sticks with prices, some drops on the rack. */
export function shopJob(roll: Dice): NestProblem {
  const kinds = roll.whole(2, 25)
  const each = Math.max(1, Math.floor(roll.whole(5, 200) / kinds))
  const parts = Array.from({ length: kinds }, (_, at) =>
    part(roll.whole(150, 4000) / 2, roll.whole(1, 2 * each - 1), { mark: `M${at}-`, key: `key ${at}` }),
  )
  const drops = Array.from({ length: roll.whole(0, 4) }, (_, at) => drop(roll.whole(800, 5000) / 2, `R${at}`))
  const stock = [mill(6000, { price: 4200 }), mill(6500, { price: roll.whole(4300, 4900) })]
  return problem(parts, [...stock, ...drops], { kerf: 2.5, trim: 10, grip: roll.pick([0, 60]) })
}
