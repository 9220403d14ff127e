import type { Joint, Member, Plate, Slot } from '../frame/frame.ts'
import { endCorners } from '../frame/member.ts'
import { type Pose, toWorld } from '../geometry/pose.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'

/** The frame that the top lies in. World z 0 is the underside of the frame. */
export interface Opening {
  readonly rails: readonly [Member, Member, Member, Member]
  /** Clear inside. */
  readonly length: Mm
  readonly width: Mm
  readonly section: Section
  /** Underside of the loose top: what carries it ends here. */
  readonly under: Mm
}

export interface Tabs {
  readonly plates: readonly Plate[]
  readonly joints: readonly Joint[]
}

/** Inside of each rail, front, right, back, left: along it to the right as seen from inside, and into the frame. */
const sides = [
  { along: [1, 0], into: [0, 1], long: true },
  { along: [0, 1], into: [-1, 0], long: false },
  { along: [-1, 0], into: [0, -1], long: true },
  { along: [0, -1], into: [1, 0], long: false },
] as const

/** Tabs inside the rails under the top, evenly spaced on each side, with slots across the grain of wood. */
export function tabsOf(
  values: Values,
  context: BuildContext,
  opening: Opening,
  bars: readonly Member[],
): Result<Tabs> {
  const problem = tabProblem(values, context, opening)
  if (problem) return { ok: false, problems: [problem] }
  const [wide, reach, thick] = [values.tabWidth as Mm, values.tabReach as Mm, values.tabThickness as Mm]
  const plates: Plate[] = []
  const joints: Joint[] = []
  for (const [side, { along, into, long }] of sides.entries()) {
    const count = values[long ? 'tabsLong' : 'tabsShort'] as number
    const [run, off] = long ? [opening.length, opening.width] : [opening.width, opening.length]
    const rail = opening.rails[side]!
    for (let k = 0; k < count; k++) {
      const at = -run / 2 + (run * (k + 0.5)) / count
      const [x, y] = [along[0] * at - (into[0] * off) / 2, along[1] * at - (into[1] * off) / 2]
      const id = `tabs/${rail.id.slice(6)}-${k + 1}`
      // Local x runs along the rail, y into the frame from the rail's face, the upper face is the tab's far one.
      const pose: Pose = [
        along[0],
        along[1],
        0,
        0,
        into[0],
        into[1],
        0,
        0,
        0,
        0,
        1,
        0,
        x,
        y,
        opening.under - thick,
        1,
      ]
      const slot = slotOf(values, long)
      plates.push({
        id,
        // The slots of the two lie differently: they are two plates, told apart by their rails.
        name: `${slot ? (long ? 'Side tab' : 'End tab') : 'Tab'} ${plates.length + 1}`,
        polygon: [
          [-wide / 2, context.gap],
          [wide / 2, context.gap],
          [wide / 2, reach],
          [-wide / 2, reach],
        ],
        holes: [],
        ...(slot ? { slots: [slot] } : {}),
        thickness: thick,
        pose,
        on: [rail.id],
      })
      joints.push({
        id,
        kind: 'flat',
        members: [rail.id, id],
        at: [x, y, opening.under],
        ends: ['side', 'side'],
      })
    }
  }
  const pair = inTheWay([...plates.map(tabFromAbove), ...bars.map(barFromAbove)])
  if (pair)
    return bad(
      'tabs-collide',
      `${pair[0].name} and ${pair[1].name.toLowerCase()} lie in each other; give fewer, narrower or shorter tabs, or another number of bars.`,
      `build.params.${pair[1].name.startsWith('Bar') ? 'barCount' : 'tabReach'}`,
    )
  return good({ plates, joints })
}

/** A tab or bar seen from above; all lie along the frame. */
interface Seen {
  readonly name: string
  readonly x: readonly [Mm, Mm]
  readonly y: readonly [Mm, Mm]
}

function seen(name: string, corners: readonly Vec3[]): Seen {
  const span = (axis: 0 | 1) => corners.map((corner) => corner[axis])
  return {
    name,
    x: [Math.min(...span(0)), Math.max(...span(0))],
    y: [Math.min(...span(1)), Math.max(...span(1))],
  }
}

const tabFromAbove = ({ name, polygon, pose }: Plate): Seen =>
  seen(
    name,
    polygon.map(([x, y]) => toWorld(pose, [x, y, 0])),
  )
const barFromAbove = (bar: Member): Seen => seen(bar.name, [...endCorners(bar, 'A'), ...endCorners(bar, 'B')])

function inTheWay(all: readonly Seen[]): readonly [Seen, Seen] | undefined {
  const meet = (a: readonly [Mm, Mm], b: readonly [Mm, Mm]) =>
    a[0] < b[1] - sameLength && b[0] < a[1] - sameLength
  for (const [at, one] of all.entries()) {
    // Bars stand clear of each other already.
    const two = all.slice(at + 1).find((other) => meet(one.x, other.x) && meet(one.y, other.y))
    if (two) return [one, two]
  }
  return undefined
}

/** In the middle of the part of the tab that the top covers; across the grain, so that the wood can move. */
function slotOf(values: Values, long: boolean): Slot | undefined {
  if (values.topOf !== 'wood') return undefined
  const alongLength = values.grain === 'along the length'
  const middle = ((values.tabReach as Mm) + (values.edgeGap as Mm)) / 2
  return {
    x: 0,
    y: middle,
    width: values.slotWidth as Mm,
    length: values.slotLength as Mm,
    // On a long side the tab reaches along the width, on a short one along the length.
    angle: long === alongLength ? 90 : 0,
  }
}

function tabProblem(values: Values, { say }: BuildContext, opening: Opening): Problem | undefined {
  const [wide, reach, thick] = [values.tabWidth as Mm, values.tabReach as Mm, values.tabThickness as Mm]
  const edge = values.edgeGap as Mm
  const problem = (code: string, text: string, name: string): Problem => ({
    code,
    text,
    field: `build.params.${name}`,
  })
  const long = values.tabsLong as number
  const short = values.tabsShort as number
  if (long + short === 0)
    return (values.barCount as number) > 0
      ? undefined
      : problem('top-on-nothing', 'The top would lie on nothing; give tabs or bars.', 'tabsLong')
  if (!(thick > 0) || thick > opening.under + sameLength)
    return problem(
      'tab-thickness',
      `Tabs ${say(thick)} thick do not stay inside the frame below the top; give more than 0 and at most ${say(opening.under)}.`,
      'tabThickness',
    )
  if (!(reach > edge))
    return problem(
      'tab-reach',
      `Tabs that reach ${say(reach)} do not come under a top that stands ${say(edge)} off; give more than ${say(edge)}.`,
      'tabReach',
    )
  if (!(wide > 0))
    return problem('tab-width', `Tabs ${say(wide)} wide are none; give more than 0.`, 'tabWidth')
  if (values.topOf !== 'wood') return undefined
  const [slot, over] = [values.slotWidth as Mm, values.slotLength as Mm]
  const room = Math.min(wide, reach - edge)
  if (!(slot > 0) || over < slot || over >= room)
    return problem(
      'slot',
      `A slot ${say(slot)} wide and ${say(over)} over all has no room in what the top covers of a tab; it must be at least as long as wide and shorter than ${say(room)}.`,
      'slotLength',
    )
  return undefined
}
