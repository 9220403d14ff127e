import { bench, describe, expect } from 'vitest'
import type { Draft } from '../../src/core/draft.ts'
import type { Job, RowGiven } from '../../src/core/job.ts'
import { builtCore } from './built.ts'

const {
  backToFront,
  buildOf,
  dimensionsOf,
  draftOf,
  fromAbove,
  fromFront,
  landedIn,
  landedLines,
  marksOf,
  newJob,
  plan,
  solidsOf,
  startShop,
} = await builtCore()

// Aim: while a dimension of a frame of 200 members is dragged, its parts are found anew, and what is seen of them in plan and
// elevation, within one picture of a screen, 16 ms. The rest of the plan follows when it is let go: it has no aim. What the
// browser adds to it is measured by drag.spec.ts.
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

/** A typed length has no place on this drawing but that of a size: none here. */
const typed: Parameters<typeof dimensionsOf>[1] = []
const place = { scale: 0.1, x: 0, y: 0 }

/** Dimensions, plan and elevation with their marks, what is hidden left out, the landings dashed: how many lines there are. */
function drawn(draft: Draft): number {
  const solids = solidsOf(draft.frame)
  const landed = landedIn(draft.frame)
  return [fromAbove, fromFront].reduce((sum, view) => {
    const seen = backToFront(solids, view)
    const edges = seen.reduce((all, { rim, edges }) => all + rim.length + edges.length, 0)
    return sum + edges + landedLines(landed, seen, view).length + marksOf(draft, seen, place).length
  }, dimensionsOf(draft, typed).length)
}

/** Time of this process: what else runs on the machine does not count. */
const cpu = () => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

function timed(by: number) {
  const next = raised(by)
  const start = cpu()
  const draft = draftOf(next, shop)
  if (!draft.ok) throw new Error(draft.problems.map(({ text }) => text).join('\n'))
  const lines = drawn(draft.value)
  const dragged = cpu()
  const made = plan(next, shop)
  const time = { dragged: dragged - start, planned: cpu() - dragged }
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join('\n'))
  expect(made.value.frame.members).toHaveLength(200)
  expect(made.value.frame.warnings).toEqual([])
  expect(lines).toBeGreaterThan(1000)
  return time
}

describe('a frame of 200 members', () => {
  // Warm, as while somebody drags; then the middle one of 60 times.
  for (let at = 0; at < 40; at++) timed(at / 100)
  const all = Array.from({ length: 60 }, (_, at) => timed(1 + at / 100))
  const sorted = (of: 'dragged' | 'planned') => all.map((time) => time[of]).sort((a, b) => a - b)
  const [dragged, planned] = [sorted('dragged'), sorted('planned')]
  console.log(
    `200 members drawn anew while a size is dragged: ${dragged[30]!.toFixed(1)} ms in the middle, ${dragged[0]!.toFixed(1)} at ` +
      `best (aim: ${aim}); planned anew when it is let go: ${planned[30]!.toFixed(1)} and ${planned[0]!.toFixed(1)}`,
  )
  expect(dragged[30], `aim: ${aim} ms`).toBeLessThan(aim)

  let by = 2
  bench(`is drawn anew while a size is dragged (aim: ${aim} ms)`, () => {
    by += 0.01
    const draft = draftOf(raised(by), shop)
    expect(draft.ok && drawn(draft.value)).toBeGreaterThan(1000)
  })
})
