import { describe, expect, test } from 'vitest'
import { arrange } from '../../../src/core/fitup/arrange.ts'
import { builtCorners } from '../../../src/core/fitup/built.ts'
import { closingAt, exact, type Off } from '../../../src/core/fitup/closing.ts'
import { flatness } from '../../../src/core/fitup/flat.ts'
import { bestHalves } from '../../../src/core/fitup/halves.ts'
import { readJoint } from '../../../src/core/fitup/joint-look.ts'
import { type Loop, loopsOf } from '../../../src/core/fitup/loops.ts'
import { angleName, lengthName, offsOf, testName } from '../../../src/core/fitup/real.ts'
import {
  angleBetween,
  cornerAngles,
  diagonalsOf,
  flatsOf,
  squareOf,
  thirdSide,
} from '../../../src/core/fitup/square.ts'
import { dice } from '../../prove/seed.ts'
import { framed, metric, tube } from '../builds/framed.ts'

const polygon = (n: number) => framed('polygon-frame', { sides: n, size: 700, section: tube(40, 3) }, metric)
const rolled = (roll: ReturnType<typeof dice>, n: number): Off[] =>
  Array.from({ length: n }, () => ({
    length: roll.between(-1.5, 1.5),
    entry: roll.between(-0.5, 0.5),
    exit: roll.between(-0.5, 0.5),
  }))

describe('order and turning of the same pieces', () => {
  test('never worse than as they lie, and what is said is what comes out', () => {
    const roll = dice('arrange')
    for (let round = 0; round < 20; round++) {
      const n = roll.whole(3, 8)
      const loop = loopsOf(polygon(n).frame)[0]!
      const offs = rolled(roll, n)
      const last = roll.whole(0, n - 1)
      const { places, before, after } = arrange(
        loop,
        offs.map(() => 'A'),
        offs,
        last,
      )
      expect(before).toEqual(closingAt(loop.pieces, offs, last))
      expect(after.worst).toBeLessThanOrEqual(before.worst)
      expect(places.map(({ piece }) => piece).sort((a, b) => a - b)).toEqual(offs.map((_, at) => at))
      const again = places.map(({ piece, turned }) =>
        turned ? { ...offs[piece]!, entry: offs[piece]!.exit, exit: offs[piece]!.entry } : offs[piece]!,
      )
      expect(closingAt(loop.pieces, again, last).worst).toBeCloseTo(after.worst, 9)
    }
  })

  test('two pieces 1 mm long side by side in a square are laid across from each other: 1.41 mm becomes 0', () => {
    const loop = loopsOf(polygon(4).frame)[0]!
    const offs = [1, 1, 0, 0].map((length) => ({ ...exact, length }))
    const { before, after } = arrange(
      loop,
      offs.map(() => 'A'),
      offs,
      0,
    )
    expect(before.worst).toBeCloseTo(Math.SQRT2, 6)
    expect(after.worst).toBeLessThan(1e-9)
  })

  test('pieces of different marks stay in their places', () => {
    const loop = loopsOf(polygon(4).frame)[0]!
    const offs = [1, 1, 0, 0].map((length) => ({ ...exact, length }))
    const { places } = arrange(loop, ['A', 'B', 'A', 'B'], offs, 0)
    expect(places.map(({ piece }) => piece % 2)).toEqual([0, 1, 0, 1])
  })

  test('two half rings joined last share 3° over two joints: 1½° each', () => {
    const loop = loopsOf(polygon(6).frame)[0]!
    const halves = bestHalves(loop.pieces, Array(6).fill({ length: 0, entry: 0.25, exit: 0.25 }))!
    for (const { left } of halves.joints) expect(left).toBeCloseTo(1.5, 9)
    expect(halves.worst).toBeLessThan(
      closingAt(loop.pieces, Array(6).fill({ length: 0, entry: 0.25, exit: 0.25 }), 0).worst,
    )
    expect(bestHalves(loopsOf(polygon(5).frame)[0]!.pieces, Array(5).fill(exact))).toBeUndefined()
    expect(bestHalves(loop.pieces, Array(6).fill(exact))!.worst).toBeLessThan(1e-9)
  })
})

describe('what was measured', () => {
  const made = polygon(6)
  const loop = loopsOf(made.frame)[0]!
  const of = (figures: Readonly<Record<string, number>>) => offsOf(loop, made.parts, (name) => figures[name])

  test('a piece that nobody measured is as printed: 404 for 404.145', () => {
    for (const { length, entry, exit } of of({})) {
      expect(length).toBeCloseTo(404 - 404.14519, 4)
      expect([entry, exit]).toEqual([0, 0])
    }
  })
  test('a side of 405.2, its B end 30.4° from square; all other ends ¼° off by the test', () => {
    const side = loop.pieces[2]!.member
    const offs = of({ [lengthName(side)]: 405.2, [angleName(side, 'B')]: 30.4, [testName(loop.id)]: 0.25 })
    expect(offs[2]!.length).toBeCloseTo(405.2 - 404.14519, 4)
    expect(offs[2]!.entry).toBeCloseTo(0.25, 9)
    expect(offs[2]!.exit).toBeCloseTo(0.4, 9)
    expect(offs[1]).toMatchObject({ entry: 0.25, exit: 0.25 })
  })
})

describe('loops and what the tape must read', () => {
  const made = framed('rect-frame', {}, metric)
  const read = (loop: Loop, parts = made.parts) => builtCorners(loop, parts)
  test('600 by 900 frame with one cross bar: the frame, 1081.67 across, and two cells', () => {
    const loops = loopsOf(made.frame)
    expect(loops.map(({ pieces }) => pieces.length)).toEqual([4, 4, 4])
    expect(loops.map(({ ring }) => ring)).toEqual([true, false, false])
    expect(diagonalsOf(read(loops[0]!)).map(({ id, expected }) => [id, expected.toFixed(2)])).toEqual([
      ['1-3', Math.hypot(900, 600).toFixed(2)],
      ['2-4', Math.hypot(900, 600).toFixed(2)],
    ])
    expect(flatsOf(read(loops[0]!)).map(({ id, expected }) => [id, expected.toFixed(2)])).toEqual([
      ['1-3', '600.00'],
      ['2-4', '900.00'],
    ])
    // In the clear: (900 − 80 − 25)/2 by 600 − 80.
    for (const { expected } of diagonalsOf(read(loops[1]!)))
      expect(expected).toBeCloseTo(Math.hypot(397.5, 520), 6)
  })

  test('a hexagon cut to 404: three diagonals of 808, three flats of 699.75', () => {
    // shared design, section 3: hexagon 700 across flats, reading 1 mm: long point 404, built 699.75.
    const six = polygon(6)
    const corners = builtCorners(loopsOf(six.frame)[0]!, six.parts)
    expect(diagonalsOf(corners).map(({ expected }) => expected.toFixed(3))).toEqual(Array(3).fill('808.000'))
    expect(flatsOf(corners).map(({ expected }) => expected.toFixed(2))).toEqual(Array(3).fill('699.75'))
  })

  test.each([3, 5, 6, 7, 8, 9, 12])(
    'corners of a ring of %i are those of a regular one of its printed side',
    (n) => {
      // Chord over k sides of a regular polygon: s·sin(kπ/n)/sin(π/n), by way of reference.md 1.1.
      const ring = polygon(n)
      const corners = builtCorners(loopsOf(ring.frame)[0]!, ring.parts)
      const side = ring.parts[0]!.printed.length.mm
      for (const [a, [x, y]] of corners.entries())
        for (const [b, [u, v]] of corners.entries()) {
          const chord = (side * Math.abs(Math.sin(((a - b) * Math.PI) / n))) / Math.sin(Math.PI / n)
          expect(Math.hypot(x - u, y - v)).toBeCloseTo(chord, 6)
        }
      // A pentagon has no two sides that look at each other.
      expect(flatsOf(corners)).toHaveLength(n % 2 === 0 ? n / 2 : 0)
    },
  )

  test('sides of an uneven frame are as printed, within what rounding leaves over', () => {
    const uneven = framed('uneven-frame', {}, metric)
    const loop = loopsOf(uneven.frame)[0]!
    const corners = builtCorners(loop, uneven.parts)
    const lengths = new Map(
      uneven.parts.flatMap((p) => p.members.map((id) => [id, p.printed.length.mm] as const)),
    )
    for (const [at, { member }] of loop.pieces.entries()) {
      const [[x, y], [u, v]] = [corners[at]!, corners[(at + 1) % corners.length]!]
      // Five pieces, each rounded by at most half a millimeter.
      expect(Math.abs(Math.hypot(x - u, y - v) - lengths.get(member)!)).toBeLessThan(0.5)
    }
  })

  test('legs, top and rail of a leaning frame close one loop of four', () => {
    const loops = loopsOf(framed('from-points', {}, metric).frame)
    expect(loops).toHaveLength(1)
    expect(loops[0]!.pieces).toHaveLength(4)
  })
})

describe('square, flat, and a bad joint', () => {
  test('diagonals 1084 and 1079 of 900 by 600: 0.29° out, corners 1 and 3 to be pulled by 2.49', () => {
    const { off, pull, by } = squareOf(1084, 1079, 900, 600)
    // The parallelogram itself, built from the angle, has these diagonals.
    const lean = (off * Math.PI) / 180
    const two = (sign: number) => Math.hypot(900 + sign * 600 * Math.sin(lean), 600 * Math.cos(lean))
    expect(two(1) ** 2 - two(-1) ** 2).toBeCloseTo(1084 ** 2 - 1079 ** 2, 6)
    expect(off).toBeCloseTo(0.2869, 3)
    expect(pull).toEqual([1, 3])
    expect(by).toBeCloseTo(2.494, 2)
    expect(squareOf(1079, 1084, 900, 600).pull).toEqual([2, 4])
    expect(squareOf(1081, 1081, 900, 600)).toEqual({ off: 0, by: 0 })
  })
  test('3, 4 and 5 make 90°; 300, 400 and 505 make 91.2°; 1, 2 and 4 close no triangle', () => {
    expect(angleBetween(3, 4, 5)).toBeCloseTo(90, 9)
    expect(angleBetween(300, 400, 505)).toBeCloseTo(91.2, 1)
    expect(angleBetween(1, 2, 4)).toBeUndefined()
  })
  test('3 and 4 on the sides of a right angle are 5 apart; a hexagon has six corners of 120°', () => {
    expect(thirdSide(300, 400, 90)).toBeCloseTo(500, 9)
    expect(thirdSide(300, 400, 91)).toBeGreaterThan(504)
    const six = polygon(6)
    for (const angle of cornerAngles(builtCorners(loopsOf(six.frame)[0]!, six.parts)))
      expect(angle).toBeCloseTo(120, 9)
    // A frame that turns in: an L has five corners of 90° and one of 270°.
    const l = [
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ] as const
    expect(cornerAngles(l).map((angle) => Math.round(angle))).toEqual([90, 90, 90, 270, 90, 90])
  })
  test('heights 0, 0, 0, 4 of a rectangle: 4 of twist, 1 over and under the best plane, corners 1 and 3 low', () => {
    const corners = [
      [0, 0],
      [900, 0],
      [900, 600],
      [0, 600],
    ] as const
    const flat = flatness(corners, [0, 0, 0, 4])
    expect(flat.twist).toBe(4)
    expect(flat.over.map((each) => +each.toFixed(9))).toEqual([-1, 1, -1, 1])
    expect([...flat.lift].sort()).toEqual([1, 3])
    expect([...flat.press].sort()).toEqual([2, 4])
    // A table that leans is no twist.
    expect(flatness(corners, [0, 3, 5, 2]).spread).toBeLessThan(1e-9)
  })
  test('1 mm open outside over 46.19 mm of face: 1.24° between them, 0.62° at each end, too near square', () => {
    const look = readJoint('outside', 1, 46.19, true)
    expect(look.each).toBeCloseTo(0.62, 2)
    expect(look.cause).toContain('too small')
    expect(readJoint('inside', 1, 46.19, true).cause).toContain('too great')
    expect(readJoint('top', 1, 40, true).cause).toContain('cancels')
    expect(readJoint('top', 1, 40, false).cause).toContain('doubles')
  })
})
