import type { Assembly, Frame, Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import type { Point } from '../geometry/polygon.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, badAll, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import { assemble, type MeasureDraft } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { barsOf, type Rails } from './rect-frame-bars.ts'
import { rectParams } from './rect-frame-params.ts'
import { plateOn, rimOf } from './rim.ts'
import { ringThrough } from './ring.ts'
import { laid } from './top.ts'

/** Four rails, mitered or butted, with bars between them, lying on the floor, with or without a top. */
export const rectFrame: Build = {
  kind: 'rect-frame',
  title: 'Rectangular frame',
  about: 'Four rails, mitered or butted, with cross bars and infill bars, with or without a top.',
  picture: 'M4 10h40v28H4zM8 14v20h13V14zM25 14v5h15v-5zM25 22v4h15v-4zM25 29v5h15v-5z',
  params: rectParams,
  frame: rectOf,
}

const tubes = ['square-tube', 'rect-tube']

function rectOf(values: Values, context: BuildContext): Result<Frame> {
  const { say } = context
  const given = values.section as Section
  if (!tubes.includes(given.kind))
    return bad(
      'section-kind',
      `The frame was given ${given.kind.replace('-', ' ')}; its rails take square or rectangular tube.`,
      'build.params.section',
    )
  const section = laid(given, values.stands as 'flat' | 'on edge')
  const both = 2 * section.width
  const outside = values.sizeIs === 'outside'
  const size = { length: values.length as Mm, width: values.width as Mm }
  const tooSmall = (['length', 'width'] as const)
    .filter((name) => !(size[name] > (outside ? both : 0)))
    .map(
      (name): Problem => ({
        code: 'size-too-small',
        text:
          `A ${name} of ${say(size[name])} ${outside ? 'outside' : 'clear inside'} leaves nothing inside rails ${say(section.width)} ` +
          `wide; it must be more than ${say(outside ? both : 0)}.`,
        field: `build.params.${name}`,
      }),
    )
  if (tooSmall.length > 0) return badAll(tooSmall)
  const add = outside ? 0 : both
  const length = size.length + add
  const width = size.width + add
  const made = railsOf(values.corners as Corners, length, width, section, context.gap)
  const bars = barsOf(values, context, made.rails)
  if (!bars.ok) return bars
  const outline: readonly Point[] = [
    [-length / 2, -width / 2],
    [length / 2, -width / 2],
    [length / 2, width / 2],
    [-length / 2, width / 2],
  ]
  const members = [...made.rails.members, ...bars.value.members]
  const on = members.map(({ id }) => id)
  const plate = plateOn(values, context, section.height, rimOf(outline, say), on)
  if (!plate.ok) return plate
  return assemble({
    members,
    plates: plate.value ? [plate.value] : [],
    joints: [...made.joints, ...bars.value.joints],
    hardware: [],
    // Bars belong to no assembly of their own: they are fitted into the finished frame.
    assemblies: [made.assembly],
    measures: [
      ...measuresOf(length, width, section.width, outside, made.rails.members),
      ...bars.value.measures,
    ],
    tooShort: ({ name, pose }, shortPoint) => {
      const along = Math.abs(pose[0]!) > Math.abs(pose[1]!) ? 'length' : 'width'
      return {
        code: 'too-short',
        text: `${name} would be ${say(shortPoint)} long on its short side, the root gaps taken off; give more room for it along the ${along}.`,
        field: `build.params.${along}`,
      }
    },
  })
}

type Corners = 'mitered' | 'side rails through' | 'end rails through'

const railNames = ['Side rail 1', 'End rail 1', 'Side rail 2', 'End rail 2'] as const

interface Made {
  readonly rails: Rails
  readonly joints: readonly Joint[]
  readonly assembly: Assembly
}

/** Rails front, right, back, left, counterclockwise from the left front corner, which is corner 1. */
function railsOf(corners: Corners, length: Mm, width: Mm, section: Section, gap: Mm): Made {
  const [x, y, z] = [(length - section.width) / 2, (width - section.width) / 2, section.height / 2]
  const points: readonly Vec3[] = [
    [-x, -y, z],
    [x, -y, z],
    [x, y, z],
    [-x, y, z],
  ]
  const rails = (members: readonly Member[]): Rails => {
    const [front, right, back, left] = members.map((each, at) => ({ ...each, name: railNames[at]! }))
    return { members: [front!, right!, back!, left!], length, width, section }
  }
  if (corners === 'mitered') {
    const ring = ringThrough(points, section, gap, { id: 'frame', name: 'Frame', side: 'Rail' })
    return { rails: rails(ring.members), joints: ring.joints, assembly: ring.assembly }
  }
  const through = corners === 'side rails through' ? 0 : 1
  // A rail that runs through reaches half a tube past the axes of those that stop on it.
  const members = points.map((from, at) => {
    const to = points[(at + 1) % 4]!
    const past = at % 2 === through ? section.width / 2 : 0
    const way: Vec3 = [Math.sign(to[0] - from[0]), Math.sign(to[1] - from[1]), 0]
    const a: Vec3 = [from[0] - way[0] * past, from[1] - way[1] * past, z]
    const b: Vec3 = [to[0] + way[0] * past, to[1] + way[1] * past, z]
    return member(`frame/side-${at + 1}`, railNames[at]!, section, a, b, [0, 0, 1], past > 0 ? 0 : gap)
  })
  const joints: Joint[] = []
  for (let at = 0; at < 4; at++) {
    // At this corner rail `before` ends and rail `at` begins; one of them stops on the other.
    const before = (at + 3) % 4
    const stops = at % 2 === through ? before : at
    const runs = stops === at ? before : at
    const made = butt(
      `frame/corner-${at + 1}`,
      members[stops]!,
      stops === at ? 'A' : 'B',
      members[runs]!,
      gap,
    )
    members[stops] = made.member
    joints.push(made.joint)
  }
  return {
    rails: rails(members),
    joints,
    assembly: { id: 'frame', name: 'Frame', members: members.map(({ id }) => id) },
  }
}

function measuresOf(
  length: Mm,
  width: Mm,
  tube: Mm,
  outside: boolean,
  [front, right]: readonly [Member, Member, ...Member[]],
): MeasureDraft[] {
  const along = [{ member: front.id, factor: 1 }]
  const across = [{ member: right.id, factor: 1 }]
  const diagonal = Math.hypot(length, width)
  return [
    { name: 'length', mm: length, asked: outside, param: 'length', terms: along },
    { name: 'width', mm: width, asked: outside, param: 'width', terms: across },
    {
      name: 'clear length inside',
      mm: length - 2 * tube,
      asked: !outside,
      param: 'length',
      terms: along,
    },
    { name: 'clear width inside', mm: width - 2 * tube, asked: !outside, param: 'width', terms: across },
    {
      name: 'diagonal, corner to corner',
      mm: diagonal,
      asked: false,
      terms: [
        { member: front.id, factor: length / diagonal },
        { member: right.id, factor: width / diagonal },
      ],
    },
  ]
}
