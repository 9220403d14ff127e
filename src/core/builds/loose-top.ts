import type { Frame, Joint, Member, Plate, Warning } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, badAll, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { aboutMiddle, assemble, type MeasureDraft } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { looseTopParams } from './loose-top-params.ts'
import { type Opening, tabsOf } from './loose-top-tabs.ts'
import { evenly } from './rect-frame-spacing.ts'
import { ringThrough } from './ring.ts'
import { laid } from './top.ts'

/** A mitered frame round a loose top of wood, stone or glass, which lies inside it on tabs and bars. */
export const looseTop: Build = {
  kind: 'loose-top',
  title: 'Frame round a loose top',
  about: 'A mitered frame for an inset top of wood, stone or glass: edge gap, support tabs with slots, bars.',
  picture:
    'M4 10h40v28H4zM8 14v20h32V14zM10 16h28v16H10zM8 20h5v4H8zM35 20h5v4h-5zM8 27h5v4H8zM35 27h5v4h-5z',
  params: looseTopParams,
  frame: looseTopFrame,
}

const hollow = ['square-tube', 'rect-tube']
const flatSided = [...hollow, 'flat-bar', 'square-bar']

function looseTopFrame(values: Values, context: BuildContext): Result<Frame> {
  const { say, gap } = context
  for (const [name, kinds] of [
    ['section', hollow],
    ['barSection', flatSided],
  ] as const) {
    const kind = (values[name] as Section | undefined)?.kind
    if (kind !== undefined && !kinds.includes(kind))
      return bad(
        'section-kind',
        `${kind.replace('-', ' ')} was given; rails take square or rectangular tube, bars also flat and square bar.`,
        `build.params.${name}`,
      )
  }
  const section = laid(values.section as Section, values.stands as 'flat' | 'on edge')
  const opened = openingOf(values, context, section)
  if (!opened.ok) return opened
  const opening = opened.value
  const { ring } = opening
  const bars = barsOf(values, context, opening)
  if (!bars.ok) return bars
  const tabs = tabsOf(values, context, opening, bars.value.members)
  if (!tabs.ok) return tabs
  const members = [...ring.members, ...bars.value.members]
  return assemble({
    members,
    plates: tabs.value.plates,
    joints: [...ring.joints, ...bars.value.joints, ...tabs.value.joints],
    hardware: [],
    assemblies: [ring.assembly],
    measures: measuresOf(values, opening),
    warnings: cautions(values, tabs.value.plates, bars.value.members),
    tooShort: ({ name }, shortPoint): Problem => ({
      code: 'too-short',
      text: `${name} would be ${say(shortPoint)} on its short side, ${gap > 0 ? 'the root gaps taken off; ' : ''}give a greater top.`,
      field: 'build.params.length',
    }),
  })
}

function openingOf(values: Values, { say, gap }: BuildContext, section: Section) {
  const edge = values.edgeGap as Mm
  const ofTop = values.sizeIs === 'top'
  const clear = (name: 'length' | 'width'): Mm =>
    (values[name] as Mm) + (ofTop ? 2 * edge : -2 * section.width)
  const thick = values.topThickness as Mm
  const problems: Problem[] = (['length', 'width'] as const)
    .filter((name) => !(clear(name) > 2 * edge))
    .map((name) => ({
      code: 'size-too-small',
      text: `A ${name} of ${say(values[name] as Mm)} leaves no top inside the frame; it must be more than ${say(ofTop ? 0 : 2 * section.width + 2 * edge)}.`,
      field: `build.params.${name}`,
    }))
  const most = section.height + (values.proud as Mm)
  if (!(thick > 0) || thick >= most)
    problems.push({
      code: 'top-thickness',
      text: `A top ${say(thick)} thick cannot lie in a frame ${say(section.height)} high; it must be more than 0 and less than ${say(most)}.`,
      field: 'build.params.topThickness',
    })
  if (problems.length > 0) return badAll(problems)
  const [x, y, z] = [
    (clear('length') + section.width) / 2,
    (clear('width') + section.width) / 2,
    section.height / 2,
  ]
  const corners: readonly Vec3[] = [
    [-x, -y, z],
    [x, -y, z],
    [x, y, z],
    [-x, y, z],
  ]
  const ring = ringThrough(corners, section, gap, { id: 'frame', name: 'Frame', side: 'Rail' })
  const [front, right, back, left] = ring.members.map((each, at) => ({
    ...each,
    name: at % 2 === 0 ? `Side rail ${at / 2 + 1}` : `End rail ${(at + 1) / 2}`,
  }))
  const rails: Opening['rails'] = [front!, right!, back!, left!]
  return good({
    ring: { ...ring, members: rails },
    rails,
    length: clear('length'),
    width: clear('width'),
    section,
    under: section.height + (values.proud as Mm) - thick,
  })
}

/** Bars under the top from front to back, their upper faces level with the tabs. */
function barsOf(
  values: Values,
  { gap, say }: BuildContext,
  { rails, length, width, section, under }: Opening,
): Result<{ readonly members: readonly Member[]; readonly joints: readonly Joint[] }> {
  const count = values.barCount as number
  if (count === 0) return good({ members: [], joints: [] })
  const bar = laid(values.barSection as Section, 'flat')
  if (bar.height > under + sameLength)
    return bad(
      'bar-too-high',
      `Bars ${say(bar.height)} high hang below the frame under a top whose underside is ${say(under)} up; give at most ${say(under)}.`,
      'build.params.barSection',
    )
  const placed = evenly([{ from: section.width, to: section.width + length }], count, bar.width, {
    bars: 'bars',
    count: 'barCount',
    centers: 'barCount',
    say,
  })
  if (!placed.ok) return placed
  const z = under - bar.height / 2
  const joints: Joint[] = []
  const members = placed.value[0]!.map((at, k) => {
    const x = at - section.width - length / 2
    const id = `bars/bar-${k + 1}`
    const start = member(id, `Bar ${k + 1}`, bar, [x, -width / 2, z], [x, width / 2, z], [0, 0, 1], gap)
    const one = butt(`${id}/front`, start, 'A', rails[0], gap)
    const two = butt(`${id}/back`, one.member, 'B', rails[2], gap)
    joints.push(one.joint, two.joint)
    return two.member
  })
  return good({ members, joints })
}

function measuresOf(values: Values, { rails, length, width, section }: Opening): MeasureDraft[] {
  const edge = values.edgeGap as Mm
  const ofTop = values.sizeIs === 'top'
  const along = [{ member: rails[0].id, factor: 1 }]
  const across = [{ member: rails[1].id, factor: 1 }]
  const both = 2 * section.width
  const sized = (name: string, mm: Mm, asked: boolean, param: 'length' | 'width'): MeasureDraft => ({
    name,
    mm,
    asked,
    param,
    ...(asked ? { drawn: aboutMiddle(param === 'length' ? 'x' : 'y', mm, param) } : {}),
    terms: param === 'length' ? along : across,
  })
  return [
    sized('length, outside', length + both, !ofTop, 'length'),
    sized('width, outside', width + both, !ofTop, 'width'),
    sized('length of the loose top', length - 2 * edge, ofTop, 'length'),
    sized('width of the loose top', width - 2 * edge, ofTop, 'width'),
    { name: 'clear length inside', mm: length, asked: false, terms: along },
    { name: 'clear width inside', mm: width, asked: false, terms: across },
  ]
}

function cautions(values: Values, tabs: readonly Plate[], bars: readonly Member[]): Warning[] {
  if (values.topOf === 'glass')
    return [
      {
        code: 'glass',
        text: 'Glass must be safety glass of the thickness that its maker gives for this span, its edges ground, on soft pads, never on bare steel.',
      },
    ]
  if (values.topOf === 'stone' && bars.length === 0)
    return [
      {
        code: 'stone-unsupported',
        text: `Stone breaks where it spans too far: ask who cuts it how often it must be carried. ${tabs.length} tabs carry its edge only; bars under it help.`,
      },
    ]
  return []
}
