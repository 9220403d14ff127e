import { describe, expect, test } from 'vitest'
import { buildOf, builds } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import type { Job, Params } from '../../src/core/job.ts'
import { plan } from '../../src/core/plan.ts'
import { sawWarnings } from '../../src/core/saw/limits.ts'
import { startShop } from '../../src/core/shop-start.ts'

const metric = startShop('mm')

function job(kind: string, params: Params = {}, more: Partial<Job> = {}): Job {
  const start = newJob(buildOf(kind)!, 'mm', 'job-1')
  return { ...start, ...more, build: { kind, params: { ...start.build.params, ...params } } }
}

const problem = (of: Job, shop = metric) => {
  const made = plan(of, shop)
  return made.ok ? undefined : made.problems[0]
}

describe('a new job of every build plans without a problem', () => {
  test.each([
    ['polygon-frame', 'mm'],
    ['polygon-frame', 'in'],
    ['uneven-frame', 'mm'],
    ['uneven-frame', 'in'],
    ['rect-frame', 'mm'],
    ['rect-frame', 'in'],
    ['pedestal', 'mm'],
    ['pedestal', 'in'],
    ['four-leg', 'mm'],
    ['four-leg', 'in'],
    ['cut-list', 'mm'],
    ['cut-list', 'in'],
    ['from-points', 'mm'],
    ['from-points', 'in'],
  ] as const)('%s, %s', (kind, units) => {
    const made = plan(newJob(buildOf(kind)!, units, 'j'), startShop(units))
    expect(made.ok ? [] : made.problems).toEqual([])
  })
})

describe('a new job of every build can be cut on the saw that a new shop starts with', () => {
  const newJobs = builds.flatMap(({ kind }) => [[kind, 'mm'] as const, [kind, 'in'] as const])
  test.each(newJobs)('%s, %s', (kind, units) => {
    const shop = startShop(units)
    const made = plan(newJob(buildOf(kind)!, units, 'j'), shop)
    expect(made.ok && made.value.parts.flatMap((part) => sawWarnings([part], shop))).toEqual([])
  })

  test('a pedestal whose clear gap is given instead of its feet starts just as well', () => {
    for (const units of ['mm', 'in'] as const) {
      const shop = startShop(units)
      const start = newJob(buildOf('pedestal')!, units, 'j')
      const params = { ...start.build.params, footGives: 'clear under arm' }
      const made = plan({ ...start, build: { ...start.build, params } }, shop)
      expect(made.ok && made.value.parts.flatMap((part) => sawWarnings([part], shop))).toEqual([])
    }
  })
})

describe('what no saw or stick can do is said', () => {
  test('three sides: 60° is more than the saw swings, 45°; a 30° wedge block is a way out (common practice)', () => {
    const made = plan(job('polygon-frame', { sides: 3, size: 500 }), metric)
    const said = made.ok ? made.value.warnings.find(({ code }) => code === 'beyond-the-saw')?.text : ''
    expect(said).toMatch(/a miter of 60° from square; Saw 1 goes to 45°/)
    expect(said).toMatch(/30° wedge block/)
    expect(said).toMatch(/butt joint/)
  })

  test('four sides at 45° are not beyond a saw that swings 45°', () => {
    const made = plan(job('polygon-frame', { sides: 4, size: 500 }), metric)
    expect(made.ok && made.value.warnings).toEqual([])
  })

  test('6000 with 10 clean-up, 60 to hold and 2.5 kerf gives 5927.5 at most: 5927 fits, 5928 does not', () => {
    const rows = (length: number) => [{ count: 1, length, a: 0, b: 0 }]
    expect(problem(job('cut-list', { rows: rows(5927) }))).toBeUndefined()
    const said = problem(job('cut-list', { rows: rows(5928) }))
    expect(said?.code).toBe('longer-than-any-stick')
    expect(said?.text).toMatch(/Part A needs 5928 mm .* 5928 mm|Part A needs 5928 mm .* 5927/)
  })
})

describe('order of n', () => {
  test('three hexagons are 18 pieces of one mark, six to a copy', () => {
    const made = plan(job('polygon-frame', {}, { quantity: 3 }), metric)
    expect(made.ok && made.value.demand[0]?.parts).toMatchObject([{ mark: 'A', count: 18, perCopy: 6 }])
  })

  test.each([0, -1, 1.5, 1001, Number.NaN])('a quantity of %s is refused', (quantity) => {
    const said = problem(job('polygon-frame', {}, { quantity }))
    expect(said?.field).toBe('quantity')
    expect(said?.text).toMatch(/whole number from 1 to 1000/)
  })
})

test('an unknown build is refused with the ones that are known', () =>
  expect(problem({ ...job('polygon-frame'), build: { kind: 'boat', params: {} } })?.text).toMatch(
    /“boat” is no build known here; known are polygon-frame, .*rect-frame, .*cut-list/,
  ))

test('mass of a hexagon is six times 4.25 kg/m of 60 × 40 × 3 over the center length (EN 10219-2 mass per length)', () => {
  const section = { kind: 'rect-tube', width: 60, height: 40, wall: 3 } as const
  const made = plan(job('polygon-frame', { size: 900, section }), metric)
  if (!made.ok) throw new Error('refused')
  const part = made.value.parts[0]!
  // Printed to three figures in the standard: 4.25 ± 0.005 kg/m.
  expect(made.value.mass / ((6 * part.mid) / 1000)).toBeCloseTo(4.25, 2)
})
