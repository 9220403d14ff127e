import { counting } from '../core/facts/counting.ts'
import { isTick, tickName } from '../core/facts/fold.ts'
import { known } from '../core/facts/known.ts'
import { stickName } from '../core/facts/rack.ts'
import type { FactDraft, KnownFact } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { BenchCut } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { attempt, type Desk, jobOf, Refusal } from './desk.ts'
import { record } from './publish.ts'
import { boughtFor, lastOnRack, spokenFor, sticksOf } from './rack.ts'
import type { Actions } from './state.ts'
import { stickNow } from './stick-now.ts'

// What is checked off with gloves on: every action is one write, on disk before it shows.

type FloorActions = Pick<
  Actions,
  | 'accept'
  | 'cut'
  | 'undo'
  | 'undoRack'
  | 'keepDrop'
  | 'bought'
  | 'found'
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

  async function checkOff(id: string, asked: BenchCut): Promise<void> {
    const { views, progress } = store.getState()
    const view = views[id]
    const cut = view?.cuts.find(
      ({ product }) => product.id === asked.product.id && product.key === asked.product.key,
    )
    if (!view?.nest || !cut)
      throw new Refusal(
        `${asked.product.id} is not in the plan any more, so nothing was checked off. Look at the set-up again.`,
      )
    // Another tab or an earlier tap checked it off: a second fact would be a second piece.
    if (cut.done !== undefined) return
    const { nest } = view
    const body = desk.planner.cutFact(cut)
    const opens =
      'stick' in body.from && !(stickName(nest.id, body.from.stick) in progress.opened)
        ? [openingOf(desk, id, nest, body.from.stick)]
        : []
    const { copy, job } = cut.product
    const accepts = acceptance(desk, nest)
    await record(
      desk,
      [
        ...accepts,
        ...opens,
        { kind: 'cut', job: job ?? id, nest: nest.id, ...(copy === undefined ? {} : { copy }), body },
      ],
      accepts.length > 0 ? [nest] : [],
    )
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

    cut(id, cut) {
      const name = `${id}/${cut.product.id}`
      const before = inFlight.get(name)
      if (before) return before
      const now = attempt(desk, undefined, () => checkOff(id, cut)).finally(() => inFlight.delete(name))
      inFlight.set(name, now)
      return now
    },

    undo: (id) =>
      attempt(desk, undefined, async () => {
        const { last, accepted } = store.getState().progress
        const facts = done()
        // At the saw jobs of one nest are cut as one: the last cut may have been another job's.
        const shared = (one: KnownFact) =>
          one.nest !== undefined && one.nest === accepted[id] && (one.kind === 'cut' || one.kind === 'kept')
        const fact = facts.findLast((one) => one.id === last[id] || shared(one))
        if (!fact) return
        await record(
          desk,
          [fact, ...openedWith(fact, facts)].map((one): FactDraft => undoOf(id, one)),
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
        const body = { section: at.section, stick, length, ends }
        await record(desk, [{ kind: 'kept', job: id, nest: nest.id, body }])
      }),

    bought: (section, length, count, price) =>
      simply({ kind: 'bought', body: { section, length, count, ...(price === undefined ? {} : { price }) } }),

    found: (body) => simply({ kind: 'found', body }),

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

/** A stick goes on the saw: off the rack, where it lies there, or was bought for it and put there. */
export function openingOf(desk: Desk, job: string, nest: Nest, id: string): FactDraft {
  const { progress } = desk.store.getState()
  const at = sticksOf(nest).find(({ stick }) => stick.id === id)
  if (!at) throw new Refusal(`Stick ${id} is not in the nest of this job.`)
  const others = Object.entries(progress.accepted).flatMap(([other, accepted]) =>
    accepted !== nest.id && desk.jobs.has(other) ? (desk.nests.get(accepted) ?? []) : [],
  )
  const taken = spokenFor(progress, others)
  const rack = at.stick.rack ?? boughtFor(at, progress.rack, taken)?.id
  return {
    kind: 'opened',
    job,
    nest: nest.id,
    body: rack === undefined ? { stick: id } : { stick: id, rack },
  }
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
