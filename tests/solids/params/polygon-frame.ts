import type { Params } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { anyTube } from './tubes.ts'

/** Any polygon frame that a shop may ask for, with sizes that are no round numbers. */
export function randomParams(roll: Dice): Params {
  const sizeKind = roll.pick(['across flats', 'across corners', 'side', 'clear inside'])
  const sides = roll.whole(3, 16)
  const top = roll.pick(['none', 'plate', 'top sheet'])
  const topEdge = roll.pick(['flush', 'inset', 'overhang'])
  return {
    sides,
    sizeKind,
    size: sizeKind === 'side' ? roll.between(180, 700) : roll.between(400, 1400),
    section: anyTube(roll),
    stands: roll.pick(['flat', 'on edge']),
    top,
    ...(top === 'none' ? {} : { topThickness: roll.between(1.5, 12), topEdge }),
    ...(top === 'none' || topEdge === 'flush' ? {} : { topEdgeBy: roll.between(1, 40) }),
    ...(top === 'none' ? {} : { topCut: roll.pick(['last', 'by numbers']) }),
  }
}
