// Random parts on random saws, cut from the stick and from paired blanks: both judges must find every nest and every run
// that the planner makes of them faultless.
import { expect, test } from 'vitest'
import { checkNest } from '../../src/core/check/check-nest.ts'
import { checkRun } from '../../src/core/check/check-run.ts'
import { piecesIn } from '../../src/core/nest.ts'
import type { StickFace } from '../../src/core/plan-shapes.ts'
import { planRun } from '../../src/core/saw/run.ts'
import { nestByWay } from '../core/saw/by-way.ts'
import { part, shop, tube } from '../core/saw/sample.ts'
import { type Dice, dice, seed } from './seed.ts'

const rounds = 400
const faces: readonly StickFace[] = ['+z', '-z', '+y', '-y']

function randomPart(roll: Dice, mark: string, section: ReturnType<typeof tube>, angle: number) {
  const printed = Math.round(roll.between(250, 1400))
  const length = printed + roll.between(-0.49, 0.49)
  const across = roll.pick(['width', 'height'] as const)
  const ends = roll.pick([
    [angle, angle],
    [angle, -angle],
    [0, angle],
    [0, angle],
    [0, angle],
    [angle, 15],
    [0, 0],
  ] as const)
  const count = roll.whole(1, 5)
  const of = part({ mark, section, length, printed, ends, across: [across, across] })
  const pinned = roll() < 0.3
  return {
    ...of,
    count,
    ...(pinned ? { seam: Array.from({ length: count }, () => [roll.pick(faces)]) } : {}),
  }
}

test(`${rounds} random jobs from the stick and paired (seed ${seed})`, () => {
  const roll = dice('saw-ways')
  const count = { pieces: 0, pairs: 0, slanted: 0, left: 0, refused: 0 }
  for (let round = 0; round < rounds; round++) {
    const way = roll.pick(['from the stick', 'paired'] as const)
    const section = roll.pick([tube(40), tube(25.4, 25.4, 3), tube(60, 40)])
    const angle = roll.whole(10, 45)
    const parts = ['A', 'B', 'C']
      .slice(0, roll.whole(1, 3))
      .map((mark) => randomPart(roll, mark, section, angle))
    const measured = { width: section.width + roll.between(-0.3, 0), height: section.height }
    const set = shop(
      {
        longSide: roll.pick(['fence', 'outward'] as const),
        blankAllowance: roll.pick([0, 2]),
        sections: roll() < 0.2 ? [{ section, name: 'measured', measured, stock: [{ length: 6000 }] }] : [],
      },
      {
        stopSide: roll.pick(['left', 'right'] as const),
        viseHolds: roll.pick(['stick', 'stop', 'both'] as const),
        leastToHold: roll.pick([0, 40, 60]),
        cleanUp: roll.pick([0, 10]),
        limits: {
          towardStop: roll.pick([20, 45]),
          awayFromStop: 45,
          bevel: roll.pick([0, 45]),
          longestStop: 3000,
        },
        minutes: {
          head: roll.between(0, 4),
          stop: 1,
          load: roll.between(0, 4),
          turn: roll.between(0, 1),
          cut: 1,
        },
      },
    )
    const which = `seed ${seed}, round ${round}, ${way}: ${JSON.stringify({ parts, set })}`
    const asked = nestByWay(parts, set, way, roll.whole(1, 2), 20_000)
    if (typeof asked === 'string') throw new Error(`${asked} (${which})`)
    const { nest, demand } = asked
    expect(checkNest(nest, demand.problems).faults, which).toEqual([])
    const run = planRun(nest, parts, set)
    if (!run.ok) {
      expect(
        run.problems.map(({ code }) => code),
        which,
      ).toEqual(['stick-too-short'])
      count.refused += 1
      continue
    }
    expect(checkRun(run.value, nest, parts, set).faults, which).toEqual([])
    const entries = nest.sections.flatMap(({ sticks }) => sticks.flatMap(({ pieces }) => pieces))
    count.pieces += entries.flatMap(piecesIn).length
    count.pairs += entries.filter(({ makes }) => makes).length
    count.slanted += entries.filter(({ ends }) => ends.some(({ p, q }) => p !== 0 || q !== 0)).length
    count.left += run.value.left?.length ?? 0
  }
  console.info(`saw-ways: seed ${seed}, ${JSON.stringify(count)}`)
  expect(count.refused).toBeLessThan(rounds / 10)
  expect(count.left).toBeLessThan(count.pieces / 4)
  expect(count.pairs).toBeGreaterThan(rounds / 10)
  expect(count.slanted).toBeGreaterThan(rounds)
})
