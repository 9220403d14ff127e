import { counting } from '../core/facts/counting.ts'
import { isTick, tickName } from '../core/facts/fold.ts'
import { known } from '../core/facts/known.ts'
import { stickName } from '../core/facts/rack.ts'
import { dropSign } from '../core/facts/rack-mark.ts'
import type { FactDraft, KnownFact } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { BenchCut, HandCut, Product } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { attempt, type Desk, jobOf, Refusal } from './desk.ts'
import { record } from './publish.ts'
import { boughtFor, lastOnRack, spokenFor, sticksOf } from './rack.ts'
import type { Actions, JobView } from './state.ts'
import { stickNow } from './stick-now.ts'

// What is checked off with gloves on: every action is one write, on disk before it shows.

type FloorActions = Pick<
  Actions,
  | 'accept'
  | 'cut'
  | 'cutByHand'
  | 'undo'
  | 'undoRack'
  | 'keepDrop'
  | 'bought'
  | 'found'
  | 'sheetFound'
  | 'sheetCorrected'
  | 'sheetDiscarded'
  | 'discard'
  | 'correct'
  | 'tick'
  | 'gauge'
  | 'note'
  | 'setMachine'
>

export function floorActions(desk: Desk): FloorActions {
  const { store } = desk
  /** Cuts on their way to the disk, by job and product. */
  const inFlight = new Map<string, Promise<void>>()

  /** Counting facts, read at their newest version. */
  const done = (): readonly KnownFact[] => {
    const { facts } = store.getState()
    const counts = counting(facts)
    return facts.filter(({ id }) => counts.has(id)).flatMap((fact) => known(fact) ?? [])
  }

  async function checkOff(
    id: string,
    asked: readonly Pick<BenchCut, 'product'>[],
    among: (view: JobView) => readonly (BenchCut | HandCut)[] = ({ cuts }) => cuts,
  ): Promise<void> {
    const { views } = store.getState()
    const view = views[id]
    const found = asked.map(({ product }) => {
      const cut = view && among(view).find((one) => isSame(one.product, product))
      if (!cut)
        throw new Refusal(
          `${product.id} is not in the plan any more, so nothing was checked off. Look at the set-up again.`,
        )
      return cut
    })
    // Another tab or an earlier tap checked it off: a second fact would be a second piece.
    const open = found.filter(({ done }) => done === undefined)
    if (!view?.nest || open.length === 0) return
    const { nest } = view
    const bodies = open.map((cut) => desk.planner.cutFact(cut))
    const drafts = open.map(({ product: { copy, job } }, at): FactDraft => {
      const stroke = open.length > 1 ? { stroke: { at: at + 1, of: open.length } } : {}
      const body = { ...bodies[at]!, ...stroke }
      return { kind: 'cut', job: job ?? id, nest: nest.id, ...(copy === undefined ? {} : { copy }), body }
    })
    const sticks = bodies.flatMap(({ from }) => ('stick' in from ? [from.stick] : []))
    const accepts = acceptance(desk, nest)
    await record(
      desk,
      [...accepts, ...openingsOf(desk, id, nest, sticks), ...drafts],
      accepts.length > 0 ? [nest] : [],
    )
  }

  /** One write at a time for each piece. */
  function oneAtATime(name: string, act: () => Promise<void>): Promise<void> {
    const before = inFlight.get(name)
    if (before) return before
    const now = attempt(desk, undefined, act).finally(() => inFlight.delete(name))
    inFlight.set(name, now)
    return now
  }

  const simply = (draft: FactDraft): Promise<void> =>
    attempt(desk, undefined, async () => {
      await record(desk, [draft])
    })

  return {
    accept: (id) =>
      attempt(desk, false, async () => {
        const nest = store.getState().views[id]?.nest
        if (!nest) throw new Refusal('There is no nest to work by yet.')
        const drafts = acceptance(desk, nest)
        if (drafts.length > 0) await record(desk, drafts, [nest])
        return true
      }),

    cut: (id, ...cuts) => oneAtATime(`${id}/${cuts[0]?.product.id ?? ''}`, () => checkOff(id, cuts)),

    cutByHand: (id, piece) =>
      oneAtATime(`${id}/${piece}`, () => {
        const asked = store.getState().views[id]?.byHand.find(({ product }) => product.id === piece)
        if (!asked) throw new Refusal(`${piece} is not left to the hand any more. Look at the plan again.`)
        return checkOff(id, [asked], ({ byHand }) => byHand)
      }),

    undo: (id, one) =>
      attempt(desk, undefined, async () => {
        const { last, accepted } = store.getState().progress
        const facts = done()
        // At the saw jobs of one nest are cut as one: the last cut may have been another job's.
        const shared = (one: KnownFact) =>
          one.nest !== undefined && one.nest === accepted[id] && (one.kind === 'cut' || one.kind === 'kept')
        const fact = facts.findLast((each) => each.id === last[id] || shared(each))
        if (!fact) return
        const all = one ? [fact] : strokeWith(fact, facts)
        const opened = all.flatMap((each) => openedWith(each, facts))
        await record(
          desk,
          [...all, ...opened].map((each): FactDraft => undoOf(id, each)),
        )
      }),

    keepDrop: (id, stick, length) =>
      attempt(desk, undefined, async () => {
        const { views, shop, progress } = store.getState()
        const nest = views[id]?.nest
        const at = nest && sticksOf(nest).find((one) => one.stick.id === stick)
        if (!nest || !at) throw new Refusal(`Stick ${stick} is not in the nest of this job.`)
        if (!(stickName(nest.id, stick) in progress.opened))
          throw new Refusal(`Stick ${stick} was not on the saw yet, so there is no drop of it.`)
        const now = stickNow(nest.id, at.stick, progress)
        if (!(length > 0 && length < now.length))
          throw new Refusal(
            `A drop of ${say(length, shop.reading)} cannot be left of stick ${stick}: it was ${say(now.length, shop.reading)} long.`,
          )
        const ends = ['cut', now.ends[1]] as const
        const body = { section: at.section, stick, length, ends, sign: dropSign(nest.id, stick) }
        await record(desk, [{ kind: 'kept', job: id, nest: nest.id, body }])
      }),

    bought: (section, length, count, price) =>
      simply({ kind: 'bought', body: { section, length, count, ...(price === undefined ? {} : { price }) } }),

    found: (body) => simply({ kind: 'found', body }),
    sheetFound: (body) => simply({ kind: 'sheetFound', body }),
    sheetCorrected: (body) => simply({ kind: 'sheetCorrected', body }),
    sheetDiscarded: (sheet) => simply({ kind: 'sheetDiscarded', body: { sheet } }),

    undoRack: () =>
      attempt(desk, undefined, async () => {
        const { facts, progress } = store.getState()
        const last = lastOnRack(facts, progress.opened)
        if (last) await record(desk, [{ kind: 'undo', body: { fact: last.id } }])
      }),

    discard: (rack) => simply({ kind: 'discarded', body: { rack } }),

    correct: (rack, length) => simply({ kind: 'corrected', body: { rack, length } }),

    tick: (id, copy, step, kind) =>
      attempt(desk, undefined, async () => {
        jobOf(desk, id)
        const name = tickName(id, copy, step)
        // Two tablets may both have ticked it: taking it back takes back both.
        const ticks = done().filter(
          (fact) => isTick(fact) && tickName(fact.job ?? '', fact.copy ?? 1, fact.body.step) === name,
        )
        const drafts: readonly FactDraft[] =
          ticks.length > 0 ? ticks.map((fact) => undoOf(id, fact)) : [{ kind, job: id, copy, body: { step } }]
        await record(desk, drafts)
      }),

    gauge: (id, copy, of, value) =>
      attempt(desk, undefined, async () => {
        jobOf(desk, id)
        const name = tickName(id, copy, of)
        const before = done().filter(
          (fact) => fact.kind === 'gauged' && tickName(fact.job ?? '', fact.copy ?? 1, fact.body.of) === name,
        )
        if (value === undefined && before.length === 0) return
        // Measured anew: the older figure stays in the log, so that Undo brings it back.
        const drafts: readonly FactDraft[] =
          value === undefined
            ? before.map((fact) => undoOf(id, fact))
            : [{ kind: 'gauged', job: id, copy, body: { of, value } }]
        await record(desk, drafts)
      }),

    note: (id, copy, of, text) =>
      attempt(desk, undefined, async () => {
        jobOf(desk, id)
        const name = tickName(id, copy, of)
        const words = text.trim()
        if (words === (store.getState().progress.notes[name]?.text ?? '')) return
        const before = done().filter(
          (fact) => fact.kind === 'noted' && tickName(fact.job ?? '', fact.copy ?? 1, fact.body.of) === name,
        )
        const drafts: readonly FactDraft[] =
          words === ''
            ? before.map((fact) => undoOf(id, fact))
            : [{ kind: 'noted', job: id, copy, body: { of, text: words } }]
        await record(desk, drafts)
      }),

    setMachine: (id, copy, setting) =>
      attempt(desk, undefined, async () => {
        jobOf(desk, id)
        await record(desk, [{ kind: 'setTo', job: id, copy, body: setting }])
      }),
  }
}

const isSame = (one: Product, two: Product): boolean => one.id === two.id && one.key === two.key

/** A cut with the others of its stroke that count: they were written together, so their numbers follow each other. */
function strokeWith(fact: KnownFact, facts: readonly KnownFact[]): readonly KnownFact[] {
  const stroke = fact.kind === 'cut' ? fact.body.stroke : undefined
  if (!stroke) return [fact]
  const first = fact.seq - stroke.at + 1
  return facts.filter(
    (one) =>
      one.kind === 'cut' &&
      one.body.stroke?.of === stroke.of &&
      one.device === fact.device &&
      one.nest === fact.nest &&
      one.seq - one.body.stroke.at + 1 === first,
  )
}

const undoOf = (job: string, { id, nest }: KnownFact): FactDraft => ({
  kind: 'undo',
  job,
  ...(nest === undefined ? {} : { nest }),
  body: { fact: id },
})

/** The nest becomes the one to work by, for each of its jobs that does not work by it yet. */
export function acceptance({ store }: Desk, nest: Nest): readonly FactDraft[] {
  const { accepted } = store.getState().progress
  return nest.jobs
    .filter((job) => accepted[job] !== nest.id)
    .map((job) => ({ kind: 'accepted', job, nest: nest.id, body: { nest: nest.id } }))
}

/** Sticks that go on the saw, those that lie there already left out: off the rack, or bought for this and put there. */
export function openingsOf(
  desk: Desk,
  job: string,
  nest: Nest,
  ids: readonly string[],
): readonly FactDraft[] {
  const { progress } = desk.store.getState()
  const others = Object.entries(progress.accepted).flatMap(([other, accepted]) =>
    accepted !== nest.id && desk.jobs.has(other) ? (desk.nests.get(accepted) ?? []) : [],
  )
  const taken = new Set(spokenFor(progress, others))
  return [...new Set(ids)]
    .filter((id) => !(stickName(nest.id, id) in progress.opened))
    .map((id): FactDraft => {
      const at = sticksOf(nest).find(({ stick }) => stick.id === id)
      if (!at) throw new Refusal(`Stick ${id} is not in the nest of this job.`)
      const rack = at.stick.rack ?? boughtFor(at, progress.rack, taken)?.id
      if (rack !== undefined) taken.add(rack)
      const body = rack === undefined ? { stick: id } : { stick: id, rack }
      return { kind: 'opened', job, nest: nest.id, body }
    })
}

/**
 * Openings that go with what is taken back: when nothing else was done with its stick, the stick was never on the saw
 * and lies on the rack again. The nest stays accepted: that costs no steel, and paper may hang on the wall.
 */
function openedWith(undone: KnownFact, facts: readonly KnownFact[]): readonly KnownFact[] {
  const stick = stickIn(undone)
  if (stick === undefined || undone.kind === 'kept' || undone.kind === 'scrapped') return []
  const same = facts.filter((fact) => fact.nest === undone.nest && fact.id !== undone.id)
  const touched = same.some(
    (fact) =>
      stickIn(fact) === stick ||
      (fact.kind === 'cut' && 'piece' in fact.body.from && fact.body.from.piece === undone.id),
  )
  return touched ? [] : same.filter((fact) => fact.kind === 'opened' && fact.body.stick === stick)
}

/** The stick that something was done with. */
function stickIn(fact: KnownFact): string | undefined {
  if (fact.kind === 'cut' || fact.kind === 'miscut')
    return 'stick' in fact.body.from ? fact.body.from.stick : undefined
  return fact.kind === 'kept' || fact.kind === 'loaded' || fact.kind === 'scrapped'
    ? fact.body.stick
    : undefined
}
