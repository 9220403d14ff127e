// Regular frames against the polygon table of Machinery's Handbook, 31st ed. (2020), p. 82, n = 3 to 10 and 12 (n = 11
// by formula, the handbook leaves it out). Corners are found here from the raw end cuts and poses of the members,
// then measured as any polygon would be.
import { describe, expect, test } from 'vitest'
import table from '../../shared/reference/polygons.json'
import { polygonFrame } from '../../src/core/builds/polygon-frame.ts'
import type { Frame, Member } from '../../src/core/frame/frame.ts'
import type { Section } from '../../src/core/section/section.ts'

type Point = readonly [number, number]

const tube = (width: number): Section => ({
  kind: 'square-tube',
  width,
  height: width,
  wall: width / 20,
  cornerRadius: width / 10,
})

function frameOf(sides: number, sizeKind: string, size: number, section: Section): Frame {
  const values = { sides, sizeKind, size, section, stands: 'flat', top: 'none' }
  const result = polygonFrame.frame(values, { gap: 0, say: (mm) => `${mm} mm` })
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join(' '))
  return result.value
}

/** Where an end cut meets a line of the member parallel to its axis at y, as x along the axis. */
function xOn({ ends }: Member, end: 0 | 1, y: number): number {
  const { point, normal } = ends[end]
  return (normal[0] * point[0] + normal[1] * (point[1] - y) + normal[2] * point[2]) / normal[0]
}

/** Point of the member's frame at x, y on the plane of its axis, seen from above. */
function plan({ pose }: Member, x: number, y: number): Point {
  const at = (row: number) => (pose[12 + row] ?? 0) + (pose[row] ?? 0) * x + (pose[4 + row] ?? 0) * y
  return [at(0), at(1)]
}

const distance = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1])

/** A side of the frame from above: its outer and its inner edge, each from end A to end B. */
function edgesFromAbove(member: Member, center: Point): { outer: [Point, Point]; inner: [Point, Point] } {
  const [one, two] = [1, -1].map((hand): [Point, Point] => {
    const y = (hand * member.section.width) / 2
    return [plan(member, xOn(member, 0, y), y), plan(member, xOn(member, 1, y), y)]
  }) as [[Point, Point], [Point, Point]]
  return distance(one[0], center) > distance(two[0], center)
    ? { outer: one, inner: two }
    : { outer: two, inner: one }
}

interface Measured {
  readonly side: number
  readonly short: number
  readonly corner: number
  readonly flat: number
  readonly area: number
  readonly height: number
  readonly across: number
  readonly miter: number
}

/** Measures a ring with a tape: sides, distances, the shoelace area, and the head angle of every cut. */
function measured(frame: Frame): Measured {
  const middles = frame.members.map((member) => plan(member, (xOn(member, 0, 0) + xOn(member, 1, 0)) / 2, 0))
  const mean = (axis: 0 | 1) => middles.reduce((sum, point) => sum + point[axis], 0) / middles.length
  const center: Point = [mean(0), mean(1)]
  const edges = frame.members.map((member) => edgesFromAbove(member, center))
  const corners = edges.map(({ outer }) => outer[0])
  const same = (values: readonly number[]): number => {
    const first = values[0] ?? Number.NaN
    for (const each of values) expect(each).toBeCloseTo(first, 6)
    return first
  }
  // Head to tail: every side ends where the next one begins, outside and inside.
  for (const [at, { outer, inner }] of edges.entries()) {
    const next = edges[(at + 1) % edges.length]
    if (!next) throw new Error('no next side')
    expect(distance(outer[1], next.outer[0])).toBeLessThan(1e-6)
    expect(distance(inner[1], next.inner[0])).toBeLessThan(1e-6)
  }
  const toLine = ([a, b]: readonly [Point, Point], p: Point) =>
    Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / distance(a, b)
  const firstEdge = edges[0]?.outer ?? [center, center]
  return {
    side: same(edges.map(({ outer }) => distance(...outer))),
    short: same(edges.map(({ inner }) => distance(...inner))),
    corner: same(corners.map((corner) => distance(corner, center))),
    flat: same(edges.map(({ outer }) => toLine(outer, center))),
    area: Math.abs(
      corners.reduce((sum, [x, y], at) => {
        const [nextX, nextY] = corners[(at + 1) % corners.length] ?? center
        return sum + (x * nextY - nextX * y) / 2
      }, 0),
    ),
    height: Math.max(...corners.map((corner) => toLine(firstEdge, corner))),
    across: Math.max(...corners.flatMap((one) => corners.map((two) => distance(one, two)))),
    miter: same(
      frame.members.flatMap(({ ends }) =>
        ends.map(({ normal }) => (Math.acos(Math.abs(normal[0]) / Math.hypot(...normal)) * 180) / Math.PI),
      ),
    ),
  }
}

const printed = 'handbook_R/S,R/r,S/R,S/r,r/R,r/S,A/S2,A/R2,A/r2'

test('the table has n = 3 to 12', () =>
  expect(table.map(({ n }) => n)).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 11, 12]))

describe.each(table.map((row) => [row.n, row] as const))('%d sides', (n, row) => {
  const width = 20
  const ring = measured(frameOf(n, 'side', 1000, tube(width)))
  const { side, corner, flat, area } = ring

  test(`the miter is ${row.mitre_deg}° and the inside of each side shorter by ${row.length_loss_per_unit_width} widths`, () => {
    expect(ring.miter).toBeCloseTo(row.mitre_deg, 4)
    expect(side).toBeCloseTo(1000, 6)
    expect(Math.abs((side - ring.short) / width - row.length_loss_per_unit_width)).toBeLessThan(1e-6)
  })

  test('proportions as computed to six places', () => {
    const pairs: readonly (readonly [number, number])[] = [
      [corner / side, row.R_over_S],
      [flat / side, row.r_over_S],
      [side / corner, row.S_over_R],
      [side / flat, row.S_over_r],
      [corner / flat, row.R_over_r],
      [area / side ** 2, row.A_over_S2],
    ]
    for (const [found, expected] of pairs) expect(Math.abs(found - expected)).toBeLessThan(6e-7)
    if (row.odd_height_vertex_to_flat_over_S !== null)
      expect(Math.abs(ring.height / side - row.odd_height_vertex_to_flat_over_S)).toBeLessThan(6e-7)
    if (row.across_flats_over_S !== null)
      expect(Math.abs(ring.height / side - row.across_flats_over_S)).toBeLessThan(6e-7)
    expect(Math.abs(ring.across / side - row.longest_diagonal_over_S)).toBeLessThan(6e-7)
  })

  test('each way to give the size leads to the same frame', () => {
    const section = tube(width)
    const kinds: readonly (readonly [string, number])[] = [
      ['across corners', 2 * corner],
      ['across flats', 2 * flat],
      ['clear inside', 2 * (flat - width)],
    ]
    for (const [kind, size] of kinds)
      expect(measured(frameOf(n, kind, size, section)).side).toBeCloseTo(1000, 6)
  })
})

describe('proportions as the handbook prints them, to its last digit', () => {
  const rows = table.flatMap((row) => (row[printed] ? [[row.n, row[printed]] as const] : []))
  test('n = 3 to 10 and 12', () => expect(rows.map(([n]) => n)).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 12]))
  test.each(rows)('%d sides', (n, columns) => {
    const { side, corner, flat, area } = measured(frameOf(n, 'side', 1000, tube(20)))
    const found = [
      corner / side,
      corner / flat,
      side / corner,
      side / flat,
      flat / corner,
      flat / side,
      area / side ** 2,
      area / corner ** 2,
      area / flat ** 2,
    ]
    expect(columns).toHaveLength(found.length)
    // Four decimals; the area of n = 12 is printed to three, 11.196.
    for (const [at, expected] of columns.entries())
      expect(Math.abs((found[at] ?? 0) - expected)).toBeLessThan(expected > 11 ? 5e-4 : 6e-5)
  })
})

describe('worked frames', () => {
  const inch = 25.4
  test('octagon, 18 in across corners, 1 in tube: 6.888 in long, 22½°, 16.63 in across flats (formula)', () => {
    const ring = measured(frameOf(8, 'across corners', 18 * inch, tube(inch)))
    expect((ring.side / inch).toFixed(3)).toBe('6.888')
    expect(ring.miter).toBeCloseTo(22.5, 9)
    expect(((2 * ring.flat) / inch).toFixed(2)).toBe('16.63')
  })
  test.each([
    // sides, across flats, tube, long point, short point, across corners; inches, by formula.
    [4, 24, 1.5, 24, 21, 33.9411],
    [6, 24, 2, 13.8564, 11.547, 27.7128],
    [6, 30, 1, 17.3205, 16.1658, 34.641],
    [8, 36, 1.5, 14.9117, 13.669, 38.9661],
    [8, 48, 2, 19.8823, 18.2254, 51.9548],
    [12, 42, 1.5, 11.2539, 10.45, 43.4816],
  ])(
    '%d sides, %d in across flats, %d in tube: long %d, short %d, %d across corners',
    (n, size, width, ...expected) => {
      const ring = measured(frameOf(n, 'across flats', size * inch, tube(width * inch)))
      const found = [ring.side, ring.short, 2 * ring.corner].map((mm) => mm / inch)
      for (const [at, value] of expected.entries())
        expect(Math.abs((found[at] ?? 0) - value)).toBeLessThan(6e-5)
    },
  )
  test('five sides touching a circle of 24 in, 1 1/2 in tube: long 17.437, short 15.2574 in (formula)', () => {
    const ring = measured(frameOf(5, 'across flats', 24 * inch, tube(1.5 * inch)))
    expect(Math.abs(ring.side / inch - 17.437)).toBeLessThan(6e-5)
    expect(Math.abs(ring.short / inch - 15.2574)).toBeLessThan(6e-5)
  })
  test('hexagon, 700 mm across flats, 40 tube: long 404.145, short 357.957, 808.290 across corners (formula)', () => {
    const ring = measured(frameOf(6, 'across flats', 700, tube(40)))
    expect([ring.side, ring.short, 2 * ring.corner].map((mm) => mm.toFixed(3))).toEqual([
      '404.145',
      '357.957',
      '808.290',
    ])
  })
})
