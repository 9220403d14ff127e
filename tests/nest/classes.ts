import type { NestPart, NestProblem } from '../../src/core/nest.ts'
import type { Dice } from '../prove/seed.ts'
import { drop, mill, part, problem } from './stock.ts'

// Classes of random problems, rolled anew for each seed. The recipes of the literature are from memory.

const oneOfEach = (sizes: readonly number[]): NestPart[] => {
  const counts = new Map<number, number>()
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1)
  return [...counts].map(([size, count]) => part(size, count, { mark: `L${size}-` }))
}

/** `pieces` sizes rolled evenly from `least` to `most`, on sticks of one length. */
const even = (roll: Dice, pieces: number, least: number, most: number, stick: number): NestProblem =>
  problem(oneOfEach(Array.from({ length: pieces }, () => roll.whole(least, most))), [mill(stick)])

/** Falkenauer's uniform class: sizes 20 to 100 in 150 (J. Heuristics 2, 1996). */
export const uniform = (roll: Dice, pieces: number): NestProblem => even(roll, pieces, 20, 100, 150)

/**
 * Falkenauer's triplets (the same paper): 1000 filled exactly by three, the first 380 to 490; the least is pieces / 3
 * by making. With 2500 instead it is the ground of the augmented IRUP sets of Delorme, Iori and Martello (EJOR 255,
 * 2016): no waste anywhere.
 */
export function triplets(roll: Dice, pieces: number, stick = 1000): NestProblem {
  const of = (thousandths: number) => Math.round((thousandths * stick) / 1000)
  const sizes = Array.from({ length: pieces / 3 }, () => {
    const first = roll.whole(of(380), of(490))
    const second = roll.whole(of(250), Math.floor((stick - first) / 2))
    return [first, second, stick - first - second]
  })
  return problem(oneOfEach(sizes.flat()), [mill(stick)])
}

/** Scholl, Klein and Jürgens, set 1 (Computers & Operations Research 24, 1997): three sticks, three least sizes. */
export const scholl1 = (roll: Dice, pieces: number): NestProblem =>
  even(roll, pieces, roll.pick([1, 20, 30]), 100, roll.pick([100, 120, 150]))

/** Their set 2: mean size a third to a ninth of 1000, spread 20, 50 or 90 %. */
export function scholl2(roll: Dice, pieces: number): NestProblem {
  const mean = 1000 / roll.pick([3, 5, 7, 9])
  const spread = roll.pick([0.2, 0.5, 0.9])
  return even(roll, pieces, Math.ceil(mean * (1 - spread)), Math.floor(mean * (1 + spread)), 1000)
}

/** Their set 3, the hard one: 200 sizes of 20000 to 35000 in 100000. */
export const scholl3 = (roll: Dice): NestProblem => even(roll, 200, 20_000, 35_000, 100_000)

/** Schwerin and Wäscher (Int. Trans. Oper. Res. 4, 1997): 150 to 200 in 1000. */
export const schwerin = (roll: Dice, pieces: number): NestProblem => even(roll, pieces, 150, 200, 1000)

/** The recipe that the 28 hard ones were picked from (Schoenfield, 2002): 1 to 800 in 1000. */
export const wide = (roll: Dice, pieces: number): NestProblem => even(roll, pieces, 1, 800, 1000)

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

const inch = 25.4

/** A shop's order in inches: lengths to 1/16, sticks of 20 and 24 ft, in one of three also a short one, with prices. */
export function inchJob(roll: Dice): NestProblem {
  const kinds = roll.whole(2, 25)
  const each = Math.max(1, Math.floor(roll.whole(5, 200) / kinds))
  const parts = Array.from({ length: kinds }, (_, at) =>
    part((roll.whole(48, 1600) / 16) * inch, roll.whole(1, 2 * each - 1), {
      mark: `M${at}-`,
      key: `key ${at}`,
    }),
  )
  const drops = Array.from({ length: roll.whole(0, 6) }, (_, at) =>
    drop((roll.whole(200, 1600) / 16) * inch, `R${at}`),
  )
  const bought = [
    mill(240 * inch, { price: roll.whole(4800, 5200) }),
    mill(288 * inch, { price: roll.whole(5700, 6300) }),
    ...(roll() < 0.34 ? [mill(120 * inch, { price: roll.whole(2600, 3000) })] : []),
  ]
  return problem(parts, [...bought, ...drops], {
    kerf: inch / roll.pick([8, 16]),
    trim: inch / 2,
    grip: roll.pick([0, 2 * inch]),
  })
}

export interface ProblemClass {
  readonly name: string
  /** How many are rolled in the whole bench; the sets of the papers have about as many. */
  readonly times: number
  readonly make: (roll: Dice) => NestProblem
}

const sized = (
  name: string,
  times: number,
  sizes: readonly number[],
  make: (roll: Dice, n: number) => NestProblem,
) => sizes.map((size): ProblemClass => ({ name: `${name} ${size}`, times, make: (roll) => make(roll, size) }))

export const classes: readonly ProblemClass[] = [
  ...sized('U', 20, [120, 250, 500, 1000], uniform),
  ...sized('T', 20, [60, 120, 249, 501], (roll, pieces) => triplets(roll, pieces)),
  ...sized('S1', 60, [50, 100, 200, 500], scholl1),
  ...sized('S2', 40, [50, 100, 200, 500], scholl2),
  { name: 'S3 200', times: 10, make: scholl3 },
  ...sized('W', 50, [100, 120], schwerin),
  ...sized('H', 10, [160, 180, 200], wide),
  { name: 'triplets in 2500, 201', times: 10, make: (roll) => triplets(roll, 201, 2500) },
]

export const shopClasses: readonly ProblemClass[] = [
  { name: 'shop, mm', times: 150, make: shopJob },
  { name: 'shop, inch', times: 150, make: inchJob },
]
