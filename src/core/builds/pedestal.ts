import type { Frame, Joint, Member, Warning } from '../frame/frame.ts'
import { lies } from '../frame/joint.ts'
import { endOn, lyingOn } from '../frame/landing.ts'
import { cutEnd, member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { cosDeg, type Mm, sinDeg } from '../units.ts'
import { assemble, type MeasureDraft } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { footLevels, footWarnings, type Levels } from './foot.ts'
import { armsCollide, armsOf } from './pedestal-arms.ts'
import { pedestalParams } from './pedestal-params.ts'
import { reachInside, ringParams, type Top, topOf, topParams } from './top.ts'

/** A top frame on cross bars, a post, and two or four arms with turned-down feet. */
export const pedestal: Build = {
  kind: 'pedestal',
  title: 'Pedestal table',
  about: 'A top frame on cross bars and one post, on arms with turned-down feet, caps and leveling feet.',
  picture: 'M6 8h36v5H6zM21 13h6v22h-6zM8 32h13v4h-9v7H8zM27 32h13v11h-4v-7h-9z',
  params: [...ringParams, ...topParams, ...pedestalParams],
  frame: pedestalFrame,
}

const hollow = ['square-tube', 'rect-tube']

function pedestalFrame(values: Values, context: BuildContext): Result<Frame> {
  const { say } = context
  for (const name of ['barSection', 'postSection', 'armSection'] as const) {
    const { kind } = values[name] as Section
    if (!hollow.includes(kind))
      return bad(
        'section-kind',
        `${kind.replace('-', ' ')} was given; bars, post and arms take square or rectangular tube.`,
        `build.params.${name}`,
      )
  }
  const levels = footLevels(values, context)
  if (!levels.ok) return levels
  const bar = values.barSection as Section
  const height = values.height as Mm
  // The top is built on the floor first, for its own errors and for its height.
  const low = topOf(values, context, 0)
  if (!low.ok) return low
  const stack = low.value.thickness + low.value.section.height + bar.height
  const under = height - low.value.thickness - low.value.section.height
  const top = topOf(values, context, under)
  if (!top.ok) return top
  const { postFoot, armSection } = levels.value
  const postTop = height - stack
  const leastPost = values.armsMeet === 'on the post' ? armSection.height : 0
  if (postTop - postFoot <= leastPost)
    return bad(
      'height-too-low',
      `A height of ${say(height)} is less than the stack needs; it must be more than ` +
        `${say(stack + postFoot + leastPost)}: top and frame ${say(low.value.thickness + low.value.section.height)}, ` +
        `bars ${say(bar.height)}, post foot at ${say(postFoot)}${leastPost ? `, arms ${say(leastPost)}` : ''}.`,
      'build.params.height',
    )
  return stand(values, context, top.value, levels.value, postTop)
}

function stand(values: Values, context: BuildContext, top: Top, levels: Levels, postTop: Mm): Result<Frame> {
  const { say, gap } = context
  const bar = values.barSection as Section
  const postSection = values.postSection as Section
  const bars = crossBars(values, context, top, bar, postTop + bar.height / 2)
  const crowded = armsCollide(values, context, levels.armSection)
  if (crowded) return crowded
  const spread = values.spread as Mm
  const { armSection, postFoot } = levels
  const leastSpread =
    2 * armSection.height + (values.armsMeet === 'on the post' ? postSection.width : armSection.width)
  if (spread <= leastSpread)
    return bad(
      'spread-too-small',
      `Feet ${say(spread)} outside to outside leave no arm; it must be more than ${say(leastSpread)}.`,
      'build.params.spread',
    )
  const post = cutEnd(
    cutEnd(
      member('base/post', 'Post', postSection, [0, 0, postFoot], [0, 0, postTop - gap], [0, 1, 0], gap),
      'B',
      [0, 0, postTop - gap],
      [0, 0, 1],
      bars.members[0]!.id,
    ),
    'A',
    [0, 0, postFoot],
    [0, 0, 1],
    'open',
  )
  const arms = armsOf(values, context, levels, post)
  const members: Member[] = [...top.ring.members, ...bars.members, arms.post, ...arms.members]
  const foot = arms.members.find(({ id }) => id === 'base/foot-1')!
  const height = values.height as Mm
  const measures: MeasureDraft[] = [
    ...top.measures,
    {
      name: 'overall height',
      mm: height,
      asked: true,
      terms: [
        { member: post.id, factor: 1 },
        { member: foot.id, factor: 1 },
      ],
    },
    {
      name: 'clear under the arms',
      mm: levels.clear,
      asked: values.footGives === 'clear under arm',
      terms: [{ member: foot.id, factor: 1 }],
    },
    {
      name: 'foot, overall',
      mm: levels.footHeight,
      asked: values.footGives === 'foot height',
      terms: [{ member: foot.id, factor: 1 }],
    },
  ]
  // The post carries every bar that passes over it.
  const postJoints = bars.members
    .filter((bar) => endOn(post, 'B', bar) !== undefined)
    .map(
      (bar): Joint => ({
        id: `base/post/${bar.id.slice(5)}`,
        kind: 'butt',
        members: [post.id, bar.id],
        at: [0, 0, postTop],
        ends: ['B', 'side'],
      }),
    )
  return assemble({
    members,
    plates: [...top.plates, ...arms.plates],
    joints: [...top.ring.joints, ...bars.joints, ...postJoints, ...arms.joints],
    hardware: arms.hardware,
    assemblies: [
      top.ring.assembly,
      {
        id: 'base',
        name: 'Base',
        members: members.map(({ id }) => id).filter((id) => id.startsWith('base/')),
      },
    ],
    measures,
    floor: 0,
    warnings: [...top.warnings, ...footWarnings(values, context, levels), ...bars.warnings, ...arms.warnings],
    tooShort: (short, shortPoint): Problem => {
      if (short.id.startsWith('top/')) return top.tooShort()
      const field = short.id.startsWith('base/foot') ? 'footHeight' : 'spread'
      return {
        code: 'too-short',
        text: `${short.name} would be ${say(shortPoint)} on its short side; give more ${field === 'spread' ? 'room between the feet' : 'foot height'}.`,
        field: `build.params.${field}`,
      }
    },
  })
}

interface Bars {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly warnings: readonly Warning[]
}

/** One bar, or two that cross: the first runs through, the second stops on both its sides. */
function crossBars(values: Values, context: BuildContext, top: Top, section: Section, middle: Mm): Bars {
  const { gap } = context
  const n = values.sides as number
  const setBack = values.barSetBack as Mm
  const reach = (angle: number) => reachInside(n, top.inradius, section.width, angle) - setBack
  const at = (angle: number, away: Mm): Vec3 => [cosDeg(angle) * away, sinDeg(angle) * away, middle]
  const up: Vec3 = [0, 0, 1]
  const through = member('base/bar-1', 'Cross bar', section, at(-90, reach(-90)), at(90, reach(90)), up)
  const crossing = values.bars === 'two, crossing'
  const stop = section.width / 2 + gap
  const half = (k: 2 | 3, angle: number, name: string): Member => {
    const laid = member(`base/bar-${k}`, name, section, at(angle, stop), at(angle, reach(angle)), up, gap)
    return cutEnd(
      laid,
      'A',
      at(angle, stop),
      at(angle, 1).map((c, axis) => (axis === 2 ? 0 : c)) as unknown as Vec3,
      through.id,
    )
  }
  const halves = crossing ? [half(2, 0, 'Half bar 1'), half(3, 180, 'Half bar 2')] : []
  const members = [through, ...halves]
  const joints: Joint[] = halves.map((stops) => ({
    id: `base/bars-${stops.id.slice(-1)}`,
    kind: 'butt',
    members: [stops.id, through.id],
    at: [stops.id.endsWith('2') ? section.width / 2 : -section.width / 2, 0, middle],
    ends: ['A', 'side'],
  }))
  // The ring lies on the bars: every bar under every side that it reaches.
  const onSides = members.flatMap((each) =>
    top.ring.members
      .filter((side) => lyingOn(each, side) !== undefined)
      .map((side) =>
        lies(`top/${each.id.slice(5)}/${side.id.slice(4)}`, each, side, [0, 0, middle + section.height / 2]),
      ),
  )
  return { members, joints: [...joints, ...onSides], warnings: [] }
}
