import type { Member } from '../frame/frame.ts'
import { member } from '../frame/member.ts'
import type { Point } from '../geometry/polygon.ts'
import { axisX, axisY, axisZ, type Pose, poseAlong } from '../geometry/pose.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameSlope } from '../tolerance.ts'
import { type Deg, type Mm, tanDeg, toDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'

// How four legs lean. Everything is worked out for the leg at the back right; the others are its mirror images.

/** Left and right, front and back, by the number of the leg: front left first, counterclockwise seen from above. */
export const corners: readonly Point[] = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
]

/** The greatest lean: a leg that leans more is a brace, and no longer lands under a frame. */
const mostLean: Deg = 45

/** Heights that the legs go between, mm above the floor. */
export interface Reach {
  /** Where the legs end, on the cap or on the floor: a cap's edges stand upright, so it reaches no farther out. */
  readonly foot: Mm
  /** Height at which the outside of the legs lies on the outline that they are set to. */
  readonly set: Mm
  /** Half of that outline, along the length and the width. */
  readonly half: Point
}

export interface Splay {
  readonly section: Section
  /** Tangents of the lean along the length and along the width. */
  readonly lean: Point
  /** From upright, in the direction of the lean. */
  readonly angle: Deg
  /** Whether the tube is turned to a lean that goes both ways, so that no face looks along the frame. */
  readonly turned: boolean
  /** Half of the leg's outline in a level plane: along its width (local y) and along its height (local z). */
  readonly a: Point
  readonly b: Point
  /** How far that outline reaches from the axis, along the length and the width. */
  readonly out: Point
  /** Axis of the leg at the back right at a height. */
  readonly axis: (z: Mm) => Point
}

/** Pose of a leg, x up along its axis; `turned` to the lean, or one pair of faces in line with the width. */
function poseOf([x, y]: Point, foot: Vec3, [tx, ty]: Point, turned: boolean): Pose {
  const along: Vec3 = [-x * tx, -y * ty, 1]
  return poseAlong(foot, along, turned ? [-y * ty, x * tx, 0] : [0, y, 0])
}

/** Half of the outline in a level plane, from the middle along a direction of the section. */
function level(pose: Pose, across: Vec3, half: Mm): Point {
  const along = axisX(pose)
  const drop = across[2] / along[2]
  return [half * (across[0] - drop * along[0]), half * (across[1] - drop * along[1])]
}

/** The splay that is asked for, or why it cannot be and what can. */
export function splayOf(
  values: Values,
  context: BuildContext,
  section: Section,
  reach: Reach,
): Result<Splay> {
  const lean = leanOf(values, context, reach)
  if (!lean.ok) return lean
  const [tx, ty] = lean.value
  const turned = values.legTurned === 'to the lean' && tx > sameSlope && ty > sameSlope
  const pose = poseOf([1, 1], [0, 0, 0], lean.value, turned)
  const a = level(pose, axisY(pose), section.width / 2)
  const b = level(pose, axisZ(pose), section.height / 2)
  const out: Point = [Math.abs(a[0]) + Math.abs(b[0]), Math.abs(a[1]) + Math.abs(b[1])]
  return good({
    section,
    lean: lean.value,
    angle: toDeg(Math.atan(Math.hypot(tx, ty))),
    turned,
    a,
    b,
    out,
    axis: (z) => [
      reach.half[0] - out[0] + (reach.set - z) * tx,
      reach.half[1] - out[1] + (reach.set - z) * ty,
    ],
  })
}

function leanOf(values: Values, { say }: BuildContext, { foot, set, half }: Reach): Result<Point> {
  if (values.splay === 'straight') return good([0, 0])
  const most = tanDeg(mostLean)
  if (values.splay === 'angles') {
    const lean: Point = [tanDeg(values.leanLength as Deg), tanDeg(values.leanWidth as Deg)]
    const angle = toDeg(Math.atan(Math.hypot(...lean)))
    if (angle <= mostLean + sameSlope) return good(lean)
    const possible = toDeg(Math.atan(Math.sqrt(most ** 2 - Math.min(lean[0], 1) ** 2)))
    return bad(
      'splay-too-great',
      `${values.leanLength}° along the length and ${values.leanWidth}° along the width are a lean of ${angle.toFixed(1)}°; ` +
        `a leg can lean ${mostLean}°: with ${values.leanLength}° along the length, ${possible.toFixed(1)}° along the width.`,
      'build.params.leanWidth',
    )
  }
  const feet: Point = [values.feetLength as Mm, values.feetWidth as Mm]
  const lean: Point = [
    (feet[0] / 2 - half[0]) / (set - foot), //
    (feet[1] / 2 - half[1]) / (set - foot),
  ]
  for (const way of [0, 1] as const) {
    const field = way === 0 ? 'feetLength' : 'feetWidth'
    const other = way === 0 ? 0 : Math.min(lean[0], most)
    const least = 2 * half[way]
    if (lean[way] < -sameSlope)
      return bad(
        'feet-too-near',
        `Feet ${say(feet[way])} apart make the legs lean inward; it must be ${say(least)} or more, where they stand straight.`,
        `build.params.${field}`,
      )
    if (Math.hypot(other, lean[way]) > most + sameSlope) {
      const widest = least + 2 * (set - foot) * Math.sqrt(most ** 2 - other ** 2)
      return bad(
        'splay-too-great',
        `Feet ${say(feet[way])} apart make the legs lean ${toDeg(Math.atan(Math.hypot(other, lean[way]))).toFixed(1)}°; ` +
          `they can lean ${mostLean}°, with the feet ${say(widest)} apart.`,
        `build.params.${field}`,
      )
    }
  }
  return good([Math.max(lean[0], 0), Math.max(lean[1], 0)])
}

/** The four legs along their axes, foot at end A; their ends are still square. */
export const legsOf = (splay: Splay, foot: Mm, top: Mm, gap: Mm): Member[] =>
  corners.map((corner, at) => {
    const on = (z: Mm): Vec3 => {
      const [x, y] = splay.axis(z)
      return [corner[0] * x, corner[1] * y, z]
    }
    const pose = poseOf(corner, on(foot), splay.lean, splay.turned)
    return member(`legs/leg-${at + 1}`, `Leg ${at + 1}`, splay.section, on(foot), on(top), axisZ(pose), gap)
  })
