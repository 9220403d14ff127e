import { bench, describe, expect } from 'vitest'
import type { Job, RowGiven } from '../../src/core/job.ts'
import type { Plan } from '../../src/core/plan-shapes.ts'
import { builtCore } from './built.ts'

const {
  backToFront,
  buildOf,
  fromAbove,
  fromFront,
  landedIn,
  landedLines,
  newJob,
  plan,
  solidsOf,
  startShop,
} = await builtCore()

// Aim: a frame of 200 members is planned anew, and what is seen of it found in plan and elevation, within one picture of a
// screen, 16 ms, so that it follows the typing.
const aim = 16

/** Fields of a rack, each of its own width and with its own shelves: 20 uprights, 90 beams, 50 ties, 40 braces. */
function rack(): Job {
  const points: RowGiven[] = []
  const members: RowGiven[] = []
  const joints: RowGiven[] = []
  const levels = [300, 760, 1210, 1650, 2080]
  const depth = 600
  let x = 0
  const uprights: number[] = []
  for (let i = 0; i < 10; i++) {
    uprights.push(x)
    for (const [j, y] of [0, depth].entries()) {
      points.push({ name: `foot ${i}.${j}`, x, y, z: 0 }, { name: `top ${i}.${j}`, x, y, z: 2200 })
      members.push({ name: `upright ${i}.${j}`, from: `foot ${i}.${j}`, to: `top ${i}.${j}` })
      for (const [k, z] of levels.entries()) {
        points.push({ name: `node ${i}.${j}.${k}`, x, y, z })
        joints.push({ at: `node ${i}.${j}.${k}`, how: 'butt' })
      }
    }
    for (const k of levels.keys())
      members.push({ name: `tie ${i}.${k}`, from: `node ${i}.0.${k}`, to: `node ${i}.1.${k}` })
    x += 700 + 13 * i
  }
  for (let i = 0; i < 9; i++)
    for (const j of [0, 1])
      for (const k of levels.keys())
        members.push({
          name: `beam ${i}.${j}.${k}`,
          from: `node ${i}.${j}.${k}`,
          to: `node ${i + 1}.${j}.${k}`,
        })
  const section = { kind: 'square-tube', width: 25, wall: 2 } as const
  for (const [i, at] of uprights.entries())
    for (let k = 0; k < 4; k++) {
      const from = `low ${i}.${k}`
      const to = `high ${i}.${k}`
      points.push(
        { name: from, x: at, y: 0, z: levels[k]! + 90 },
        { name: to, x: at, y: depth, z: levels[k + 1]! - 90 },
      )
      members.push({ name: `brace ${i}.${k}`, from, to, section })
    }
  const start = newJob(buildOf('from-points')!, 'mm', 'bench')
  return {
    ...start,
    build: { kind: 'from-points', params: { ...start.build.params, points, members, joints } },
  }
}

const shop = startShop('mm')
const job = rack()
/** The same rack raised a little, so that no plan can be remembered from the one before. */
function raised(by: number): Job {
  const points = (job.build.params.points as readonly RowGiven[]).map((row) => ({
    ...row,
    z: Number(row.z) + by,
  }))
  return { ...job, build: { ...job.build, params: { ...job.build.params, points } } }
}

/** Plan and elevation with what is hidden left out and the landings dashed: how many lines there are. */
function drawn({ frame }: Plan): number {
  const solids = solidsOf(frame)
  const landed = landedIn(frame)
  return [fromAbove, fromFront].reduce((sum, view) => {
    const seen = backToFront(solids, view)
    const edges = seen.reduce((all, { rim, edges }) => all + rim.length + edges.length, 0)
    return sum + edges + landedLines(landed, seen, view).length
  }, 0)
}

function timed(by: number) {
  const next = raised(by)
  const start = performance.now()
  const made = plan(next, shop)
  const planned = performance.now() - start
  const lines = made.ok ? drawn(made.value) : 0
  const time = { planned, drawn: performance.now() - start }
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join('\n'))
  expect(made.value.frame.members).toHaveLength(200)
  expect(made.value.frame.warnings).toEqual([])
  expect(lines).toBeGreaterThan(1000)
  return time
}

describe('a frame of 200 members', () => {
  // Warm, as while somebody types; then the middle one of 60 times.
  for (let at = 0; at < 40; at++) timed(at / 100)
  const all = Array.from({ length: 60 }, (_, at) => timed(1 + at / 100))
  const sorted = (of: 'planned' | 'drawn') => all.map((time) => time[of]).sort((a, b) => a - b)
  const [times, both] = [sorted('planned'), sorted('drawn')]
  console.log(
    `200 members planned anew: ${times[30]!.toFixed(1)} ms in the middle, ${times[0]!.toFixed(1)} at best; ` +
      `with what is drawn of them ${both[30]!.toFixed(1)} and ${both[0]!.toFixed(1)}`,
  )
  expect(times[30], `aim: ${aim} ms`).toBeLessThan(aim)

  let by = 2
  bench(`is planned and drawn anew (aim: ${aim} ms)`, () => {
    by += 0.01
    timed(by)
  })
})
