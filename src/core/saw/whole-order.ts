import { sameLength } from '../tolerance.ts'
import type { Blank, Loaded, Share, SquareWork } from './blanks.ts'
import { workOf } from './figures.ts'
import { leastOrder, type Move, type Segment, type Standing, type Tasks } from './least-order.ts'
import { type Chain, endVisit, type Miter } from './miters.ts'
import { atRest, type Setting, sameSetting } from './setting.ts'
import type { Visit } from './visit.ts'

/** So many orders are begun before the search is given up; then the best order known stands. */
const steps = 4000

/** One section's sticks with their square cuts, and the end cuts of what comes off them. */
export interface OfSection {
  readonly squares: Pick<SquareWork, 'sticks' | 'lay'>
  readonly chains: readonly Chain[]
}

/** A segment of a stick, as it can be cut. */
interface Part extends Segment {
  readonly section: number
  readonly of: Loaded
  readonly blanks: readonly Blank[]
}

/** What is cut at the ends of a blank, by how the saw stands; blanks of one kind are cut alike. */
interface Ends {
  readonly kind: number
  readonly stages: readonly Stage[]
}

interface Stage {
  readonly standing: number
  readonly miters: Miter[]
}

/**
 * The visits in the order that takes the fewest minutes of all, where that is fewer than `best` takes; undefined where no
 * order takes fewer, where it was not found in so many steps, or where cuts are made side by side. Every order of all cuts
 * is looked at: a stick may go away and come back, a blank may be mitered while it is in hand.
 */
export function wholeOrder(
  sections: readonly OfSection[],
  best: readonly Visit[],
): readonly Visit[] | undefined {
  if (best.some(({ saw }) => (saw.gang ?? 1) > 1)) return undefined
  const table = new Table()
  const kinds: (readonly number[])[] = []
  const ends = new Map<string, Ends>()
  for (const chain of sections.flatMap(({ chains }) => chains)) {
    const stages = stagesOf(chain, table)
    const own = stages.map(({ standing }) => standing)
    const known = kinds.findIndex((kind) => kind.join() === own.join())
    ends.set(chain[0]!.load, { kind: known < 0 ? kinds.push(own) - 1 : known, stages })
  }
  if (kinds.some(({ length }) => length > 2)) return undefined
  const parts: Part[] = []
  let stick = 0
  for (const [section, { squares }] of sections.entries())
    for (const of of squares.sticks) {
      const visits = squares.lay([{ of, blanks: of.blanks }])?.[0]
      // Held in two ways, or not at all: the search knows of one way only.
      if (visits === undefined || visits.length > 1) return undefined
      const visit = visits[0]
      if (!visit || visit.cuts.length === 0) continue
      const own: Part[] = []
      for (const mm of new Set(of.blanks.map(({ stop }) => stop.mm))) {
        const blanks = of.blanks.filter((blank) => blank.stop.mm === mm)
        const gives = blanks.flatMap(({ keep }) => ends.get(keep.id)?.kind ?? [])
        own.push({
          stick,
          kind: '',
          standing: table.of(visit, atRest, mm, 'fence'),
          stop: mm,
          gives,
          section,
          of,
          blanks,
        })
      }
      const kind = JSON.stringify(own.map(({ standing, gives }) => [standing, gives]))
      parts.push(...own.map((part) => ({ ...part, kind: `${section} ${kind}` })))
      stick += 1
    }
  const tasks: Tasks = {
    minutes: table.saws.map(({ minutes }) => minutes),
    begins: table.saws.map((_, saw) => table.headOf(saw, atRest)),
    standings: table.standings,
    segments: parts,
    ends: kinds,
  }
  const moves = leastOrder(tasks, movesOnly(best), steps)
  const visits = moves && visitsIn(moves, parts, ends, sections)
  return visits && workOf(visits).minutes < workOf(best).minutes - sameLength ? visits : undefined
}

/** Minutes of heads, stops and loads: turns and cuts are the same in every order. */
const movesOnly = (visits: readonly Visit[]): number =>
  workOf(
    visits.map((visit) => ({
      ...visit,
      saw: { ...visit.saw, minutes: { ...visit.saw.minutes, turn: 0, cut: 0 } },
    })),
  ).minutes

/** Numbers for saws, heads and standings, each given once. */
class Table {
  readonly saws: Visit['saw'][] = []
  readonly standings: Standing[] = []
  private readonly heads: { readonly saw: number; readonly setting: Setting }[] = []
  private readonly stops: { readonly head: number; readonly mm: number; readonly sides: string }[] = []

  headOf(saw: number, setting: Setting): number {
    const at = this.heads.findIndex((one) => one.saw === saw && sameSetting(one.setting, setting))
    return at >= 0 ? at : this.heads.push({ saw, setting }) - 1
  }

  /** Another side at the fence counts as if the stop were moved: it is another set-up, to be read anew. */
  of(
    { saw, stopSide }: Pick<Visit, 'saw' | 'stopSide'>,
    setting: Setting,
    mm: number,
    longSide: string,
  ): number {
    const sides = `${stopSide} ${longSide}`
    let at = this.saws.findIndex(({ id }) => id === saw.id)
    if (at < 0) at = this.saws.push(saw) - 1
    const head = this.headOf(at, setting)
    const known = this.stops.findIndex(
      (one) => one.head === head && one.sides === sides && Math.abs(one.mm - mm) <= sameLength,
    )
    if (known >= 0) return known
    this.stops.push({ head, mm, sides })
    return this.standings.push({ saw: at, head }) - 1
  }
}

/** Cuts of a chain by their standing: what stands alike is cut at once, while it is in hand. */
function stagesOf(chain: Chain, table: Table): Stage[] {
  const stages: Stage[] = []
  for (const miter of chain) {
    const visit = endVisit(miter)
    const cut = visit.cuts[0]!
    const standing = table.of(visit, cut, cut.stop.mm, cut.longSide)
    const last = stages.at(-1)
    if (last?.standing === standing) last.miters.push(miter)
    else stages.push({ standing, miters: [miter] })
  }
  return stages
}

/**
 * The moves as visits. Which blank of a kind is cut next is free, but for the one in hand: that is cut last off its stick.
 * Undefined where the sticks cannot be held so.
 */
function visitsIn(
  moves: readonly Move[],
  parts: readonly Part[],
  ends: ReadonlyMap<string, Ends>,
  sections: readonly OfSection[],
): readonly Visit[] | undefined {
  const steps: ({ readonly section: number; readonly of: Loaded; readonly blanks: Blank[] } | Visit[])[] = []
  const waiting = new Map<string, string[]>()
  const row = (name: string) => {
    const list = waiting.get(name) ?? []
    waiting.set(name, list)
    return list
  }
  let inHand = ''
  for (const [at, move] of moves.entries()) {
    const next = moves[at + 1]
    if ('segment' in move) {
      const { section, of, blanks } = parts[move.segment]!
      const kindOf = ({ keep }: Blank) => ends.get(keep.id)?.kind
      const goesOn = next && 'blank' in next && next.carried ? next.blank : undefined
      const last = goesOn === undefined ? blanks.at(-1)! : blanks.findLast((one) => kindOf(one) === goesOn)!
      const ordered = [...blanks.filter((one) => one !== last), last]
      const before = steps.at(-1)
      if (move.carried && before && 'blanks' in before) before.blanks.push(...ordered)
      else steps.push({ section, of, blanks: ordered })
      for (const blank of ordered)
        if (kindOf(blank) !== undefined) row(`${kindOf(blank)} 0`).push(blank.keep.id)
      inHand = last.keep.id
      continue
    }
    const from = row(`${move.blank} ${move.end}`)
    const id = move.carried ? inHand : from[0]!
    from.splice(from.indexOf(id), 1)
    row(`${move.blank} ${move.end + 1}`).push(id)
    steps.push(ends.get(id)!.stages[move.end]!.miters.map(endVisit))
    inHand = id
  }
  const shares = steps.flatMap((step): (Share & { readonly section: number })[] =>
    'blanks' in step ? [step] : [],
  )
  const laid = new Map<Share, readonly Visit[]>()
  for (const [section, { squares }] of sections.entries()) {
    const own = shares.filter((share) => share.section === section)
    const visits = squares.lay(own)
    if (!visits) return undefined
    for (const [at, share] of own.entries()) laid.set(share, visits[at]!)
  }
  return steps.flatMap((step) => ('blanks' in step ? laid.get(step)! : step))
}
