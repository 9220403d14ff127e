import type { Frame, Member } from '../frame/frame.ts'
import { cutEnd, member } from '../frame/member.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { assemble, type MeasureDraft, upward } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { footLevels, footWarnings } from './foot.ts'
import { armsOf, type Base } from './pedestal-arms.ts'
import { barsOf } from './pedestal-bars.ts'
import { pedestalParams } from './pedestal-params.ts'
import { basePlateOf, plateLevels } from './pedestal-plate.ts'
import { postAngle, toward } from './pedestal-turn.ts'
import { ringParams, type Top, topOf, topParams } from './top.ts'

/** A top frame on cross bars or a spider, a post, and arms with turned-down feet or a base plate. */
export const pedestal: Build = {
  kind: 'pedestal',
  title: 'Pedestal table',
  about:
    'A top frame on one post, on two to six arms with turned-down feet, caps and leveling feet, or on a base plate.',
  picture: 'M6 8h36v5H6zM21 13h6v22h-6zM8 32h13v4h-9v7H8zM27 32h13v11h-4v-7h-9z',
  params: [...ringParams, ...topParams, ...pedestalParams],
  frame: pedestalFrame,
}

const hollow = ['square-tube', 'rect-tube']
const tubes = [...hollow, 'round-tube']

function pedestalFrame(values: Values, context: BuildContext): Result<Frame> {
  const { say } = context
  for (const name of ['barSection', 'postSection', 'armSection'] as const) {
    const kind = (values[name] as Section | undefined)?.kind
    if (kind !== undefined && !(name === 'barSection' ? hollow : tubes).includes(kind))
      return bad(
        'section-kind',
        name === 'barSection'
          ? `${kind.replace('-', ' ')} was given; the bars take square or rectangular tube.`
          : `${kind.replace('-', ' ')} was given; post and arms take square, rectangular or round tube.`,
        `build.params.${name}`,
      )
  }
  const stands = standOf(values, context)
  if (!stands.ok) return stands
  const { postFoot, leastPost } = stands.value
  const bar = values.barSection as Section
  const height = values.height as Mm
  // The top is built on the floor first, for its own errors and for its height.
  const low = topOf(values, context, 0)
  if (!low.ok) return low
  const stack = low.value.thickness + low.value.section.height + bar.height
  const under = height - low.value.thickness - low.value.section.height
  const top = topOf(values, context, under)
  if (!top.ok) return top
  if (height - stack - postFoot <= leastPost)
    return bad(
      'height-too-low',
      `A height of ${say(height)} is less than the stack needs; it must be more than ` +
        `${say(stack + postFoot + leastPost)}: top and frame ${say(low.value.thickness + low.value.section.height)}, ` +
        `bars ${say(bar.height)}, post foot at ${say(postFoot)}${leastPost ? `, arms ${say(leastPost)}` : ''}.`,
      'build.params.height',
    )
  return built(values, context, top.value, stands.value, under)
}

/** What the post stands on, before it is built. */
interface Stand {
  /** Floor to the foot of the post. */
  readonly postFoot: Mm
  /** Arms stop on so much of the post. */
  readonly leastPost: Mm
  readonly base: (post: Member) => Result<Base>
  readonly measures: readonly MeasureDraft[]
}

function standOf(values: Values, context: BuildContext): Result<Stand> {
  if (values.base === 'base plate') {
    const footing = plateLevels(values, context)
    if (!footing.ok) return footing
    return good({
      postFoot: footing.value.setting + (values.baseThickness as Mm),
      leastPost: 0,
      base: (post) => basePlateOf(values, context, footing.value, post),
      measures: [],
    })
  }
  const levels = footLevels(values, context)
  if (!levels.ok) return levels
  const { armSection, clear, footHeight, postFoot } = levels.value
  const terms = [{ member: 'base/foot-1', factor: 1 }]
  const givesClear = values.footGives === 'clear under arm'
  return good({
    postFoot,
    leastPost: values.armsMeet === 'on the post' ? armSection.height : 0,
    base(post) {
      const arms = armsOf(values, context, levels.value, post)
      return arms.ok
        ? good({
            ...arms.value,
            warnings: [...footWarnings(values, context, levels.value), ...arms.value.warnings],
          })
        : arms
    },
    measures: [
      {
        name: 'clear under the arms',
        mm: clear,
        asked: givesClear,
        ...(givesClear ? { drawn: upward('clearUnder') } : {}),
        terms,
      },
      {
        name: 'foot, overall',
        mm: footHeight,
        asked: !givesClear,
        ...(givesClear ? {} : { drawn: upward('footHeight', levels.value.setting) }),
        terms,
      },
    ],
  })
}

function built(values: Values, context: BuildContext, top: Top, stand: Stand, under: Mm): Result<Frame> {
  const { say, gap } = context
  const section = values.postSection as Section
  const spider = values.bars === 'spider'
  const turn = postAngle(values)
  // Of a spider the post runs through to the upper face of the bars, else it ends under them.
  const postTop = spider ? under : under - (values.barSection as Section).height - gap
  const upright = member(
    'base/post',
    'Post',
    section,
    [0, 0, stand.postFoot],
    [0, 0, postTop],
    toward(turn + 90, 1, 0),
    gap,
  )
  const standing = cutEnd(upright, 'A', [0, 0, stand.postFoot], [0, 0, 1], 'open')
  const whole = cutEnd(standing, 'B', [0, 0, postTop], [0, 0, 1], spider ? 'open' : 'base/bar-1')
  const base = stand.base(whole)
  if (!base.ok) return base
  const bars = barsOf(values, context, top, base.value.post, under)
  if (!bars.ok) return bars
  const { post } = base.value
  const members: Member[] = [...top.ring.members, ...bars.value.members, post, ...base.value.members]
  const foot = base.value.members.find(({ id }) => id === 'base/foot-1')
  const inBase = members.map(({ id }) => id).filter((id) => id.startsWith('base/'))
  return assemble({
    members,
    plates: [...top.plates, ...base.value.plates],
    joints: [...top.ring.joints, ...bars.value.joints, ...base.value.joints],
    hardware: base.value.hardware,
    assemblies: [top.ring.assembly, { id: 'base', name: 'Base', members: inBase }],
    measures: [
      ...top.measures,
      {
        name: 'overall height',
        mm: values.height as Mm,
        asked: true,
        param: 'height',
        terms: [{ member: post.id, factor: 1 }, ...(foot ? [{ member: foot.id, factor: 1 }] : [])],
      },
      ...stand.measures,
    ],
    floor: 0,
    warnings: [...top.warnings, ...base.value.warnings],
    tooShort: (short, shortPoint): Problem => {
      if (short.id.startsWith('top/')) return top.tooShort()
      const field = short.id.startsWith('base/foot')
        ? 'footHeight'
        : short.id.startsWith('base/bar')
          ? 'barSetBack'
          : 'spread'
      const give = {
        footHeight: 'more foot height',
        barSetBack: 'less set-back of the bars, or a greater top',
        spread: 'more room between the feet',
      }[field]
      return {
        code: 'too-short',
        text: `${short.name} would be ${say(shortPoint)} on its short side; give ${give}.`,
        field: `build.params.${field}`,
      }
    },
  })
}
