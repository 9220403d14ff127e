import type { Joint, Member, Plate } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { buttProblem } from '../frame/joint-problem.ts'
import { cutEnd, member } from '../frame/member.ts'
import { saddle } from '../frame/saddle.ts'
import { bad, good, type Result } from '../result.ts'
import { isRound } from '../section/section.ts'
import type { Deg, Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { armsCollide } from './pedestal-collide.ts'
import { hubOf } from './pedestal-hub.ts'
import { toward } from './pedestal-turn.ts'

/** The arms themselves, their outer ends still to be turned down. */
interface Laid {
  readonly post: Member
  /** Each with the feet at its ends: B first, then A where the arm runs through. */
  readonly arms: readonly { readonly arm: Member; readonly feet: readonly number[] }[]
  readonly joints: readonly Joint[]
  readonly plates: readonly Plate[]
}

type Lay = (
  values: Values,
  context: BuildContext,
  levels: Levels,
  post: Member,
  angles: readonly Deg[],
  elbow: Mm,
  z: Mm,
) => Result<Laid>

/** Every arm stops on the post: square or obliquely on a face, with a saddle on a round one. */
const onPost: Lay = (values, context, levels, post, angles, elbow, z) => {
  const { gap, say } = context
  const collide = armsCollide(values, context, levels.armSection)
  if (collide) return collide
  const arms: Laid['arms'][number][] = []
  const joints: Joint[] = []
  for (const [at, angle] of angles.entries()) {
    const id = `base/arm-${at + 1}`
    const name = `Arm ${at + 1}`
    const from = toward(angle, 0, z)
    const laid = member(id, name, levels.armSection, from, toward(angle, elbow, z), [0, 0, 1], gap)
    const field = 'build.params.armSection'
    if (isRound(post.section)) {
      const made = saddle(`${id}/post`, laid, 'A', post, gap, say)
      if (!made.ok) return bad(made.problems[0]!.code, made.problems[0]!.text, field)
      arms.push({ arm: made.value.member, feet: [at] })
      joints.push(made.value.joint)
      continue
    }
    const problem = buttProblem(laid, 'A', post)
    if (problem) return bad(problem.code, problem.text, field)
    const made = butt(`${id}/post`, laid, 'A', post, gap)
    arms.push({ arm: made.member, feet: [at] })
    joints.push(made.joint)
  }
  return good({ post, arms, joints, plates: [] })
}

/** One arm runs through under the post; of four, two halves stop on its sides. */
const crossing: Lay = (_, { gap }, { armSection: section, clear }, post, angles, elbow, z) => {
  const half = angles.length / 2
  const up = [0, 0, 1] as const
  const through = member(
    'base/arm-1',
    'Arm, through',
    section,
    toward(angles[half]!, elbow, z),
    toward(angles[0]!, elbow, z),
    up,
    gap,
  )
  const joints: Joint[] = [
    {
      id: 'base/post-foot',
      kind: 'butt',
      members: [post.id, through.id],
      at: [0, 0, clear + section.height],
      ends: ['A', 'side'],
    },
  ]
  const halves = (half === 2 ? [1, 3] : []).map((at) => {
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
    joints.push({
      id: `base/arm-${at + 1}/through`,
      kind: 'butt',
      members: [arm.id, through.id],
      at: toward(angle, start - gap, z),
      ends: ['A', 'side'],
    })
    return {
      arm: cutEnd(arm, 'A', toward(angle, start, z), toward(angle, 1, 0), through.id),
      feet: [at],
    }
  })
  return good({
    post: { ...post, mates: ['base/arm-1', post.mates[1]] },
    arms: [{ arm: through, feet: [0, half] }, ...halves],
    joints,
    plates: [],
  })
}

/** Square-ended arms under a plate that carries the post. */
const underHub: Lay = (values, context, levels, post, angles, elbow, z) => {
  const hub = hubOf(values, levels.armSection)
  const made = hub.plate(values, context, levels, post)
  if (!made.ok) return made
  const arms = angles.map((angle, at) => ({
    arm: member(
      `base/arm-${at + 1}`,
      `Arm ${at + 1}`,
      levels.armSection,
      toward(angle, hub.inner + context.gap, z),
      toward(angle, elbow, z),
      [0, 0, 1],
      context.gap,
    ),
    feet: [at],
  }))
  const joints = arms.map(
    ({ arm }): Joint => ({
      id: `${arm.id}/hub`,
      kind: 'flat',
      members: [arm.id, made.value.plate.id],
      at: toward(angles[0]!, hub.inner, z + levels.armSection.height / 2),
      ends: ['side', 'side'],
    }),
  )
  return good({
    post: made.value.post,
    arms,
    joints: [made.value.joint, ...joints],
    plates: [made.value.plate],
  })
}

/** The arms as they meet at the post, at these angles, out to `elbow` from the middle, their axes at height `z`. */
export const layArms: Lay = (values, ...rest) =>
  ({ 'on the post': onPost, crossing, 'hub plate': underHub })[values.armsMeet as string]!(values, ...rest)
