import type { Vec3 } from '../geometry/vec3.ts'
import { cosDeg, type Deg, type Mm, sinDeg } from '../units.ts'
import type { Values } from './build.ts'

// How the arms, the spider and the post of a pedestal are turned under the top. Degrees from the right, counterclockwise
// seen from above; side 1 of the top looks to the front.

function pointing(values: Values, point: string, angle: string): Deg {
  if (values[point] === 'to a side') return -90
  if (values[point] === 'to a corner') return -90 + 180 / (values.sides as number)
  return values[point] === 'at an angle' ? (values[angle] as Deg) : 0
}

const round = (first: Deg, count: number): readonly Deg[] =>
  Array.from({ length: count }, (_, k) => first + (360 * k) / count)

/** Where the arms point; none on a base plate. */
export const armAngles = (values: Values): readonly Deg[] =>
  values.base === 'base plate' ? [] : round(pointing(values, 'armsPoint', 'armsAngle'), Number(values.arms))

/** Where the bars of a spider point; none under cross bars. */
export const spiderAngles = (values: Values): readonly Deg[] =>
  values.bars === 'spider'
    ? round(pointing(values, 'spiderPoint', 'spiderAngle'), values.spiderBars as number)
    : []

/** Where the post's first face looks. */
export const postAngle = (values: Values): Deg =>
  values.postFaces === 'with the top' ? 0 : (armAngles(values)[0] ?? spiderAngles(values)[0] ?? 0)

/** The point so far from the middle, at a height. */
export const toward = (angle: Deg, away: Mm, height: Mm): Vec3 => [
  cosDeg(angle) * away,
  sinDeg(angle) * away,
  height,
]
