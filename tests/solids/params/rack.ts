import type { Params, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { anyTube } from './tubes.ts'

const thin = (roll: Dice): SectionGiven =>
  roll.pick<SectionGiven>([
    { kind: 'square-tube', width: 25, wall: 2 },
    { kind: 'rect-tube', width: 40, height: 20, wall: 2 },
    { kind: 'square-tube', width: 30, wall: 2 },
  ])

/** A small rack of one or two bays. */
export function randomParams(roll: Dice): Params {
  const height = roll.between(900, 1500)
  const tiersBy = roll.pick(['evenly', 'heights'])
  const shelves = roll.pick(['none', 'sheet'])
  const braces = roll.pick(['none', 'back', 'ends', 'back and ends'])
  const lowest = roll.between(90, 200)
  const caps = roll() < 0.5
  const levelers = roll() < 0.4
  return {
    length: roll.between(600, 1400),
    depth: roll.between(300, 600),
    height,
    bays: roll.whole(1, 2),
    section: anyTube(roll, 50),
    railSection: thin(roll),
    railsSit: roll.pick(['middle', 'flush']),
    tiersBy,
    ...(tiersBy === 'evenly'
      ? { tierCount: roll.whole(2, 3), lowest, highest: roll.pick([height, height - 60]) }
      : { heights: [{ at: height - roll.between(10, 100) }, { at: lowest }] }),
    shelves,
    ...(shelves === 'sheet' ? { shelfThickness: roll.pick([2, 3]), notchClear: roll.pick([0, 2]) } : {}),
    braces,
    ...(braces === 'none' ? {} : { bracesIn: roll.pick(['lowest', 'every']), braceSection: thin(roll) }),
    caps,
    ...(caps ? { capThickness: 6.35 } : {}),
    levelers,
    ...(levelers ? { levelerSetting: roll.between(10, 25) } : {}),
  }
}
