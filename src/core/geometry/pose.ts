import { add, cross, dot, scale, sub, unit, type Vec3 } from './vec3.ts'

/** A right-handed frame as 16 numbers, column-major: columns x, y, z, origin. */
export type Pose = readonly number[]

const column = (pose: Pose, at: number): Vec3 => [pose[at * 4]!, pose[at * 4 + 1]!, pose[at * 4 + 2]!]

export const axisX = (pose: Pose): Vec3 => column(pose, 0)
export const axisY = (pose: Pose): Vec3 => column(pose, 1)
export const axisZ = (pose: Pose): Vec3 => column(pose, 2)
export const origin = (pose: Pose): Vec3 => column(pose, 3)

/** Pose at `at` with x along `along` and z as near to `up` as can be; `up` must not lie along `along`. */
export function poseAlong(at: Vec3, along: Vec3, up: Vec3): Pose {
  const x = unit(along)
  const z = unit(sub(up, scale(x, dot(up, x))))
  const y = cross(z, x)
  return [...x, 0, ...y, 0, ...z, 0, ...at, 1]
}

export const dirToWorld = (pose: Pose, d: Vec3): Vec3 =>
  add(add(scale(axisX(pose), d[0]), scale(axisY(pose), d[1])), scale(axisZ(pose), d[2]))

export const toWorld = (pose: Pose, p: Vec3): Vec3 => add(origin(pose), dirToWorld(pose, p))

export const dirToLocal = (pose: Pose, d: Vec3): Vec3 => [
  dot(d, axisX(pose)),
  dot(d, axisY(pose)),
  dot(d, axisZ(pose)),
]

export const toLocal = (pose: Pose, p: Vec3): Vec3 => dirToLocal(pose, sub(p, origin(pose)))
