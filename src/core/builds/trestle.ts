import type { Frame, Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { buttProblem } from '../frame/joint-problem.ts'
import { member } from '../frame/member.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import { type Mm, toDeg } from '../units.ts'
import { aboutMiddle, assemble, type MeasureDraft } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { feetOf } from './four-leg-feet.ts'
import { type Footing, footingOf } from './leveler.ts'
import { laid } from './top.ts'
import { type Lean, leanOf, legOf, type Pair, pairOf } from './trestle-legs.ts'
import { trestleParams } from './trestle-params.ts'

/** Pairs of legs that cross or lean together, each under a top bar, with a stretcher between two pairs. */
export const trestle: Build = {
  kind: 'trestle',
  title: 'Trestle or X legs',
  about:
    'One or two pairs of legs, crossing or leaning together, under top bars, with a stretcher between them.',
  picture: 'M5 7h38v4H5zM9 11h5l25 32h-5zM34 11h5L14 43H9z',
  params: trestleParams,
  frame: trestleFrame,
}

const hollow = ['square-tube', 'rect-tube']
/** Legs that lean more are no stand, and land on the side of the bar instead of under it. */
const mostLean = 45

function trestleFrame(values: Values, context: BuildContext): Result<Frame> {
  const { say } = context
  for (const name of ['legSection', 'barSection', 'tieSection', 'stretcherSection'] as const) {
    const kind = (values[name] as Section | undefined)?.kind
    if (kind !== undefined && !hollow.includes(kind))
      return bad(
        'section-kind',
        `${kind.replace('-', ' ')} was given; legs, bars and stretcher take square or rectangular tube.`,
        `build.params.${name}`,
      )
  }
  const footing = footingOf(values, context)
  if (!footing.ok) return footing
  const asked = { ...values, barSection: laid(values.barSection as Section, 'flat') }
  const bar = asked.barSection
  const under = (values.height as Mm) - bar.height
  const { setting, capThickness } = footing.value
  if (under <= setting + capThickness)
    return bad(
      'height-too-low',
      `A height of ${say(values.height as Mm)} leaves no legs; it must be more than ${say(bar.height + setting + capThickness)}.`,
      'build.params.height',
    )
  // Feet are measured where the legs end: on their caps, which are as long as those ends.
  const lean = askedLean(asked, context, under - setting - capThickness)
  return lean.ok ? built(asked, context, footing.value, lean.value, under) : lean
}

/** The lean, or what is impossible about feet and upper ends. */
function askedLean(values: Values, { say }: BuildContext, rise: Mm): Result<Lean> {
  const wide = legOf(values.legSection as Section).height
  const [feet, upper] = [values.feet as Mm, values.upper as Mm]
  for (const [name, mm] of [
    ['feet', feet],
    ['upper', upper],
  ] as const)
    if (!(mm > wide))
      return bad(
        'too-narrow',
        `${say(mm)} outside to outside is too little for legs ${say(wide)} wide; it must be more than ${say(wide)}.`,
        `build.params.${name}`,
      )
  const lean = leanOf(values.style === 'X legs', feet, upper, rise, wide)
  const degrees = toDeg(lean.angle)
  if (values.style === 'X legs' ? !(degrees > 0) : degrees < 0)
    return bad(
      'lean-outward',
      values.style === 'X legs'
        ? `Feet ${say(feet)} and upper ends ${say(upper)} leave the legs no room to cross; give more.`
        : `Feet ${say(feet)} stand closer than the upper ends, ${say(upper)}; give feet that are no closer.`,
      'build.params.feet',
    )
  return degrees > mostLean
    ? bad(
        'lean-too-great',
        `The legs would lean ${degrees.toFixed(1)}° from upright; at most ${mostLean}°. Bring feet or upper ends closer, or make it higher.`,
        'build.params.feet',
      )
    : good(lean)
}

function built(
  values: Values,
  context: BuildContext,
  footing: Footing,
  lean: Lean,
  under: Mm,
): Result<Frame> {
  const { say } = context
  const leg = legOf(values.legSection as Section)
  const bar = values.barSection as Section
  const wide = Math.max(leg.width, bar.width)
  const two = values.pairs === '2'
  const length = two ? (values.length as Mm) : wide
  if (two && !(length > 2 * wide))
    return bad(
      'length-too-short',
      `${say(length)} over both pairs leaves nothing between them; it must be more than ${say(2 * wide)}.`,
      'build.params.length',
    )
  const long = values.barLength as Mm
  if (long < (values.upper as Mm) - sameLength)
    return bad(
      'bar-too-short',
      `A top bar ${say(long)} long does not cover the upper ends of the legs, ${say(values.upper as Mm)}; give as much or more.`,
      'build.params.barLength',
    )
  const places = two ? [-(length - wide) / 2, (length - wide) / 2] : [0]
  const low = footing.setting + footing.capThickness
  const pairs: Pair[] = []
  for (const [at, y] of places.entries()) {
    const made = pairOf(values, context, at + 1, y, lean, { low, under })
    if (!made.ok) return made
    pairs.push(made.value)
  }
  const feet = feetOf(
    values,
    context,
    pairs.flatMap(({ standing }) => standing),
    footing,
  )
  const ties = tiesOf(values, context, feet.legs)
  if (!ties.ok) return ties
  const between = stretcherOf(values, context, feet.legs, ties.value.members)
  if (!between.ok) return between
  const members = [
    ...pairs.map((pair) => pair.bar),
    ...feet.legs,
    ...pairs.flatMap(({ rest }) => rest),
    ...ties.value.members,
    ...between.value.members,
  ]
  return assemble({
    members,
    plates: feet.plates,
    joints: [
      ...pairs.flatMap(({ joints }) => joints),
      ...ties.value.joints,
      ...between.value.joints,
      ...feet.joints,
    ],
    hardware: feet.hardware,
    assemblies: pairs.map((_, at) => ({
      id: `pair-${at + 1}`,
      name: `Pair ${at + 1}`,
      members: members.map(({ id }) => id).filter((id) => id.startsWith(`pair-${at + 1}/`)),
    })),
    measures: measuresOf(values, lean, two),
    floor: 0,
    warnings: feet.warnings,
    tooShort: ({ name, id }, shortPoint): Problem => ({
      code: 'too-short',
      text: `${name} would be ${say(shortPoint)} on its short side; give more ${id === 'stretcher' ? 'length' : 'height, or legs that are narrower'}.`,
      field: `build.params.${id === 'stretcher' ? 'length' : 'height'}`,
    }),
  })
}

interface Made {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
}
const none: Made = { members: [], joints: [] }

/** A level tie between the two legs of each leaning pair, its ends cut to their lean. */
function tiesOf(values: Values, { gap }: BuildContext, legs: readonly Member[]): Result<Made> {
  if (values.style === 'X legs' || values.tie !== 'yes') return good(none)
  const section = laid(values.tieSection as Section, 'on edge')
  const z = (values.tieHeight as Mm) - section.height / 2
  const made = [0, 2].flatMap((first) => {
    const [a, b] = [legs[first], legs[first + 1]]
    if (!a || !b) return []
    const y = a.pose[13]!
    const id = `${a.id.slice(0, 6)}/tie`
    const reach = Math.abs(a.pose[12]!)
    return [{ a, b, tie: member(id, 'Tie', section, [-reach, y, z], [reach, y, z], [0, 0, 1], gap) }]
  })
  const members: Member[] = []
  const joints: Joint[] = []
  for (const { a, b, tie } of made) {
    const problem = buttProblem(tie, 'A', a) ?? buttProblem(tie, 'B', b)
    if (problem) return bad(problem.code, problem.text, 'build.params.tieHeight')
    const one = butt(`${tie.id}/leg-1`, tie, 'A', a, gap)
    const two = butt(`${tie.id}/leg-2`, one.member, 'B', b, gap)
    members.push(two.member)
    joints.push(one.joint, two.joint)
  }
  return good({ members, joints })
}

/** One stretcher between two pairs: on the legs that run through where they cross, or from tie to tie. */
function stretcherOf(
  values: Values,
  { gap }: BuildContext,
  legs: readonly Member[],
  ties: readonly Member[],
): Result<Made> {
  if (values.pairs !== '2' || values.stretcher !== 'yes') return good(none)
  const section = values.stretcherSection as Section
  const crosses = values.style === 'X legs'
  if (!crosses && ties.length === 0)
    return bad(
      'stretcher-on-nothing',
      'A stretcher between leaning pairs goes from tie to tie; give them a tie, or no stretcher.',
      'build.params.stretcher',
    )
  const [a, b] = crosses ? [legs[0]!, legs[2]!] : [ties[0]!, ties[1]!]
  const z = crosses ? crossingOf(a) : a.pose[14]!
  const reach = b.pose[13]!
  const through = member('stretcher', 'Stretcher', section, [0, -reach, z], [0, reach, z], [0, 0, 1], gap)
  const problem = buttProblem(through, 'A', a) ?? buttProblem(through, 'B', b)
  if (problem) return bad(problem.code, problem.text, 'build.params.stretcher')
  const one = butt(`stretcher/${a.id}`, through, 'A', a, gap)
  const two = butt(`stretcher/${b.id}`, one.member, 'B', b, gap)
  return good({ members: [two.member], joints: [one.joint, two.joint] })
}

/** Height at which a leg's axis passes the middle of its pair. */
const crossingOf = ({ pose }: Member): Mm => pose[14]! - (pose[12]! / pose[0]!) * pose[2]!

function measuresOf(values: Values, lean: Lean, two: boolean): MeasureDraft[] {
  const terms = [{ member: 'pair-1/leg-1', factor: Math.cos(lean.angle) }]
  return [
    { name: 'overall height', mm: values.height as Mm, asked: true, terms },
    {
      name: 'feet, outside to outside',
      mm: values.feet as Mm,
      asked: true,
      drawn: { ...aboutMiddle('x', values.feet as Mm, 'feet'), front: true },
      terms: [],
    },
    {
      name: 'upper ends, outside to outside',
      mm: values.upper as Mm,
      asked: true,
      drawn: { ...aboutMiddle('x', values.upper as Mm, 'upper'), front: true },
      terms: [],
    },
    {
      name: 'top bars',
      mm: values.barLength as Mm,
      asked: true,
      drawn: aboutMiddle('x', values.barLength as Mm, 'barLength'),
      terms: [{ member: 'pair-1/bar', factor: 1 }],
    },
    ...(two
      ? [
          {
            name: 'over both pairs',
            mm: values.length as Mm,
            asked: true,
            drawn: aboutMiddle('y', values.length as Mm, 'length'),
            terms: values.stretcher === 'yes' ? [{ member: 'stretcher', factor: 1 }] : [],
          },
        ]
      : []),
  ]
}
