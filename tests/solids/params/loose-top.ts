import type { Params, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

const rail = (roll: Dice): SectionGiven =>
  roll.pick<SectionGiven>([
    { kind: 'square-tube', width: 40, wall: 3 },
    { kind: 'square-tube', width: 50, wall: 3 },
    { kind: 'rect-tube', width: 60, height: 40, wall: 3 },
  ])

/** A frame round a loose top, with tabs, bars or both. */
export function randomParams(roll: Dice): Params {
  const topOf = roll.pick(['wood', 'wood', 'stone', 'glass'])
  return {
    sizeIs: roll.pick(['top', 'outside']),
    length: roll.between(500, 1500),
    width: roll.between(350, 900),
    topOf,
    topThickness: roll.pick([6, 12.7, 18]),
    edgeGap: roll.pick([0, 2, 3.175]),
    proud: roll.pick([0, 0, 3]),
    section: rail(roll),
    stands: roll.pick(['flat', 'on edge']),
    tabsLong: roll.whole(0, 4),
    tabsShort: roll.whole(0, 3),
    tabWidth: roll.pick([30, 40]),
    tabReach: roll.pick([35, 50]),
    tabThickness: roll.pick([4, 6.35]),
    ...(topOf === 'wood'
      ? {
          slotWidth: roll.pick([5, 6]),
          slotLength: roll.pick([15, 20]),
          grain: roll.pick(['along the length', 'along the width']),
        }
      : {}),
    barCount: roll.pick([0, 0, 1, 2]),
    barSection: roll.pick<SectionGiven>([
      { kind: 'square-tube', width: 20, wall: 2 },
      { kind: 'flat-bar', width: 40, height: 6 },
    ]),
  }
}
