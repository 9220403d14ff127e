import type { Joint, Member } from '../frame/frame.ts'
import { butt } from '../frame/joint.ts'
import { member } from '../frame/member.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { bad, good, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import type { Mm } from '../units.ts'
import type { BuildContext, Values } from './build.ts'
import { railOf, shelfOn } from './rack-tiers.ts'
import { laid } from './top.ts'

/** A front upright and the back one behind it. */
export interface Column {
  readonly front: Member
  readonly back: Member
}

/** Uprights in the order in which they were made: front, back, from the left. */
export const columnsOf = (uprights: readonly Member[]): Column[] =>
  Array.from({ length: uprights.length / 2 }, (_, at) => ({
    front: uprights[2 * at]!,
    back: uprights[2 * at + 1]!,
  }))

export interface Made {
  readonly members: readonly Member[]
  readonly joints: readonly Joint[]
}

type Sits = 'middle' | 'flush'

/** How far beside the middle of an upright something sits that is flush with its outside; `out` points outward. */
const beside = (sits: Sits, out: -1 | 0 | 1, upright: Mm, own: Mm): Mm =>
  sits === 'middle' ? 0 : (out * (upright - own)) / 2

/** A member between two uprights, butted with both ends. The end names tell the two joints. */
function between(
  id: string,
  name: string,
  section: Section,
  [a, from]: readonly [Member, Vec3],
  [b, to]: readonly [Member, Vec3],
  gap: Mm,
): { readonly member: Member; readonly joints: readonly Joint[] } {
  const laidOut = member(id, name, section, from, to, [0, 0, 1], gap)
  const one = butt(`${id}/${a.id.slice(9)}`, laidOut, 'A', a, gap)
  const two = butt(`${id}/${b.id.slice(9)}`, one.member, 'B', b, gap)
  return { member: two.member, joints: [one.joint, two.joint] }
}

const at = (upright: Member, dx: Mm, dy: Mm, z: Mm): Vec3 => [
  upright.pose[12]! + dx,
  upright.pose[13]! + dy,
  z,
]

const outward = (column: number, columns: number): -1 | 0 | 1 =>
  column === 0 ? -1 : column === columns - 1 ? 1 : 0

/** Rails of every tier: front and back ones in each bay, cross rails from front to back in each pair of uprights. */
export function railsOf(
  values: Values,
  { gap }: BuildContext,
  columns: readonly Column[],
  tiers: readonly Mm[],
): Made {
  const section = railOf(values)
  const sits = values.railsSit as Sits
  const made = tiers.flatMap((upper, tier) => {
    const z = upper - section.height / 2
    const long = (['front', 'back'] as const).flatMap((side) =>
      columns.slice(1).map((next, bay) => {
        const [a, b] = [columns[bay]![side], next[side]]
        const dy = beside(sits, side === 'front' ? -1 : 1, a.section.height, section.width)
        const name = side === 'front' ? 'Front rail' : 'Back rail'
        return between(
          `tier-${tier + 1}/${side}-${bay + 1}`,
          name,
          section,
          [a, at(a, 0, dy, z)],
          [b, at(b, 0, dy, z)],
          gap,
        )
      }),
    )
    const cross = columns.map(({ front, back }, column) => {
      const dx = beside(sits, outward(column, columns.length), front.section.width, section.width)
      return between(
        `tier-${tier + 1}/cross-${column + 1}`,
        'Cross rail',
        section,
        [front, at(front, dx, 0, z)],
        [back, at(back, dx, 0, z)],
        gap,
      )
    })
    return [...long, ...cross]
  })
  return { members: made.map((each) => each.member), joints: made.flatMap((each) => each.joints) }
}

/**
 * The slope of a brace that is `high` in its plane, in a field `clear` wide and `rise` high, so that its corners touch the
 * field's: clear · sin + high = rise · cos. Radians; 0 or less where it is too high for the field.
 */
export const braceSlope = (clear: Mm, rise: Mm, high: Mm): number =>
  high >= rise ? 0 : Math.acos(high / Math.hypot(clear, rise)) - Math.atan2(clear, rise)

/** Braces between two tiers, their ends cut obliquely to the uprights. */
export function bracesOf(
  values: Values,
  { gap, say }: BuildContext,
  columns: readonly Column[],
  tiers: readonly Mm[],
): Result<Made> {
  const where = values.braces as string
  if (where === 'none') return good({ members: [], joints: [] })
  if (tiers.length < 2)
    return bad('brace-one-tier', 'A brace goes between two tiers; there is one.', 'build.params.braces')
  const section = laid(values.braceSection as Section, 'on edge')
  const sits = values.railsSit as Sits
  const rail = railOf(values)
  const members: Member[] = []
  const joints: Joint[] = []
  const levels = values.bracesIn === 'every' ? tiers.slice(1).map((_, tier) => tier) : [0]
  const fields: readonly {
    readonly name: string
    readonly a: Member
    readonly b: Member
    readonly clear: Mm
    readonly dx: Mm
    readonly dy: Mm
    readonly turn: number
  }[] = [
    ...(where === 'ends'
      ? []
      : columns.slice(1).map(({ back }, bay) => {
          const a = columns[bay]!.back
          return {
            name: `back-${bay + 1}`,
            a,
            b: back,
            clear: back.pose[12]! - a.pose[12]! - a.section.width,
            dx: 0,
            dy: beside(sits, 1, a.section.height, section.width),
            turn: bay,
          }
        })),
    ...(where === 'back'
      ? []
      : [0, columns.length - 1].map((column) => {
          const { front, back } = columns[column]!
          return {
            name: `cross-${column + 1}`,
            a: front,
            b: back,
            clear: back.pose[13]! - front.pose[13]! - front.section.height,
            dx: beside(sits, outward(column, columns.length), front.section.width, section.width),
            dy: 0,
            turn: 0,
          }
        })),
  ]
  for (const { name, a, b, clear, dx, dy, turn } of fields)
    for (const tier of levels) {
      const low = tiers[tier]! + shelfOn(values)
      const high = tiers[tier + 1]! - rail.height
      const slope = braceSlope(clear, high - low, section.height)
      if (!(slope > 0))
        return bad(
          'brace-too-high',
          `Tiers ${tier + 1} and ${tier + 2} leave ${say(Math.max(0, high - low))} clear; a brace ${say(section.height)} high needs more. Give a lower brace, or tiers farther apart.`,
          'build.params.braceSection',
        )
      const half = section.height / 2 / Math.cos(slope)
      // The axis runs on behind both faces, to the middles of the uprights.
      const past = (depth: Mm) => Math.tan(slope) * depth
      const ends = (upright: Member) =>
        past((name.startsWith('back') ? upright.section.width : upright.section.height) / 2)
      const from = low + half - ends(a)
      const to = high - half + ends(b)
      const up = (tier + turn) % 2 === 0
      const made = between(
        `brace-${tier + 1}/${name}`,
        'Brace',
        section,
        [a, at(a, dx, dy, up ? from : to)],
        [b, at(b, dx, dy, up ? to : from)],
        gap,
      )
      members.push(made.member)
      joints.push(...made.joints)
    }
  return good({ members, joints })
}
