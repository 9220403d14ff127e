import { flat } from '../frame/flat.ts'
import type { Joint, Mate, Member, Warning } from '../frame/frame.ts'
import { lies } from '../frame/joint.ts'
import { endOn, lyingOn } from '../frame/landing.ts'
import { area, type Polygon } from '../geometry/polygon.ts'
import { axisX, origin } from '../geometry/pose.ts'
import { add, scale } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import { sameSlope } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { BuildContext } from './build.ts'

// The upper ends of the legs, and what holds them to the top frame.

export interface Joined {
  readonly legs: readonly Member[]
  readonly joints: readonly Joint[]
  readonly warnings: readonly Warning[]
}

/** Legs cut flat at `z` under the frame's sides; each lands on one or two of them. */
export function under(
  legs: readonly Member[],
  sides: readonly Member[],
  z: Mm,
  { gap, say }: BuildContext,
): Result<Joined> {
  const joints: Joint[] = []
  const joined: Member[] = []
  let most = 0
  let whole = 0
  // The open miter of a frame with a root gap crosses the end at most from corner to corner.
  let open = 0
  for (const leg of legs) {
    const meets = flat(leg, 'B', z, 'open', gap)
    const landings = sides
      .flatMap((side) => endOn(meets, 'B', side) ?? [])
      .sort((one, two) => Math.abs(area(two.outline)) - Math.abs(area(one.outline)))
    const [first] = landings
    if (!first)
      return bad(
        'leg-beside-the-frame',
        `The legs end inside the frame, whose tube is ${say(sides[0]!.section.width)} wide, and touch none of it; set them in by less.`,
        'build.params.legInset',
      )
    whole = Math.abs(area(first.whole))
    open = gap * longestAcross(first.whole)
    most = landings.reduce((sum, { outline }) => sum + Math.abs(area(outline)), 0)
    joined.push({ ...meets, mates: [meets.mates[0], first.on.id] })
    const start = origin(leg.pose)
    const along = axisX(leg.pose)
    const at = add(start, scale(along, (z - start[2]) / along[2]))
    for (const { on } of landings)
      joints.push({
        id: `${leg.id}/${on.id.slice(4)}`,
        kind: 'flat',
        members: [leg.id, on.id],
        at,
        ends: ['B', 'side'],
      })
  }
  const warnings: Warning[] =
    most + open >= whole * (1 - sameSlope)
      ? []
      : [
          {
            code: 'leg-past-the-frame',
            text:
              `Only ${Math.floor((100 * most) / whole)} % of a leg's upper end lies under the top frame, whose tube is ` +
              `${say(sides[0]!.section.width)} wide; the rest stays open. Choose a narrower leg or a wider tube, or close it with a plate.`,
            members: joined.map(({ id }) => id),
          },
        ]
  return good({ legs: joined, joints, warnings })
}

/** Greatest distance between two corners of an outline, mm. */
const longestAcross = (outline: Polygon): Mm =>
  Math.max(...outline.flatMap(([x, y]) => outline.map(([u, v]) => Math.hypot(x - u, y - v))))

/** Legs cut flat at `z`, flush with the frame's upper face, their sides against the insides of the frame. */
export function inside(legs: readonly Member[], sides: readonly Member[], z: Mm, mate: Mate): Joined {
  const joined = legs.map((leg) => flat(leg, 'B', z, mate))
  const joints = joined.flatMap((leg) =>
    sides
      .filter((side) => lyingOn(leg, side) !== undefined)
      .map((side) => lies(`${leg.id}/${side.id.slice(4)}`, leg, side, origin(leg.pose))),
  )
  return { legs: joined, joints, warnings: [] }
}
