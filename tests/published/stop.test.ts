// The stop rule against plane geometry that knows nothing of it: a polygon seen from above is pushed along the fence
// to a plate, and cut by a line through zero. The rule and its table are plain trigonometry (formula); that the long
// side lies at the fence on a stop is common practice.
import { describe, expect, test } from 'vitest'
import { squareEnd, turned } from '../../src/core/saw/lying.ts'
import { settingOf } from '../../src/core/saw/setting.ts'
import { cornerLoss, stopFor, stopOf } from '../../src/core/saw/stop.ts'

type Point = readonly [x: number, y: number]
const tan = (deg: number) => Math.tan((deg * Math.PI) / 180)

/** Pushed along the fence until its greatest x touches the plate at `stop`. */
const pushed = (outline: readonly Point[], stop: number): Point[] => {
  const by = stop - Math.max(...outline.map(([x]) => x))
  return outline.map(([x, y]) => [x + by, y])
}

/** The part of an outline on the stop's side of the blade x = −y·tan(swing). */
function kept(outline: readonly Point[], swing: number): Point[] {
  const side = ([x, y]: Point) => x + y * tan(swing)
  return outline.flatMap((from, at) => {
    const to = outline[(at + 1) % outline.length]!
    const [f, t] = [side(from), side(to)]
    const inside: Point[] = f >= 0 ? [from] : []
    if (f * t >= 0) return inside
    const share = f / (f - t)
    return [...inside, [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]]
  })
}

const turnedRound = (outline: readonly Point[], width: number): Point[] =>
  outline.map(([x, y]) => [-x, width - y])
const turnedOver = (outline: readonly Point[]): Point[] => outline.map(([x, y]) => [-x, y])

const lengthAt = (outline: readonly Point[], y: number): number => {
  const xs = outline.filter((at) => Math.abs(at[1] - y) < 1e-9).map(([x]) => x)
  return Math.max(...xs) - Math.min(...xs)
}
const extent = (outline: readonly Point[]): number => {
  const xs = outline.map(([x]) => x)
  return Math.max(...xs) - Math.min(...xs)
}
const blank = (length: number, width: number): Point[] => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
]

describe('the general rule S = F + max(0, m·w)', () => {
  test('50 tube, cut 30°, leading end 20°, fence edge 400: stop 418.20', () => {
    const m = tan(20)
    const stop = stopFor({ fence: 400, lead: { p: m, q: 0 }, depth: 50, height: 50 })
    expect(stop).toBeCloseTo(418.1985, 4)
    // A stick whose leading end slopes 20° away from the fence, pushed to that plate and cut at 30°.
    const stick: Point[] = [
      [0, 0],
      [1000, 0],
      [1000 + 50 * m, 50],
      [0, 50],
    ]
    const piece = kept(pushed(stick, stop), -30)
    expect(lengthAt(piece, 0)).toBeCloseTo(400, 9)
    expect(lengthAt(piece, 50)).toBeCloseTo(400 + 50 * m - 50 * tan(30), 9)
  })

  test('a leading end that slopes back from the fence touches at the fence: its stop is its fence edge', () => {
    expect(stopFor({ fence: 400, lead: { p: -tan(20), q: 0 }, depth: 50, height: 50 })).toBe(400)
  })

  test('on a wedge block of 30° the rule holds along the block’s face with the full angle: 60° in 40 tube', () => {
    // Three-sided frame of long point 800: the face of the block is the fence, the blade stands 60° to it.
    const half = kept(pushed(blank(800, 40), 800), -60)
    const piece = kept(pushed(turnedOver(half), 800), -60)
    expect(lengthAt(piece, 0)).toBeCloseTo(800, 9)
    expect(lengthAt(piece, 40)).toBeCloseTo(800 - 2 * 40 * tan(60), 9)
    const lying = { lead: { p: -tan(60), q: 0 }, trail: { p: tan(60), q: 0 }, depth: 40, height: 40 }
    expect(stopOf({ ...lying, mid: 800 - 40 * tan(60) })).toBeCloseTo(800, 9)
  })
})

describe('the table, for 40 tube at 30° and 404 mm', () => {
  const t = tan(30)
  const opposed = { lead: { p: -t, q: 0 }, trail: { p: t, q: 0 }, mid: 404 - 40 * t, depth: 40, height: 40 }
  const parallel = { lead: { p: -t, q: 0 }, trail: { p: -t, q: 0 }, mid: 404, depth: 40, height: 40 }
  const oneEnd = { lead: squareEnd, trail: { p: t, q: 0 }, mid: 404 - 20 * t, depth: 40, height: 40 }

  test('ends opposed, long side at the fence: stop = long point, 404', () => {
    const stop = stopOf(opposed)
    expect(stop).toBeCloseTo(404, 9)
    const half = kept(pushed(blank(404, 40), stop), -30)
    const piece = kept(pushed(turnedOver(half), stop), -30)
    expect([lengthAt(piece, 0), lengthAt(piece, 40)]).toEqual([
      expect.closeTo(404, 9),
      expect.closeTo(404 - 80 * t, 9),
    ])
  })

  test('ends opposed, outward: stop = long point − w·tan a, 380.906', () => {
    const stop = stopOf(turned(opposed, 'over'))
    expect(stop).toBeCloseTo(380.906, 3)
    const half = kept(pushed(blank(404, 40), stop), 30)
    const piece = kept(pushed(turnedOver(half), stop), 30)
    expect([lengthAt(piece, 0), lengthAt(piece, 40)]).toEqual([
      expect.closeTo(404 - 80 * t, 9),
      expect.closeTo(404, 9),
    ])
  })

  test('ends parallel, the point that touches the stop at the fence: stop = edge length, 404', () => {
    const stop = stopOf(parallel)
    expect(stop).toBeCloseTo(404, 9)
    const half = kept(pushed(blank(404 + 40 * t, 40), stop), 30)
    const piece = kept(pushed(turnedRound(half, 40), stop), 30)
    expect([lengthAt(piece, 0), lengthAt(piece, 40)]).toEqual([
      expect.closeTo(404, 9),
      expect.closeTo(404, 9),
    ])
    expect(extent(piece)).toBeCloseTo(404 + 40 * t, 9)
  })

  test('ends parallel, outward: stop = edge length + w·tan a, 427.094', () => {
    const stop = stopOf(turned(parallel, 'over'))
    expect(stop).toBeCloseTo(427.094, 3)
    const half = kept(pushed(blank(404 + 40 * t, 40), stop), -30)
    const piece = kept(pushed(turnedRound(half, 40), stop), -30)
    expect([lengthAt(piece, 0), lengthAt(piece, 40)]).toEqual([
      expect.closeTo(404, 9),
      expect.closeTo(404, 9),
    ])
  })

  test('one end mitered, the square end at the stop: 404 at the fence, 380.906 outward', () => {
    expect(stopOf(oneEnd)).toBeCloseTo(404, 9)
    expect(stopOf(turned(oneEnd, 'over'))).toBeCloseTo(380.906, 3)
    const outward = kept(pushed(blank(404, 40), stopOf(turned(oneEnd, 'over'))), 30)
    expect(lengthAt(outward, 40)).toBeCloseTo(404, 9)
  })
})

/** Slopes that a setting of the blade cuts: its plane is (cos t cos s, cos t sin s, sin t)·(x, y, z) = 0. */
function slopeOf({ swing, tilt }: { readonly swing: number; readonly tilt: number }) {
  const [s, t] = [swing, tilt].map((deg) => (deg * Math.PI) / 180) as [number, number]
  return { p: -Math.tan(s), q: -Math.tan(t) / Math.cos(s) }
}

describe('compound ends', () => {
  test('50 tube, R 6, 30°/20°: the steel stops 1.7 mm short of the sharp box, found by walking the rounded outline', () => {
    // n of a blade swung 30° and tilted 20° about its own trace: p = n_y/n_x, q = n_z/n_x (formula).
    const { p, q } = slopeOf({ swing: 30, tilt: 20 })
    const R = 6
    let reach = 0
    for (let step = 0; step < 3600; step++) {
      const a = (step * Math.PI) / 1800
      const [c, s] = [Math.cos(a), Math.sin(a)]
      const [y, z] = [(25 - R) * Math.sign(c) + R * c, (25 - R) * Math.sign(s) + R * s]
      reach = Math.max(reach, p * y + q * z)
    }
    const sharp = 25 * (Math.abs(p) + Math.abs(q))
    expect(cornerLoss({ p, q }, R)).toBeCloseTo(sharp - reach, 3)
    expect(cornerLoss({ p, q }, R)).toBeCloseTo(1.7, 1)
    expect(cornerLoss({ p: tan(30), q: 0 }, R)).toBe(0)
  })

  test('splay 8 in 12: the face chosen well gives swing 11.89°, tilt 8°; badly 8.17°, 11.77° (vector check)', () => {
    // A leg that leans 8° one way and 12° the other: floor plane n = (1, tan 12°·cos 8°, tan 8°) in one of its lays.
    const [a, b] = [8, 12]
    const well = settingOf({
      p: -tan(b) * Math.cos((a * Math.PI) / 180),
      q: -tan(a) * Math.hypot(1, tan(b) * Math.cos((a * Math.PI) / 180)),
    })
    expect(well.tilt).toBeCloseTo(8, 9)
    expect(well.swing).toBeCloseTo(11.89, 2)
    const turnedLay = settingOf({ p: slopeOf(well).q, q: slopeOf(well).p })
    expect(turnedLay.swing).toBeCloseTo(8.17, 2)
    expect(turnedLay.tilt).toBeCloseTo(11.77, 2)
  })

  test('a setting goes to slopes and back, −60 … 60 by −45 … 45', () => {
    for (let swing = -60; swing <= 60; swing += 7.5)
      for (let tilt = -45; tilt <= 45; tilt += 7.5) {
        const back = settingOf(slopeOf({ swing, tilt }))
        expect(back.swing).toBeCloseTo(swing, 8)
        expect(back.tilt).toBeCloseTo(tilt, 8)
      }
  })

  test('negative swing: the blade’s far end leans toward the stop, and the long side lies at the fence', () => {
    expect(settingOf({ p: tan(30), q: 0 })).toEqual({ swing: -30, tilt: 0 })
    const piece = kept(pushed(blank(100, 40), 100), -30)
    expect(lengthAt(piece, 0)).toBeGreaterThan(lengthAt(piece, 40))
  })
})
