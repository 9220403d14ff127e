import { sameLength } from '../tolerance.ts'
import { workOf } from './figures.ts'
import { leastOrder, type Move, type Segment, type Standing, type Tasks } from './least-order.ts'
import { type Chain, endCuts, endVisit, type Miter } from './miters.ts'
import { atRest, type Setting, sameSetting } from './setting.ts'
import type { Lot, StickShare } from './stretch.ts'
import type { Visit } from './visit.ts'

/** So many orders are begun before the search is given up; then the best order known stands. */
const steps = 4000

/** One section's sticks, and the end cuts of what comes off them. */
export interface OfSection {
  readonly lot: Lot
  readonly chains: readonly Chain[]
}

/** A segment of a stick, as it can be cut. */
interface Part extends Segment {
  readonly section: number
  /** Which stick of its lot, and which stretch of it. */
  readonly of: number
  readonly stretch: number
  readonly keeps: readonly string[]
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
 * order takes fewer, or where it was not found in so many steps. Every order of all cuts is looked at: a stick may go away
 * and come back, a blank may be mitered while it is in hand.
 */
export function wholeOrder(
  sections: readonly OfSection[],
  best: readonly Visit[],
): readonly Visit[] | undefined {
  const table = new Table()
  const kinds: (readonly number[])[] = []
  const ends = new Map<string, Ends>()
  for (const chain of sections.flatMap(({ chains }) => chains)) {
    const stages = stagesOf(chain, table)
    const own = stages.map(({ standing }) => standing)
    const known = kinds.findIndex((kind) => kind.join() === own.join())
    ends.set(chain[0]!.load, { kind: known < 0 ? kinds.push(own) - 1 : known, stages })
  }
  const parts: Part[] = []
  let stick = 0
  for (const [section, { lot }] of sections.entries())
    for (const [of, { stretches, inOrder, beside }] of lot.sticks.entries()) {
      const own = stretches.map((one, stretch): Part => {
        const gives = one.keeps.flatMap((id) => ends.get(id)?.kind ?? [])
        const last = ends.get(one.keeps.at(-1) ?? '')
        return {
          stick,
          kind: '',
          standing: table.of(one, one.setting, one.mm, one.longSide),
          mm: one.mm ?? Number.NaN,
          loads: beside,
          ...(inOrder && stretch > 0 ? { after: parts.length + stretch - 1 } : {}),
          ...(one.anew ? { anew: true } : {}),
          gives,
          inHand: beside > 1 ? [] : inOrder ? (last ? [last.kind] : []) : gives,
          section,
          of,
          stretch,
          keeps: one.keeps,
        }
      })
      const alike = JSON.stringify([section, beside, own.map(({ standing, gives }) => [standing, gives])])
      parts.push(...own.map((part) => ({ ...part, kind: alike })))
      stick += 1
    }
  const tasks: Tasks = {
    minutes: table.saws.map(({ minutes }) => minutes),
    begins: table.saws.map((_, saw) => table.headOf(saw, atRest)),
    standings: table.standings,
    segments: parts,
    ends: kinds,
  }
  const same = sameInAll(sections)
  if (same === undefined) return undefined
  const moves = leastOrder(tasks, workOf(best).minutes - same, steps)
  const visits = moves && visitsIn(moves, parts, ends, sections)
  return visits && workOf(visits).minutes < workOf(best).minutes - sameLength ? visits : undefined
}

/** Minutes of turns and cuts, which are the same in every order; undefined where some stick cannot be held. */
function sameInAll(sections: readonly OfSection[]): number | undefined {
  const visits: Visit[] = []
  for (const { lot, chains } of sections) {
    const laid = lot.lay(
      lot.sticks.map(({ stretches }, stick) => ({ stick, stretches: [...stretches.keys()] })),
    )
    if (!laid) return undefined
    visits.push(...laid.flat(), ...endCuts(chains))
  }
  const only = visits.map((visit) => ({
    ...visit,
    saw: { ...visit.saw, minutes: { ...visit.saw.minutes, head: 0, stop: 0, load: 0 } },
  }))
  return workOf(only).minutes
}

/** Numbers for saws, heads and standings, each given once. */
class Table {
  readonly saws: Visit['saw'][] = []
  readonly standings: Standing[] = []
  private readonly heads: { readonly saw: number; readonly setting: Setting }[] = []
  private readonly stops: {
    readonly head: number
    readonly mm: number | undefined
    readonly sides: string
  }[] = []

  headOf(saw: number, setting: Setting): number {
    const at = this.heads.findIndex((one) => one.saw === saw && sameSetting(one.setting, setting))
    return at >= 0 ? at : this.heads.push({ saw, setting }) - 1
  }

  /** Another side at the fence is another set-up. Without a distance it is a clean-up cut. */
  of(
    { saw, stopSide }: Pick<Visit, 'saw' | 'stopSide'>,
    setting: Setting,
    mm: number | undefined,
    longSide: string,
  ): number {
    let at = this.saws.findIndex(({ id }) => id === saw.id)
    if (at < 0) at = this.saws.push(saw) - 1
    const head = this.headOf(at, setting)
    const sides = mm === undefined ? '' : `${stopSide} ${longSide}`
    const known = this.stops.findIndex(
      (one) =>
        one.head === head && one.sides === sides && (one.mm === mm || Math.abs(one.mm! - mm!) <= sameLength),
    )
    if (known >= 0) return known
    this.stops.push({ head, mm, sides })
    return this.standings.push({ saw: at, head, ...(mm === undefined ? { cleanUp: true } : {}) }) - 1
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

interface PartShare extends StickShare {
  readonly section: number
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
  const steps: (PartShare | Visit[])[] = []
  const waiting = new Map<string, string[]>()
  const row = (name: string) => {
    const list = waiting.get(name) ?? []
    waiting.set(name, list)
    return list
  }
  const kindOf = (id: string) => ends.get(id)?.kind
  let inHand = ''
  for (const [at, move] of moves.entries()) {
    const next = moves[at + 1]
    if ('segment' in move) {
      const { section, of, stretch, keeps } = parts[move.segment]!
      const goesOn = next && 'blank' in next && next.carried ? next.blank : undefined
      const last = goesOn === undefined ? undefined : keeps.findLast((id) => kindOf(id) === goesOn)
      const before = steps.at(-1)
      const carried = move.carried && before && 'stretches' in before ? before : undefined
      if (carried) steps.pop()
      steps.push({
        section,
        stick: of,
        stretches: [...(carried?.stretches ?? []), stretch],
        ...(last === undefined ? {} : { last }),
      })
      for (const id of keeps) if (kindOf(id) !== undefined) row(`${kindOf(id)} 0`).push(id)
      inHand = last ?? ''
      continue
    }
    const from = row(`${move.blank} ${move.end}`)
    const id = move.carried ? inHand : from[0]!
    from.splice(from.indexOf(id), 1)
    row(`${move.blank} ${move.end + 1}`).push(id)
    steps.push(ends.get(id)!.stages[move.end]!.miters.map(endVisit))
    inHand = id
  }
  const shares = steps.flatMap((step) => ('stretches' in step ? [step] : []))
  const laid = new Map<PartShare, readonly Visit[]>()
  for (const [section, { lot }] of sections.entries()) {
    const own = shares.filter((share) => share.section === section)
    const visits = lot.lay(own)
    if (!visits) return undefined
    for (const [at, share] of own.entries()) laid.set(share, visits[at]!)
  }
  return steps.flatMap((step) => ('stretches' in step ? laid.get(step)! : step))
}
