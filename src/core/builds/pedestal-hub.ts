import { roundCorners } from '../frame/cap.ts'
import { flatOn } from '../frame/flat.ts'
import type { Joint, Member, Plate } from '../frame/frame.ts'
import { regular } from '../geometry/polygon.ts'
import type { Pose } from '../geometry/pose.ts'
import { bad, good, type Result } from '../result.ts'
import { isRound, type Section } from '../section/section.ts'
import { cosDeg, type Deg, type Mm, sinDeg, tanDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { armAngles } from './pedestal-turn.ts'

// Plates of a pedestal: the hub over its arms, and the base that stands instead of them.

/** Lying level with its underside at `z`, turned about the middle. */
export const level = (angle: Deg, z: Mm): Pose => [
  cosDeg(angle),
  sinDeg(angle),
  0,
  0,
  -sinDeg(angle),
  cosDeg(angle),
  0,
  0,
  0,
  0,
  1,
  0,
  0,
  0,
  z,
  1,
]

/** Outline of a plate so far across: a round one is drawn with many corners. */
export const outlineAcross = (shape: 'round' | 'square', size: Mm): Plate['polygon'] =>
  shape === 'square'
    ? regular(4, size / 2)
    : Array.from({ length: roundCorners }, (_, k) => {
        const angle = (360 * k) / roundCorners
        return [(size / 2) * cosDeg(angle), (size / 2) * sinDeg(angle)] as const
      })

/** Least a plate may measure across so that the post's foot stands on it, turned any way. */
export const leastUnder = ({ width, height, kind }: Section): Mm =>
  isRound({ kind } as Section) ? width : Math.hypot(width, height)

interface Hub {
  /** From the middle to the inner end of each arm, root gap not counted: there the corners of neighbors touch. */
  readonly inner: Mm
  readonly plate: (
    values: Values,
    context: BuildContext,
    levels: Levels,
    post: Member,
  ) => Result<{ readonly plate: Plate; readonly post: Member; readonly joint: Joint }>
}

/** The hub plate over the arms, the post on it. */
export function hubOf(values: Values, arm: Section): Hub {
  const angles = armAngles(values)
  const inner = angles.length === 2 ? 0 : arm.width / 2 / tanDeg(180 / angles.length)
  return {
    inner,
    plate(_, { say, gap }, { clear }, post) {
      const size = values.hubSize as Mm
      const thickness = values.hubThickness as Mm
      const least = Math.max(leastUnder(post.section), 2 * (inner + gap))
      if (!(size > least))
        return bad(
          'hub-too-small',
          `A hub plate ${say(size)} across does not cover the post’s foot and the inner ends of the arms; it must be more than ${say(least)}.`,
          'build.params.hubSize',
        )
      if (!(thickness > 0))
        return bad(
          'thickness',
          `The hub plate was given as ${say(thickness)} thick; it must be more than 0.`,
          'build.params.hubThickness',
        )
      const plate: Plate = {
        id: 'base/hub',
        name: 'Hub plate',
        polygon: outlineAcross(values.hubShape as 'round' | 'square', size),
        holes: [],
        thickness,
        pose: level(angles[0]!, clear + arm.height),
        on: [...angles.map((_, at) => `base/arm-${at + 1}`), post.id],
      }
      const stands = flatOn('base/post-foot', post, 'A', plate, gap)
      return good({ plate, post: stands.member, joint: stands.joint })
    },
  }
}
