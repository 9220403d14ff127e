import type { Member } from '../frame/frame.ts'
import { endCorners } from '../frame/member.ts'
import { common, counterclockwise, type Point, type Polygon } from '../geometry/polygon.ts'
import { bad, type Result } from '../result.ts'
import { isRound, type Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import { type Mm, sinDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { armAngles, postAngle } from './pedestal-turn.ts'

// Arms, or the bars of a spider, that run into each other beside the post.

const words: Readonly<Record<string, string>> = { 2: 'Two', 3: 'Three', 4: 'Four', 5: 'Five', 6: 'Six' }

export const sayArms = (values: Values): string => `${words[values.arms as string]} arms`

/** Four arms on a post narrower than they are run into each other at its corners. */
export function armsCollide(
  values: Values,
  { say, gap }: BuildContext,
  arm: Section,
): Result<never> | undefined {
  const post = values.postSection as Section
  // Each arm stands off its face by the root gap.
  const room = Math.max(post.width, post.height) + 2 * gap
  const square = !isRound(post) && armAngles(values)[0] === postAngle(values)
  if (!square || values.arms !== '4' || arm.width <= room + sameLength) return undefined
  return bad(
    'arms-collide',
    `Four arms ${say(arm.width)} wide run into each other at the corners of a post ${say(post.width)} × ${say(post.height)}; ` +
      `on this post they can be at most ${say(room)} wide, or two arms, or arms that cross under the post.`,
    'build.params.armSection',
  )
}

/** Seen from above: a square-sided member as it lies, level. */
function fromAbove(of: Member): Polygon {
  const [a, b] = [endCorners(of, 'A'), endCorners(of, 'B')]
  // The lower edges of an arm end nearer than the upper ones: the longest of both sides is what is seen.
  const side = (one: number, two: number): Point[] => {
    const far = [a[one]!, a[two]!, b[one]!, b[two]!]
    const along = (p: readonly number[]) => p[0]! * of.pose[0]! + p[1]! * of.pose[1]!
    const sorted = [...far].sort((p, q) => along(p) - along(q))
    const least = sorted[0]!
    const most = sorted[3]!
    return [
      [least[0], least[1]],
      [most[0], most[1]],
    ]
  }
  const [left, right] = [side(0, 3), side(1, 2)]
  return counterclockwise([left[0]!, left[1]!, right[1]!, right[0]!])
}

/** The first two of these that lie in each other; absent where all lie free. `post`: what they stop on, if they do. */
export function crowdedPair(all: readonly Member[], post: Member): readonly [Member, Member] | undefined {
  const first = all[0]
  if (!first) return undefined
  if (isRound(post.section) && isRound(first.section)) {
    // Two round arms at one height come closest in the plane of their axes.
    const meet = first.section.width / 2 / sinDeg(180 / all.length)
    const free: Mm = post.section.width / 2 + first.gap
    return meet > free + sameLength ? [first, all[1]!] : undefined
  }
  const seen = all.map(fromAbove)
  for (let one = 0; one < all.length; one++)
    for (let two = one + 1; two < all.length; two++)
      if (common(seen[one]!, seen[two]!).length > 0) return [all[one]!, all[two]!]
  return undefined
}

/** Arms that stop beside each other and have no room. */
export function besideEachOther(
  arms: readonly Member[],
  values: Values,
  post: Member,
): Result<never> | undefined {
  const pair = crowdedPair(arms, post)
  return pair
    ? bad(
        'arms-collide',
        `${pair[0].name} and ${pair[1].name.toLowerCase()} run into each other beside the post: ${sayArms(values).toLowerCase()} of this tube have no room on it. ` +
          'Give narrower arms, a wider post, fewer arms, or a hub plate.',
        'build.params.armSection',
      )
    : undefined
}
