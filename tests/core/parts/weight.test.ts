import { expect, test } from 'vitest'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { loadsOf } from '../../../src/core/fitup/blocks.ts'
import { massOf, weightOf, weightText, wholeText } from '../../../src/core/parts/weight.ts'
import { plan } from '../../../src/core/plan.ts'
import { framed, metric } from '../builds/framed.ts'

// Steel is 7850 kg/m³ (EN 1993-1-1); tube by EN 10219-2 Annex B, as in tests/published.
const plateKg = (mm2: number, thick: number) => (mm2 * thick * 7850) / 1e9
const hole = (Math.PI * 8.5 ** 2) / 4

const own = (made: ReturnType<typeof framed>, id: string) =>
  new Set(loadsOf(made.frame).find((load) => load.id === id)!.members)

test('the base of a pedestal weighs its tubes and four caps of 50 × 50 × 10 with a hole of 8.5: 0.768 kg of caps', () => {
  const made = framed('pedestal', {}, metric)
  const base = own(made, 'base')
  const tubes = made.parts.reduce(
    (sum, part) => sum + part.mass * part.members.filter((id) => base.has(id)).length,
    0,
  )
  const caps = 4 * plateKg(50 * 50 - hole, 10)
  expect(caps).toBeCloseTo(0.767, 3)
  expect(weightOf(made.frame, base).kg).toBeCloseTo(tubes + caps, 6)
  expect(weightText(made.frame, base, 'kg')).toMatch(
    /^The pieces weigh \d+\.\d kg together, 4 foot caps counted\.$/,
  )
})

test('a base plate of 450 × 450 × 10 adds 15.9 kg less its four holes, a hub of 200 × 200 × 10 adds 3.14', () => {
  const kg = (params: Parameters<typeof framed>[1]) => {
    const made = framed('pedestal', { levelers: false, caps: false, ...params }, metric)
    const found = weightOf(made.frame, own(made, 'base'))
    return { of: massOf([], found.plates), text: weightText(made.frame, own(made, 'base'), 'kg') }
  }
  const based = kg({ base: 'base plate', levelers: true })
  expect(based.of).toBeCloseTo(plateKg(450 * 450 - 4 * hole, 10), 6)
  expect(based.text).toContain('the base plate counted')
  const hub = kg({ armsMeet: 'hub plate', hubShape: 'square' })
  expect(hub.of).toBeCloseTo(plateKg(200 * 200, 10), 6)
  expect(hub.text).toContain('the hub plate counted')
})

test('a sheet that goes on last is not turned with its frame: it is said beside, a hexagon of 600 × 5 at 12.2 kg', () => {
  const made = framed('pedestal', { top: 'top sheet', topThickness: 5 }, metric)
  const sheet = plateKg((Math.sqrt(3) / 2) * 600 ** 2, 5)
  const { kg, last } = weightOf(made.frame, own(made, 'top'))
  expect(massOf([], last)).toBeCloseTo(sheet, 6)
  expect(kg).toBeLessThan(sheet + 6)
  expect(weightText(made.frame, own(made, 'top'), 'kg')).toMatch(/Not counted: the top sheet, 12\.2 kg more/)
})

test.each(['pedestal', 'four-leg', 'rack', 'trestle', 'loose-top', 'rect-frame'])(
  '%s: the finished thing weighs what its plan says, plates and all',
  (kind) => {
    const made = plan(newJob(buildOf(kind)!, 'mm', 'j'), metric)
    if (!made.ok) throw new Error(made.problems[0]!.text)
    const { frame, mass } = made.value
    expect(massOf(frame.members, frame.plates)).toBeCloseTo(mass, 6)
    expect(frame.plates.length).toBeGreaterThanOrEqual(kind === 'rect-frame' ? 0 : 4)
  },
)

test('tabs of a wooden top are told apart by their rails, of stone they are all alike', () => {
  const text = (topOf: string) => wholeText(framed('loose-top', { topOf }, metric).frame, 'kg')
  expect(text('wood')).toContain('with 6 side tabs and 4 end tabs,')
  expect(text('stone')).toContain('with 10 tabs,')
})

test('a hexagon of 600 in 40 × 3 has no plates to name: 6 × 346 less the miters, at 3.30 kg/m, is 6.41 kg', () => {
  // EN 10219-2, Annex B: 420.8 mm², 3.303 kg/m; mean length 346.41 − 40 tan 30° = 323.3.
  const kg = (6 * 323.32 * 3.3035) / 1000
  const { frame } = framed('polygon-frame', {}, metric)
  expect(massOf(frame.members, frame.plates)).toBeCloseTo(kg, 2)
  expect(wholeText(frame, 'kg')).toBe('Weighs about 6.41 kg: its steel, nothing else.')
  expect(wholeText(frame, 'lb')).toBe('Weighs about 14.1 lb: its steel, nothing else.')
})
