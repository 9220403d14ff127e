import type { Draft } from '../../core/draft.ts'
import type { Point, Polygon } from '../../core/geometry/polygon.ts'
import type { Part } from '../../core/plan-shapes.ts'
import type { Laid } from './layout.ts'
import type { Seen } from './shapes.ts'
import { type Place, toScreen } from './sheet.ts'
import { coveredAt } from './visible.ts'

export interface MarkAt {
  readonly id: string
  readonly mark: string
  readonly plate?: true
  /** Middle of the text on the screen. */
  readonly at: Point
}

/** The mark of each member and plate of a job. */
export const marksById = ({ parts, plates }: Pick<Draft, 'parts' | 'plates'>): ReadonlyMap<string, string> =>
  new Map([
    ...parts.flatMap(({ mark, members }) => members.map((id) => [id, mark] as const)),
    ...plates.map(({ id, mark }) => [id, mark] as const),
  ])

/** Room that a mark needs round its middle, px, and the least length of a member on the screen to carry one. */
const room = 26
const leastLong = 30
/** A plate carries a mark where it is seen this broad, px; one broader than the second leaves its middle free for a size. */
const broad = { least: 24, most: 120 } as const

/** Center of area: the middle of the steel, also of a slanting trapezoid. */
function middleOf(polygon: Polygon): Point {
  let [twice, x, y] = [0, 0, 0]
  const [ox, oy] = polygon[0]!
  let [ax, ay] = [0, 0]
  for (const to of polygon) {
    const [bx, by] = [to[0] - ox, to[1] - oy]
    const part = ax * by - bx * ay
    twice += part
    x += part * (ax + bx)
    y += part * (ay + by)
    ax = bx
    ay = by
  }
  return twice === 0 ? [ox, oy] : [ox + x / (3 * twice), oy + y / (3 * twice)]
}

/**
 * Where the marks stand: in the middle of each member that is long enough on the screen and not hidden there, and on each
 * plate that is seen broad enough, none on another.
 */
export function marksOf(
  { parts, plates }: Pick<Draft, 'parts' | 'plates'>,
  seen: readonly Seen[],
  place: Place,
): readonly MarkAt[] {
  const byId = new Map(seen.map((one) => [one.id, one]))
  const placed: MarkAt[] = []
  const put = (of: Omit<MarkAt, 'at'>, one: Seen, at: Point): boolean => {
    const [x, y] = toScreen(place, at)
    if (placed.some(({ at: [u, v] }) => Math.abs(x - u) <= room && Math.abs(y - v) <= room)) return false
    if (coveredAt(one.body, at, one.before)) return false
    placed.push({ ...of, at: [x, y] })
    return true
  }
  const size = ({ extent: { left, right, bottom, top } }: Seen) => [right - left, top - bottom] as const
  for (const { mark, members } of parts)
    for (const id of members) {
      const one = byId.get(id)
      if (one && Math.max(...size(one)) * place.scale >= leastLong)
        put({ id, mark }, one, middleOf(one.outline))
    }
  for (const { id, mark } of plates) {
    const one = byId.get(id)
    const least = one ? Math.min(...size(one)) * place.scale : 0
    if (!one || least < broad.least) continue
    const [x, y] = middleOf(one.outline)
    const halfway = one.outline.map(([u, v]): Point => [(x + u) / 2, (y + v) / 2])
    const spots: readonly Point[] = least > broad.most ? halfway : [[x, y]]
    spots.some((spot) => put({ id, mark, plate: true }, one, spot))
  }
  return placed
}

/**
 * Where the chosen part's own dimension line runs: along its longest direction on the page, on the side where the picture
 * has room for it, else outside, where the other dimensions are. Null where no member of it is seen at its true length.
 */
export function partLine(
  part: Part,
  seen: readonly Seen[],
  laid: Pick<Laid, 'place' | 'box'>,
): { from: Point; to: Point } | null {
  const { place, box } = laid
  for (const id of part.members) {
    const outline = seen.find((one) => one.id === id)?.outline.map((point) => toScreen(place, point))
    if (!outline) continue
    let best: { length: number; along: Point } = { length: 0, along: [1, 0] }
    outline.forEach(([x, y], at) => {
      const [u, v] = outline[(at + 1) % outline.length]!
      const length = Math.hypot(u - x, v - y)
      if (length > best.length) best = { length, along: [(u - x) / length, (v - y) / length] }
    })
    const { along } = best
    const on = ([x, y]: Point) => x * along[0] + y * along[1]
    const off = ([x, y]: Point) => -x * along[1] + y * along[0]
    const lengths = outline.map(on)
    const from = Math.min(...lengths)
    const to = Math.max(...lengths)
    if (Math.abs((to - from) / place.scale - part.longPoint) > 0.5) continue
    const offs = outline.map(off)
    const [least, most] = [Math.min(...offs), Math.max(...offs)]
    const across = [box.left, box.right].flatMap((x) => [box.top, box.bottom].map((y) => off([x, y])))
    const room = { before: least - Math.min(...across), behind: Math.max(...across) - most }
    // The number stands across an upright line: it needs more room there.
    const gap = 18 + 38 * Math.abs(along[1])
    const inside = Math.max(room.before, room.behind) >= 2 * gap
    const alike = Math.abs(room.behind - room.before) < 1
    // With as much room on both sides: below, since a strip may lie at the top of the sheet.
    const behind = alike ? along[0] > 0 : room.behind > room.before === inside
    const away = behind ? most + (inside ? gap : 18) : least - (inside ? gap : 18)
    const point = (s: number): Point => [s * along[0] - away * along[1], s * along[1] + away * along[0]]
    return { from: point(from), to: point(to) }
  }
  return null
}
