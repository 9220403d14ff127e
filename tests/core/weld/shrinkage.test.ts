import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { startParams } from '../../../src/core/builds/start.ts'
import type { Job, Params, Shrinkage } from '../../../src/core/job.ts'
import { plan } from '../../../src/core/plan.ts'
import type { Plan } from '../../../src/core/plan-shapes.ts'
import { crossedBy, learnedFrom } from '../../../src/core/weld/shrinkage.ts'
import { framed, metric, tube } from '../builds/framed.ts'

const fine = { ...metric, reading: { kind: 'mm', step: 0.1 } } as const

function planned(kind: string, params: Params, shrinkage?: Shrinkage, quantity = 1): Plan {
  const job: Job = {
    id: `J ${kind}`,
    name: kind,
    quantity,
    build: { kind, params: { ...startParams(buildOf(kind)!, 'mm'), ...params } },
    ...(shrinkage ? { shrinkage } : {}),
  }
  const made = plan(job, fine)
  if (!made.ok) throw new Error(made.problems.map(({ text }) => text).join(' '))
  return made.value
}

const crossed = (kind: string, params: Params) => {
  const { frame } = framed(kind, params, metric)
  return Object.fromEntries(frame.measures.map((one) => [one.name, crossedBy(frame, one)]))
}

const hexagon = { sides: 6, sizeKind: 'across flats', size: 700, section: tube(40, 3) }
const rectangle = { corners: 'mitered', sizeIs: 'outside', length: 800, width: 500 }

describe('how many joints a size crosses', () => {
  // A side of a regular polygon moved out by 1 mm: plain trigonometry, the same as the table of polygons.json gives.
  test.each([4, 6, 8, 10])(
    '%i sides: two across flats, whatever the angle; 2 tan(180/n) along a side',
    (sides) => {
      const sizes = crossed('polygon-frame', { ...hexagon, sides })
      expect(sizes['across flats']!.miter).toBeCloseTo(2, 9)
      expect(sizes.side!.miter).toBeCloseTo(2 * Math.tan(Math.PI / sides), 9)
      expect(sizes['across corners']!.miter).toBeCloseTo(2 / Math.cos(Math.PI / sides), 9)
    },
  )
  test('a mitered rectangle: two each way', () => {
    const sizes = crossed('rect-frame', rectangle)
    expect(sizes.length!.miter).toBeCloseTo(2, 9)
    expect(sizes.width!.miter).toBeCloseTo(2, 9)
  })
  test('butted with the side rails through: two across the end rails, none along the side rails', () => {
    const sizes = crossed('rect-frame', { ...rectangle, corners: 'side rails through' })
    expect(sizes.length).toEqual({})
    expect(sizes.width).toEqual({ butt: 2 })
  })
})

describe('planned larger by what the welds draw in', () => {
  test('a hexagon of 700 with 0.5 mm at each joint has the pieces of one of 701', () => {
    const drawn = planned('polygon-frame', hexagon, { miter: 0.5 })
    const larger = planned('polygon-frame', { ...hexagon, size: 701 })
    expect(drawn.parts.map(({ key, printed }) => [key, printed.length.mm])).toEqual(
      larger.parts.map(({ key, printed }) => [key, printed.length.mm]),
    )
    expect(drawn.weld).toEqual(larger.weld)
    const [size] = drawn.sizes
    expect(size!.exact).toBeCloseTo(700, 9)
    expect(size!.tacked).toBeCloseTo(larger.sizes[0]!.built, 9)
    expect(size!.built).toBeCloseTo(larger.sizes[0]!.built - 1, 9)
    expect(drawn.finished!.size[1]).toBeCloseTo(700, 9)
  })
  test('refused, it is the plan that it always was', () => {
    const plain = planned('polygon-frame', hexagon)
    expect(planned('polygon-frame', hexagon, {})).toEqual(plain)
    // No joint of this kind is there.
    expect(planned('polygon-frame', hexagon, { butt: 0.5 })).toEqual(plain)
    expect(plain.sizes[0]).not.toHaveProperty('tacked')
    expect(plain.finished).toBeUndefined()
  })
  test('a top sheet stays as it is asked for: it goes on a frame that has drawn in', () => {
    const top = { ...rectangle, top: 'top sheet' }
    const plain = planned('rect-frame', top)
    const drawn = planned('rect-frame', top, { miter: 0.5 })
    expect(plain.frame.plates).toHaveLength(1)
    expect(drawn.frame.plates[0]!.polygon).toEqual(plain.frame.plates[0]!.polygon)
    const long = drawn.parts
      .filter(({ name }) => /rail/i.test(name))
      .map(({ longPoint }) => +longPoint.toFixed(6))
    expect(long.sort()).toEqual([501, 801])
  })
})

describe('learned from what was measured', () => {
  const two = planned('polygon-frame', hexagon, undefined, 3)
  const built = two.sizes.find(({ name }) => name === 'across flats')!.built
  const got = (figures: Readonly<Record<string, number>>) => (job: string, copy: number, size: string) =>
    figures[`${job} ${copy} ${size}`]
  test('three copies 1.0, 0.8 and 0.2 smaller across two joints: 0.4 in the middle, from 0.1 to 0.5', () => {
    const [miter, ...others] = learnedFrom(
      [two],
      got({
        [`${two.job} 1 across flats`]: built - 1,
        [`${two.job} 2 across flats`]: built - 0.8,
        [`${two.job} 3 across flats`]: built - 0.2,
      }),
    )
    expect(others).toEqual([])
    expect(miter).toMatchObject({ kind: 'miter', left: [] })
    expect(miter!.samples.map(({ copy }) => copy)).toEqual([1, 2, 3])
    expect(miter!.median).toBeCloseTo(0.4, 9)
    expect(miter!.least).toBeCloseTo(0.1, 9)
    expect(miter!.most).toBeCloseTo(0.5, 9)
  })
  test('a job that was planned larger by 0.5 and came out as asked says 0.5 again', () => {
    const drawn = planned('polygon-frame', hexagon, { miter: 0.5 })
    const [miter] = learnedFrom([drawn], got({ [`${drawn.job} 1 across flats`]: drawn.sizes[0]!.built }))
    expect(miter!.median).toBeCloseTo(0.5, 9)
  })
  test('a slip of the tape, 10 mm at each joint, is left out and said', () => {
    const [miter] = learnedFrom([two], got({ [`${two.job} 1 across flats`]: built - 20 }))
    expect(miter!.samples).toEqual([])
    expect(miter!.left).toHaveLength(1)
    expect(miter!.median).toBe(0)
  })
  test('nothing measured, nothing learned', () => expect(learnedFrom([two], () => undefined)).toEqual([]))
})
