// Random nests and saws: whatever the planner writes, the judge that shares no code with it must find faultless.
import { expect, test } from 'vitest'
import { checkRun } from '../../src/core/check/check-run.ts'
import type { Part } from '../../src/core/plan-shapes.ts'
import { planRun } from '../../src/core/saw/run.ts'
import type { Reading } from '../../src/core/shop.ts'
import { nest, nestSection, part, shop, tube } from '../core/saw/sample.ts'
import { type Dice, dice, seed } from './seed.ts'

const rounds = 1500
const readings: readonly Reading[] = [
  { kind: 'mm', step: 1 },
  { kind: 'mm', step: 0.5 },
  { kind: 'mm', step: 0.1 },
  { kind: 'inch-fraction', denominator: 16 },
  { kind: 'inch-fraction', denominator: 32 },
]
const stepOf = (reading: Reading): number =>
  reading.kind === 'mm'
    ? reading.step
    : 25.4 / (reading.kind === 'inch-fraction' ? reading.denominator : 1000)

function randomPart(roll: Dice, mark: string, section: ReturnType<typeof tube>, reading: Reading): Part {
  const one = roll.whole(1, 90) / 2
  const two = roll.whole(1, 90) / 2
  const printed = Math.round(roll.between(250, 1400) / stepOf(reading)) * stepOf(reading)
  const length = printed + roll.between(-0.49, 0.49) * stepOf(reading)
  const across = roll.pick(['width', 'height'] as const)
  const other = across === 'width' ? ('height' as const) : ('width' as const)
  const kind = roll.pick([
    'opposed',
    'parallel',
    'one end',
    'unequal',
    'leaning',
    'crossed',
    'square',
  ] as const)
  if (kind === 'crossed')
    return part({ mark, section, length, printed, ends: [one, two], across: [across, other] })
  const ends = {
    opposed: [one, one],
    parallel: [one, -one],
    'one end': [0, one],
    unequal: [one, two],
    leaning: [one, one === two ? -0.5 : -two],
    square: [0, 0],
  }[kind] as [number, number]
  return part({ mark, section, length, printed, ends, across: [across, across] })
}

test(`${rounds} random nests on random saws: every run passes the judge`, () => {
  const roll = dice('saw-judged')
  let cuts = 0
  let refusals = 0
  for (let round = 0; round < rounds; round++) {
    const reading = roll.pick(readings)
    const section = roll.pick([tube(40), tube(50), tube(25.4, 25.4, 3), tube(60, 40), tube(80, 40)])
    const marks = ['A', 'B', 'C'].slice(0, roll.whole(1, 3))
    const parts = marks.map((mark) => randomPart(roll, mark, section, reading))
    const sticks = Array.from({ length: roll.whole(1, 3) }, () =>
      Array.from({ length: roll.whole(1, 3) }, () => roll.pick(marks)),
    )
    const allowance = roll.whole(0, 2) * stepOf(reading) * 2
    const kerf = roll.pick([0.9, 2.5, 3.2])
    const measured = { width: section.width + roll.between(-0.4, 0.4), height: section.height }
    const set = shop(
      {
        reading,
        // A quarter of the deliveries is measured; leaning parts that then no longer fit their blanks are refused.
        sections: roll() < 0.25 ? [{ section, name: 'measured', measured, stock: [{ length: 6000 }] }] : [],
        blankAllowance: allowance,
        longSide: roll.pick(['fence', 'outward'] as const),
        leastDrop: roll.pick([100, 300, 2000]),
      },
      {
        stopSide: roll.pick(['left', 'right'] as const),
        viseHolds: roll.pick(['stick', 'stop', 'both'] as const),
        readsAtSquare: roll.pick([0, 90] as const),
        leastToHold: roll.pick([0, 40, 60]),
        blades: [{ id: 'b', name: 'Blade', kerf }],
        minutes: {
          head: roll.between(0, 4),
          stop: roll.between(0, 4),
          load: roll.between(0, 4),
          turn: roll.between(0, 1),
          cut: 1,
        },
      },
    )
    const used = parts.filter(({ mark }) => sticks.some((of) => of.includes(mark)))
    const on = nest([nestSection(used, { sticks, kerf, allowance })])
    const run = planRun(on, parts, set)
    if (!run.ok) {
      refusals += 1
      continue
    }
    cuts += run.value.work.cuts
    const { faults } = checkRun(run.value, on, parts, set)
    expect(faults, `seed ${seed}, round ${round}: ${JSON.stringify({ parts, set, run: run.value })}`).toEqual(
      [],
    )
  }
  console.info(`saw-judged: seed ${seed}, ${rounds} nests, ${cuts} cuts, ${refusals} refused by the planner`)
  expect(refusals).toBeLessThan(rounds / 4)
})
