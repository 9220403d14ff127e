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

// The four maps between local and world are asked for thousands of times in one plan: plain sums, no vectors between.

export const dirToWorld = (m: Pose, [x, y, z]: Vec3): Vec3 => [
  m[0]! * x + m[4]! * y + m[8]! * z,
  m[1]! * x + m[5]! * y + m[9]! * z,
  m[2]! * x + m[6]! * y + m[10]! * z,
]

export const toWorld = (m: Pose, [x, y, z]: Vec3): Vec3 => [
  m[12]! + (m[0]! * x + m[4]! * y + m[8]! * z),
  m[13]! + (m[1]! * x + m[5]! * y + m[9]! * z),
  m[14]! + (m[2]! * x + m[6]! * y + m[10]! * z),
]

export const dirToLocal = (m: Pose, [x, y, z]: Vec3): Vec3 => [
  x * m[0]! + y * m[1]! + z * m[2]!,
  x * m[4]! + y * m[5]! + z * m[6]!,
  x * m[8]! + y * m[9]! + z * m[10]!,
]

export const toLocal = (m: Pose, [x, y, z]: Vec3): Vec3 => dirToLocal(m, [x - m[12]!, y - m[13]!, z - m[14]!])
