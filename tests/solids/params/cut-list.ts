import type { Params } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { anyTube } from './tubes.ts'

/** Rows with any pair of ends, across either side of their section. */
export const randomParams = (roll: Dice): Params => ({
  section: anyTube(roll),
  lengthIs: roll.pick(['long point', 'short point', 'center line']),
  rows: Array.from({ length: roll.whole(1, 4) }, () => ({
    count: roll.whole(1, 3),
    length: roll.between(250, 1500),
    a: roll.pick([0, 0, 22.5, 30, 45, -30, roll.between(-50, 50)]),
    b: roll.pick([0, 0, 22.5, 30, 45, -30, roll.between(-50, 50)]),
    ...(roll() < 0.4 ? { stands: roll.pick(['flat', 'on edge']) } : {}),
    ...(roll() < 0.3 ? { section: anyTube(roll) } : {}),
  })),
})
