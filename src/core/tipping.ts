import type { Frame, Member, Plate } from './frame/frame.ts'
import { endCorners } from './frame/member.ts'
import { outsideAt } from './frame/round-end.ts'
import { area, type Point } from './geometry/polygon.ts'
import { toWorld } from './geometry/pose.ts'
import type { Vec3 } from './geometry/vec3.ts'
import type { Plan } from './plan-shapes.ts'
import { isRound } from './section/section.ts'
import { samePoint } from './tolerance.ts'
import type { Mm } from './units.ts'

/**
 * Over which line between two feet a thing tips first when its edge is loaded, standing still on a level floor: it
 * stays while weight × inside ≥ load × outside (shared/reference, 7.2). Of the steel alone; an estimate.
 */
export interface Tipping {
  /** From the point over which the weight hangs to the line, mm. */
  readonly inside: Mm
  /** How far the edge on top stands past the line, mm; 0 where it does not reach over it. */
  readonly outside: Mm
  /** Load on that edge that tips it, in the unit of the weight; infinite where the edge lies inside. */
  readonly load: number
  /** Push to the side at the height of the top that tips it, in the unit of the weight; it must not slide. */
  readonly push: number
}

/** The lines between neighboring feet, counterclockwise round all of them. */
export function tipLines(feet: readonly Point[]): readonly (readonly [Point, Point])[] {
  const sorted = [...feet].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const turn = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
  const half = (points: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of points) {
      while (chain.length >= 2 && turn(chain.at(-2)!, chain.at(-1)!, point) <= samePoint) chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  const round = [...half(sorted), ...half([...sorted].reverse())]
  return round.length < 3 ? [] : round.map((from, at) => [from, round[(at + 1) % round.length]!] as const)
}

/** Where it tips first. `top`: corners of what can be loaded; `height`: of the top over the floor. */
export function tippingOver(
  feet: readonly Point[],
  top: readonly Point[],
  middle: Point,
  weight: number,
  height: Mm,
): Tipping | undefined {
  const lines = tipLines(feet).map(([from, to]): Tipping => {
    const long = Math.hypot(to[0] - from[0], to[1] - from[1])
    // Positive outside of the line.
    const past = ([x, y]: Point) =>
      ((x - from[0]) * (to[1] - from[1]) - (y - from[1]) * (to[0] - from[0])) / long
    const inside = -past(middle)
    const outside = Math.max(0, ...top.map(past))
    return {
      inside,
      outside,
      load: outside > samePoint ? (weight * inside) / outside : Number.POSITIVE_INFINITY,
      push: (weight * inside) / height,
    }
  })
  const least = (by: 'load' | 'push') =>
    lines.reduce<Tipping | undefined>((best, line) => (best && best[by] <= line[by] ? best : line), undefined)
  const worst = least('load')
  return worst && Number.isFinite(worst.load) ? { ...worst, push: least('push')!.push } : least('push')
}

/** The same of a planned thing, weights in kg; absent where it lies flat or stands on less than three points. */
export function tippingOf(plan: Pick<Plan, 'frame' | 'parts' | 'plates'>): Tipping | undefined {
  const { frame } = plan
  const points = pointsOf(frame)
  const least = Math.min(...points.map(([, , z]) => z))
  const most = Math.max(...points.map(([, , z]) => z))
  const at = (level: Mm): Point[] =>
    points.filter(([, , z]) => Math.abs(z - level) < samePoint).map(([x, y]) => [x, y])
  const levelers = frame.hardware
    .filter(({ kind }) => kind === 'leveler')
    .map(({ at: [x, y] }): Point => [x, y])
  const { middle, weight } = massOf(plan)
  return tippingOver(levelers.length > 0 ? levelers : at(least), at(most), middle, weight, most - frame.floor)
}

function pointsOf({ members, plates }: Frame): Vec3[] {
  return [
    ...members.flatMap((member) =>
      (['A', 'B'] as const).flatMap((end) =>
        isRound(member.section)
          ? Array.from({ length: 48 }, (_, k) => outsideAt(member, end, (k * Math.PI) / 24))
          : endCorners(member, end),
      ),
    ),
    ...plates.flatMap((plate) =>
      [0, plate.thickness].flatMap((z) => plate.polygon.map(([x, y]) => toWorld(plate.pose, [x, y, z]))),
    ),
  ]
}

/** Weight of the steel, kg, and the point of the floor under its middle. */
function massOf({ frame, parts, plates }: Pick<Plan, 'frame' | 'parts' | 'plates'>) {
  const each = new Map<string, number>()
  for (const part of parts) for (const id of part.members) each.set(id, part.mass)
  for (const { id, mass } of plates) each.set(id, mass)
  const hung = [
    ...frame.members.map((member) => ({ id: member.id, at: middleOf(member) })),
    ...frame.plates.map((plate) => ({ id: plate.id, at: toWorld(plate.pose, [...centroid(plate), 0]) })),
  ]
  let [weight, x, y] = [0, 0, 0]
  for (const { id, at } of hung) {
    const mass = each.get(id) ?? 0
    weight += mass
    x += mass * at[0]
    y += mass * at[1]
  }
  return { weight, middle: [x / weight, y / weight] as Point }
}

/** Half way between the middles of its ends: exact to what the slant of the ends shifts it. */
const middleOf = ({ pose, ends: [a, b] }: Member): Vec3 =>
  toWorld(pose, [(a.point[0] + b.point[0]) / 2, 0, 0])

function centroid({ polygon }: Plate): Point {
  let [x, y] = [0, 0]
  let from = polygon.at(-1)!
  for (const to of polygon) {
    const cross = from[0] * to[1] - to[0] * from[1]
    x += (from[0] + to[0]) * cross
    y += (from[1] + to[1]) * cross
    from = to
  }
  const six = 6 * area(polygon)
  return [x / six, y / six]
}
