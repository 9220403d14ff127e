import type { Hardware, Joint, Member, Plate, Warning } from '../frame/frame.ts'
import { miter } from '../frame/joint.ts'
import { cutEnd, member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import { cosDeg, type Mm, sinDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { levelerText } from './leveler.ts'

// The arms of a pedestal, from the post to their turned-down feet.

/** Four arms on a post narrower than they are run into each other at its corners. */
export function armsCollide(
  values: Values,
  { say, gap }: BuildContext,
  arm: Section,
): Result<never> | undefined {
  const post = values.postSection as Section
  // Each arm stands off its face by the root gap.
  const room = Math.max(post.width, post.height) + 2 * gap
  if (values.armsMeet !== 'on the post' || values.arms !== '4' || arm.width <= room + sameLength)
    return undefined
  return bad(
    'arms-collide',
    `Four arms ${say(arm.width)} wide run into each other at the corners of a post ${say(post.width)} × ${say(post.height)}; ` +
      `on this post they can be at most ${say(room)} wide, or two arms, or arms that cross under the post.`,
    'build.params.armSection',
  )
}

export interface Arms {
  readonly post: Member
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly plates: readonly Plate[]
  readonly hardware: readonly Hardware[]
  readonly warnings: readonly Warning[]
}

export function armsOf(values: Values, context: BuildContext, levels: Levels, post: Member): Arms {
  const { gap } = context
  const { armSection: section, capThickness, setting, clear } = levels
  const count = Number(values.arms)
  const onPost = values.armsMeet === 'on the post'
  const angles = count === 2 ? [0, 180] : [0, 90, 180, 270]
  const z = clear + section.height / 2
  const outer = (values.spread as Mm) / 2
  const elbow = outer - section.height / 2
  const toward = (angle: number, away: Mm, height: Mm): Vec3 => [
    cosDeg(angle) * away,
    sinDeg(angle) * away,
    height,
  ]
  const joints: Joint[] = []
  const members: Member[] = []
  const plates: Plate[] = []
  const hardware: Hardware[] = []
  const up: Vec3 = [0, 0, 1]
  const footEnd = setting + capThickness
  const feet = angles.map((angle, at) => {
    const id = `base/foot-${at + 1}`
    const foot = member(
      id,
      `Foot ${at + 1}`,
      section,
      toward(angle, elbow, z),
      toward(angle, elbow, footEnd),
      toward(angle, 1, 0),
      gap,
    )
    return cutEnd(
      foot,
      'B',
      toward(angle, elbow, footEnd),
      up,
      capThickness > 0 ? `base/cap-${at + 1}` : 'open',
    )
  })
  const turnDown = (arm: Member, end: 'A' | 'B', at: number): Member => {
    const made = miter(`base/elbow-${at + 1}`, arm, end, feet[at]!, 'A', toward(angles[at]!, elbow, z), gap)
    feet[at] = made.members[1]
    joints.push(made.joint)
    return made.members[0]
  }
  const postOut: Member = onPost ? post : { ...post, mates: ['base/arm-1', post.mates[1]] }
  if (onPost)
    for (const [at, angle] of angles.entries()) {
      const start = (angle % 180 === 0 ? post.section.width : post.section.height) / 2 + gap
      const arm = member(
        `base/arm-${at + 1}`,
        `Arm ${at + 1}`,
        section,
        toward(angle, start, z),
        toward(angle, elbow, z),
        up,
        gap,
      )
      members.push(turnDown(cutEnd(arm, 'A', toward(angle, start, z), toward(angle, 1, 0), post.id), 'B', at))
      joints.push({
        id: `base/arm-${at + 1}/post`,
        kind: 'butt',
        members: [`base/arm-${at + 1}`, post.id],
        at: toward(angle, start - gap, z),
        ends: ['A', 'side'],
      })
    }
  else {
    const half = count / 2
    let through = member(
      'base/arm-1',
      'Arm, through',
      section,
      toward(180, elbow, z),
      toward(0, elbow, z),
      up,
      gap,
    )
    through = turnDown(turnDown(through, 'B', 0), 'A', half)
    members.push(through)
    joints.push({
      id: 'base/post-foot',
      kind: 'butt',
      members: [post.id, through.id],
      at: [0, 0, clear + section.height],
      ends: ['A', 'side'],
    })
    for (const at of count === 4 ? [1, 3] : []) {
      const angle = angles[at]!
      const start = section.width / 2 + gap
      const arm = member(
        `base/arm-${at + 1}`,
        `Half arm ${at + 1}`,
        section,
        toward(angle, start, z),
        toward(angle, elbow, z),
        up,
        gap,
      )
      members.push(
        turnDown(cutEnd(arm, 'A', toward(angle, start, z), toward(angle, 1, 0), through.id), 'B', at),
      )
      joints.push({
        id: `base/arm-${at + 1}/through`,
        kind: 'butt',
        members: [`base/arm-${at + 1}`, through.id],
        at: toward(angle, start - gap, z),
        ends: ['A', 'side'],
      })
    }
  }
  members.push(...feet)
  for (const [at, angle] of angles.entries()) {
    const center = toward(angle, elbow, setting)
    if (capThickness > 0) {
      const id = `base/cap-${at + 1}`
      const x = section.height / 2
      const y = section.width / 2
      plates.push({
        id,
        name: `Foot cap ${at + 1}`,
        polygon: [
          [-x, -y],
          [x, -y],
          [x, y],
          [-x, y],
        ],
        holes: levels.drill > 0 ? [[0, 0, levels.drill]] : [],
        thickness: capThickness,
        pose: [
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
          ...center,
          1,
        ],
        on: [`base/foot-${at + 1}`],
        ...(levels.thread ? { thread: levels.thread } : {}),
      })
      joints.push({
        id: `base/cap-${at + 1}`,
        kind: 'cap',
        members: [`base/foot-${at + 1}`, id],
        at: toward(angle, elbow, footEnd),
        ends: ['B', 'side'],
      })
    }
    if (levels.thread)
      hardware.push({
        id: `base/leveler-${at + 1}`,
        kind: 'leveler',
        count: 1,
        at: center,
        text: levelerText(values, context, levels.thread),
      })
  }
  const warnings: Warning[] = []
  // Arms 1 and 3 lie on faces that are as wide as the post is high in its section, arms 2 and 4 on the others.
  const { width, height } = post.section
  const face = count === 2 ? height : Math.min(width, height)
  if (onPost && section.width > face)
    warnings.push({
      code: 'arm-wider-than-post',
      text: 'The arms are wider than the post; their sides hang past its faces.',
      members: members.map(({ id }) => id).filter((id) => id.startsWith('base/arm')),
    })
  return { post: postOut, members, joints, plates, hardware, warnings }
}
