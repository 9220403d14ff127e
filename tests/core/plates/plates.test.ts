import { describe, expect, test } from 'vitest'
import type { Plate } from '../../../src/core/frame/frame.ts'
import { regular } from '../../../src/core/geometry/polygon.ts'
import { plateMass } from '../../../src/core/parts/plates.ts'
import { cutLine, guideLines, guideToEdge } from '../../../src/core/plates/cut-line.ts'
import { dxfOf } from '../../../src/core/plates/dxf.ts'
import { markingOut } from '../../../src/core/plates/marking-out.ts'
import { notched } from '../../../src/core/plates/notched.ts'
import { sheetDrawing } from '../../../src/core/plates/sheet-drawing.ts'
import { svgOf } from '../../../src/core/plates/svg.ts'
import { showLength } from '../../../src/core/reading/show.ts'
import { framed, metric } from '../builds/framed.ts'
import { areaOf, pathPoints, readOne, readOther } from './read.ts'

const in1 = 25.4
const plate = (polygon: Plate['polygon'], more: Partial<Plate> = {}): Plate => ({
  id: 'p',
  name: 'Plate',
  polygon,
  holes: [],
  thickness: 5,
  pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1],
  on: [],
  ...more,
})
const box = (width: number, depth: number): Plate['polygon'] => [
  [0, 0],
  [width, 0],
  [width, depth],
  [0, depth],
]

describe('marking out from two factory edges', () => {
  test('an octagon 26 in across flats: 7 5/8 from each corner of its square (common practice: side × 0.7071)', () => {
    const made = markingOut(plate(regular(8, 13 * in1)))
    expect([made.width, made.height].map((mm) => mm / in1)).toEqual(
      [26, 26].map((mm) => expect.closeTo(mm, 9)),
    )
    // 26 / (2 + √2) = 7.6152.
    const cut = 26 / (2 + Math.SQRT2)
    expect(showLength(cut * in1, { kind: 'inch-fraction', denominator: 16 }).text).toBe('7 5/8')
    const marks = made.corners.map((point) => point.map((mm) => +(mm / in1).toFixed(6)))
    for (const mark of [
      [cut, 0],
      [26 - cut, 0],
      [26, cut],
      [26, 26 - cut],
      [26 - cut, 26],
      [cut, 26],
      [0, 26 - cut],
      [0, cut],
    ])
      expect(marks).toContainEqual(mark.map((each) => +each.toFixed(6)))
    // Four diagonals through the middle, each 26 / cos 22.5°.
    expect(made.diagonals.map(({ length }) => length / in1)).toEqual(
      Array(4).fill(expect.closeTo(26 / Math.cos(Math.PI / 8), 9)),
    )
  })

  test('a rectangle of 900 × 600 that lies askew: two diagonals of 1081.665, hole 25 in from both edges', () => {
    const turn = (x: number, y: number) =>
      [x * Math.cos(0.4) - y * Math.sin(0.4), x * Math.sin(0.4) + y * Math.cos(0.4)] as const
    const corners = box(900, 600).map(([x, y]) => turn(x, y))
    const made = markingOut(plate(corners, { holes: [[...turn(25, 25), 8.5]] }))
    expect([made.width, made.height].map((mm) => +mm.toFixed(6))).toEqual([900, 600])
    expect(made.corners.map((corner) => corner.map((mm) => +mm.toFixed(6)))).toEqual([
      [0, 0],
      [900, 0],
      [900, 600],
      [0, 600],
    ])
    expect(made.diagonals.map(({ length }) => length)).toEqual(
      [1, 2].map(() => expect.closeTo(Math.hypot(900, 600), 6)),
    )
    const [hole] = made.holes
    // Half a turn brings it to the corner across: both are right for a rectangle.
    const [x, y] = hole!.at.map((mm) => +mm.toFixed(6))
    expect([
      [25, 25],
      [875, 575],
    ]).toContainEqual([x, y])
  })

  test('a round base of 450 is struck from its middle, 225 from both edges', () => {
    const { frame } = framed('pedestal', { base: 'base plate', baseShape: 'round' }, metric)
    const made = markingOut(frame.plates.find(({ id }) => id === 'base/plate')!)
    expect(made.corners).toEqual([])
    expect(made.circle?.radius).toBeCloseTo(225, 9)
    expect(made.circle?.at[0]).toBeCloseTo(made.width / 2, 6)
    for (const { at } of made.holes)
      expect(Math.hypot(at[0] - made.circle!.at[0], at[1] - made.circle!.at[1])).toBeCloseTo(200, 6)
  })

  test('notches: 1000 × 400 round two posts of 40 at its front corners and one on its edge, clear by 2', () => {
    const posts = [-480, 0, 480].map((x) => ({ x, y: -180, width: 40, depth: 40 }))
    const corners = notched(1000, 400, posts, 2)
    expect(corners).toContainEqual([-458, -200])
    expect(corners).toContainEqual([-500, -158])
    expect(corners).toContainEqual([22, -158])
    // Three points at each corner post, four at one on an edge, on both long edges.
    expect(corners).toHaveLength(20)
  })
})

describe('where to cut and where to lay the straight edge', () => {
  const square = box(300, 200)

  test('guide 1/2 in, kerf 1/16: the edge lies 15/32 outside a guide on the keep side, 17/32 inside one on the waste side', () => {
    expect(guideToEdge(in1 / 2, in1 / 16, 'keep') / in1).toBeCloseTo(15 / 32, 12)
    expect(guideToEdge(in1 / 2, in1 / 16, 'waste') / in1).toBeCloseTo(17 / 32, 12)
  })

  test('the cut line of a 2 mm kerf stands 1 outside: 302 × 202', () => {
    const line = cutLine(square, 2)
    expect(line).toEqual([
      [-1, -1],
      [301, -1],
      [301, 201],
      [-1, 201],
    ])
  })

  test.each(['keep', 'waste'] as const)(
    'on the %s side the torch, 12 off its guide, runs on the cut line, past both corners',
    (side) => {
      for (const outline of [
        square,
        [...square].reverse(),
        regular(6, 250),
        notched(800, 300, [{ x: -380, y: -130, width: 40, depth: 40 }], 2),
      ]) {
        const cut = cutLine(outline, 2)
        const guides = guideLines(outline, 12, 2, side, 30)
        expect(guides).toHaveLength(outline.length)
        for (const { side: at, from, to } of guides) {
          const [a, b] = [cut[at]!, cut[(at + 1) % cut.length]!]
          const long = Math.hypot(to[0] - from[0], to[1] - from[1])
          const off = ([x, y]: readonly [number, number]) =>
            Math.abs((x - from[0]) * (to[1] - from[1]) - (y - from[1]) * (to[0] - from[0])) / long
          expect(off(a)).toBeCloseTo(12, 9)
          expect(off(b)).toBeCloseTo(12, 9)
          const own = Math.hypot(
            outline[(at + 1) % outline.length]![0] - outline[at]![0],
            outline[(at + 1) % outline.length]![1] - outline[at]![1],
          )
          expect(long).toBeCloseTo(own + 60, 9)
        }
      }
    },
  )
})

/** Plates of frames: polygon, square with tapped holes, round with holes, notched, slotted. */
const plates: readonly Plate[] = [
  ...framed('polygon-frame', { sides: 5, top: 'plate', topEdge: 'overhang', topEdgeBy: 13 }, metric).frame
    .plates,
  ...framed('pedestal', { base: 'base plate' }, metric).frame.plates,
  ...framed('pedestal', { base: 'base plate', baseShape: 'round' }, metric).frame.plates,
  framed('rack', { shelves: 'sheet', bays: 2 }, metric).frame.plates.at(-1)!,
  framed('loose-top', {}, metric).frame.plates[0]!,
]
const steel = (of: Plate) => plateMass(of) / (7.85e-6 * of.thickness)

describe('files of a plate against the frame', () => {
  test.each(plates.map((each) => [each.id, each] as const))(
    '%s: two DXF readers find the same area and holes, in the unit that is said',
    (_, of) => {
      for (const [units, per] of [
        ['mm', 1],
        ['in', in1],
      ] as const) {
        const drawing = sheetDrawing(of, 'P1', { kerf: 2, guide: { offset: 12.7, side: 'keep' } })
        const text = dxfOf(drawing, units)
        const round = of.polygon.length === 96
        for (const read of [readOne(text), readOther(text)]) {
          expect(read.units).toBe(units === 'mm' ? 4 : 1)
          const on = (layer: string) =>
            read.outlines
              .filter((each) => each.layer === layer)
              .reduce((sum, each) => sum + areaOf(each.corners), 0) +
            read.circles
              .filter((each) => each.layer === layer)
              .reduce((sum, each) => sum + Math.PI * each.radius ** 2, 0)
          const area = (on('PART') - on('HOLES')) * per ** 2
          // A round plate is drawn as a circle; the frame has 96 corners in it.
          const drawn = round ? steel(of) + (Math.PI - 48 * Math.sin(Math.PI / 48)) * 225 ** 2 : steel(of)
          expect(Math.abs(area / drawn - 1)).toBeLessThan(1e-7)
          expect(on('CUT')).toBeGreaterThan(on('PART'))
          const holes = read.circles.filter(({ layer }) => layer === 'HOLES')
          expect(holes).toHaveLength(of.holes.length)
          // Distances between holes do not change when the plate is turned on its sheet.
          const apart = (points: readonly (readonly number[])[]) =>
            points
              .flatMap(([x, y], at) => points.slice(at + 1).map(([u, v]) => Math.hypot(x! - u!, y! - v!)))
              .sort((a, b) => a - b)
          expect(apart(holes.map(({ x, y }) => [x * per, y * per]))).toEqual(
            apart(of.holes).map((mm) => expect.closeTo(mm, 5)),
          )
          expect(holes.map(({ radius }) => 2 * radius * per)).toEqual(
            of.holes.map(([, , mm]) => expect.closeTo(mm, 5)),
          )
          expect(read.lines).toHaveLength(round ? 0 : of.polygon.length)
        }
      }
    },
  )

  test.each(plates.map((each) => [each.id, each] as const))(
    '%s: the SVG is as large in mm as its own units, with the same area and holes',
    (_, of) => {
      const text = svgOf(sheetDrawing(of, 'P1 <&>', { kerf: 0 }))
      const [, width, height, box] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d. ]+)"/.exec(
        text,
      )!
      expect(box).toBe(`${width} ${height}`)
      expect(text).toContain('<title>P1 &lt;&amp;&gt;</title>')
      const part = /id="part" d="([^"]+)"/.exec(text)
      const outer = part
        ? areaOf(pathPoints(part[1]!).map(([x, y]) => [x, y, 0] as const))
        : Math.PI * Number(/id="part"[^>]* r="([\d.]+)"/.exec(text)![1]) ** 2
      const holes = [...text.matchAll(/class="hole" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)].map(
        ([, x, y, r]) => [Number(x), Number(y), Number(r)] as const,
      )
      const slots = (of.slots ?? []).reduce(
        (sum, slot) => sum + (slot.length - slot.width) * slot.width + (Math.PI * slot.width ** 2) / 4,
        0,
      )
      const area = outer - holes.reduce((sum, [, , r]) => sum + Math.PI * r ** 2, 0) - slots
      const drawn = part ? steel(of) : steel(of) + (Math.PI - 48 * Math.sin(Math.PI / 48)) * 225 ** 2
      expect(Math.abs(area / drawn - 1)).toBeLessThan(1e-7)
      expect([...text.matchAll(/class="slot"/g)]).toHaveLength(of.slots?.length ?? 0)
      // The bar to check it by.
      expect(text).toMatch(/id="bar" d="M10 [\d.]+h100m/)
    },
  )
})
