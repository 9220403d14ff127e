import type { Joint, Member } from '../frame/frame.ts'
import { butt, lies } from '../frame/joint.ts'
import { buttProblem } from '../frame/joint-problem.ts'
import { endOn, lyingOn } from '../frame/landing.ts'
import { cutEnd, member } from '../frame/member.ts'
import { bad, good, type Result } from '../result.ts'
import { isRound, type Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { crowdedPair } from './pedestal-collide.ts'
import { spiderAngles, toward } from './pedestal-turn.ts'
import { reachInside, type Top } from './top.ts'

/** What carries the top: bars on the post, or round it. */
export interface Bars {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
}

const up = [0, 0, 1] as const

/** Bars under the top with their upper faces at `upper`; the post ends under them, or in a spider level with them. */
export function barsOf(
  values: Values,
  context: BuildContext,
  top: Top,
  post: Member,
  upper: Mm,
): Result<Bars> {
  const section = values.barSection as Section
  const middle = upper - section.height / 2
  const made =
    values.bars === 'spider'
      ? spider(values, context, top, post, middle)
      : good(crossBars(values, context, top, middle))
  if (!made.ok) return made
  // The ring lies on the bars: every bar under every side that it reaches.
  const onSides = made.value.members.flatMap((bar) =>
    top.ring.members
      .filter((side) => lyingOn(bar, side) !== undefined)
      .map((side) => lies(`top/${bar.id.slice(5)}/${side.id.slice(4)}`, bar, side, [0, 0, upper])),
  )
  const onPost = values.bars === 'spider' ? [] : carried(made.value.members, post, upper - section.height)
  return good({ members: made.value.members, joints: [...made.value.joints, ...onSides, ...onPost] })
}

/** The post carries every bar that passes over it. */
const carried = (bars: readonly Member[], post: Member, z: Mm): Joint[] =>
  bars
    .filter((bar) => endOn(post, 'B', bar) !== undefined)
    .map(
      (bar): Joint => ({
        id: `base/post/${bar.id.slice(5)}`,
        kind: 'butt',
        members: [post.id, bar.id],
        at: [0, 0, z],
        ends: ['B', 'side'],
      }),
    )

const reachOf = (values: Values, top: Top, section: Section) => (angle: number) =>
  reachInside(values.sides as number, top.inradius, section.width, angle) - (values.barSetBack as Mm)

/** One bar, or two that cross: the first runs through, the second stops on both its sides. */
function crossBars(values: Values, { gap }: BuildContext, top: Top, middle: Mm): Bars {
  const section = values.barSection as Section
  const reach = reachOf(values, top, section)
  const through = member(
    'base/bar-1',
    'Cross bar',
    section,
    toward(-90, reach(-90), middle),
    toward(90, reach(90), middle),
    up,
  )
  const stop = section.width / 2 + gap
  const half = (k: 2 | 3, angle: number, name: string): Member => {
    const [from, to] = [toward(angle, stop, middle), toward(angle, reach(angle), middle)]
    const laid = member(`base/bar-${k}`, name, section, from, to, up, gap)
    return cutEnd(laid, 'A', from, toward(angle, 1, 0), through.id)
  }
  const crossing = values.bars === 'two, crossing'
  const halves = crossing ? [half(2, 0, 'Half bar 1'), half(3, 180, 'Half bar 2')] : []
  const members = [through, ...halves]
  const joints = halves.map(
    (stops): Joint => ({
      id: `base/bars-${stops.id.slice(-1)}`,
      kind: 'butt',
      members: [stops.id, through.id],
      at: [stops.id.endsWith('2') ? section.width / 2 : -section.width / 2, 0, middle],
      ends: ['A', 'side'],
    }),
  )
  return { members, joints }
}

/** Bars that stop on the post all round it. */
function spider(
  values: Values,
  { gap, say }: BuildContext,
  top: Top,
  post: Member,
  middle: Mm,
): Result<Bars> {
  const section = values.barSection as Section
  const reach = reachOf(values, top, section)
  if (isRound(post.section))
    return bad(
      'spider-on-round-post',
      'The post is round tube: the bars of a spider would touch it along a line only. Give a square post, or cross bars, which lie on it.',
      'build.params.bars',
    )
  const members: Member[] = []
  const joints: Joint[] = []
  for (const [at, angle] of spiderAngles(values).entries()) {
    const id = `base/bar-${at + 1}`
    const out = reach(angle)
    if (out <= Math.max(post.section.width, post.section.height))
      return bad(
        'bar-set-back',
        `The bars of the spider would end ${say(out)} from the middle and have no length beside the post; set them back less, or give a greater top.`,
        'build.params.barSetBack',
      )
    const laid = member(
      id,
      `Spider bar ${at + 1}`,
      section,
      toward(angle, 0, middle),
      toward(angle, out, middle),
      up,
      gap,
    )
    const problem = buttProblem(laid, 'A', post)
    if (problem) return bad(problem.code, problem.text, 'build.params.barSection')
    const made = butt(`${id}/post`, laid, 'A', post, gap)
    members.push(made.member)
    joints.push(made.joint)
  }
  const pair = crowdedPair(members, post)
  return pair
    ? bad(
        'bars-collide',
        `${pair[0].name} and ${pair[1].name.toLowerCase()} run into each other beside the post. Give narrower bars, a wider post, or fewer bars.`,
        'build.params.barSection',
      )
    : good({ members, joints })
}
