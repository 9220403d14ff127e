import { cross, dot, scale, sub, unit, type Vec3 } from './vec3.ts'

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

// The four maps between local and world are asked for thousands of times in one plan, also before the browser has learned
// to do it fast: plain sums, no vectors between, and none taken apart by names.

export const dirToWorld = (m: Pose, v: Vec3): Vec3 => [
  m[0]! * v[0] + m[4]! * v[1] + m[8]! * v[2],
  m[1]! * v[0] + m[5]! * v[1] + m[9]! * v[2],
  m[2]! * v[0] + m[6]! * v[1] + m[10]! * v[2],
]

export const toWorld = (m: Pose, v: Vec3): Vec3 => [
  m[12]! + (m[0]! * v[0] + m[4]! * v[1] + m[8]! * v[2]),
  m[13]! + (m[1]! * v[0] + m[5]! * v[1] + m[9]! * v[2]),
  m[14]! + (m[2]! * v[0] + m[6]! * v[1] + m[10]! * v[2]),
]

export const dirToLocal = (m: Pose, v: Vec3): Vec3 => [
  v[0] * m[0]! + v[1] * m[1]! + v[2] * m[2]!,
  v[0] * m[4]! + v[1] * m[5]! + v[2] * m[6]!,
  v[0] * m[8]! + v[1] * m[9]! + v[2] * m[10]!,
]

export const toLocal = (m: Pose, v: Vec3): Vec3 =>
  dirToLocal(m, [v[0] - m[12]!, v[1] - m[13]!, v[2] - m[14]!])
