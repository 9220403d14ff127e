import { flatOn } from '../frame/flat.ts'
import type { Hardware, Member, Plate } from '../frame/frame.ts'
import { bad, good, type Result } from '../result.ts'
import { cosDeg, type Mm, sinDeg } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { type Footing, footingOf, levelerText, levelerWarnings } from './leveler.ts'
import type { Base } from './pedestal-arms.ts'
import { leastUnder, level, outlineAcross } from './pedestal-hub.ts'
import { postAngle, toward } from './pedestal-turn.ts'

/** Leveler and base plate as given, or what is impossible about them. */
export function plateLevels(values: Values, context: BuildContext): Result<Footing> {
  const footing = footingOf(values, context)
  if (!footing.ok) return footing
  const thickness = values.baseThickness as Mm
  if (!(thickness > 0))
    return bad(
      'thickness',
      `The base plate was given as ${context.say(thickness)} thick; it must be more than 0.`,
      'build.params.baseThickness',
    )
  return footing
}

/** A plate on the floor, or on leveling feet, with the post on it. */
export function basePlateOf(
  values: Values,
  context: BuildContext,
  footing: Footing,
  post: Member,
): Result<Base> {
  const { say, gap } = context
  const size = values.baseSize as Mm
  const thickness = values.baseThickness as Mm
  const shape = values.baseShape as 'round' | 'square'
  const least = leastUnder(post.section)
  if (!(size > least))
    return bad(
      'base-too-small',
      `A base plate ${say(size)} across does not carry the post’s foot; it must be more than ${say(least)}.`,
      'build.params.baseSize',
    )
  const turn = postAngle(values)
  const holes = holesOf(values, footing, shape, size)
  const [x, y] = holes[0] ?? [size, size]
  const { width, height } = post.section
  const clear = Math.max(Math.abs(x) - width / 2, Math.abs(y) - height / 2)
  const inFrom = values.baseHolesIn as Mm | undefined
  if (inFrom !== undefined && footing.thread && (inFrom < footing.drill || clear < footing.drill))
    return bad(
      'base-holes',
      `Holes ${say(inFrom)} in from the edge leave no plate beside them; give more than ${say(footing.drill)}, and less than brings them to the post.`,
      'build.params.baseHolesIn',
    )
  const plate: Plate = {
    id: 'base/plate',
    name: 'Base plate',
    polygon: outlineAcross(shape, size),
    holes,
    thickness,
    pose: level(turn, footing.setting),
    on: [post.id],
    ...(footing.thread ? { thread: footing.thread } : {}),
  }
  const stands = flatOn('base/post-foot', post, 'A', plate, gap)
  const hardware: Hardware[] = holes.map(([u, v], at) => ({
    id: `base/leveler-${at + 1}`,
    kind: 'leveler',
    count: 1,
    at: toward(turn + (Math.atan2(v, u) * 180) / Math.PI, Math.hypot(u, v), footing.setting),
    text: levelerText(values, context, footing.thread!),
  }))
  return good({
    post: stands.member,
    members: [],
    joints: [stands.joint],
    plates: [plate],
    hardware,
    warnings: levelerWarnings(
      values,
      context,
      { ...footing, capThickness: thickness },
      {
        // Above the plate the stud stands free.
        height: Number.POSITIVE_INFINITY,
        width: 2 * (inFrom ?? 0),
        members: [post.id],
      },
    ),
  })
}

/** Four tapped holes, in from the corners of a square plate, or in from the rim of a round one. */
function holesOf(
  values: Values,
  { thread, drill }: Footing,
  shape: 'round' | 'square',
  size: Mm,
): Plate['holes'] {
  if (!thread) return []
  const away = size / 2 - (values.baseHolesIn as Mm)
  const radius = shape === 'square' ? away * Math.SQRT2 : away
  return [45, 135, 225, 315].map((angle) => [cosDeg(angle) * radius, sinDeg(angle) * radius, drill] as const)
}
