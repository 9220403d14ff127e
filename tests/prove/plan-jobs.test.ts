import Ajv2020 from 'ajv/dist/2020.js'
import { expect, test } from 'vitest'
import planSchema from '../../docs/schemas/tube-plan.schema.json'
import { demoText, planOf } from '../cli/shelf.ts'
import { type Dice, dice, seed } from './seed.ts'

// Random jobs in random shops, through the whole chain as the command line runs it: a job is planned, and the judges
// and the schema have nothing to say, or it is refused in one line. Whatever the judges refuse here is a fault of ours.

const many = 250
const isPlan = new Ajv2020({ allErrors: true, strict: true, strictRequired: false }).compile(planSchema)

type Params = Record<string, unknown>

const tube = (roll: Dice) =>
  roll() < 0.6
    ? { kind: 'square-tube', width: roll.pick([20, 25.4, 40, 50.8, 60]), wall: 2 }
    : { kind: 'rect-tube', width: roll.pick([60, 50.8]), height: roll.pick([25.4, 30, 40]), wall: 3 }

const tenths = (mm: number) => Math.round(mm * 10) / 10

function ring(roll: Dice): Params {
  const sizeKind = roll.pick(['across flats', 'across corners', 'side', 'clear inside'])
  const top = roll.pick(['none', 'plate', 'top sheet'])
  const topEdge = roll.pick(['flush', 'inset', 'overhang'])
  return {
    sides: roll.whole(3, 16),
    sizeKind,
    size: tenths(roll.between(200, 1200) / (sizeKind === 'side' ? 2 : 1)),
    section: tube(roll),
    stands: roll.pick(['flat', 'on edge']),
    top,
    ...(top === 'none' ? {} : { topThickness: 5, topEdge }),
    ...(top === 'none' || topEdge === 'flush' ? {} : { topEdgeBy: 8 }),
  }
}

const pedestal = (roll: Dice): Params => ({
  ...ring(roll),
  height: tenths(roll.between(500, 800)),
  bars: roll.pick(['one', 'two, crossing']),
  barSection: tube(roll),
  barSetBack: 0,
  postSection: tube(roll),
  arms: roll.pick(['2', '4']),
  armsMeet: roll.pick(['on the post', 'crossing']),
  armSection: tube(roll),
  spread: tenths(roll.between(400, 800)),
  footGives: 'foot height',
  footHeight: 100,
  caps: true,
  capThickness: 6,
  levelers: false,
})

const cutList = (roll: Dice): Params => ({
  section: tube(roll),
  lengthIs: roll.pick(['long point', 'short point', 'center line']),
  rows: Array.from({ length: roll.whole(1, 5) }, () => ({
    count: roll.whole(1, 9),
    length: Math.round(roll.between(150, 1500)),
    a: roll.pick([0, 0, 22.5, 30, 45, -30, 15.7]),
    b: roll.pick([0, 0, 22.5, 30, 45, -30, 10]),
    ...(roll() < 0.4 ? { stands: roll.pick(['flat', 'on edge']) } : {}),
  })),
})

const builds = [
  ['polygon-frame', ring],
  ['pedestal', pedestal],
  ['cut-list', cutList],
] as const

const shops = (['hexagon-top', 'ten-sided-pedestal'] as const).map((name) => JSON.parse(demoText(name)).shop)

function anyShop(roll: Dice) {
  const shop = structuredClone(roll.pick(shops))
  return {
    ...shop,
    sections: roll() < 0.5 ? shop.sections : [],
    blankAllowance: roll.pick([0, 1.5875, 2, 3.175]),
    longSide: roll.pick(['fence', 'outward']),
    rootGap: roll.pick([0, 0, 1.6]),
    leastDrop: roll.pick([0, 300]),
    reading: roll.pick([
      { kind: 'mm', step: 1 },
      { kind: 'mm', step: 0.1 },
      { kind: 'inch-fraction', denominator: 8 },
      { kind: 'inch-fraction', denominator: 32 },
      { kind: 'inch-decimal', places: 3 },
    ]),
    saws: shop.saws.map((saw: Params) => ({
      ...saw,
      stopSide: roll.pick(['left', 'right']),
      swings: roll.pick(['head', 'vise']),
      readsAtSquare: roll.pick([0, 90]),
      viseHolds: roll.pick(['stick', 'stop', 'both']),
      leastToHold: roll.pick([0, 50, 80]),
      cleanUp: roll.pick([0, 10]),
    })),
  }
}

test(`${many} random jobs are planned without a fault or refused in one line (seed ${seed})`, async () => {
  const roll = dice('plan-jobs')
  const faults: string[] = []
  const told = { planned: 0, withoutRun: 0, refused: 0 }
  for (let at = 1; at <= many; at += 1) {
    const [kind, paramsOf] = roll.pick(builds)
    const job = {
      id: 'j',
      name: 'j',
      units: 'mm',
      build: { kind, params: paramsOf(roll) },
      quantity: roll.whole(1, 4),
    }
    const text = JSON.stringify({ format: 'tube-job', version: 1, job, shop: anyShop(roll) })
    const said = await planOf(text, '--json')
    const which = `job ${at} of seed ${seed}: ${text}`
    if (/does not stand up/.test(said.err)) {
      faults.push(`${said.err.slice(0, 400)}\n  ${which}`)
      continue
    }
    if (said.code === 1) {
      told.refused += 1
      expect(said.out, which).toBe('')
      expect(said.err, which).toMatch(/^[^\n]{20,}\n$/)
      continue
    }
    const plan = JSON.parse(said.out)
    expect(isPlan(plan), `${which} ${JSON.stringify(isPlan.errors?.slice(0, 3))}`).toBe(true)
    told.planned += 1
    if (plan.run === undefined) {
      told.withoutRun += 1
      expect(plan.warnings.length, which).toBeGreaterThan(0)
    }
  }
  console.log(`plan-jobs, seed ${seed}: ${JSON.stringify(told)}`)
  expect(faults.slice(0, 3).join('\n'), `${faults.length} plans refused by the judges`).toBe('')
  // A lane that refuses everything would prove nothing.
  expect(told.planned - told.withoutRun).toBeGreaterThan(many / 2)
})
