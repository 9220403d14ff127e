import { counterclockwise, type Polygon } from '../geometry/polygon.ts'
import { dirToWorld, type Pose, toLocal, toWorld } from '../geometry/pose.ts'
import { add, cross, scale, unit, type Vec3 } from '../geometry/vec3.ts'
import { isRound } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { Joint, Member, Plate } from './frame.ts'
import { type End, edgeCorners, endIndex, endPlane, xAt } from './member.ts'

/** Corners that stand for a round outline: on a tube of 100 mm the chords lie within 0.03 mm of it. */
export const roundCorners = 96

export interface CapDetails {
  readonly name?: string
  /** x, y, diameter, from the middle of the cap. */
  readonly holes?: Plate['holes']
  readonly thread?: string
}

/**
 * A plate of `thickness` on an end. The end is given as it would be without the cap; the member is cut shorter by the
 * thickness, square to the end, so that the axis of a leaning leg gives thickness/cos(lean), and the cap is as long
 * as the end's outline, width/cos(lean): the finished thing stays where it was.
 */
export function cap(
  id: string,
  of: Member,
  end: End,
  thickness: Mm,
  { name = 'Cap', holes = [], thread }: CapDetails = {},
): { readonly member: Member; readonly plate: Plate; readonly joint: Joint } {
  const cut = of.ends[endIndex(end)]
  const plane = endPlane(cut)
  const normal = dirToWorld(of.pose, cut.normal)
  const shortened = { ...plane, x: plane.x - thickness / cut.normal[0] }
  const meets: Vec3 = [shortened.x, 0, 0]
  const ends =
    end === 'A'
      ? ([{ ...cut, point: meets }, of.ends[1]] as const)
      : ([of.ends[0], { ...cut, point: meets }] as const)
  const mates = end === 'A' ? ([id, of.mates[1]] as const) : ([of.mates[0], id] as const)
  const at = toWorld(of.pose, meets)
  const [y, z] = longWay(of, plane.p, plane.q)
  const pose = lyingIn(
    add(at, scale(normal, thickness)),
    dirToWorld(of.pose, [plane.p * y + plane.q * z, y, z]),
    normal,
  )
  const polygon = rim(of, plane.p, plane.q).map(([v, w]): readonly [Mm, Mm] => {
    const [px, py] = toLocal(pose, toWorld(of.pose, [xAt(shortened, v, w), v, w]))
    return [px, py]
  })
  return {
    member: { ...of, ends, mates },
    plate: {
      id,
      name,
      polygon: counterclockwise(polygon),
      holes,
      thickness,
      pose,
      ...(thread === undefined ? {} : { thread }),
      on: [of.id],
    },
    joint: { id, kind: 'cap', members: [of.id, id], at, ends: [end, 'side'] },
  }
}

/** Direction across the section, (y, z), along which the cap's own x lies: its width, or the long way of an oval. */
function longWay({ section }: Member, p: number, q: number): readonly [number, number] {
  const slope = Math.hypot(p, q)
  return isRound(section) && slope > sameSlope ? [p / slope, q / slope] : [1, 0]
}

/** Outline of the section, (y, z): four sharp corners, or points round a circle that begin where the cut is longest. */
function rim({ section }: Member, p: number, q: number): Polygon {
  if (!isRound(section)) return edgeCorners(section)
  const start = Math.atan2(q, p)
  return Array.from({ length: roundCorners }, (_, k) => {
    const angle = start + (2 * Math.PI * k) / roundCorners
    return [(section.width / 2) * Math.cos(angle), (section.width / 2) * Math.sin(angle)] as const
  })
}

/** A plate's pose: outer face at `at`, thickness toward the member, x along `along`. */
function lyingIn(at: Vec3, along: Vec3, outward: Vec3): Pose {
  const z = scale(outward, -1)
  const x = unit(along)
  return [...x, 0, ...cross(z, x), 0, ...z, 0, ...at, 1]
}
