import type { Frame } from '../frame/frame.ts'
import type { Point } from '../geometry/polygon.ts'
import type { Plan } from '../plan-shapes.ts'
import { say, showLength } from '../reading/show.ts'
import type { Reading } from '../shop.ts'
import type { Mm } from '../units.ts'
import { type Block, shimUpTo } from './blocks.ts'
import { type Center, centersOf, type Outermost, plateCentersOf, standsOf } from './centering.ts'
import type { Loop } from './loops.ts'
import { together } from './named.ts'
import { blockUpTo, type TableLayout } from './table.ts'

// The words of the bench that screen and paper share. What is alike for several pieces is said once.

const namesOf = ({ members }: Frame): ReadonlyMap<string, string> =>
  new Map(members.map(({ id, name }) => [id, name]))

/** Puts what has one key together, in the order of the first of each. */
function grouped<T>(of: readonly T[], key: (one: T) => string): readonly (readonly T[])[] {
  const found = new Map<string, T[]>()
  for (const one of of) found.set(key(one), [...(found.get(key(one)) ?? []), one])
  return [...found.values()]
}

/** Two distances from edge to edge: `10 mm on both sides`, `40 mm and 60 mm`, `12 mm from end A`. */
function sayPair(
  [one, two]: readonly [Mm | undefined, Mm | undefined],
  [first, second]: readonly [string, string],
  reading: Reading,
): string {
  const own = (mm: Mm) =>
    mm < 0 && showLength(-mm, reading).mm > 0 ? `hangs ${say(-mm, reading)} past` : say(Math.abs(mm), reading)
  const from = (mm: Mm, what: string) =>
    showLength(Math.abs(mm), reading).mm === 0 ? `flush with ${what}` : `${own(mm)} from ${what}`
  if (one === undefined && two === undefined) return 'runs on past both'
  if (one === undefined) return from(two!, second)
  if (two === undefined) return from(one, first)
  if (own(one) === own(two))
    return showLength(Math.abs(one), reading).mm === 0 ? 'flush on both sides' : `${own(one)} on both sides`
  return first === second ? `${own(one)} and ${own(two)}` : `${from(one, first)}, ${from(two, second)}`
}

export interface StandLine {
  readonly title: string
  readonly along: string
  readonly across: string
}

/** Where members stand on others, edge to edge. */
export function standLines({ frame }: Pick<Plan, 'frame'>, reading: Reading): readonly StandLine[] {
  const names = namesOf(frame)
  const lines = standsOf(frame).map((stand) => ({
    ...stand,
    alongText: sayPair(stand.along, ['end A', 'end B'], reading),
    acrossText: sayPair(stand.across, ['the edge', 'the edge'], reading),
  }))
  const stem = (id: string) => names.get(id)!.replace(/\s*\d+$/, '')
  return grouped(lines, (one) => [stem(one.by), stem(one.on), one.alongText, one.acrossText].join('|')).map(
    (alike) => ({
      title: `${together(alike.map(({ by }) => names.get(by)!))} on ${together(alike.map(({ on }) => names.get(on)!))}`,
      along: alike[0]!.alongText,
      across: alike[0]!.acrossText,
    }),
  )
}

/** `side 1`, `corner 3`: as they are numbered on the drawing; of a plate `the left edge`, seen from above. */
export const sayOutermost = (of: Outermost): string =>
  'number' in of ? `${of.kind} ${of.number}` : `the ${of.lies} edge`

export interface CenterLine {
  readonly name: string
  /** What it is measured from: `frame`, `base plate`. */
  readonly within: string
  readonly center: Center
}

/** Flat of each ring to the faces of what carries it, then edge of each plate to the faces of what stands on it. */
export function centerLines(
  { frame, parts }: Pick<Plan, 'frame' | 'parts'>,
  loops: readonly Loop[],
): readonly CenterLine[] {
  const names = namesOf(frame)
  const plates = new Map(frame.plates.map(({ id, name }) => [id, name.toLowerCase()]))
  return [
    ...centersOf(frame, loops, parts).map((center) => ({
      name: names.get(center.member)!,
      within: 'frame',
      center,
    })),
    ...plateCentersOf(frame).map((center) => ({
      name: `${names.get(center.member)!} on the ${plates.get(center.loop)!}`,
      within: plates.get(center.loop)!,
      center,
    })),
  ]
}

/** What goes under a load, one line for all that is alike. */
export function blockLines(
  frame: Frame,
  blocks: readonly Block[],
  reading: Reading,
): readonly { readonly title: string; readonly text: string }[] {
  const names = namesOf(frame)
  const whole = grouped(blocks, ({ member, height }) => `${member} ${say(height, reading)}`).map((ends) => ({
    ...ends[0]!,
    both: ends.length > 1,
  }))
  const said = whole.map(({ member, end, height, tube, both }) => ({
    member,
    key: `${say(height, reading)}|${tube}|${both || end}`,
    height,
    tube,
    where: both ? 'under both ends' : `under end ${end}`,
  }))
  return grouped(said, ({ key }) => key).map((alike) => {
    const { height, tube, where } = alike[0]!
    const kind = height <= shimUpTo ? 'shim' : height <= blockUpTo ? 'block' : 'held by a stand or a clamp at'
    return {
      title: together(alike.map(({ member }) => names.get(member)!)),
      text: `${kind} ${say(height, reading)} ${where}${tube ? `: a scrap of tube that is ${say(height, reading)} high does` : ''}`,
    }
  })
}

/** A point of the table: `x, y`. */
export const sayAt = ([x, y]: Point, reading: Reading): string =>
  `${showLength(x, reading).text}, ${showLength(y, reading).text}`

export interface LayoutLine {
  readonly name: string
  /** `x, y` of both ends of the line, from the left edge and from the front one. */
  readonly from: string
  readonly to: string
  readonly blocks: readonly string[]
}

/** Lines and blocks of a table layout, as they are marked. */
export function layoutLines(frame: Frame, { lines }: TableLayout, reading: Reading): readonly LayoutLine[] {
  const names = namesOf(frame)
  const at = (point: Point) => sayAt(point, reading)
  return lines.map(({ member, from, to, blocks }) => ({
    name: names.get(member)!,
    from: at(from),
    to: at(to),
    blocks: blocks.map(at),
  }))
}

/** Which pieces need a plate under them on the slotted table. */
export const plateText = (frame: Frame, members: readonly string[]): string => {
  const names = namesOf(frame)
  return members.length === 0
    ? ''
    : `${together(members.map((id) => names.get(id)!))}: too narrow to lie over the slots. Lay a flat plate over them and mark out on the plate.`
}
