import type { Member, Warning } from '../frame/frame.ts'
import { isRound } from '../section/section.ts'
import { sameAngle, sameLength } from '../tolerance.ts'
import { cosDeg, sinDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { armAngles, postAngle } from './pedestal-turn.ts'

/** Arms that come square to the faces of the post and are wider than they. */
export function widerThanPost(values: Values, { section }: Member, arms: readonly Member[]): Warning[] {
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
export function pastTheCorner(
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
