import type { Bodies, Made, Spoiled } from '../facts.ts'
import { type Nest, piecesIn } from '../nest.ts'
import type { BenchCut, HandCut, Part, Product, Program, Run, SetUp, Turn } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import type { Mm } from '../units.ts'
import { lostPlaces } from './lost.ts'
import { sameSetting } from './setting.ts'
import { fill, type Slot, steelName } from './slots.ts'

/** A cut before it is known what is done. */
type Draft = Omit<BenchCut, 'index' | 'newSetUp' | 'done' | 'lost' | 'parent'> & { readonly slot: Slot }

/** A clean-up cut that stands before the next cut. */
interface Cleaned {
  readonly loss: Mm
  readonly turns: readonly Turn[]
}

/**
 * Every cut of a run in the order of work, each with what comes before and after it, and with the fact that says it is
 * done. `made` is the log folded; `jobId` keeps to that job's leftovers of other nests, else all jobs of the nest count.
 * An open cut names as `parent` a blank or half that lies there for it: of one geometry any will do. A place whose steel
 * was spoiled, and those that were to be cut from it, are lost.
 */
export const benchCuts = (...asked: Parameters<typeof benchWork>): readonly BenchCut[] =>
  benchWork(...asked).cuts

/** The same, with the pieces that are left to the hand. */
export function benchWork(
  run: Run,
  nest: Nest,
  made: readonly Made[],
  jobId?: string,
  spoiled: readonly Spoiled[] = [],
): { readonly cuts: readonly BenchCut[]; readonly byHand: readonly HandCut[] } {
  const { drafts, slots } = draftsOf(run, anyWayRound(nest))
  const hands = handSlots(run, nest, slots)
  const places = [...drafts, ...hands].map(({ slot }) => slot)
  const jobs = jobId === undefined ? nest.jobs : [jobId]
  const lost = lostPlaces(places, nest, made, spoiled, jobs)
  const filled = fill(
    places.filter(({ product }) => !lost.has(product.id)),
    nest,
    made,
    jobs,
  )
  const byId = new Map(made.map((one) => [one.id, one]))
  const lying = lyingSteel(made, new Set(filled.values()))
  // A piece is cut from its own blank where that lies there, so that its number stays with the steel.
  const own = new Map<string, string>()
  for (const { slot, splits } of drafts) {
    const { product } = slot
    if (splits || !slot.before || filled.has(product.id) || lost.has(product.id)) continue
    const row = rowOf(lying, slot.before) ?? []
    const at = row.indexOf(filled.get(slot.before.product.id) ?? '')
    if (at >= 0) own.set(product.id, row.splice(at, 1)[0]!)
  }
  let before: string | false | undefined
  const cuts = drafts.map(({ slot, ...draft }, index): BenchCut => {
    const spoilt = lost.get(draft.product.id)
    if (spoilt !== undefined) {
      const from = spoiled.find(({ id }) => id === spoilt)?.from
      before = from && 'piece' in from && from.piece
      return { ...draft, index, newSetUp: newSetUpAt(drafts, index), lost: spoilt }
    }
    const done = filled.get(draft.product.id)
    const from = done === undefined ? undefined : byId.get(done)?.from
    // Both halves of a split blank are of the one that was cut.
    const next = () =>
      draft.splits && before ? before : (own.get(draft.product.id) ?? nextLying(lying, slot.before))
    const parent = done === undefined ? next() : from && 'piece' in from && from.piece
    before = parent
    return {
      ...draft,
      index,
      newSetUp: newSetUpAt(drafts, index),
      ...(done === undefined ? {} : { done }),
      ...(parent ? { parent } : {}),
    }
  })
  const blanks = new Map<string, string | undefined>()
  const byHand = hands.map(({ left, slot }): HandCut => {
    const { product, stick } = slot
    const why = lost.get(product.id)
    const done = filled.get(product.id)
    if (why !== undefined) return { left, product, stick, lost: why }
    if (done !== undefined) return { left, product, stick, done }
    // Both pieces of a paired blank are of the one that lies there.
    if (!blanks.has(product.from)) blanks.set(product.from, nextLying(lying, slot.before))
    const parent = blanks.get(product.from)
    return { left, product, stick, ...(parent === undefined ? {} : { parent }) }
  })
  return { cuts, byHand }
}

/** The places of pieces left to the hand: each comes of a blank or a bar that is cut no further, or of a whole stick. */
function handSlots(
  { left = [], products, programs }: Run,
  { sections }: Nest,
  slots: ReadonlyMap<string, Slot>,
): readonly { readonly left: HandCut['left']; readonly slot: Slot }[] {
  const productOf = new Map(products.map((product) => [product.id, product]))
  const loaded = new Set(programs.map(({ load }) => load))
  const pieces = new Map(
    sections.flatMap(({ sticks }) =>
      sticks.flatMap(({ id, pieces: own }) =>
        own.flatMap(piecesIn).map((piece) => [piece.piece, { ...piece, stick: id }] as const),
      ),
    ),
  )
  return left.flatMap((one) => {
    const piece = pieces.get(one.piece)
    if (!piece) return []
    const { mark, key, copy, job, stick } = piece
    const from = products.find(({ id, makes }) => makes?.includes(one.piece) && !loaded.has(id))?.id ?? stick
    const product: Product = { id: one.piece, from, kind: 'piece', mark, key, copy, job, makes: [one.piece] }
    const before = productOf.get(from)?.kind === 'blank' ? slots.get(from) : undefined
    return [{ left: one, slot: { product, stick, ...(before ? { before } : {}) } }]
  })
}

const newSetUpAt = (drafts: readonly Draft[], at: number): boolean =>
  at === 0 || movesAnything(drafts[at - 1]!.setUp, drafts[at]!.setUp)

/** Sticks that lie the same whichever side is up: both ends square, and a section like itself turned over. */
const anyWayRound = ({ sections }: Nest): ReadonlySet<string> =>
  new Set(
    sections.flatMap(({ section, sticks }) =>
      section.kind === 'angle'
        ? []
        : sticks.filter(({ ends }) => ends.every((end) => typeof end === 'string')).map(({ id }) => id),
    ),
  )

function draftsOf(
  { programs, products, setUps, trims = [] }: Run,
  sameOver: ReadonlySet<string>,
): { readonly drafts: readonly Draft[]; readonly slots: ReadonlyMap<string, Slot> } {
  const productOf = new Map(products.map((product) => [product.id, product]))
  const setUpOf = new Map(setUps.map((setUp) => [setUp.id, setUp]))
  const slots = new Map<string, Slot>()
  const trimOf = new Map(trims.map((trim) => [trim.before, trim.printed]))
  // A clean-up cut that is a visit of its own stands before the first cut of the visit after.
  let cleaned: Cleaned | undefined
  const visits = programs.map((program): readonly Draft[] => {
    const cuts: Draft[] = []
    let turns: Turn[] = []
    for (const step of program.steps) {
      if ('trim' in step) {
        cleaned = { loss: step.trim, turns }
        turns = []
      } else if ('turn' in step) turns.push(step.turn)
      else if ('cut' in step) {
        const product = productOf.get(step.cut.keep)!
        const before = slots.get(program.load)
        const slotOf = (of: Product): Slot => ({
          product: of,
          stick: stickOf(of, productOf),
          ...(before ? { before } : {}),
        })
        const slot = slotOf(product)
        slots.set(product.id, slot)
        const setUp = setUpOf.get(step.setUp)!
        const printed = cleaned && trimOf.get(product.id)
        const fresh = cuts.length === 0 && sameOver.has(program.load)
        cuts.push({
          ...draftOf(program, setUp, slot, cuts.length === 0, turns),
          ...(cleaned ? { trimFirst: cleaned.loss } : {}),
          ...(cleaned && printed
            ? { trim: { ...printed, turns: fresh && !setUp.seam ? notOver(cleaned.turns) : cleaned.turns } }
            : {}),
        })
        cleaned = undefined
        turns = []
        const other = productOf.get(step.cut.rest)
        if (other?.kind === 'piece')
          cuts.push({ ...draftOf(program, setUp, slotOf(other), false, []), splits: true })
      } else if ('unload' in step && cuts.length > 0) cuts.push({ ...cuts.pop()!, unload: step.unload })
    }
    return cuts
  })
  return { drafts: strokeByStroke(programs, visits), slots }
}

/** Of what lies side by side the first cut of each, then the second of each, and so on. */
function strokeByStroke(
  programs: readonly Program[],
  visits: readonly (readonly Draft[])[],
): readonly Draft[] {
  const gangs: (readonly Draft[])[][] = []
  for (const [at, cuts] of visits.entries()) {
    if (programs[at]!.beside === undefined) gangs.push([cuts])
    else gangs.at(-1)!.push(cuts)
  }
  return gangs.flatMap((gang) => {
    if (gang.length === 1) return gang[0]!
    return gang[0]!.flatMap((_, at) => {
      const stroke = gang.map((cuts) => cuts[at]!)
      const ids = stroke.map(({ product }) => product.id)
      return stroke.map((cut) => ({ ...cut, stroke: ids }))
    })
  })
}

/** A stick that was just laid down need not be rolled over where it is the same either way. */
const notOver = (turns: readonly Turn[]): readonly Turn[] => turns.filter((turn) => turn !== 'over')

function draftOf(
  program: Program,
  setUp: SetUp,
  slot: Slot,
  loadFirst: boolean,
  turns: readonly Turn[],
): Draft {
  return {
    program,
    setUp,
    slot,
    product: slot.product,
    loaded: program.load,
    stick: slot.stick,
    loadFirst,
    turns,
  }
}

/** The stick that a product came from in the end: what it is cut from, as far back as products go. */
function stickOf(product: Product, productOf: ReadonlyMap<string, Product>): string {
  let { from } = product
  for (let at = productOf.get(from); at; at = productOf.get(from)) from = at.from
  return from
}

/** By what the person sees: printed stop and angle, side, saw. */
const movesAnything = (one: SetUp, two: SetUp): boolean =>
  one.saw !== two.saw ||
  one.stopSide !== two.stopSide ||
  !sameSetting(one, two) ||
  Math.abs(one.stop - two.stop) > sameLength

/** Blanks and halves that lie there unused, by name; those that fill a place of this run come first. */
function lyingSteel(made: readonly Made[], filling: ReadonlySet<string>): Map<string, string[]> {
  const lying = new Map<string, string[]>()
  const unused = made.filter(({ used, stage }) => !used && stage !== 'piece')
  const inOrder = [
    ...unused.filter(({ id }) => filling.has(id)),
    ...unused.filter(({ id }) => !filling.has(id)),
  ]
  for (const one of inOrder) {
    const row = lying.get(steelName(one))
    if (row) row.push(one.id)
    else lying.set(steelName(one), [one.id])
  }
  return lying
}

const rowOf = (lying: Map<string, string[]>, { product }: Slot): string[] | undefined =>
  lying.get(`${product.kind} ${product.key}`)

const nextLying = (lying: Map<string, string[]>, before: Slot | undefined): string | undefined =>
  before && rowOf(lying, before)?.shift()

/** Neither done nor lost to a miscut. */
export const isOpen = ({ done, lost }: Pick<BenchCut, 'done' | 'lost'>): boolean =>
  done === undefined && lost === undefined

/** The first open cut whose workpiece is there (a stick, or a blank or half that was cut); undefined when all is cut. */
export function nextCut(cuts: readonly BenchCut[]): BenchCut | undefined {
  const madeHere = new Set(cuts.map(({ product }) => product.id))
  const open = cuts.filter(isOpen)
  return open.find(({ loaded, parent }) => parent !== undefined || !madeHere.has(loaded)) ?? open[0]
}

/**
 * What is written down when a cut is made: one piece of this geometry, from this stick or from that blank or half.
 * Where the blank was never checked off, the stick stands for it: the steel came from there.
 */
export function cutFact({
  product,
  parent,
  stick,
}: Pick<BenchCut, 'product' | 'parent' | 'stick'>): Bodies['cut'] {
  const { kind, key = '', mark = '', makes = [], id } = product
  return {
    stage: kind === 'blank' || kind === 'half' ? kind : 'piece',
    key,
    mark,
    label: makes[0] ?? id,
    from: parent === undefined ? { stick } : { piece: parent },
  }
}

/**
 * Steel of a job that nothing asks for any more: finished pieces beyond what the job orders, and blanks and halves
 * that no cut of the run counts or will use. They may be recut into something shorter. What is `held` (tacked in) is
 * no steel, and counts first as what the job asks for.
 */
export function sparesOf(
  cuts: readonly BenchCut[],
  made: readonly Made[],
  job: { readonly id: string; readonly parts: readonly Part[]; readonly quantity: number },
  held: (made: Made) => boolean = () => false,
): readonly Made[] {
  const wanted = new Set(cuts.flatMap(({ done, parent }) => [done, parent]))
  const left = new Map(job.parts.map(({ key, count }) => [key, count * job.quantity]))
  const lying = made.filter((one) => one.job === job.id && !one.used)
  // Those that fill a place are counted first, so that the extra one is the spare.
  const free = lying.filter((one) => !held(one))
  const inOrder = [
    ...lying.filter(held),
    ...free.filter(({ id }) => wanted.has(id)),
    ...free.filter(({ id }) => !wanted.has(id)),
  ]
  return inOrder.filter((one) => {
    const { id, stage, key } = one
    if (stage !== 'piece') return !wanted.has(id)
    const open = left.get(key) ?? 0
    left.set(key, open - 1)
    return open <= 0 && !held(one)
  })
}
