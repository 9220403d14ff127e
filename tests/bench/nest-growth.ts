import type { NestProblem } from '../../src/core/nest.ts'
import { mill, part, problem } from '../nest/stock.ts'
import { dice } from '../prove/seed.ts'
import { timed } from './nest-classes.ts'

export interface Growth {
  readonly parts: number
  readonly lengths: number
  readonly sticks: number
  /** Middle of three, milliseconds. */
  readonly ms: number
  /** Of three. */
  readonly proved: number
}

/** So many parts of so many lengths, 100 to 3000 mm in half millimeters, on sticks of 6 and 6.5 m with prices. */
function grown(parts: number, lengths: number, seed: number): NestProblem {
  const roll = dice(`growth ${parts} ${lengths} ${seed}`, 1)
  const each = Math.floor(parts / lengths)
  const list = Array.from({ length: lengths }, (_, at) =>
    part(roll.whole(200, 6000) / 2, each + (at < parts % lengths ? 1 : 0), { mark: `L${at}-` }),
  )
  const stock = [mill(6000, { price: 4200 }), mill(6500, { price: 4600 })]
  return problem(list, stock, { kerf: 2.5, trim: 10 })
}

async function growth(parts: number, lengths: number): Promise<Growth> {
  const times: number[] = []
  let [proved, sticks] = [0, 0]
  for (let seed = 0; seed < 3; seed += 1) {
    const { solved, took } = await timed(grown(parts, lengths, seed))
    if (!solved.ok) throw new Error(solved.problems[0]?.text)
    if (solved.value.nest.proved) proved += 1
    sticks = solved.value.nest.sticks.length
    times.push(1000 * took)
  }
  times.sort((a, b) => a - b)
  return { parts, lengths, sticks, ms: Math.round(times[1]!), proved }
}

export async function growths() {
  const byParts: Growth[] = []
  for (const parts of [10, 20, 50, 100, 200, 500, 1000, 2000, 5000]) byParts.push(await growth(parts, 10))
  const byLengths: Growth[] = []
  for (const lengths of [2, 5, 10, 20, 50, 100, 200]) byLengths.push(await growth(400, lengths))
  return { byParts, byLengths }
}
