import Ajv2020 from 'ajv/dist/2020.js'
import { expect, test } from 'vitest'
import planSchema from '../../docs/schemas/tube-plan.schema.json'
import type { TubePlan } from '../../src/cli/tube-plan.ts'
import { changedDemo, planOf } from './shelf.ts'

const isPlan = new Ajv2020({ allErrors: true, strict: true, strictRequired: false }).compile(planSchema)

/** Two posts of 60.3 tube, 600 apart, and a rail of 48.3 between them, 400 up. */
const roundFrame = changedDemo('hexagon-top', (file) => {
  file.job.quantity = 2
  file.job.build.kind = 'from-points'
  Object.assign(file.job.build, {
    params: {
      section: { kind: 'round-tube', width: 60.3, wall: 3.2 },
      points: [
        { name: 'a', x: 0, y: 0, z: 0 },
        { name: 'b', x: 600, y: 0, z: 0 },
        { name: 'c', x: 0, y: 0, z: 700 },
        { name: 'd', x: 600, y: 0, z: 700 },
        { name: 'e', x: 0, y: 0, z: 400 },
        { name: 'f', x: 600, y: 0, z: 400 },
      ],
      members: [
        { name: 'Left post', from: 'a', to: 'c' },
        { name: 'Right post', from: 'b', to: 'd' },
        { name: 'Rail', from: 'e', to: 'f', section: { kind: 'round-tube', width: 48.3, wall: 3.2 } },
      ],
      joints: [],
    },
  })
})

test('round on round: the plan says both saddles, their radius, the first cut and where round the posts they sit', async () => {
  const { out, err, code } = await planOf(roundFrame, '--json')
  expect({ err, code }).toEqual({ err: '', code: 0 })
  const plan = JSON.parse(out) as Required<TubePlan>
  expect(isPlan(plan), JSON.stringify(isPlan.errors?.slice(0, 5))).toBe(true)
  const rail = plan.frame.members.find(({ name }) => name === 'Rail')!
  // The saw cuts square at the longest point: √(30.15² − 24.15²) from the post's axis.
  const short = Math.sqrt(30.15 ** 2 - 24.15 ** 2)
  for (const end of rail.ends)
    expect(end).toMatchObject({
      saddle: { radius: expect.closeTo(30.15, 9), first: { normal: expect.anything() } },
    })
  const part = plan.parts.find(({ members }) => members.includes(rail.id))!
  expect(part).toMatchObject({ saddles: 'at both ends', shape: 'square' })
  expect(part.longPoint).toBeCloseTo(600 - 2 * short, 9)
  expect(part.shortPoint).toBeCloseTo(600 - 60.3, 9)
  expect(plan.landings).toHaveLength(2)
  for (const landing of plan.landings) {
    expect(landing.near).toBeCloseTo(400 - 24.15, 9)
    expect(landing.far).toBeCloseTo(400 + 24.15, 9)
    expect(landing.around! % 90).toBeCloseTo(0, 9)
  }
  expect(plan.frame.joints.map(({ kind }) => kind)).toEqual(['saddle', 'saddle'])
  expect(plan.run.programs.length).toBeGreaterThan(0)
})

test('a saddle without its radius is no plan', async () => {
  const { out } = await planOf(roundFrame, '--json')
  expect(isPlan(JSON.parse(out.replace(/"radius": ?[\d.]+,/, '')))).toBe(false)
})

test('a handrail of 42.4 round tube that bends in two planes: its crossed ends are cut in a cradle, and the judges pass it', async () => {
  const handrail = changedDemo('hexagon-top', (file) => {
    file.job.quantity = 1
    file.job.build.kind = 'from-points'
    Object.assign(file.job.build, {
      params: {
        section: { kind: 'round-tube', width: 42.4, wall: 2.6 },
        points: [
          { name: 'a', x: 0, y: 0, z: 0 },
          { name: 'b', x: 0, y: 0, z: 900 },
          { name: 'c', x: 1200, y: 0, z: 1300 },
          { name: 'd', x: 1500, y: 500, z: 1300 },
          { name: 'e', x: 1500, y: 500, z: 300 },
        ],
        members: [
          { name: 'Left post', from: 'a', to: 'b' },
          { name: 'Slope', from: 'b', to: 'c' },
          { name: 'Landing', from: 'c', to: 'd' },
          { name: 'Right post', from: 'd', to: 'e' },
        ],
        joints: [],
      },
    })
  })
  const { out, err, code } = await planOf(handrail, '--json')
  expect({ err, code }).toEqual({ err: '', code: 0 })
  const plan = JSON.parse(out) as Required<TubePlan>
  const slope = plan.parts.find(({ shape, longPoint }) => shape === 'ends crossed' && longPoint > 1000)!
  // Axis √(1200² + 400²), miters of half the bends: (90° − atan 1/3)/2 below, and above by the angle of the two axes.
  const axis = Math.hypot(1200, 400)
  const below = (Math.PI / 2 - Math.atan(1 / 3)) / 2
  const above = Math.acos((1200 * 300) / (axis * Math.hypot(300, 500))) / 2
  expect(slope.longPoint).toBeCloseTo(axis + 21.2 * (Math.tan(below) + Math.tan(above)), 6)
  expect(plan.run.setUps.some(({ roll }) => roll !== 0)).toBe(true)
})
