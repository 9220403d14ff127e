// The outline of a cut end: where the outside of the tube meets its cut, as points close together.

import type { Member } from '../../src/core/frame/frame.ts'
import { toWorld } from '../../src/core/geometry/pose.ts'
import { dot, surfaceOf, type Xyz } from './kernel.ts'
import { skin } from './section.ts'
import { ownSolid } from './solid.ts'

/** Points on a planar outline; one of them missing is a thousandth. */
const many = 1000
/** Flats of the outside of a round tube that ends in a saddle. */
const chords = 64

/** World points along the outline of end A (0) or B (1): of the steel with its round corners, or of a saddle. */
export function outlineOf(member: Member, end: 0 | 1): Xyz[] {
  const { point, normal, saddle } = member.ends[end]
  if (saddle) return saddleRim(member, end)
  const level = dot(normal, point)
  return along(skin(member.section, 250)[0]!, many).map(([y, z]) =>
    toWorld(member.pose, [(level - normal[1] * y - normal[2] * z) / normal[0], y, z]),
  )
}

/** Corners that the saddle left on the outside of the tube. */
function saddleRim(member: Member, end: 0 | 1): Xyz[] {
  const { points } = surfaceOf(ownSolid(member, 'box', chords))
  const middle = (member.ends[0].point[0] + member.ends[1].point[0]) / 2
  const radius = member.section.width / 2
  const rim = points.filter(
    ([x, y, z]) => (end === 0 ? x < middle : x > middle) && Math.abs(Math.hypot(y, z) - radius) < 1e-6,
  )
  if (rim.length < 4 * chords) throw new Error(`${member.id} has no whole rim at end ${'AB'[end]}`)
  return rim.map((point) => toWorld(member.pose, point))
}

/** Points evenly spaced along a closed polygon. */
function along(polygon: readonly (readonly [number, number])[], count: number): [number, number][] {
  const sides = polygon.map((from, at) => {
    const to = polygon[(at + 1) % polygon.length]!
    return { from, to, length: Math.hypot(to[0] - from[0], to[1] - from[1]) }
  })
  const whole = sides.reduce((sum, { length }) => sum + length, 0)
  const points: [number, number][] = []
  let at = 0
  let before = 0
  for (let k = 0; k < count; k++) {
    const way = (k * whole) / count
    while (way > before + sides[at]!.length && at < sides.length - 1) {
      before += sides[at]!.length
      at += 1
    }
    const { from, to, length } = sides[at]!
    const t = (way - before) / length
    points.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])])
  }
  return points
}
