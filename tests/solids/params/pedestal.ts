import type { Params } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { randomParams as ringParams } from './polygon-frame.ts'
import { anyTube } from './tubes.ts'

/** A pedestal table on two or four arms, under any top. */
export function randomParams(roll: Dice): Params {
  const footGives = roll.pick(['foot height', 'clear under arm'])
  const caps = roll() < 0.7
  const levelers = roll() < 0.5
  return {
    ...ringParams(roll),
    height: roll.between(500, 1100),
    bars: roll.pick(['one', 'two, crossing']),
    barSection: anyTube(roll),
    barSetBack: roll.pick([0, 0, 12.7]),
    postSection: anyTube(roll, 80),
    arms: roll.pick(['2', '4']),
    armsMeet: roll.pick(['on the post', 'crossing']),
    armSection: anyTube(roll),
    spread: roll.between(400, 900),
    footGives,
    ...(footGives === 'foot height'
      ? { footHeight: roll.between(110, 180) }
      : { clearUnder: roll.between(60, 120) }),
    caps,
    ...(caps ? { capThickness: roll.pick([5, 6.35, 10]) } : {}),
    levelers,
    ...(levelers
      ? {
          thread: roll.pick(['M10', '3/8-16', 'M12']),
          levelerPad: 8,
          levelerPadWidth: 32,
          levelerLeast: 10,
          levelerMost: 25,
          levelerSetting: roll.between(10, 25),
          levelerStud: 40,
        }
      : {}),
  }
}
