import type { Frame, Member, Plate } from '../frame/frame.ts'
import { member } from '../frame/member.ts'
import { notched, type Standing } from '../plates/notched.ts'
import { bad, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { aboutMiddle, assemble, type MeasureDraft, upward } from './assembly.ts'
import type { Build, BuildContext, Values } from './build.ts'
import { feetOf } from './four-leg-feet.ts'
import { footingOf } from './leveler.ts'
import { rackParams } from './rack-params.ts'
import { bracesOf, type Column, columnsOf, railsOf } from './rack-rails.ts'
import { tiersOf } from './rack-tiers.ts'
import { laid } from './top.ts'

/** Uprights that run through, rails between them on every tier, braces between the tiers. */
export const rack: Build = {
  kind: 'rack',
  title: 'Rack',
  about: 'Uprights that run through, tiers of rails between them, oblique braces, notched sheets as shelves.',
  picture: 'M6 5h4v38H6zM38 5h4v38H38zM10 8h28v3H10zM10 20h28v3H10zM10 34h28v3H10zM10 34L36 23h2v3L12 37z',
  params: rackParams,
  frame: rackFrame,
}

const hollow = ['square-tube', 'rect-tube']

function rackFrame(values: Values, context: BuildContext): Result<Frame> {
  const { say, gap } = context
  for (const name of ['section', 'railSection', 'braceSection'] as const) {
    const kind = (values[name] as Section | undefined)?.kind
    if (kind !== undefined && !hollow.includes(kind))
      return bad(
        'section-kind',
        `${kind.replace('-', ' ')} was given; a rack takes square or rectangular tube.`,
        `build.params.${name}`,
      )
  }
  const footing = footingOf(values, context)
  if (!footing.ok) return footing
  const section = laid(values.section as Section, 'flat')
  const problem = sizeProblem(values, context, section)
  if (problem) return { ok: false, problems: [problem] }
  const tiers = tiersOf(values, context, footing.value.setting + footing.value.capThickness)
  if (!tiers.ok) return tiers
  const height = values.height as Mm
  const bays = values.bays as number
  const [length, depth] = [values.length as Mm, values.depth as Mm]
  const upright = (column: number, back: boolean): Member => {
    const x = -length / 2 + section.width / 2 + (column * (length - section.width)) / bays
    const y = ((depth - section.height) / 2) * (back ? 1 : -1)
    const id = `uprights/${back ? 'back' : 'front'}-${column + 1}`
    return member(id, 'Upright', section, [x, y, footing.value.setting], [x, y, height], [0, 1, 0], gap)
  }
  const pairs = Array.from({ length: bays + 1 }, (_, column) => [
    upright(column, false),
    upright(column, true),
  ])
  const feet = feetOf(values, context, pairs.flat(), footing.value)
  const columns = columnsOf(feet.legs)
  const rails = railsOf(values, context, columns, tiers.value)
  const braces = bracesOf(values, context, columns, tiers.value)
  if (!braces.ok) return braces
  const members = [...feet.legs, ...rails.members, ...braces.value.members]
  return assemble({
    members,
    plates: [...feet.plates, ...shelvesOf(values, columns, tiers.value, section)],
    joints: [...rails.joints, ...braces.value.joints, ...feet.joints],
    hardware: feet.hardware,
    assemblies: columns.map((_, at) => {
      const own = new RegExp(`^uprights/(front|back)-${at + 1}$|/cross-${at + 1}(-|$)`)
      return {
        id: `pair-${at + 1}`,
        name: at === 0 ? 'Left end frame' : at === bays ? 'Right end frame' : `Middle frame ${at}`,
        members: members.map(({ id }) => id).filter((id) => own.test(id)),
      }
    }),
    measures: measuresOf(values, tiers.value),
    floor: 0,
    warnings: feet.warnings,
    tooShort: ({ name, id }, shortPoint): Problem => {
      const field = id.startsWith('uprights/') ? 'height' : id.includes('cross') ? 'depth' : 'length'
      return {
        code: 'too-short',
        text: `${name} would be ${say(shortPoint)} on its short side; give more ${field}.`,
        field: `build.params.${field}`,
      }
    },
  })
}

/** Uprights that have no room, or rails wider than they. */
function sizeProblem(values: Values, { say }: BuildContext, section: Section): Problem | undefined {
  const bays = values.bays as number
  const least = { length: (bays + 1) * section.width, depth: 2 * section.height }
  for (const name of ['length', 'depth'] as const)
    if (!((values[name] as Mm) > least[name]))
      return {
        code: 'size-too-small',
        text: `A ${name} of ${say(values[name] as Mm)} leaves nothing between the uprights; it must be more than ${say(least[name])}.`,
        field: `build.params.${name}`,
      }
  const narrow = Math.min(section.width, section.height)
  for (const name of ['railSection', 'braceSection'] as const) {
    const given = values[name] as Section | undefined
    const wide = given && Math.min(given.width, given.height)
    if (wide !== undefined && wide > narrow + sameLength)
      return {
        code: 'wider-than-upright',
        text: `${say(wide)} wide hangs past the uprights, ${say(narrow)} on their narrow side; give ${say(narrow)} or less.`,
        field: `build.params.${name}`,
      }
  }
  return undefined
}

function measuresOf(values: Values, tiers: readonly Mm[]): MeasureDraft[] {
  const bays = values.bays as number
  return [
    {
      name: 'length',
      mm: values.length as Mm,
      asked: true,
      param: 'length',
      drawn: aboutMiddle('x', values.length as Mm, 'length'),
      terms: Array.from({ length: bays }, (_, bay) => ({ member: `tier-1/front-${bay + 1}`, factor: 1 })),
    },
    {
      name: 'depth',
      mm: values.depth as Mm,
      asked: true,
      param: 'depth',
      drawn: aboutMiddle('y', values.depth as Mm, 'depth'),
      terms: [{ member: 'tier-1/cross-1', factor: 1 }],
    },
    {
      name: 'height of the uprights',
      mm: values.height as Mm,
      asked: true,
      terms: [{ member: 'uprights/front-1', factor: 1 }],
    },
    ...tiers.map((mm, at) => ({
      name: `tier ${at + 1}, upper face of the rails`,
      mm,
      asked: values.tiersBy === 'heights',
      ...drawnTier(values, at, tiers.length),
      terms: [],
    })),
  ]
}

/** The lowest and the highest tier are given where those between them follow. */
function drawnTier(values: Values, at: number, of: number): Pick<MeasureDraft, 'drawn'> {
  if (values.tiersBy === 'heights') return {}
  return at === 0 ? { drawn: upward('lowest') } : at === of - 1 ? { drawn: upward('highest') } : {}
}

/** A sheet on every tier, flush with the outside of the uprights and notched round them. */
function shelvesOf(
  values: Values,
  columns: readonly Column[],
  tiers: readonly Mm[],
  section: Section,
): Plate[] {
  if (values.shelves !== 'sheet') return []
  const [length, depth] = [values.length as Mm, values.depth as Mm]
  const fronts = columns.map(
    ({ front }): Standing => ({
      x: front.pose[12]!,
      y: front.pose[13]!,
      width: section.width,
      depth: section.height,
    }),
  )
  return tiers.map((z, at) => {
    // Level with the upper ends of the uprights it lies over them.
    const through = z < (values.height as Mm) - sameLength
    return {
      id: `tier-${at + 1}/shelf`,
      name: `Shelf ${at + 1}`,
      polygon: notched(length, depth, through ? fronts : [], values.notchClear as Mm),
      holes: [],
      thickness: values.shelfThickness as Mm,
      pose: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, z, 1],
      on: columns.map((_, column) => `tier-${at + 1}/cross-${column + 1}`),
    }
  })
}
