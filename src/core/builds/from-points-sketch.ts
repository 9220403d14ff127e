import { norm, sub, type Vec3 } from '../geometry/vec3.ts'
import { badAll, good, type Problem, type Result } from '../result.ts'
import type { Section } from '../section/section.ts'
import { onAxis } from '../tolerance.ts'
import type { Deg, Mm } from '../units.ts'
import type { RowValue, Values } from './build.ts'

export interface SketchPoint {
  readonly name: string
  /** Unlike every other one's, and fit to stand in a path. */
  readonly slug: string
  readonly at: Vec3
}

export interface SketchMember {
  readonly name: string
  readonly slug: string
  readonly row: number
  /** Numbers of its points. */
  readonly from: number
  readonly to: number
  readonly section: Section
  readonly roll: Deg
}

export type HowMet = 'miter' | 'butt' | 'flat' | 'square'

export interface SketchRule {
  readonly row: number
  readonly point: number
  readonly how: HowMet
  /** Number of the member that runs through, where one is named. */
  readonly runs?: number
}

/** Points, members and rules whose names are found: nothing is cut yet. */
export interface Sketch {
  readonly points: readonly SketchPoint[]
  readonly members: readonly SketchMember[]
  readonly rules: ReadonlyMap<number, SketchRule>
}

/** More members than this in one frame are a slip of the keyboard or of a paste. */
const mostMembers = 600

/** Names are found however they are capitalized; `1/2 brace` must not open a path of its own. */
const slugOf = (name: string): string => name.toLowerCase().replace(/[\s/:]+/g, '-')

export const fieldOf = (param: string, row: number, column?: string): string =>
  `build.params.${param}[${row}]${column === undefined ? '' : `.${column}`}`

/** `a, b and c`; a long list is cut short. */
export function listOf(names: readonly string[], most = 12): string {
  const shown = names.length > most ? names.slice(0, most - 1) : names
  const left = names.length - shown.length
  const all = left > 0 ? [...shown, `${left} more`] : shown
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)}`
}

const cells = (values: Values, name: string): readonly RowValue[] => values[name] as readonly RowValue[]
const text = (row: RowValue, name: string): string => row[name] as string

/** Where each name stands; a name given twice is a problem at its second row. */
function numbered(rows: readonly RowValue[], param: string, what: string, problems: Problem[]) {
  const found = new Map<string, number>()
  rows.forEach((row, at) => {
    const slug = slugOf(text(row, 'name'))
    const before = found.get(slug)
    if (before === undefined) found.set(slug, at)
    else
      problems.push({
        code: 'same-name',
        text:
          `Rows ${before + 1} and ${at + 1} of the ${what}s are called “${text(rows[before]!, 'name')}” and ` +
          `“${text(row, 'name')}”; every ${what} needs a name of its own, small and capital letters being the same.`,
        field: fieldOf(param, at, 'name'),
      })
  })
  return found
}

/** The rows of the build put together, or everything that is wrong with them, each at its cell. */
export function sketchOf(values: Values, say: (mm: Mm) => string): Result<Sketch> {
  const problems: Problem[] = []
  const pointRows = cells(values, 'points')
  const memberRows = cells(values, 'members')
  const ruleRows = cells(values, 'joints')
  const pointAt = numbered(pointRows, 'points', 'point', problems)
  const memberAt = numbered(memberRows, 'members', 'member', problems)
  const points = pointRows.map((row): SketchPoint => {
    const name = text(row, 'name')
    return { name, slug: slugOf(name), at: [row.x as Mm, row.y as Mm, row.z as Mm] }
  })
  const names = {
    point: pointRows.map((row) => text(row, 'name')),
    member: memberRows.map((row) => text(row, 'name')),
  }
  const find = (
    what: 'point' | 'member',
    name: string,
    param: string,
    row: number,
    column: string,
  ): number | undefined => {
    const at = (what === 'point' ? pointAt : memberAt).get(slugOf(name))
    if (at === undefined)
      problems.push({
        code: `unknown-${what}`,
        text:
          `“${name}” is no ${what}; ` +
          (names[what].length > 0 ? `there is ${listOf(names[what])}.` : `there is none yet.`),
        field: fieldOf(param, row, column),
      })
    return at
  }

  if (memberRows.length === 0)
    problems.push({
      code: 'empty',
      text: 'No member was given; a frame needs at least one, from a point to another.',
      field: 'build.params.members',
    })
  if (memberRows.length > mostMembers) {
    const said = `${memberRows.length} members were given; one frame holds at most ${mostMembers}.`
    return badAll([{ code: 'too-many', text: said, field: 'build.params.members' }])
  }

  const members: SketchMember[] = []
  const between = new Map<string, SketchMember>()
  memberRows.forEach((row, at) => {
    const from = find('point', text(row, 'from'), 'members', at, 'from')
    const to = find('point', text(row, 'to'), 'members', at, 'to')
    if (from === undefined || to === undefined) return
    const name = text(row, 'name')
    if (from === to) {
      problems.push({
        code: 'no-length',
        text: `Member ${name} goes from ${points[from]!.name} to ${points[to]!.name}: it has no length; two points are needed.`,
        field: fieldOf('members', at, 'to'),
      })
      return
    }
    const member: SketchMember = {
      name,
      slug: slugOf(name),
      row: at,
      from,
      to,
      section: (row.section ?? values.section) as Section,
      roll: (row.roll as Deg | undefined) ?? 0,
    }
    const pair = `${Math.min(from, to)} ${Math.max(from, to)}`
    const before = between.get(pair)
    if (before)
      problems.push({
        code: 'same-place',
        text: `Members ${before.name} and ${name} both go between ${points[from]!.name} and ${points[to]!.name}; only one fits there.`,
        field: fieldOf('members', at, 'to'),
      })
    else between.set(pair, member)
    members.push(member)
  })
  problems.push(...samePlaces(points, members, say))

  const rules = new Map<number, SketchRule>()
  ruleRows.forEach((row, at) => {
    const point = find('point', text(row, 'at'), 'joints', at, 'at')
    const how = row.how as HowMet
    const named = how === 'butt' ? (row.runs as string | undefined) : undefined
    const runs = named === undefined ? undefined : find('member', named, 'joints', at, 'runs')
    if (point === undefined || (named !== undefined && runs === undefined)) return
    const before = rules.get(point)
    if (before)
      problems.push({
        code: 'two-rules',
        text: `Rows ${before.row + 1} and ${at + 1} of the joints both say how members meet at ${points[point]!.name}; one is needed.`,
        field: fieldOf('joints', at, 'at'),
      })
    else rules.set(point, { row: at, point, how, ...(runs === undefined ? {} : { runs }) })
  })
  return problems.length > 0 ? badAll(problems) : good({ points, members, rules })
}

/** Points in use that lie on one another: their members would not know of each other. */
function samePlaces(
  points: readonly SketchPoint[],
  members: readonly SketchMember[],
  say: (mm: Mm) => string,
): Problem[] {
  const used = [...new Set(members.flatMap(({ from, to }) => [from, to]))].sort(
    (one, two) => points[one]!.at[0] - points[two]!.at[0],
  )
  const problems: Problem[] = []
  for (const [k, one] of used.entries())
    for (let next = k + 1; next < used.length; next++) {
      const two = used[next]!
      const [p, q] = [points[one]!.at, points[two]!.at]
      // Sorted by x: all that follow are farther away still.
      if (q[0] - p[0] > onAxis) break
      if (norm(sub(p, q)) > onAxis) continue
      const [first, second] = one < two ? [one, two] : [two, one]
      const [a, b] = [points[first]!, points[second]!]
      problems.push({
        code: 'same-place',
        text:
          `Points ${a.name} and ${b.name} lie on one place, ${a.at.map(say).join(', ')}; ` +
          'members meet only at one and the same point: use one of the two, or move the other.',
        field: fieldOf('points', second, 'name'),
      })
    }
  return problems
}
