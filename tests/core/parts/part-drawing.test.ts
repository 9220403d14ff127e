import { describe, expect, test } from 'vitest'
import { buildOf, builds } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { faceLocal } from '../../../src/core/frame/landing.ts'
import { type Face, faceNormal } from '../../../src/core/frame/member.ts'
import { outermost } from '../../../src/core/frame/round-end.ts'
import { toWorld } from '../../../src/core/geometry/pose.ts'
import { add, dot, scale, sub, type Vec3 } from '../../../src/core/geometry/vec3.ts'
import type { Params } from '../../../src/core/job.ts'
import { partDrawings } from '../../../src/core/parts/part-drawing.ts'
import { plan } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { type Solid, solidsOf } from '../../../src/ui/drawing/solid.ts'

function planned(kind: string, params: Params = {}): Plan {
  const start = newJob(buildOf(kind)!, 'mm', 'j')
  const job = { ...start, build: { kind, params: { ...start.build.params, ...params } } }
  const made = plan(job, startShop('mm'))
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join('\n'))
  return made.value
}

const all = builds.map(({ kind }) => [kind, planned(kind)] as const)

describe('the side of a hexagon of 700 across flats in 40 tube', () => {
  const [drawing, ...more] = partDrawings(planned('polygon-frame', { size: 700 }), 'A')
  // Long point s = 700 tan 30°, and 40 tan 30° less at each end on the inside (textbook geometry of a regular hexagon).
  const [long, less] = [700 * Math.tan(Math.PI / 6), 40 * Math.tan(Math.PI / 6)]

  test('is drawn once for all six, with 30° on faces 1 and 3 and square on 2 and 4', () => {
    expect(more).toEqual([])
    expect(drawing!.names).toHaveLength(6)
    expect(drawing!.leaning).toEqual([1, 3])
    expect(
      drawing!.faces.map(({ angles }) => angles.map((deg) => Math.round(Math.abs(deg) * 1e6) / 1e6)),
    ).toEqual([
      [30, 30],
      [0, 0],
      [30, 30],
      [0, 0],
    ])
  })

  test('its long edges run from 0 to 404.145, its short ones from 23.094 to 381.051', () => {
    const spans = drawing!.faces.map(({ upper }) => [upper.from, upper.to])
    for (const [from, to] of spans) {
      const short = from! > 1
      expect(from).toBeCloseTo(short ? less : 0, 6)
      expect(to).toBeCloseTo(short ? long - less : long, 6)
    }
    expect(spans.filter(([from]) => from! > 1)).toHaveLength(2)
  })

  test('lies with face 3, the underside, down', () => {
    expect(drawing!.down).toBe(3)
    expect(drawing!.faces.map(({ words }) => words)).toEqual([
      'upper face',
      'right side, seen from end A',
      'underside',
      'left side, seen from end A',
    ])
  })
})

test('the four uprights of a rack are marked out in four ways, each told by where it stands', () => {
  const ways = partDrawings(planned('rack'), 'A')
  expect(ways.map(({ names }) => names)).toEqual([
    ['Upright front left'],
    ['Upright back left'],
    ['Upright front right'],
    ['Upright back right'],
  ])
  expect(ways.every(({ down }) => down === 'end A')).toBe(true)
})

test('a bar with a post in its middle is marked out in one way, whichever end is called A', () => {
  const made = planned('pedestal')
  const mark = made.parts.find(({ name }) => name.startsWith('Arm'))!.mark
  expect(partDrawings(made, mark)).toHaveLength(1)
})

/** Whether a point lies in a solid of the drawing, not on its rim. */
const inside = ({ faces, points }: Solid, at: Vec3) =>
  faces.every(
    ({ corners, normal }) => dot(normal, sub(at, points[corners[0]!]!)) < -0.05 * Math.hypot(...normal),
  )

describe.each(all)('the parts of %s', (_, made) => {
  const members = new Map(made.frame.members.map((each) => [each.id, each]))
  const solids = solidsOf(made.frame)
  const drawings = partDrawings(made)

  test('every member is drawn, and an edge is the same on both faces that it parts', () => {
    expect(new Set(drawings.map(({ part }) => part.mark))).toEqual(
      new Set(made.parts.map(({ mark }) => mark)),
    )
    for (const { faces } of drawings)
      for (const [k, { lower }] of faces.entries()) {
        const next = faces[(k + 1) % 4]!.upper
        expect(lower.from).toBeCloseTo(next.from, 6)
        expect(lower.to).toBeCloseTo(next.to, 6)
      }
  })

  test('where a member lands, near and far edge are those of the layout marks', () => {
    for (const { part, faces } of drawings)
      for (const { face, marks } of faces)
        for (const { by, near, far } of marks.filter((mark) => members.has(mark.by)))
          expect(
            made.landings.some(
              (landing) =>
                part.members.includes(landing.on) &&
                landing.by === by &&
                landing.face === face &&
                Math.abs(landing.near - near) < 0.2 &&
                Math.abs(landing.far - far) < 0.2,
            ),
            `${by} on ${part.mark}`,
          ).toBe(true)
  })

  test('over the middle of a landing stands what lands there, and under it the part itself', () => {
    for (const { part, faces } of drawings) {
      const round = part.section.kind.startsWith('round')
      for (const { face, marks } of faces)
        for (const { by, outline } of marks) {
          if (round) continue
          // Drawn is the first member of its way: found again as the one that both solids agree with.
          const found = part.members.some((id) => {
            const on = members.get(id)!
            const [x, v] = middleOf(outline)
            const flipped = face === '-z' || face === '+y'
            const local = faceLocal(on, face as Face, [x + outermost(on, 'A'), flipped ? -v : v])
            const at = toWorld(on.pose, local)
            const normal = faceNormal(on.pose, face as Face)
            const over = add(at, scale(normal, 0.4 + on.gap))
            const under = add(at, scale(normal, -0.4))
            return (
              solids.some((solid) => solid.id === by && inside(solid, over)) &&
              solids.some((solid) => solid.id === id && inside(solid, under))
            )
          })
          expect(found, `${by} on face ${face} of ${part.mark}`).toBe(true)
        }
    }
  })
})

const middleOf = (outline: readonly (readonly [number, number])[]) =>
  outline.reduce(([x, v], [u, w]) => [x + u / outline.length, v + w / outline.length] as const, [
    0, 0,
  ] as const)
