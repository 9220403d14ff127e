// Members and plates of a frame as exact solids, made from pose, section, ends, outline and holes alone.
import type { EndCut, Member, Plate } from '../../src/core/frame/frame.ts'
import {
  around,
  type Contour,
  circle,
  cross,
  cylinder,
  dot,
  drawnOnce,
  less,
  moved,
  onSide,
  prism,
  type Solid,
  shifted,
  type Xyz,
} from './kernel.ts'
import { box, type Chords, skin, steel } from './section.ts'

/** `box`: the sharp outside, filled; `skin`: the outside with round corners, filled; `steel`: as it is, hollow. */
export type As = 'box' | 'skin' | 'steel'

/** Flats round the cylinder that a saddle is cut with: on 50 mm they lie within 0.0002 mm of the round. */
const saddleFlats = 1024

export const contoursOf = (section: Member['section'], as: As, chords: Chords): readonly Contour[] =>
  ({ box, skin, steel })[as](section, chords)

/** How far along x the plane of an end reaches within the section, least and most. */
function span({ point, normal }: EndCut, { width, height }: Member['section']): readonly [number, number] {
  const middle = dot(normal, point) / normal[0]
  const swing = (Math.abs(normal[1]) * width + Math.abs(normal[2]) * height) / 2 / Math.abs(normal[0])
  return [middle - swing, middle + swing]
}

/** A member in its own frame: a prism, cut off by its end planes and saddles. */
export const ownSolid = (member: Member, as: As, chords: Chords = 32): Solid =>
  drawnOnce(`${as} ${chords} ${JSON.stringify([member.section, member.ends])}`, () =>
    cutBar(member, as, chords),
  )

function cutBar({ section, ends }: Member, as: As, chords: Chords): Solid {
  const [least] = span(ends[0], section)
  const [, most] = span(ends[1], section)
  const drawn = contoursOf(section, as, chords)
  const bar = prism(as === 'box' ? [withHorns(drawn[0]!, ends)] : drawn, least - 1, most + 1)
  return ends.reduce((solid, end, at) => cutOff(solid, end, at === 0 ? -1 : 1), bar)
}

/**
 * A round outline with corners also where it passes the other tube of a saddle most to the side: as wide as that, it
 * ends there in two sharp horns, which lie between the corners else.
 */
function withHorns(circle: Contour, ends: readonly EndCut[]): Contour {
  const horns = ends.flatMap(({ saddle }) => {
    if (!saddle) return []
    const [, y, z] = saddle.along
    const radius = Math.hypot(...circle[0]!) / Math.hypot(y, z)
    return [1, -1].map((side) => [-side * z * radius, side * y * radius] as const)
  })
  if (horns.length === 0) return circle
  const angle = ([y, z]: readonly [number, number]) => Math.atan2(z, y)
  const far = horns.filter((horn) =>
    circle.every((point) => Math.hypot(point[0] - horn[0], point[1] - horn[1]) > 1e-6),
  )
  return [...circle, ...far].sort((one, two) => angle(one) - angle(two))
}

function cutOff(solid: Solid, { point, normal, saddle }: EndCut, side: -1 | 1): Solid {
  if (normal[0] * side <= 0) throw new Error(`the normal ${normal.join(', ')} does not point out of its end`)
  const outward = normal.map((n) => -n) as unknown as Xyz
  const cut = onSide(solid, outward, dot(outward, point))
  if (!saddle) return cut
  const { along, radius } = saddle
  const long = 20 * radius + 2000
  const start = saddle.point.map((c, axis) => c - (along[axis]! * long) / 2) as unknown as Xyz
  // A tube as wide as the other one ends in two thin horns, just where a corner of the flats must lie.
  const tube = cylinder(start, along, long, radius, saddleFlats, cross(along, [1, 0, 0]))
  // What lies beyond the other tube goes too.
  return less(cut, around([tube, shifted(tube, [side * 4 * long, 0, 0])]))
}

/** A member where it stands in the world. */
export const memberSolid = (member: Member, as: As, chords?: Chords): Solid =>
  moved(ownSolid(member, as, chords), member.pose)

/** What a member is in its own frame, in words: two with the same words are one solid, wherever they stand. */
export const shapeOf = ({ section, ends }: Member): string =>
  JSON.stringify([section, ends], (_, value: unknown) =>
    typeof value === 'number' ? Math.round(value * 1e9) / 1e9 || 0 : value,
  )

/** The first of the members of each shape. */
export const ofEachShape = (members: readonly Member[]): Member[] =>
  [...new Map([...members].reverse().map((member) => [shapeOf(member), member])).values()].reverse()

/** Flats round a hole. */
export const holeFlats = 64

/** A plate in the world, its holes drilled. */
export function plateSolid({ polygon, holes, slots = [], thickness, pose }: Plate): Solid {
  const turned = drawnTurn(polygon) < 0 ? [...polygon].reverse() : polygon
  const drilled = holes.map(([x, y, diameter]) =>
    [...circle(diameter / 2, holeFlats)].reverse().map(([dx, dy]) => [x + dx, y + dy] as const),
  )
  // A prism runs along x with its outline in (y, z): turned so that the outline lies in xy, thickness along z.
  return moved(
    moved(
      prism([turned, ...drilled, ...slots.map(slotOutline)], 0, thickness),
      [0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1],
    ),
    pose,
  )
}

/** Round-ended, clockwise: half a circle at each end. */
function slotOutline({ x, y, width, length, angle }: NonNullable<Plate['slots']>[number]): Contour {
  const flats = holeFlats / 2
  const along = (angle * Math.PI) / 180
  const half = (length - width) / 2
  return [1, -1]
    .flatMap((end) =>
      Array.from({ length: flats + 1 }, (_, k) => {
        const at = along + (end > 0 ? 0 : Math.PI) - Math.PI / 2 + (Math.PI * k) / flats
        return [
          x + end * half * Math.cos(along) + (width / 2) * Math.cos(at),
          y + end * half * Math.sin(along) + (width / 2) * Math.sin(at),
        ] as const
      }),
    )
    .reverse()
}

const drawnTurn = (polygon: Contour): number =>
  polygon.reduce((sum, [x, y], at) => {
    const [nextX, nextY] = polygon[(at + 1) % polygon.length]!
    return sum + (x * nextY - nextX * y)
  }, 0)
