import type { Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import type { MeasureDraft } from './assembly.ts'
import type { BuildContext, RowValue, Values } from './build.ts'
import { evenGap, evenly, type Field, fieldsBetween, type RowWords, typed } from './rect-frame-spacing.ts'
import { laid } from './top.ts'

// Cross bars between two rails, and infill in the fields that they leave.

type Run = 'across' | 'along'

/** The four rails, front, right, back, left, with the outside of the frame and the rail's section. */
export interface Rails {
  readonly members: readonly [Member, Member, Member, Member]
  readonly length: Mm
  readonly width: Mm
  readonly section: Section
}

export interface Bars {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
  readonly measures: readonly MeasureDraft[]
}

const flatSided = ['square-tube', 'rect-tube', 'flat-bar', 'square-bar']
const round = ['round-tube', 'round-bar']

/** More bars than this in one frame are a slip of the keyboard. */
const mostPieces = 1000

interface Row {
  readonly run: Run
  readonly section: Section
  readonly words: RowWords
  readonly evenCount: number | undefined
  readonly rows: readonly RowValue[]
}

/** Cross bars and infill of a rectangular frame. Every bar butts with both ends. */
export function barsOf(values: Values, context: BuildContext, rails: Rails): Result<Bars> {
  const cross = rowOf(values, context, 'bar', rails.section)
  if (!cross.ok) return cross
  const infill = rowOf(values, context, 'infill', rails.section)
  if (!infill.ok) return infill
  const made = crossBars(values, context, rails, cross.value)
  if (!made.ok || !infill.value) return made
  const filled = infillBars(values, context, rails, infill.value, cross.value, made.value.members)
  if (!filled.ok) return filled
  return good({
    members: [...made.value.members, ...filled.value.members],
    joints: [...made.value.joints, ...filled.value.joints],
    measures: [...made.value.measures, ...filled.value.measures],
  })
}

/** What is asked of one row of bars; absent where there are none. */
function rowOf(
  values: Values,
  { say }: BuildContext,
  of: 'bar' | 'infill',
  rail: Section,
): Result<Row | undefined> {
  const by = values[of === 'bar' ? 'bars' : 'infill']
  if (by === 'none') return good(undefined)
  const bars = of === 'bar' ? 'cross bars' : 'infill bars'
  const given = values[`${of}Section`] as Section
  const field = `build.params.${of}Section`
  if (!flatSided.includes(given.kind) && (of === 'bar' || !round.includes(given.kind)))
    return bad(
      'section-kind',
      `${given.kind.replace('-', ' ')} was given for the ${bars}; they take square or rectangular tube, flat or square bar` +
        `${of === 'infill' ? ', round tube or round bar' : ''}.`,
      field,
    )
  const section = laid(given, values[`${of}Stands`] as 'flat' | 'on edge')
  if (section.height > rail.height + sameLength)
    return bad(
      'bar-too-high',
      `The ${bars} are ${say(section.height)} high and would hang past the rails; they can be at most ${say(rail.height)} high.`,
      field,
    )
  return good({
    run: values[`${of}Run`] as Run,
    section,
    words: { bars, count: `${of}Count`, centers: `${of}Centers`, say },
    evenCount: by === 'evenly' ? (values[`${of}Count`] as number) : undefined,
    rows: by === 'centers' ? (values[`${of}Centers`] as readonly RowValue[]) : [],
  })
}

const place = (row: Row, fields: readonly Field[]) =>
  row.evenCount === undefined
    ? typed(fields, row.rows, row.section.width, row.words)
    : evenly(fields, row.evenCount, row.section.width, row.words)

/** The clear inside in the direction in which bars that run so follow each other. */
function insideOf({ length, width, section }: Rails, run: Run): Field {
  return { from: section.width, to: (run === 'across' ? length : width) - section.width }
}

/** The two rails that bars running so stop on, the one at their end A first, and the words for these ends. */
function stopsOf({ members: [front, right, back, left] }: Rails, run: Run) {
  return run === 'across'
    ? { a: front, b: back, words: ['front', 'back'] as const, spacedAlong: front }
    : { a: left, b: right, words: ['left', 'right'] as const, spacedAlong: right }
}

function heightOf(values: Values, rails: Rails, section: Section): Mm {
  const under = rails.section.height - section.height
  const share = values.barsLie === 'on top' ? 1 : values.barsLie === 'underneath' ? 0 : 0.5
  return under * share + section.height / 2
}

/** A bar at this distance from the outside, between two members that it stops on. */
function barBetween(
  id: string,
  name: string,
  { run, section }: Row,
  at: Mm,
  height: Mm,
  rails: Rails,
  a: Member,
  b: Member,
  gap: Mm,
): { readonly member: Member; readonly joints: readonly Joint[] } {
  const { words } = stopsOf(rails, run)
  const across = run === 'across'
  const side = at - (across ? rails.length : rails.width) / 2
  // The axis is laid through the whole frame; both ends are then cut by the faces that they stop on.
  const half = (across ? rails.width : rails.length) / 2
  const point = (along: Mm): Vec3 => (across ? [side, along, height] : [along, side, height])
  const start = member(id, name, section, point(-half), point(half), [0, 0, 1], gap)
  const first = butt(`${id}/${words[0]}`, start, 'A', a, gap)
  const second = butt(`${id}/${words[1]}`, first.member, 'B', b, gap)
  return { member: second.member, joints: [first.joint, second.joint] }
}

function crossBars(values: Values, { gap }: BuildContext, rails: Rails, row: Row | undefined): Result<Bars> {
  if (!row) return good({ members: [], joints: [], measures: [] })
  const inside = insideOf(rails, row.run)
  const placed = place(row, [inside])
  if (!placed.ok) return placed
  const { a, b, spacedAlong } = stopsOf(rails, row.run)
  const height = heightOf(values, rails, row.section)
  const bars = placed.value[0]!.map((at, k) =>
    barBetween(`bars/cross-bar-${k + 1}`, `Cross bar ${k + 1}`, row, at, height, rails, a, b, gap),
  )
  const count = row.evenCount
  return good({
    members: bars.map((bar) => bar.member),
    joints: bars.flatMap((bar) => bar.joints),
    measures:
      count === undefined
        ? []
        : [
            {
              name: 'clear between cross bars',
              mm: evenGap(inside, count, row.section.width),
              asked: false,
              terms: [{ member: spacedAlong.id, factor: 1 / (count + 1) }],
            },
          ],
  })
}

function infillBars(
  values: Values,
  { gap, say }: BuildContext,
  rails: Rails,
  row: Row,
  cross: Row | undefined,
  crossed: readonly Member[],
): Result<Bars> {
  const inside = insideOf(rails, row.run)
  const beside = cross !== undefined && cross.run === row.run
  const crossing = cross !== undefined && !beside
  if (crossing && row.section.height > cross.section.height + sameLength)
    return bad(
      'bar-too-high',
      `The infill bars are ${say(row.section.height)} high and would hang past the cross bars that they stop on; they can be ` +
        `at most ${say(cross.section.height)} high.`,
      'build.params.infillSection',
    )
  const middles = crossed.map(({ pose }) =>
    cross?.run === 'across' ? pose[12]! + rails.length / 2 : pose[13]! + rails.width / 2,
  )
  const fields = beside ? fieldsBetween(inside, middles, cross.section.width) : [inside]
  const placed = place(row, fields)
  if (!placed.ok) return placed
  const { a, b, spacedAlong } = stopsOf(rails, row.run)
  const walls = crossing ? [a, ...crossed, b] : [a, b]
  const total = placed.value.flat().length * (walls.length - 1)
  if (total > mostPieces)
    return bad(
      'bars-too-many',
      `${total} pieces of infill follow from this; one frame holds at most ${mostPieces}.`,
      `build.params.${row.evenCount === undefined ? row.words.centers : row.words.count}`,
    )
  const height = heightOf(values, rails, row.section)
  const members: Member[] = []
  const joints: Joint[] = []
  const add = (field: number, bar: number, at: Mm, from: Member, to: Member) => {
    const id = `infill/field-${field + 1}-bar-${bar + 1}`
    const name = `Infill bar ${members.length + 1}`
    const made = barBetween(id, name, row, at, height, rails, from, to, gap)
    members.push(made.member)
    joints.push(...made.joints)
  }
  if (crossing)
    for (let field = 0; field + 1 < walls.length; field++)
      placed.value[0]!.forEach((at, bar) => {
        add(field, bar, at, walls[field]!, walls[field + 1]!)
      })
  else
    placed.value.forEach((centers, field) => {
      centers.forEach((at, bar) => {
        add(field, bar, at, a, b)
      })
    })
  const count = row.evenCount
  const gaps = count === undefined ? [] : fields.map((field) => evenGap(field, count, row.section.width))
  const alike = gaps.length > 0 && Math.max(...gaps) - Math.min(...gaps) < sameLength
  return good({
    members,
    joints,
    measures:
      alike && count !== undefined
        ? [
            {
              name: 'clear between infill bars',
              mm: gaps[0]!,
              asked: false,
              terms: [{ member: spacedAlong.id, factor: 1 / (fields.length * (count + 1)) }],
            },
          ]
        : [],
  })
}
