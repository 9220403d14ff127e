import type { Product, Program, Run, SetUp, Step } from '../plan-shapes.ts'
import type { Reading } from '../shop.ts'
import { workOf } from './figures.ts'
import { type Cut, settingKey, type Visit } from './visit.ts'
import { printedOf } from './words.ts'

/** Consecutive cuts of one setting. */
interface Stretch {
  readonly visit: Visit
  readonly key: string
  readonly cuts: Cut[]
}

function stretchesOf(visits: readonly Visit[]): readonly Stretch[] {
  const stretches: Stretch[] = []
  for (const visit of visits)
    for (const cut of visit.cuts) {
      const key = settingKey(visit, cut)
      const now = stretches.at(-1)
      if (now?.key === key) now.cuts.push(cut)
      else stretches.push({ visit, key, cuts: [cut] })
    }
  return stretches
}

/** `blank`, `square`, `first`, `second`, `both` (one setting for both ends) or `end` (the only mitered one). */
function stageOf(cuts: readonly Cut[]): string {
  const kinds = new Set(cuts.map(({ kind }) => kind))
  if (kinds.has('first') && kinds.has('second')) return 'both'
  const kind = cuts[0]!.kind
  return kind === 'only' ? 'end' : kind
}

/** Set-up records in the order of work. Their ids are structural: mark, stage, and which one of its like. */
function setUpsOf(visits: readonly Visit[], reading: Reading): readonly SetUp[] {
  const counts = new Map<string, number>()
  return stretchesOf(visits).map(({ visit, cuts }) => {
    const cut = cuts[0]!
    const stem = `${cut.keep.mark}/${stageOf(cuts)}`
    const count = (counts.get(stem) ?? 0) + 1
    counts.set(stem, count)
    return {
      id: `${stem}/${count}`,
      saw: visit.saw.id,
      section: visit.section,
      swing: cut.swing,
      tilt: cut.tilt,
      roll: cut.roll,
      ramp: cut.ramp,
      stop: cut.stop.mm,
      exact: cut.exact,
      stopSide: visit.stopSide,
      hold: visit.hold,
      longSide: cut.longSide,
      faceDown: cut.faceDown,
      ...(cut.seam === undefined ? {} : { seam: cut.seam.now }),
      pieces: cuts.map(({ keep }) => keep.id),
      printed: printedOf(visit, cuts, reading),
    }
  })
}

/** The steps of one visit, whose cuts have one setting of the head. The stop is said where it changes;
 * each visit begins at square, no roll, no ramp, no stop. */
function stepsOf({ trim, cuts, leaves }: Visit, setUpOf: ReadonlyMap<string, string>): readonly Step[] {
  // A visit of the clean-up cut alone has no other cut.
  const { swing = 0, tilt = 0, roll = 0, ramp = 0 } = cuts[0] ?? {}
  const steps: Step[] = [{ head: [swing, tilt] }]
  if (roll !== 0) steps.push({ roll })
  if (ramp !== 0) steps.push({ ramp })
  if (trim !== undefined) steps.push({ trim })
  let set: Cut | undefined
  for (const cut of cuts) {
    const { turns, stop, exact, keep, rest } = cut
    steps.push(...turns.map((turn) => ({ turn })))
    if (stop.mm !== set?.stop.mm || exact !== set.exact) steps.push({ stop: stop.mm, exact })
    set = cut
    steps.push({ cut: { keep: keep.id, rest }, setUp: setUpOf.get(keep.id)! })
  }
  if (leaves) steps.push({ unload: leaves === 'scrap' ? 'scrap' : leaves.id })
  return steps
}

function programOf(visit: Visit, setUpOf: ReadonlyMap<string, string>): Program {
  const { saw, stopSide, hold, load, kerf } = visit
  return { id: load, saw: saw.id, stopSide, hold, load, kerf, steps: stepsOf(visit, setUpOf) }
}

const productsOf = ({ cuts, leaves }: Visit): readonly Product[] => [
  ...cuts.map(({ keep }) => keep),
  ...(leaves && leaves !== 'scrap' ? [leaves] : []),
]

/** Visits in the order of work, written as set-up records, programs and products. */
export function runOf(visits: readonly Visit[], reading: Reading): Run {
  const setUps = setUpsOf(visits, reading)
  const setUpOf = new Map(setUps.flatMap(({ id, pieces }) => pieces.map((piece) => [piece, id] as const)))
  return {
    setUps,
    products: visits.flatMap(productsOf),
    programs: visits.map((visit) => programOf(visit, setUpOf)),
    work: workOf(visits),
  }
}
