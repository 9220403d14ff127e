import type { BenchCut, SetUp } from '../../core/plan-shapes.ts'
import { isOpen, nextCut } from '../../core/saw/bench.ts'

/** A set-up with all its cuts, in the order of work. */
export interface Station {
  readonly setUp: SetUp
  /** 1, 2, 3 … as the list numbers them: by their first cut. */
  readonly number: number
  readonly cuts: readonly BenchCut[]
  readonly cut: number
}

/** The cuts by set-up, in the order in which the work first comes to each; without those lost to a miscut. */
export function stationsOf(cuts: readonly BenchCut[]): readonly Station[] {
  const groups = new Map<string, BenchCut[]>()
  for (const cut of cuts) {
    if (cut.lost !== undefined) continue
    const group = groups.get(cut.setUp.id)
    if (group) group.push(cut)
    else groups.set(cut.setUp.id, [cut])
  }
  return [...groups.values()].map((group, at) => ({
    setUp: (group[0] as BenchCut).setUp,
    number: at + 1,
    cuts: group,
    cut: group.filter((one) => one.done !== undefined).length,
  }))
}

/** The steel that this cut needs is there: a stick, or a blank or half that is already cut. */
export const canCut = (cut: BenchCut): boolean => cut.loaded === cut.stick || cut.parent !== undefined

/** A cut with the open ones that its stroke makes too, as long as they lie there; by itself where it is cut alone. */
export function strokeOf(
  cut: BenchCut,
  cuts: readonly BenchCut[],
  alone = false,
): readonly [BenchCut, ...BenchCut[]] {
  if (alone || !cut.stroke) return [cut]
  const others = cuts.filter(
    (one) => one !== cut && isOpen(one) && canCut(one) && cut.stroke?.includes(one.product.id),
  )
  return [cut, ...others]
}

/** What is done at a set-up, as long as it is only its first cut, or that of its first stroke. */
export function firstDone({ cuts }: Station): readonly BenchCut[] {
  const done = cuts.filter((cut) => cut.done !== undefined)
  const [first] = done
  const same = (cut: BenchCut) => cut === first || first?.stroke?.includes(cut.product.id) === true
  return done.every(same) ? done : []
}

/** What is wanted of the person now. */
export type Now =
  | { readonly kind: 'cut'; readonly station: Station; readonly cut: BenchCut; readonly aside: boolean }
  | { readonly kind: 'move'; readonly station: Station; readonly to: Station; readonly cut: BenchCut }
  | { readonly kind: 'blocked'; readonly station: Station; readonly to: Station; readonly cut: BenchCut }
  | { readonly kind: 'all cut' }

/**
 * The next thing at the chosen set-up. The order of work comes first: when its next cut stands in another set-up,
 * the person is sent there, unless they came here out of order themselves (`aside`). Even then nothing is blocked: a
 * blank that was cut and never checked off may be mitered. What is left for `later` comes when nothing else is open.
 */
export function nowAt(
  stations: readonly Station[],
  cuts: readonly BenchCut[],
  chosen: string | undefined,
  aside: boolean,
  later: ReadonlySet<string> = new Set(),
): Now {
  const isLater = ({ product }: BenchCut) => later.has(product.id)
  const next = nextCut([...cuts.filter((cut) => !isLater(cut)), ...cuts.filter(isLater)])
  const home = stations.find((station) => station.setUp.id === next?.setUp.id)
  if (!next || !home) return { kind: 'all cut' }
  const station = stations.find((one) => one.setUp.id === chosen) ?? home
  if (station === home) return { kind: 'cut', station, cut: next, aside: false }
  const open = station.cuts.filter(isOpen)
  const ready = open.find((cut) => canCut(cut) && !isLater(cut)) ?? open.find(canCut)
  const here = ready ?? open[0]
  if (aside && here) return { kind: 'cut', station, cut: here, aside: true }
  return { kind: here && !ready ? 'blocked' : 'move', station, to: home, cut: next }
}

/** The set-up that comes after this one in the work: that of the first open cut outside it. */
export function nextStation(
  stations: readonly Station[],
  cuts: readonly BenchCut[],
  here: Station,
): Station | undefined {
  const later = cuts.find((cut) => isOpen(cut) && cut.setUp.id !== here.setUp.id)
  return stations.find((station) => station.setUp.id === later?.setUp.id)
}
