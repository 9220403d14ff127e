import type { Params } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { anyTube } from './tubes.ts'

/** One or two pairs of crossing or leaning legs. */
export function randomParams(roll: Dice): Params {
  const caps = roll() < 0.5
  const levelers = roll() < 0.4
  const upper = roll.between(250, 600)
  return {
    style: roll.pick(['X legs', 'X legs', 'A legs']),
    height: roll.between(450, 900),
    feet: roll.between(400, 700),
    upper,
    legSection: anyTube(roll, 60),
    barSection: anyTube(roll, 60),
    barLength: upper + roll.pick([0, 50, 100]),
    tie: roll.pick(['yes', 'no']),
    tieHeight: roll.between(150, 250),
    tieSection: anyTube(roll, 40),
    pairs: roll.pick(['1', '2']),
    length: roll.between(500, 1200),
    stretcher: roll.pick(['yes', 'yes', 'no']),
    stretcherSection: anyTube(roll, 40),
    caps,
    ...(caps ? { capThickness: 6.35 } : {}),
    levelers,
    ...(levelers ? { levelerSetting: roll.between(10, 25) } : {}),
  }
}
