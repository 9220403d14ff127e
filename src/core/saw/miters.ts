import type { Product, Shown } from '../plan-shapes.ts'
import type { Section } from '../section/section.ts'
import type { Saw } from '../shop.ts'
import type { Mm } from '../units.ts'
import { pieceHolding } from './hold.ts'
import { costOf } from './method.ts'
import { sameSetting } from './setting.ts'
import { settingKey, type Visit } from './visit.ts'
import type { EndCut } from './ways.ts'

/** One cut at the end of a blank or of a half. */
export interface Miter {
  readonly saw: Saw
  readonly section: Section
  readonly kerf: Mm
  readonly load: string
  readonly keep: Product
  readonly cut: EndCut
  readonly handling: string
  readonly stop: Shown
  readonly seam: Visit['cuts'][number]['seam']
  /** The other piece, where the cut splits a blank. */
  readonly splits?: Product
}

/** Cuts of one piece in their order: the second waits for the first. */
export type Chain = readonly Miter[]

interface Task {
  readonly visit: Visit
  readonly key: string
  readonly next?: Task
}

/** All cuts of one setting. */
interface Group {
  readonly key: string
  readonly sample: Visit
  readonly ready: Task[]
  waiting: number
}

export function endVisit({
  saw,
  section,
  kerf,
  load,
  keep,
  cut,
  handling,
  stop,
  seam,
  splits,
}: Miter): Visit {
  const set = {
    ...cut,
    handling,
    stop,
    keep,
    rest: splits ?? 'scrap',
    kind: splits ? ('split' as const) : cut.kind,
    ...(seam === undefined ? {} : { seam }),
  } as const
  return { ...pieceHolding(saw), saw, section, kerf, load, cuts: [set] }
}

function chained(chain: Chain): Task | undefined {
  return chain.reduceRight<Task | undefined>((next, miter) => {
    const visit = endVisit(miter)
    return { visit, key: settingKey(visit, visit.cuts[0]!), ...(next ? { next } : {}) }
  }, undefined)
}

/**
 * The end cuts in an order that moves head and stop as little as possible. From where the saw stands it goes on with:
 * the same saw, the same head angle, else the steepest; the same section; a setting for which nothing is still missing;
 * the longest stop. Each setting takes all that is ready for it. A half whose second end has the same setting is cut
 * at once, while it is in hand.
 */
export function endCuts(chains: readonly Chain[]): readonly Visit[] {
  const groups = new Map<string, Group>()
  const groupOf = ({ key, visit }: Task): Group => {
    const group = groups.get(key) ?? { key, sample: visit, ready: [], waiting: 0 }
    groups.set(key, group)
    return group
  }
  for (const chain of chains) {
    const first = chained(chain)
    if (first) groupOf(first).ready.push(first)
    for (let task = first?.next; task; task = task.next) groupOf(task).waiting += 1
  }
  const order: Visit[] = []
  for (let group = nextGroup(groups, undefined); group; group = nextGroup(groups, group)) {
    for (let task = group.ready.shift(); task; task = group.ready.shift()) {
      order.push(task.visit)
      if (!task.next) continue
      const after = groupOf(task.next)
      after.waiting -= 1
      if (after === group) after.ready.unshift(task.next)
      else after.ready.push(task.next)
    }
  }
  return order
}

function nextGroup(groups: ReadonlyMap<string, Group>, now: Group | undefined): Group | undefined {
  return [...groups.values()]
    .filter(({ ready }) => ready.length > 0)
    .map((group) => ({ group, rank: rank(group, now?.sample) }))
    .sort((one, two) => compare(one.rank, two.rank))[0]?.group
}

function rank({ sample, waiting }: Group, now: Visit | undefined): readonly number[] {
  const cut = sample.cuts[0]!
  const stands = now?.cuts[0] ?? { swing: 0, tilt: 0, roll: 0, ramp: 0 }
  return [
    now && sample.saw.id === now.saw.id ? 0 : 1,
    sameSetting(cut, stands) ? 0 : 1,
    costOf(cut.method),
    -Math.abs(cut.swing),
    cut.swing,
    cut.tilt,
    cut.roll,
    cut.ramp,
    now && sample.section === now.section ? 0 : 1,
    waiting > 0 ? 1 : 0,
    -cut.stop.mm,
    -cut.exact,
  ]
}

function compare(one: readonly number[], two: readonly number[]): number {
  const at = one.findIndex((value, place) => value !== two[place])
  return at < 0 ? 0 : one[at]! - two[at]!
}
