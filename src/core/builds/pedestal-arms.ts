import type { Hardware, Joint, Member, Plate, Warning } from '../frame/frame.ts'
import { good, type Problem, type Result } from '../result.ts'
import { isRound, type Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import type { Levels } from './foot.ts'
import { pastTheCorner, widerThanPost } from './pedestal-arm-warnings.ts'
import { besideEachOther, sayArms } from './pedestal-collide.ts'
import { feetOf } from './pedestal-feet.ts'
import { hubOf } from './pedestal-hub.ts'
import { layArms } from './pedestal-lay.ts'
import { armAngles } from './pedestal-turn.ts'

/** What a pedestal stands on, with its post as the base has cut it. */
export interface Base {
  readonly post: Member
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly plates: readonly Plate[]
  readonly hardware: readonly Hardware[]
  readonly warnings: readonly Warning[]
}

/** The arms of a pedestal, from the post to their turned-down feet, or what is impossible about them. */
export function armsOf(values: Values, context: BuildContext, levels: Levels, post: Member): Result<Base> {
  const { armSection: section, clear } = levels
  const problem = kindProblem(values, section, post.section) ?? spreadProblem(values, context, levels, post)
  if (problem) return { ok: false, problems: [problem] }
  const angles = armAngles(values)
  const z = clear + section.height / 2
  const elbow = (values.spread as Mm) / 2 - section.height / 2
  const laid = layArms(values, context, levels, post, angles, elbow, z)
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
