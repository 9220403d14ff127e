import type { Product, Program, Run, SetUp, Step, Trim, Turn } from '../plan-shapes.ts'
import type { Reading } from '../shop.ts'
import { workOf } from './figures.ts'
import { gangsOf } from './gang.ts'
import { atRest, type Setting, sameSetting } from './setting.ts'
import { type CleanUp, type Cut, settingKey, type Visit } from './visit.ts'
import { headWords, printedOf } from './words.ts'

/** Consecutive cuts of one setting, in the order in which the programs name them. */
interface Stretch {
  readonly visit: Visit
  readonly key: string
  readonly cuts: Cut[]
  strokes: number
  /** How many lie side by side at most. */
  most: number
}

function stretchesOf(visits: readonly Visit[]): readonly Stretch[] {
  const stretches: Stretch[] = []
  for (const gang of gangsOf(visits)) {
    const visit = gang[0]!
    const own = new Map<Stretch, number[]>()
    for (const [at, cut] of visit.cuts.entries()) {
      const key = settingKey(visit, cut)
      const last = stretches.at(-1)
      // The record says where the seam looks at the first cut of every stick.
      const alike = at > 0 || cut.kind !== 'stick' || last?.cuts[0]?.seam?.now === cut.seam?.now
      const now = last?.key === key && alike ? last : { visit, key, cuts: [], strokes: 0, most: 1 }
      if (now !== last) stretches.push(now)
      now.cuts.push(cut)
      now.strokes += 1
      now.most = Math.max(now.most, gang.length)
      own.set(now, [...(own.get(now) ?? []), at])
    }
    for (const { cuts } of gang.slice(1))
      for (const [stretch, places] of own) stretch.cuts.push(...places.map((at) => cuts[at]!))
  }
  return stretches
}

/** `blank`, `square`, `first`, `second`, `both` (one setting for both ends) or `end` (the only mitered one). */
function stageOf(cuts: readonly Cut[]): string {
  const kinds = new Set(cuts.map(({ kind }) => kind))
  if (kinds.has('first') && kinds.has('second')) return 'both'
  const kind = cuts[0]!.kind
  if (kind === 'stick') return 'piece'
  return kind === 'only' ? 'end' : kind
}

/** How many lie side by side at these cuts, at most, and the strokes that this saves. */
function gangOf({ visit: { saw }, cuts, strokes, most }: Stretch): Pick<SetUp, 'gang'> {
  return most < 2 ? {} : { gang: { count: most, saves: (cuts.length - strokes) * saw.minutes.cut } }
}

/** Set-up records in the order of work. Their ids are structural: mark, stage, and which one of its like. */
function setUpsOf(visits: readonly Visit[], reading: Reading): readonly SetUp[] {
  const counts = new Map<string, number>()
  return stretchesOf(visits).map((stretch) => {
    const { visit, cuts } = stretch
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
      pieces: cuts.flatMap(({ keep, rest }) => (typeof rest === 'string' ? [keep.id] : [keep.id, rest.id])),
      ...gangOf(stretch),
      printed: printedOf(visit, cuts, reading),
    }
  })
}

/** What one visit has set so far, and the steps that set it. */
class Steps {
  readonly all: Step[] = []
  private now: Setting | undefined
  private stop: Cut | undefined

  head(setting: Setting): void {
    const { swing, tilt, roll, ramp } = setting
    const before = this.now ?? atRest
    if (!this.now || swing !== before.swing || tilt !== before.tilt) this.all.push({ head: [swing, tilt] })
    if (roll !== before.roll) this.all.push({ roll })
    if (ramp !== before.ramp) this.all.push({ ramp })
    // The zero of the stop moves with the head: it is read and set again.
    if (!sameSetting(setting, before)) this.stop = undefined
    this.now = setting
  }

  cleanUp({ turns, setting, loss }: CleanUp): void {
    this.turn(turns)
    this.head(setting)
    this.all.push({ trim: loss })
  }

  turn(turns: readonly Turn[]): void {
    this.all.push(...turns.map((turn) => ({ turn })))
  }

  cut(cut: Cut, setUp: string): void {
    const { stop, exact, keep, rest } = cut
    if (stop.mm !== this.stop?.stop.mm || exact !== this.stop.exact) this.all.push({ stop: stop.mm, exact })
    this.stop = cut
    this.all.push({ cut: { keep: keep.id, rest: typeof rest === 'string' ? rest : rest.id }, setUp })
  }
}

/** The steps of one visit. The stop is said where it changes; each visit begins at square, no roll, no ramp, no stop. */
function stepsOf(
  { cuts, cleanUpLast, leaves }: Visit,
  setUpOf: ReadonlyMap<string, string>,
): readonly Step[] {
  const steps = new Steps()
  for (const cut of cuts) {
    if (cut.cleanUp) steps.cleanUp(cut.cleanUp)
    if (!cut.cleanUp) steps.head(cut)
    steps.turn(cut.turns)
    steps.head(cut)
    steps.cut(cut, setUpOf.get(cut.keep.id)!)
  }
  if (cleanUpLast) steps.cleanUp(cleanUpLast)
  if (leaves) steps.all.push({ unload: leaves === 'scrap' ? 'scrap' : leaves.id })
  return steps.all
}

function programOf(visit: Visit, setUpOf: ReadonlyMap<string, string>): Program {
  const { saw, stopSide, hold, load, kerf, beside } = visit
  return {
    id: load,
    saw: saw.id,
    stopSide,
    hold,
    load,
    kerf,
    ...(beside === undefined ? {} : { beside }),
    steps: stepsOf(visit, setUpOf),
  }
}

const productsOf = ({ cuts, leaves }: Visit): readonly Product[] => [
  ...cuts.flatMap(({ keep, rest }) => (typeof rest === 'string' ? [keep] : [keep, rest])),
  ...(leaves && leaves !== 'scrap' ? [leaves] : []),
]

/** Words for the clean-up cuts that are not square, each with the cut that comes after it. */
function trimsOf(visits: readonly Visit[], reading: Reading): readonly Trim[] {
  const trims: Trim[] = []
  let open: CleanUp | undefined
  for (const { saw, cuts, cleanUpLast } of visits) {
    for (const { cleanUp = open, keep } of cuts) {
      open = undefined
      if (!cleanUp) continue
      const { swing, tilt } = cleanUp.setting
      if (swing !== 0 || tilt !== 0)
        trims.push({ before: keep.id, swing, tilt, printed: headWords(cleanUp.setting, saw, reading) })
    }
    open = cleanUpLast ?? open
  }
  return trims
}

/** Visits in the order of work, written as set-up records, programs and products. */
export function runOf(visits: readonly Visit[], reading: Reading): Run {
  const setUps = setUpsOf(visits, reading)
  const setUpOf = new Map(setUps.flatMap(({ id, pieces }) => pieces.map((piece) => [piece, id] as const)))
  const trims = trimsOf(visits, reading)
  return {
    setUps,
    products: visits.flatMap(productsOf),
    programs: visits.map((visit) => programOf(visit, setUpOf)),
    ...(trims.length > 0 ? { trims } : {}),
    work: workOf(visits),
  }
}
