import type { Job } from '../job.ts'
import { type NestPart, type NestSection, type NestStick, piecesIn } from '../nest.ts'
import type { Part } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'

// Parts that a person wants from one stick, for an even color or a straight run. The wish hangs on members and not on
// marks, so that it outlives another size: a part is meant where any of its members is named, and a name that is no
// longer there says nothing.

/** The parts, each that shares a stick with the name of its wish. One piece alone has nothing to share. */
export function wantedTogether(
  parts: readonly Part[],
  { id, oneStick = [] }: Pick<Job, 'id' | 'oneStick'>,
): readonly Part[] {
  const names = new Map<string, string>()
  for (const wish of oneStick) {
    const meant = parts.filter(
      ({ mark, members }) => !names.has(mark) && members.some((of) => wish.includes(of)),
    )
    for (const section of new Set(meant.map((part) => sectionKey(part.section)))) {
      const sharing = meant.filter((part) => sectionKey(part.section) === section)
      if (sharing.reduce((sum, { count }) => sum + count, 0) < 2) continue
      for (const { mark } of sharing) names.set(mark, `${id}/${sharing[0]!.mark}`)
    }
  }
  return names.size === 0
    ? parts
    : parts.map((part) => (names.has(part.mark) ? { ...part, oneStick: names.get(part.mark)! } : part))
}

/** Name of what shares a stick in one copy. */
export const sameName = (wish: string, copy: number): string => `${wish}/${copy}`

/** What is asked of a part, copy by copy where it shares a stick: another copy may come from another one. */
export function byCopy(part: NestPart, { oneStick }: Pick<Part, 'oneStick'>): readonly NestPart[] {
  if (oneStick === undefined) return [part]
  const { first = 1, count, perCopy } = part
  const copyOf = (number: number) => 1 + Math.floor((number - 1) / perCopy)
  const rows: NestPart[] = []
  for (let number = first; number < first + count; ) {
    const copy = copyOf(number)
    const next = Math.min(first + count, copy * perCopy + 1)
    const begins = number === 1 ? {} : { first: number }
    rows.push({ ...part, ...begins, count: next - number, same: sameName(oneStick, copy) })
    number = next
  }
  return rows
}

/** What comes from this stick because it was wanted from one, `A and B; C`. */
export function keptTogether({ demand }: NestSection, { pieces }: NestStick): string {
  const wished = new Map<string, Set<string>>()
  for (const entry of pieces) {
    const same = demand.find(
      (part) =>
        part.same !== undefined &&
        part.job === entry.job &&
        (part.makes ? part.makes.some(([first]) => first.piece === entry.piece) : part.mark === entry.mark),
    )?.same
    if (same === undefined) continue
    wished.set(same, new Set([...(wished.get(same) ?? []), ...piecesIn(entry).map(({ mark }) => mark)]))
  }
  return [...new Set([...wished.values()].map((marks) => [...marks].join(' and ')))].join('; ')
}

/** The wishes of a job with this part alone or beside others from one stick, or, with nothing beside it, as it comes. */
export function wish(
  { oneStick = [] }: Pick<Job, 'oneStick'>,
  part: Pick<Part, 'members'>,
  beside: readonly Pick<Part, 'members'>[] | undefined,
): NonNullable<Job['oneStick']> | undefined {
  const all = beside ? [part, ...beside].flatMap(({ members }) => members) : []
  const gone = new Set([...part.members, ...all])
  const others = oneStick
    .map((members) => members.filter((member) => !gone.has(member)))
    .filter((members) => members.length > 1)
  const wishes = all.length > 1 ? [...others, all] : others
  return wishes.length > 0 ? wishes : undefined
}
