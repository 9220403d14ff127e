// Single pieces with any two end planes, on saws of every kind: what comes off by the set-up records is the piece itself.
import { expect, test } from 'vitest'
import { checkRun } from '../../src/core/check/check-run.ts'
import type { EndCut, Member } from '../../src/core/frame/frame.ts'
import { partsOf } from '../../src/core/parts/parts.ts'
import { readingStep } from '../../src/core/reading/show.ts'
import { demandByWay } from '../../src/core/saw/demand-by-way.ts'
import { planRun } from '../../src/core/saw/run.ts'
import type { Section } from '../../src/core/section/section.ts'
import { solve } from '../../src/nest/solve.ts'
import { scope } from '../solids/kernel.ts'
import { anyShop, numbered } from '../solids/proof.ts'
import { leftOf, pieceFaults, recordFaults } from '../solids/run-checks.ts'
import { saw } from '../solids/saw.ts'
import { type Dice, dice, seed } from './seed.ts'

const many = 250

const sections: readonly Section[] = [
  { kind: 'square-tube', width: 50, height: 50, wall: 3, cornerRadius: 6 },
  { kind: 'square-tube', width: 40, height: 40, wall: 2, cornerRadius: 4 },
  { kind: 'rect-tube', width: 60, height: 40, wall: 3, cornerRadius: 6 },
  { kind: 'rect-tube', width: 40, height: 80, wall: 3, cornerRadius: 6 },
  { kind: 'round-tube', width: 42.4, height: 42.4, wall: 2.6, cornerRadius: 21.2 },
]

/** A slope of an end: square, one of the usual miters, or any up to 40°. */
const slope = (roll: Dice): number => {
  const degrees = roll() < 0.25 ? 0 : roll() < 0.3 ? roll.pick([-45, -30, 22.5, 30]) : roll.between(-40, 40)
  return Math.tan((degrees * Math.PI) / 180)
}

function piece(roll: Dice, at: number, section: Section): Member {
  const end = (x: number, out: 1 | -1): EndCut => {
    const [p, q] = [slope(roll), slope(roll)]
    const size = Math.hypot(1, p, q)
    return { point: [x, 0, 0], normal: [out / size, (-out * p) / size, (-out * q) / size] }
  }
  return {
    id: `piece-${at}`,
    name: `Piece ${at}`,
    section,
    pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 200 * at, 0, 1],
    ends: [end(0, -1), end(roll.between(300, 900), 1)],
    mates: ['open', 'open'],
    gap: 0,
  }
}

test(`${many} random pairs of pieces with compound ends (seed ${seed})`, () => {
  const count = { pieces: 0, left: 0, bevel: 0, cradle: 0, ramp: 0, swing: 0 }
  for (let at = 1; at <= many; at++) {
    const roll = dice(`compound ${at}`)
    const shop = anyShop(roll)
    const section = roll.pick(sections)
    const members = [1, 2].map((number) => piece(roll, number, section))
    const parts = partsOf(members, shop)
    const nest = numbered(
      'j',
      demandByWay({ parts, job: 'j', quantity: 1, rack: [] }, shop, () => 'square first').problems.map(
        (problem) => {
          const solved = solve(problem, { steps: 50_000 })
          if (!solved.ok) throw new Error(solved.problems.map(({ text }) => text).join(' '))
          return solved.value.nest
        },
      ),
    )
    const which = `pair ${at}, seed ${seed}: ${JSON.stringify({ members, shop })}`
    const run = planRun(nest, parts, shop)
    if (!run.ok) {
      expect(run.problems.map(({ text }) => text).join(' ').length, which).toBeGreaterThan(20)
      count.left += 2
      continue
    }
    expect(checkRun(run.value, nest, parts, shop).faults, which).toEqual([])
    const left = leftOf(run.value)
    const faults = scope(() => {
      const exact = saw(run.value, nest, 'exact', readingStep(shop.reading))
      return [
        ...exact.faults,
        ...recordFaults(exact.cuts),
        ...pieceFaults(
          { members },
          parts,
          nest,
          left.map(({ piece: id }) => id),
          exact,
        ),
      ]
    })
    expect(faults, which).toEqual([])
    count.left += left.length
    count.pieces += members.length - left.length
    for (const { tilt, roll: rolled, ramp, swing } of run.value.setUps) {
      if (tilt !== 0) count.bevel += 1
      else if (rolled !== 0) count.cradle += 1
      else if (ramp !== 0) count.ramp += 1
      else if (swing !== 0) count.swing += 1
    }
  }
  console.log(`solids-compound, seed ${seed}: ${JSON.stringify(count)}`)
  expect(count.pieces).toBeGreaterThan(count.left)
  for (const way of ['bevel', 'cradle', 'ramp', 'swing'] as const) expect(count[way], way).toBeGreaterThan(5)
})
