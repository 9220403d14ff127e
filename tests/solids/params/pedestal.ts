import type { Params, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'
import { randomParams as ringParams } from './polygon-frame.ts'
import { anyTube } from './tubes.ts'

const point = (roll: Dice) => roll.pick(['to the right', 'to a side', 'to a corner', 'at an angle'])

const roundTube = (roll: Dice, widths: readonly number[]): SectionGiven => ({
  kind: 'round-tube',
  width: roll.pick(widths),
  wall: 3,
})

/** A pedestal table on arms or a base plate, under any top; half of them as plain as they once were. */
export function randomParams(roll: Dice): Params {
  const footGives = roll.pick(['foot height', 'clear under arm'])
  const caps = roll() < 0.7
  const levelers = roll() < 0.5
  const plain = roll() < 0.4
  const round = !plain && roll() < 0.4
  const armsMeet = roll.pick(plain ? ['on the post', 'crossing'] : ['on the post', 'crossing', 'hub plate'])
  const roundArms = round && armsMeet === 'on the post'
  return {
    ...ringParams(roll),
    ...(plain
      ? {}
      : {
          spiderBars: roll.whole(2, 6),
          spiderPoint: point(roll),
          spiderAngle: roll.between(0, 90),
          postFaces: roll.pick(['with the arms', 'with the arms', 'with the top']),
          base: roll.pick(['arms', 'arms', 'base plate']),
          baseShape: roll.pick(['square', 'round']),
          baseSize: roll.between(250, 500),
          baseThickness: roll.pick([8, 12.7]),
          baseHolesIn: 25,
          armsPoint: point(roll),
          armsAngle: roll.between(0, 90),
          hubShape: roll.pick(['square', 'round']),
          hubSize: roll.between(150, 250),
          hubThickness: roll.pick([6, 9.525]),
        }),
    height: roll.between(500, 1100),
    bars: roll.pick(plain || round ? ['one', 'two, crossing'] : ['one', 'two, crossing', 'spider']),
    barSection: anyTube(roll),
    barSetBack: roll.pick([0, 0, 12.7]),
    postSection: round ? roundTube(roll, [76.1, 88.9, 114.3]) : anyTube(roll, 80),
    arms: roll.pick(plain || armsMeet === 'crossing' ? ['2', '4'] : ['2', '3', '4', '5', '6']),
    armsMeet,
    armSection: roundArms ? roundTube(roll, [33.7, 42.4, 48.3]) : anyTube(roll, plain ? 60 : 40),
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
