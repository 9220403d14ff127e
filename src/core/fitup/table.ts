import type { Frame, Member } from '../frame/frame.ts'
import { edgeCorners, endCorners, endPlane, xAt } from '../frame/member.ts'
import type { Point, Polygon } from '../geometry/polygon.ts'
import { axisX, toWorld } from '../geometry/pose.ts'
import { cross, dot, norm, unit, type Vec3 } from '../geometry/vec3.ts'
import type { Part } from '../plan-shapes.ts'
import type { Shop, Table } from '../shop.ts'
import { sameLength } from '../tolerance.ts'
import { inch, type Mm } from '../units.ts'
import type { Load } from './blocks.ts'
import { builtCorners } from './built.ts'
import type { Loop } from './loops.ts'
import { along, left, long, minus, times, unit2 } from './move.ts'
import { type Diagonal, diagonalsOf } from './square.ts'

// The table of a repeat: lines to scribe and blocks to clamp down, as x and y from two edges of the table, seen from above.

/** A line to scribe: the edge of one piece, and the blocks that stop it there, on the other side of the line. */
export interface TableLine {
  readonly member: string
  readonly from: Point
  readonly to: Point
  /** Middles of the faces of the blocks, on the line. */
  readonly blocks: readonly Point[]
}

export interface TableLayout {
  /** What the steel covers, mm along the front edge and off it. */
  readonly width: Mm
  readonly depth: Mm
  readonly outlines: readonly { readonly member: string; readonly outline: Polygon }[]
  readonly lines: readonly TableLine[]
  /** Corners that are scribed and measured, by their number on the screen less one. */
  readonly corners: readonly Point[]
  readonly diagonals: readonly Diagonal[]
}

/** Members this near to level, as sine of their lean, are drawn on the table; others stand on it. */
const level = 0.1

/** Steel that is higher over the table than this is put on later, or held by a stand: no block is so high. */
export const blockUpTo: Mm = 150

/** A block keeps clear of a joint by two widths of the tube, so that the torch gets in: common practice. */
const fromJoint = 2

/** Right-handed: u and v on the table, `up` toward the eye. */
function axesOf(up: Vec3): readonly [Vec3, Vec3] {
  const side = cross([0, 0, 1], up)
  if (norm(side) < 1e-6)
    return [
      [up[2], 0, 0],
      [0, 1, 0],
    ]
  const u = unit(side)
  return [u, cross(up, u)]
}

/** Outline of a member seen from above: its two sides, each as long as the longer one of the edges that lie in it. */
function seenFrom(of: Member, map: (point: Vec3) => Point): Polygon {
  const [a, b] = of.ends.map(endPlane)
  const walk = unit2(minus(map(toWorld(of.pose, [1, 0, 0])), map(toWorld(of.pose, [0, 0, 0]))))
  const edges = edgeCorners(of.section).map(([y, z]): readonly [Point, Point] => [
    map(toWorld(of.pose, [xAt(a!, y, z), y, z])),
    map(toWorld(of.pose, [xAt(b!, y, z), y, z])),
  ])
  const across = ([point]: readonly [Point, Point]) => along(left(walk), point)
  const least = Math.min(...edges.map(across))
  const most = Math.max(...edges.map(across))
  const side = (at: Mm): readonly [Point, Point] => {
    const own = edges.filter((edge) => Math.abs(across(edge) - at) < sameLength)
    const ahead = (point: Point) => along(walk, point)
    const starts = own.map(([start]) => start).sort((one, two) => ahead(one) - ahead(two))
    const ends = own.map(([, end]) => end).sort((one, two) => ahead(two) - ahead(one))
    return [starts[0]!, ends[0]!]
  }
  const [low, high] = [side(least), side(most)]
  return [low[0], low[1], high[1], high[0]]
}

/** Where blocks stand along a line so long: two, clear of the joints, or one in the middle of a short piece. */
function blocksAlong(from: Point, to: Point, width: Mm): readonly Point[] {
  const length = long(minus(to, from))
  const at = (share: number): Point => [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
  ]
  const inset = Math.max(fromJoint * width, length / 5)
  return inset * 2 + 2 * width > length ? [at(0.5)] : [at(inset / length), at(1 - inset / length)]
}

/** The layout of a load that lies with this way up, its least x and y being `clear`; members that stand, or are held higher than any block, are left out. */
export function layoutOf(
  frame: Frame,
  load: Load,
  up: Vec3,
  loops: readonly Loop[],
  parts: readonly Part[],
  clear: Mm,
): TableLayout {
  const [u, v] = axesOf(up)
  const flat = (point: Vec3): Point => [dot(u, point), dot(v, point)]
  const own = frame.members.filter(({ id }) => load.members.includes(id))
  const low = (of: Member): Mm =>
    Math.min(...(['A', 'B'] as const).flatMap((end) => endCorners(of, end).map((point) => dot(up, point))))
  const table = Math.min(...own.map(low))
  const members = own.filter((of) => Math.abs(dot(axisX(of.pose), up)) < level && low(of) - table < blockUpTo)
  const ids = new Set(members.map(({ id }) => id))
  // The loop to measure: the ring, or the largest that lies in the table.
  const lying = loops.filter(
    ({ plane, pieces }) =>
      Math.abs(dot(plane.normal, up)) > 1 - 1e-6 && pieces.every(({ member }) => ids.has(member)),
  )
  const loop = lying.find(({ ring }) => ring) ?? lying.toSorted((one, two) => spread(two) - spread(one))[0]
  const world = ([x, y]: Point, { plane }: Loop): Vec3 => [
    plane.u[0] * x + plane.v[0] * y,
    plane.u[1] * x + plane.v[1] * y,
    plane.u[2] * x + plane.v[2] * y,
  ]
  const corners = loop ? builtCorners(loop, parts).map((corner) => flat(world(corner, loop))) : []
  const seen = members.map((of) => ({ member: of.id, of, outline: seenFrom(of, flat) }))
  const ring = new Map(loop?.ring ? loop.pieces.map(({ member }, at) => [member, at] as const) : [])
  const all = [
    ...seen.flatMap(({ member, outline }) => (ring.has(member) ? [] : outline)),
    ...(loop?.ring ? corners : []),
  ]
  const reach = (k: 0 | 1) => [Math.min(...all.map((p) => p[k])), Math.max(...all.map((p) => p[k]))] as const
  const [xs, ys] = [reach(0), reach(1)]
  // The longer way runs along the front edge.
  const turn = ys[1] - ys[0] > xs[1] - xs[0] + 1
  const place = ([x, y]: Point): Point =>
    turn ? [y - ys[0] + clear, xs[1] - x + clear] : [x - xs[0] + clear, y - ys[0] + clear]
  const middle: Point = place([(xs[0] + xs[1]) / 2, (ys[0] + ys[1]) / 2])
  const lines = seen.map(({ member, of, outline }): TableLine => {
    const at = ring.get(member)
    const [a, b, c, d] = outline.map(place) as [Point, Point, Point, Point]
    const [from, to] =
      at === undefined
        ? outer([a, b], [d, c], middle)
        : [place(corners[at]!), place(corners[(at + 1) % corners.length]!)]
    return { member, from, to, blocks: blocksAlong(from, to, widthOn(of, up)) }
  })
  const placed = corners.map(place)
  return {
    width: turn ? ys[1] - ys[0] : xs[1] - xs[0],
    depth: turn ? xs[1] - xs[0] : ys[1] - ys[0],
    outlines: seen.map(({ member, outline }) => ({ member, outline: outline.map(place) })),
    lines,
    corners: placed,
    diagonals: diagonalsOf(placed),
  }
}

const spread = ({ pieces }: Loop): Mm => Math.max(...pieces.map(({ entry }) => long(entry.outer)))

/** The edge that lies farther from the middle of the frame; of two alike the one nearer to the front or the left. */
function outer(
  one: readonly [Point, Point],
  two: readonly [Point, Point],
  middle: Point,
): readonly [Point, Point] {
  const away = ([from, to]: readonly [Point, Point]) =>
    Math.abs(along(left(unit2(minus(to, from))), minus(middle, from)))
  const difference = away(one) - away(two)
  if (Math.abs(difference) > 0.01) return difference > 0 ? one : two
  const sum = ([from, to]: readonly [Point, Point]) => from[0] + from[1] + to[0] + to[1]
  return sum(one) <= sum(two) ? one : two
}

/** What the tube covers of the table, across it, mm. */
export function widthOn({ pose, section }: Member, up: Vec3): Mm {
  const across = unit(cross(axisX(pose), up))
  const y: Vec3 = [pose[4]!, pose[5]!, pose[6]!]
  const z: Vec3 = [pose[8]!, pose[9]!, pose[10]!]
  return Math.abs(dot(y, across)) * section.width + Math.abs(dot(z, across)) * section.height
}

/**
 * Members too narrow for a slotted table: one that lies along a slot has nothing under it, one across bridges it. A
 * tube of less than two slots in width is laid on a plate: common practice.
 */
export const needPlate = (
  frame: Frame,
  load: Load,
  up: Vec3,
  { slot }: Pick<Table, 'slot'>,
): readonly string[] =>
  slot === undefined
    ? []
    : frame.members
        .filter(
          (of) =>
            load.members.includes(of.id) &&
            Math.abs(dot(axisX(of.pose), up)) < level &&
            widthOn(of, up) < 2 * slot,
        )
        .map(({ id }) => id)

/** Middle of a block that stands on the other side of the line from the middle of the frame, `thick` off it. */
export function blockMiddle({ from, to }: TableLine, at: Point, middle: Point, thick: Mm): Point {
  const away = left(unit2(minus(to, from)))
  const side = along(away, minus(middle, from)) > 0 ? -1 : 1
  const [x, y] = times(away, side * (thick / 2))
  return [at[0] + x, at[1] + y]
}

/** How far from the edges frames are laid; in a shop that has not said it: a hand's breadth, for blocks and clamps. */
export const usualClear = ({ table, reading }: Pick<Shop, 'table' | 'reading'>): Mm =>
  table?.clear ?? (reading.kind === 'mm' ? 100 : 4 * inch)
