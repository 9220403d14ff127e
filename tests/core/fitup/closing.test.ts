import { describe, expect, test } from 'vitest'
import { bestLast, closingAt, exact, type Off } from '../../../src/core/fitup/closing.ts'
import { loopsOf } from '../../../src/core/fitup/loops.ts'
import { recuts } from '../../../src/core/fitup/recut.ts'
import { angleOfGap, errorOfEach } from '../../../src/core/fitup/scraps.ts'
import { leftOver, sharedOpenings } from '../../../src/core/fitup/share.ts'
import { tanDeg } from '../../../src/core/units.ts'
import { dice } from '../../prove/seed.ts'
import { framed, metric, tube } from '../builds/framed.ts'

/** The top ring of n sides, 700 across flats of 40 mm tube. */
const ringLoop = (n: number) =>
  loopsOf(framed('polygon-frame', { sides: n, size: 700, section: tube(40, 3) }, metric).frame)[0]!

const all = (n: number, off: Off) => Array.from({ length: n }, () => off)
const rolled = (roll: ReturnType<typeof dice>, n: number): Off[] =>
  Array.from({ length: n }, () => ({
    length: roll.between(-1.5, 1.5),
    entry: roll.between(-0.6, 0.6),
    exit: roll.between(-0.6, 0.6),
  }))

// ---------------------------------------------------------------- brute force: plain corners laid one on another

type P = readonly [number, number]
const sub = (a: P, b: P): P => [a[0] - b[0], a[1] - b[1]]
const direction = (a: P) => Math.atan2(a[1], a[0])

/**
 * Assembles regular pieces as sheets of cardboard: each is four corners made from its length and its two angles; it is
 * slid and turned until its first face lies on the last face of the one before. Shares nothing with the program.
 */
function assembled(n: number, side: number, w: number, offs: readonly Off[], last: number) {
  const sheets = offs.map(({ length, entry, exit }): P[] => {
    const a = w * Math.tan(((180 / n + entry) * Math.PI) / 180)
    const b = w * Math.tan(((180 / n + exit) * Math.PI) / 180)
    return [
      [0, 0],
      [side + length, 0],
      [side + length - b, w],
      [a, w],
    ]
  })
  let placed: P[] = sheets[last]!
  const first = placed
  for (let k = 1; k < n; k++) {
    const [x0, y0] = placed[1]!
    const next = sheets[(last + k) % n]!
    const turn = direction(sub(placed[2]!, placed[1]!)) - direction(sub(next[3]!, next[0]!))
    const [c, s] = [Math.cos(turn), Math.sin(turn)]
    placed = next.map(([x, y]): P => [x0 + c * x - s * y, y0 + s * x + c * y])
  }
  // Unit vector halfway between the two faces that look at each other, by their angles.
  const [f1, f2] = [direction(sub(placed[2]!, placed[1]!)), direction(sub(first[3]!, first[0]!))]
  let apart = f1 - f2
  while (apart > Math.PI) apart -= 2 * Math.PI
  while (apart < -Math.PI) apart += 2 * Math.PI
  const inward = f2 + apart / 2
  const ahead: P = [Math.sin(inward), -Math.cos(inward)]
  const gap = (from: P, to: P) => (to[0] - from[0]) * ahead[0] + (to[1] - from[1]) * ahead[1]
  // Inside, along the planned face: corners of a longer face lie further on.
  const face = w / Math.cos(Math.PI / n)
  const reach = (from: P, angle: number): P => [
    from[0] + face * Math.cos(angle),
    from[1] + face * Math.sin(angle),
  ]
  return {
    left: (apart * 180) / Math.PI,
    outside: gap(placed[1]!, first[0]!),
    inside: gap(reach(placed[1]!, f1), reach(first[0]!, f2)),
  }
}

describe('the closing error of a ring', () => {
  test.each([3, 4, 5, 6, 8, 9, 12])('exact pieces of a ring of %i leave nothing at any joint', (n) => {
    const { pieces } = ringLoop(n)
    for (let last = 0; last < n; last++) {
      const { left, worst } = closingAt(pieces, all(n, exact), last)
      expect(Math.abs(left)).toBeLessThan(1e-9)
      expect(worst).toBeLessThan(1e-9)
    }
  })

  // shared/reference, reference.md section 9, table "closed ring": computed there from 2ne and w tan.
  test.each([
    [4, 0.25, 2, 0.0698],
    [6, 0.1, 1.2, 0.0419],
    [6, 0.25, 3, 0.1048],
    [8, 0.1, 1.6, 0.0559],
    [8, 0.25, 4, 0.1399],
    [12, 0.1, 2.4, 0.0838],
  ])('%i sides, every end %f° off: %f° left over, %f in over 2 in of face', (n, each, whole, over2in) => {
    const { pieces } = ringLoop(n)
    for (let last = 0; last < n; last++)
      expect(closingAt(pieces, all(n, { length: 0, entry: each, exit: each }), last).left).toBeCloseTo(
        whole,
        9,
      )
    expect(2 * tanDeg(whole)).toBeCloseTo(over2in, 3)
  })

  test('8 sides, ¼° each: half a ring of scraps against a straightedge shows 2°, two scraps ½°', () => {
    expect(errorOfEach('row', 8, 2)).toBe(0.25)
    expect(errorOfEach('pair', 8, 0.5)).toBe(0.25)
    expect(angleOfGap(1, 57.29)).toBeCloseTo(1, 3)
  })

  test('the angle left over is the same wherever one starts, the gap is not', () => {
    const roll = dice('closing start')
    for (const n of [3, 5, 6, 8]) {
      const { pieces } = ringLoop(n)
      const offs = rolled(roll, n)
      const closings = pieces.map((_, last) => closingAt(pieces, offs, last))
      for (const { left } of closings) expect(left).toBeCloseTo(closings[0]!.left, 9)
      expect(new Set(closings.map(({ outside }) => outside.toFixed(3))).size).toBeGreaterThan(1)
      const best = bestLast(pieces, offs)
      for (const { worst } of closings) expect(best.worst).toBeLessThanOrEqual(worst + 1e-9)
    }
  })

  test('equals sheets of cardboard laid face on face, for 60 rolled rings', () => {
    const roll = dice('cardboard')
    for (let round = 0; round < 60; round++) {
      const n = roll.whole(3, 12)
      const { pieces } = ringLoop(n)
      const offs = rolled(roll, n)
      const last = roll.whole(0, n - 1)
      const real = closingAt(pieces, offs, last)
      const card = assembled(n, 700 * Math.tan(Math.PI / n), 40, offs, last)
      expect(real.left).toBeCloseTo(card.left, 8)
      expect(real.outside).toBeCloseTo(card.outside, 6)
      expect(real.inside).toBeCloseTo(card.inside, 6)
    }
  })

  test('ends too far from square leave the last joint open inside or run in outside', () => {
    const { pieces } = ringLoop(6)
    const { outside, inside } = closingAt(pieces, all(6, { length: 0, entry: 0.2, exit: 0.2 }), 0)
    expect(inside - outside).toBeCloseTo(
      (40 / Math.cos(Math.PI / 6)) * 2 * Math.sin((1.2 * Math.PI) / 180),
      3,
    )
  })

  test('a frame of unequal sides closes as well, and so does one with reflex corners and bars', () => {
    const uneven = framed('uneven-frame', {}, metric).frame
    const bars = framed('rect-frame', {}, metric).frame
    for (const { pieces } of [...loopsOf(uneven), ...loopsOf(bars)])
      for (let last = 0; last < pieces.length; last++)
        expect(closingAt(pieces, all(pieces.length, exact), last).worst).toBeLessThan(1e-6)
  })
})

describe('what to do about it', () => {
  test('every end ¼° too far on 6 sides: each joint opened inside by 0.403 mm, nothing outside', () => {
    const { pieces } = ringLoop(6)
    const offs = all(6, { length: 0, entry: 0.25, exit: 0.25 })
    const openings = sharedOpenings(pieces, offs)
    // 3° over six joints: ½° over a face of 46.19 mm.
    for (const { outside, inside } of openings) {
      expect(outside).toBeCloseTo(0, 6)
      expect(inside).toBeCloseTo(46.188 * tanDeg(0.5), 3)
    }
    expect(leftOver(pieces, offs, openings)).toBeLessThan(1e-6)
  })

  test('shared openings close any rolled ring and press nothing into anything', () => {
    const roll = dice('share')
    for (let round = 0; round < 40; round++) {
      const n = roll.whole(3, 12)
      const { pieces } = ringLoop(n)
      const offs = rolled(roll, n)
      const openings = sharedOpenings(pieces, offs)
      expect(leftOver(pieces, offs, openings)).toBeLessThan(1e-5)
      for (const { outside, inside } of openings) expect(Math.min(outside, inside)).toBeGreaterThanOrEqual(0)
    }
  })

  test('one piece 1.2 mm long with an end ½° off is named first, and cut to plan the ring closes', () => {
    const { pieces } = ringLoop(5)
    const offs = all(5, exact).map((off, at) => (at === 3 ? { length: 1.2, entry: 0.5, exit: 0 } : off))
    const [first] = recuts(pieces, offs)
    expect(first!.piece).toBe(3)
    expect(first!.fromPlan).toBeLessThan(1e-6)
    expect(first!.fromThis).toBe(true)
    const short = offs.map((off, at) => (at === 3 ? { ...off, length: -1.2 } : off))
    expect(recuts(pieces, short)[0]).toMatchObject({ piece: 3, fromThis: false })
  })

  test('whatever piece is cut anew as said, the ring closes', () => {
    const roll = dice('recut')
    for (let round = 0; round < 40; round++) {
      const n = roll.whole(3, 10)
      const { pieces } = ringLoop(n)
      const offs = rolled(roll, n)
      const made = recuts(pieces, offs)
      expect(made).toHaveLength(n)
      for (const { piece, off } of made) {
        const mended = offs.map((one, at) => (at === piece ? off : one))
        const { worst, left } = closingAt(pieces, mended, roll.whole(0, n - 1))
        expect(worst).toBeLessThan(1e-6)
        expect(Math.abs(left)).toBeLessThan(1e-8)
      }
    }
  })
})
