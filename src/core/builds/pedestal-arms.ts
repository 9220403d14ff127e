import type { Hardware, Joint, Member, Plate, Warning } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { buttProblem } from '../frame/joint-problem.ts'
import { cutEnd, member } from '../frame/member.ts'
import { saddle } from '../frame/saddle.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import { isRound, type Section } from '../section/section.ts'
import { sameAngle, sameLength } from '../tolerance.ts'
import { cosDeg, type Deg, type Mm, sinDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { armsCollide, besideEachOther, sayArms } from './pedestal-collide.ts'
import { feetOf } from './pedestal-feet.ts'
import { hubOf } from './pedestal-hub.ts'
import { armAngles, postAngle, toward } from './pedestal-turn.ts'

/** What a pedestal stands on, with its post as the base has cut it. */
export interface Base {
  readonly post: Member
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly plates: readonly Plate[]
  readonly hardware: readonly Hardware[]
  readonly warnings: readonly Warning[]
}

/** The arms themselves, their outer ends still to be turned down. */
interface Laid {
  readonly post: Member
  /** Each with the feet at its ends: B first, then A where the arm runs through. */
  readonly arms: readonly { readonly arm: Member; readonly feet: readonly number[] }[]
  readonly joints: readonly Joint[]
  readonly plates: readonly Plate[]
}

/** The arms of a pedestal, from the post to their turned-down feet, or what is impossible about them. */
export function armsOf(values: Values, context: BuildContext, levels: Levels, post: Member): Result<Base> {
  const { armSection: section, clear } = levels
  const problem = kindProblem(values, section, post.section) ?? spreadProblem(values, context, levels, post)
  if (problem) return { ok: false, problems: [problem] }
  const angles = armAngles(values)
  const z = clear + section.height / 2
  const elbow = (values.spread as Mm) / 2 - section.height / 2
  const lay = { 'on the post': onPost, crossing, 'hub plate': underHub }[values.armsMeet as string]!
  const laid = lay(values, context, levels, post, angles, elbow, z)
  if (!laid.ok) return laid
  const feet = feetOf(values, context, levels, angles, elbow, z)
  const arms = laid.value.arms.map(({ arm, feet: [first, second] }) => {
    const one = feet.turnDown(arm, 'B', first!)
    return second === undefined ? one : feet.turnDown(one, 'A', second)
  })
  const crowded = besideEachOther(arms, values, post)
  if (crowded) return crowded
  const made = feet.made()
  return good({
    post: laid.value.post,
    members: [...arms, ...made.members],
    joints: [...laid.value.joints, ...made.joints],
    plates: [...laid.value.plates, ...made.plates],
    hardware: made.hardware,
    warnings: [...widerThanPost(values, post, arms), ...pastTheCorner(values, context, post, arms)],
  })
}

const hollow = ['square-tube', 'rect-tube']

/** Tube that cannot be fitted to the post so, and how it could be. */
function kindProblem(values: Values, arm: Section, post: Section): Problem | undefined {
  const meet = values.armsMeet as string
  if (meet !== 'on the post') {
    if (!hollow.includes(arm.kind))
      return {
        code: 'section-kind',
        text: `${arm.kind.replace('-', ' ')} was given; arms ${meet === 'crossing' ? 'that cross under the post' : 'under a hub plate'} take square or rectangular tube.`,
        field: 'build.params.armSection',
      }
  } else if (isRound(post) && !isRound(arm))
    return {
      code: 'arms-on-round-post',
      text: `The post is round tube and the arms are ${arm.kind.replace('-', ' ')}: a straight cut would touch it along a line only. Give arms of round tube, which get saddles, a square post, or a hub plate.`,
      field: 'build.params.postSection',
    }
  if (meet === 'crossing' && values.arms !== '2' && values.arms !== '4')
    return {
      code: 'arms-crossing',
      text: `${sayArms(values)} cannot cross each other square under the post; two or four can. Let them meet on the post or under a hub plate.`,
      field: 'build.params.arms',
    }
  return undefined
}

function spreadProblem(
  values: Values,
  { say }: BuildContext,
  { armSection }: Levels,
  post: Member,
): Problem | undefined {
  const inner = {
    'on the post': post.section.width,
    crossing: armSection.width,
    'hub plate': 2 * hubOf(values, armSection).inner,
  }[values.armsMeet as string]!
  const least = 2 * armSection.height + inner
  const spread = values.spread as Mm
  if (spread > least) return undefined
  return {
    code: 'spread-too-small',
    text: `Feet ${say(spread)} outside to outside leave no arm; it must be more than ${say(least)}.`,
    field: 'build.params.spread',
  }
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

/** Arms that come square to the faces of the post and are wider than they. */
function widerThanPost(values: Values, { section }: Member, arms: readonly Member[]): Warning[] {
  if (values.armsMeet !== 'on the post' || isRound(section) || armAngles(values)[0] !== postAngle(values))
    return []
  // Arms 1 and 3 lie on faces that are as wide as the post is high in its section, arms 2 and 4 on the others.
  const face = arms.length === 2 ? section.height : Math.min(section.width, section.height)
  if (!(arms.length === 2 || arms.length === 4) || arms[0]!.section.width <= face) return []
  return [
    {
      code: 'arm-wider-than-post',
      text: 'The arms are wider than the post; their sides hang past its faces.',
      members: arms.map(({ id }) => id),
    },
  ]
}

/**
 * Arms of an odd angle on a square post reach past its corner: one of width w at an angle a from square to the face takes
 * w / cos a of it, moved by W/2 · tan a from its middle, so it lies on the face up to w = W (cos a − sin a).
 */
function pastTheCorner(
  values: Values,
  { say }: BuildContext,
  { section: post }: Member,
  arms: readonly Member[],
): Warning[] {
  const square = Math.abs(post.width - post.height) < sameLength
  if (values.armsMeet !== 'on the post' || isRound(post) || !square) return []
  const odd = armAngles(values).map((angle) => {
    const past = (((angle - postAngle(values)) % 90) + 90) % 90
    return Math.min(past, 90 - past)
  })
  const most = Math.max(...odd)
  const share = cosDeg(most) - sinDeg(most)
  const { width } = arms[0]!.section
  if (most < sameAngle || width <= post.width * share + sameLength) return []
  const fits =
    share > 0.05
      ? `about ${say(post.width * share)} of arm fits it, or these arms a post of about ${say(width / share)}`
      : 'no width of arm or post mends that'
  return [
    {
      code: 'arm-past-the-corner',
      text: `At their angle arms ${say(width)} wide reach past the corner of a post of ${say(post.width)}: ${fits}; or give a hub plate, or round tube.`,
      members: arms.map(({ id }) => id),
    },
  ]
}
