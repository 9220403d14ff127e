// Tap drills: Machinery's Handbook, 31st ed. (2020), p. 2168, Table 4 for 1/4-20 to 1/2-20; metric from memory of
// ISO 2306, where the drill is the outside diameter less the pitch. Standing of each row: shared/reference.
import { describe, expect, test } from 'vitest'
import tapDrills from '../../shared/reference/tap_drills.json'
import engagements from '../../shared/reference/thread_engagement.json'
import { findThread, sayEngagement, tapOf, threadNames, threads, threadsIn } from '../../src/core/thread.ts'

const inchShop = { kind: 'inch-fraction', denominator: 16 } as const

test.each([
  ['1/4-20', '#7', 0.201],
  ['1/4-28', '#3', 0.213],
  ['5/16-18', 'F', 0.257],
  ['5/16-24', 'I', 0.272],
  ['3/8-16', '5/16', 0.3125],
  ['3/8-24', 'Q', 0.332],
  ['7/16-14', 'U', 0.368],
  ['1/2-13', '27/64', 0.4219],
])('%s is drilled %s, %d in', (name, drill, inches) => {
  expect(tapOf(name).drillName).toBe(drill)
  expect(tapOf(name).drill / 25.4).toBeCloseTo(inches, 12)
})

test.each([
  ['M6', 5, 1],
  ['M8', 6.8, 1.25],
  ['M10', 8.5, 1.5],
  ['M12', 10.2, 1.75],
])('%s is drilled %d mm: outside diameter less the pitch of %d, to 0.1 mm', (name, drill, pitch) => {
  expect(tapOf(name).drill).toBe(drill)
  expect(tapOf(name).drillName).toBe(`${drill} mm`)
  expect(tapOf(name).pitch).toBe(pitch)
  expect(Math.abs(tapOf(name).major - pitch - drill)).toBeLessThanOrEqual(0.05 + 1e-9)
})

test.each(tapDrills.map((row, at) => [row.thread, row.percent_thread, at] as const))(
  '%s has %d % of full thread: (D − d) over 1.299 pitches (0.01299 to each percent; ASME B1.1 basic height)',
  (_, percent, at) => {
    const thread = threads[at]
    if (!thread) throw new Error('no such thread')
    expect(Math.abs((thread.major - thread.drill) / (0.01299 * thread.pitch) - percent)).toBeLessThan(0.06)
  },
)

describe('thread in a thickness', () => {
  test.each(engagements.map((row) => [row.thread, row] as const))('%s, %j', (name, row) => {
    const found = findThread(name)
    if (!found.ok) throw new Error(found.problems[0]?.text)
    const held = threadsIn(found.value.name, row.plate_mm ?? (row.plate ?? 0) * 25.4)
    expect(held.threads).toBeCloseTo(row.threads, 9)
    expect(Math.abs(held.diameters - row.ratio_to_D)).toBeLessThan(0.0006)
  })

  test('3/16 plate: 3.75 threads of 1/4-20, 3 of 3/8-16, both less than one diameter; 1/4 plate is one of 1/4-20', () => {
    const plate = (3 / 16) * 25.4
    expect(sayEngagement('1/4-20', plate, inchShop)).toBe(
      '3.75 threads in 3/16 in, less than one diameter (1/4 in)',
    )
    expect(sayEngagement('3/8-16', plate, inchShop)).toBe(
      '3 threads in 3/16 in, less than one diameter (3/8 in)',
    )
    expect(sayEngagement('1/4-20', 25.4 / 4, inchShop)).toBe('5 threads in 1/4 in')
    expect(sayEngagement('M8', 8, { kind: 'mm', step: 1 })).toBe('6.4 threads in 8 mm')
    expect(sayEngagement('M8', 7.9, { kind: 'mm', step: 0.1 })).toContain('less than one diameter (8.0 mm)')
  })
})

describe('a thread by its name', () => {
  test.each([
    ['1/4-20', '1/4-20'],
    [' 3/8 - 16 ', '3/8-16'],
    ['m8', 'M8'],
    ['M8x1.25', 'M8'],
    ['M 10 × 1.5', 'M10'],
  ])('%j is %s', (typed, name) => expect(findThread(typed)).toMatchObject({ ok: true, value: { name } }))
  test('any other is refused with the known ones', () => {
    for (const typed of ['1/4', 'M8x1', 'M7', ''])
      expect(findThread(typed)).toMatchObject({ ok: false, problems: [{ code: 'unknown-thread' }] })
    expect(JSON.stringify(findThread('M7'))).toContain(threadNames.join(', '))
    expect(() => tapOf('M7')).toThrow('M7 is no thread known here')
  })
})
