import { cap } from '../frame/cap.ts'
import type { Hardware, Joint, Member, Plate } from '../frame/frame.ts'
import { miter } from '../frame/joint.ts'
import { cutEnd, type End, member } from '../frame/member.ts'
import type { Deg, Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { levelerText } from './leveler.ts'
import { toward } from './pedestal-turn.ts'

/** The turned-down feet of a pedestal's arms, each with what stands under it. */
export interface Feet {
  /** The arm with its outer end mitered to foot `at`, counted from 0. */
  readonly turnDown: (arm: Member, end: End, at: number) => Member
  /** What has become of the feet: call it when every arm is turned down. */
  readonly made: () => {
    readonly members: readonly Member[]
    readonly joints: readonly Joint[]
    readonly plates: readonly Plate[]
    readonly hardware: readonly Hardware[]
  }
}

/** Feet below arms that point so, their axes meeting those of the arms `elbow` from the middle and `z` high. */
export function feetOf(
  values: Values,
  context: BuildContext,
  levels: Levels,
  angles: readonly Deg[],
  elbow: Mm,
  z: Mm,
): Feet {
  const { gap } = context
  const { armSection: section, capThickness, setting, drill, thread } = levels
  const joints: Joint[] = []
  const plates: Plate[] = []
  const feet = angles.map((angle, at) => {
    const low = toward(angle, elbow, setting)
    const foot = member(
      `base/foot-${at + 1}`,
      `Foot ${at + 1}`,
      section,
      toward(angle, elbow, z),
      low,
      toward(angle, 1, 0),
      gap,
    )
    const cut = cutEnd(foot, 'B', low, [0, 0, 1], 'open')
    if (capThickness === 0) return cut
    const capped = cap(`base/cap-${at + 1}`, cut, 'B', capThickness, {
      name: `Foot cap ${at + 1}`,
      holes: drill > 0 ? [[0, 0, drill]] : [],
      ...(thread ? { thread } : {}),
    })
    plates.push(capped.plate)
    joints.push(capped.joint)
    return capped.member
  })
  return {
    turnDown(arm, end, at) {
      const made = miter(`base/elbow-${at + 1}`, arm, end, feet[at]!, 'A', toward(angles[at]!, elbow, z), gap)
      feet[at] = made.members[1]
      joints.push(made.joint)
      return made.members[0]
    },
    made: () => ({
      members: feet,
      joints,
      plates,
      hardware: thread
        ? angles.map((angle, at) => ({
            id: `base/leveler-${at + 1}`,
            kind: 'leveler',
            count: 1,
            at: toward(angle, elbow, setting),
            text: levelerText(values, context, thread),
          }))
        : [],
    }),
  }
}
