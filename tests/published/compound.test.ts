// Compound miters against tables: hoppers (a printed compound-angle setting chart, 4 to 10 sides, and the two best known
// molding settings, as named in shared/reference/sources.json), splayed legs (computed there by vectors). Each row is
// built as a frame, planned on a saw, and judged; the settings are read off the set-up records.
import { describe, expect, test } from 'vitest'
import table from '../../shared/reference/compound_mitre.json'
import { checkRun } from '../../src/core/check/check-run.ts'
import type { Member } from '../../src/core/frame/frame.ts'
import { miter } from '../../src/core/frame/joint.ts'
import { cutEnd, member } from '../../src/core/frame/member.ts'
import type { Vec3 } from '../../src/core/geometry/vec3.ts'
import { partsOf } from '../../src/core/parts/parts.ts'
import type { SetUp } from '../../src/core/plan-shapes.ts'
import { planRun } from '../../src/core/saw/run.ts'
import type { Section } from '../../src/core/section/section.ts'
import type { Saw } from '../../src/core/shop.ts'
import { nest, nestSection, saw, shop, tube } from '../core/saw/sample.ts'

const rad = (deg: number) => (deg * Math.PI) / 180
const tan = (deg: number) => Math.tan(rad(deg))

/** Set-ups that cut the ends of this one member, judged. */
function endsOf(
  of: Member,
  change: Partial<Saw>,
): { readonly setUps: readonly SetUp[]; readonly mid: number } {
  const set = shop({ reading: { kind: 'mm', step: 0.1 } }, change)
  const parts = partsOf([of], set)
  const { width, height } = of.section
  const section = { ...of.section, width: Math.max(width, height), height: Math.min(width, height) }
  const on = nest([nestSection(parts, { section, sticks: [['A']], step: 0.1 })])
  const run = planRun(on, parts, set)
  if (!run.ok) throw new Error(run.problems.map(({ text }) => text).join('\n'))
  expect(checkRun(run.value, on, parts, set).faults).toEqual([])
  return { setUps: run.value.setUps.filter(({ id }) => !id.includes('blank')), mid: parts[0]!.mid }
}

const bevels = { limits: { ...saw.limits, towardStop: 50, awayFromStop: 50, bevel: 45 } }
const swingsOnly = { limits: { ...saw.limits, bevel: 0 } }

describe('hoppers: n sides of flat bar, each at its pitch from flat', () => {
  const bar: Section = { kind: 'flat-bar', width: 100, height: 5, wall: 0, cornerRadius: 0 }

  /** One side of the hopper between its two neighbors, its width down the slope. */
  function sideOf(n: number, pitch: number): Member {
    const at = (k: number): Vec3 => {
      const turn = rad((k + 0.5) * (360 / n))
      return [600 * Math.cos(turn), 600 * Math.sin(turn), 0]
    }
    const bent = (k: number): Member => {
      // Square to the face: inward and up, leaning from the vertical by the pitch.
      const out = rad((k + 1) * (360 / n))
      const up: Vec3 = [
        -Math.sin(rad(pitch)) * Math.cos(out),
        -Math.sin(rad(pitch)) * Math.sin(out),
        Math.cos(rad(pitch)),
      ]
      return member(`side-${k}`, 'Side', bar, at(k), at(k + 1), up)
    }
    const first = miter('c', bent(-1), 'B', bent(0), 'A', at(0), 0).members[1]
    return miter('d', first, 'B', bent(1), 'A', at(1), 0).members[0]
  }

  test.each(table.hopper.map((row) => [row.n, row.pitch_from_flat_deg, row] as const))(
    '%i sides at %f°: miter and bevel as printed',
    (n, pitch, row) => {
      const { setUps } = endsOf(sideOf(n, pitch), bevels)
      expect(setUps).toHaveLength(2)
      // The chart prints hundredths, the molding settings tenths.
      const digits = row.source === 'CHART' ? 0.0100001 : 0.0500001
      for (const { swing, tilt } of setUps) {
        expect(Math.abs(Math.abs(swing) - row.chart_mitre)).toBeLessThan(digits)
        expect(Math.abs(Math.abs(tilt) - row.chart_bevel)).toBeLessThan(digits)
      }
    },
  )
})

describe('splayed legs in 50 tube, flat to floor and top', () => {
  /** One pair of faces stays in line with the side view, or the tube is turned to its lean. */
  function legOf(side: number, front: number, height: number, turned: 'square' | 'to the lean'): Member {
    const foot: Vec3 = [0, 0, 0]
    const top: Vec3 = [height * tan(side), height * tan(front), height]
    const up: Vec3 = turned === 'square' ? [0, 1, 0] : [-tan(front), tan(side), 0]
    const leg = member('leg', 'Leg', tube(50, 50, 6), foot, top, up)
    return cutEnd(cutEnd(leg, 'A', foot, [0, 0, 1], 'floor'), 'B', top, [0, 0, 1], 'open')
  }
  const rows = table.splayed_leg.map((row) => [row.splay_side, row.splay_front, row] as const)
  const compound = rows.filter(([, front]) => front > 0)

  test.each(rows)('%i° and %i°: the axis is as long as in the table', (side, front, row) => {
    expect(endsOf(legOf(side, front, row.height * 25.4, 'square'), {}).mid / 25.4).toBeCloseTo(
      row.axis_length,
      4,
    )
  })

  test.each(compound)('%i° and %i°, bevel: the face down that shows the splay itself', (side, front, row) => {
    for (const { swing, tilt } of endsOf(legOf(side, front, 711, 'square'), bevels).setUps) {
      expect(Math.abs(swing)).toBeCloseTo(row.other_face_trace_deg, 4)
      expect(Math.abs(tilt)).toBeCloseTo(side, 9)
    }
  })

  test.each(compound)('%i° and %i°, cradle: one swing of the whole lean', (side, front, row) => {
    const { setUps } = endsOf(legOf(side, front, 711, 'square'), { ...swingsOnly, ramp: false })
    for (const { swing, tilt, roll } of setUps) {
      expect(Math.abs(swing)).toBeCloseTo(row.resultant_deg, 4)
      expect(tilt).toBe(0)
      // The smaller of the two angles whose tangents are the slopes' ratio, either way up.
      const slopes = tan(row.face_mitre_deg) / tan(row.other_face_trace_deg)
      const turn = (Math.atan(slopes) * 180) / Math.PI
      expect(Math.abs(roll)).toBeCloseTo(Math.min(turn, 90 - turn), 3)
    }
  })

  test.each(compound)('%i° and %i°, wedge: ramp of one trace, miter of the splay', (side, front, row) => {
    const { setUps } = endsOf(legOf(side, front, 711, 'square'), { ...swingsOnly, cradle: false })
    for (const { swing, tilt, ramp } of setUps) {
      expect(Math.abs(ramp)).toBeCloseTo(row.other_face_trace_deg, 4)
      expect(Math.abs(swing)).toBeCloseTo(side, 9)
      expect(tilt).toBe(0)
    }
  })

  test.each(rows)('%i° and %i°, the tube turned to its lean: one plain miter', (side, front, row) => {
    for (const { swing, tilt, roll, ramp } of endsOf(legOf(side, front, 711, 'to the lean'), swingsOnly)
      .setUps) {
      expect(Math.abs(swing)).toBeCloseTo(row.resultant_deg, 4)
      expect([tilt, roll, ramp]).toEqual([0, 0, 0])
    }
  })

  test('8° and 12°: 11.89/8, cradle 34.31 with 14.30, wedge 11.89 with 8.00; the other lay 8.17/11.77 (worked example)', () => {
    const leg = legOf(8, 12, 711, 'square')
    const set = (change: Partial<Saw>) =>
      endsOf(leg, change).setUps.map(({ swing, tilt, roll, ramp }) =>
        [swing, tilt, roll, ramp].map((angle) => Math.abs(angle).toFixed(2)).join(' '),
      )
    expect(set(bevels)).toEqual(Array(2).fill('11.89 8.00 0.00 0.00'))
    expect(set({ ...swingsOnly, ramp: false })).toEqual(Array(2).fill('14.30 0.00 34.31 0.00'))
    expect(set({ ...swingsOnly, cradle: false })).toEqual(Array(2).fill('8.00 0.00 0.00 11.89'))
    // A saw that bevels 8° to the hair; with 7.9° it takes the cradle.
    expect(set({ limits: { ...bevels.limits, bevel: 8 } })[0]).toBe('11.89 8.00 0.00 0.00')
    expect(set({ limits: { ...bevels.limits, bevel: 7.9 } })[0]).toBe('14.30 0.00 34.31 0.00')
  })
})
