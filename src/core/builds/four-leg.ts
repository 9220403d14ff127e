import { flat } from '../frame/flat.ts'
import type { Assembly, Frame, Joint, Member, Plate } from '../frame/frame.ts'
import { bad, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { assemble } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { faultOf } from './four-leg-faults.ts'
import { feetOf } from './four-leg-feet.ts'
import { inside, type Joined, under } from './four-leg-join.ts'
import { measuresOf } from './four-leg-measures.ts'
import { fourLegParams } from './four-leg-params.ts'
import {
  crossbar,
  type Rails,
  type RailsGiven,
  railOffset,
  railsBetween,
  type Way,
} from './four-leg-rails.ts'
import { shelfOf } from './four-leg-shelf.ts'
import { legsOf, type Splay, splayOf } from './four-leg-splay.ts'
import { type Stack, stackOf, stretcherSection } from './four-leg-stack.ts'
import { type Corners, type TopFrame, topFrame } from './four-leg-top.ts'

/** Four legs under a frame or with rails between them, straight or splayed, with stretchers and a shelf. */
export const fourLeg: Build = {
  kind: 'four-leg',
  title: 'Four-leg frame',
  about: 'Table, bench, stool or desk: a frame or rails on four legs, straight or splayed, with stretchers.',
  picture: 'M6 8h36v5H6zM9 13h5l-3 30H6zM34 13h5l3 30h-5zM12 30h24v4H12z',
  params: fourLegParams,
  frame: fourLegFrame,
}

const hollow = ['square-tube', 'rect-tube']

function fourLegFrame(values: Values, context: BuildContext): Result<Frame> {
  for (const name of ['section', 'legSection', 'stretcherSection'] as const) {
    const given = values[name] as Section | undefined
    if (given && !hollow.includes(given.kind))
      return bad(
        'section-kind',
        `${given.kind.replace('-', ' ')} was given; frame, legs and stretchers take square or rectangular tube.`,
        `build.params.${name}`,
      )
  }
  const stack = stackOf(values, context)
  if (!stack.ok) return stack
  const splay = splayOf(values, context, stack.value.leg, stack.value.reach)
  if (!splay.ok) return splay
  const fault = faultOf(values, context, stack.value, splay.value)
  return fault ? { ok: false, problems: [fault] } : built(values, context, stack.value, splay.value)
}

const cornersOf: Readonly<Record<string, Corners>> = {
  'mitered frame': 'mitered',
  'frame, long sides through': 'long through',
  'frame, short sides through': 'short through',
}

function built(values: Values, context: BuildContext, stack: Stack, splay: Splay): Result<Frame> {
  const { gap, say } = context
  const { section, upper, lower, legTop, footing } = stack
  const feet = feetOf(values, context, legsOf(splay, footing.setting, legTop, gap), footing)
  const corners = cornersOf[values.upper as string]
  const top: TopFrame | undefined =
    corners && topFrame(corners, values.length as Mm, values.width as Mm, section, (upper + lower) / 2, gap)
  const joined = joinLegs(values, context, stack, feet.legs, top)
  if (!joined.ok) return joined
  const { legs } = joined.value
  const between = (group: string, name: string, ways: readonly Way[], given: RailsGiven): Rails =>
    together(ways.map((way) => railsBetween(group, name, way, given, splay, legs, gap)))
  const rails = top
    ? none
    : together(
        (['length', 'width'] as const).map((way) =>
          between('rails', way === 'length' ? 'Long rail' : 'Short rail', [way], {
            section,
            upper,
            sit: values.railsSit as 'middle' | 'flush',
          }),
        ),
      )
  const low = stretchersOf(values, context, splay, legs)
  const shelf = values.shelf === true ? shelfOn(values, context, stack, splay, low) : good(undefined)
  if (!shelf.ok) return shelf
  const members = [...(top?.members ?? []), ...rails.members, ...legs, ...low.members]
  const joints = [
    ...(top?.joints ?? []),
    ...joined.value.joints,
    ...rails.joints,
    ...low.joints,
    ...feet.joints,
  ]
  const carries = (top?.members ?? rails.members).map(({ id }) => id)
  return assemble({
    members,
    plates: [
      ...stack.plates.map((plate) => ({ ...plate, on: carries })),
      ...(shelf.value ? [shelf.value] : []),
      ...feet.plates,
    ],
    joints,
    hardware: feet.hardware,
    assemblies: [...(top ? [top.assembly] : []), ...endFrames(members, joints)],
    measures: measuresOf(values, {
      splay,
      lower,
      reach: stack.reach,
      sides: carries,
      ...(low.members.length > 0 ? { stretcher: stretcherSection(values) } : {}),
    }),
    floor: 0,
    warnings: [...joined.value.warnings, ...feet.warnings],
    tooShort: (short, shortPoint): Problem => {
      const along = /side-[13]|long-|middle/.test(short.id) ? 'length' : 'width'
      const field = short.id.startsWith('legs/') ? 'height' : along
      return {
        code: 'too-short',
        text: `${short.name} would be ${say(shortPoint)} on its short side; give more ${field}.`,
        field: `build.params.${field}`,
      }
    },
  })
}

const none: Rails = { members: [], joints: [] }

const together = (all: readonly Rails[]): Rails => ({
  members: all.flatMap(({ members }) => members),
  joints: all.flatMap(({ joints }) => joints),
})

/** Upper ends of the legs: under the frame, inside it, or level with the rails between them. */
function joinLegs(
  values: Values,
  context: BuildContext,
  { stand, legTop, plates }: Stack,
  legs: readonly Member[],
  top: TopFrame | undefined,
): Result<Joined> {
  const closes = plates.length > 0 && values.topEdge !== 'inset' ? 'top/plate' : 'open'
  if (!top) return good({ legs: legs.map((leg) => flat(leg, 'B', legTop, closes)), joints: [], warnings: [] })
  return stand === 'under'
    ? under(legs, top.members, legTop, context)
    : good(inside(legs, top.members, legTop, closes))
}

/** Stretchers as asked for: those along the length, then those along the width, then the one between them. */
function stretchersOf(values: Values, { gap }: BuildContext, splay: Splay, legs: readonly Member[]): Rails {
  if (values.stretchers === 'none') return none
  const given: RailsGiven = {
    section: stretcherSection(values),
    upper: values.stretcherHeight as Mm,
    sit: 'middle',
  }
  const rails = (name: string, way: Way) => railsBetween('stretchers', name, way, given, splay, legs, gap)
  const short = rails('Short stretcher', 'width')
  if (values.stretchers === 'around') return together([rails('Long stretcher', 'length'), short])
  return values.stretchers === 'H' ? together([short, crossbar(given, short.members, gap)]) : short
}

function shelfOn(
  values: Values,
  context: BuildContext,
  { lower }: Stack,
  splay: Splay,
  low: Rails,
): Result<Plate> {
  const section = stretcherSection(values)
  const z = values.stretcherHeight as Mm
  const given: RailsGiven = { section, upper: z, sit: 'middle' }
  const over = (way: Way) => railOffset(splay, way, given) + section.width / 2
  return shelfOf(
    values,
    context,
    splay,
    {
      z,
      halfLength: over('width'),
      ...(values.stretchers === 'around' ? { halfWidth: over('length') } : {}),
      on: low.members,
    },
    lower,
  )
}

/** The two ends, each of two legs and what goes between them: welded flat on the table before the rest. */
function endFrames(members: readonly Member[], joints: readonly Joint[]): Assembly[] {
  const ends = [
    { id: 'left-end', name: 'Left end', legs: ['legs/leg-1', 'legs/leg-4'] },
    { id: 'right-end', name: 'Right end', legs: ['legs/leg-2', 'legs/leg-3'] },
  ]
  return ends.flatMap(({ id, name, legs }) => {
    const between = members.filter((rail) =>
      legs.every((leg) => joints.some((joint) => joint.members[0] === rail.id && joint.members[1] === leg)),
    )
    return between.length > 0 ? [{ id, name, members: [...legs, ...between.map((each) => each.id)] }] : []
  })
}
