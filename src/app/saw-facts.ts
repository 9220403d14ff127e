import { stickName } from '../core/facts/rack.ts'
import type { Bodies, FactDraft } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { BenchCut, HandCut } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import type { Section } from '../core/section/section.ts'
import { sameLength } from '../core/tolerance.ts'
import type { Mm } from '../core/units.ts'
import { attempt, type Desk, Refusal } from './desk.ts'
import { acceptance, openingsOf } from './floor.ts'
import { record } from './publish.ts'
import { pieceLength } from './remains.ts'
import type { Actions, Wrong } from './state.ts'

// What happens at the saw besides a cut: each is one write, on disk before it shows.

type SawActions = Pick<
  Actions,
  'scrap' | 'load' | 'miscut' | 'measure' | 'moveStop' | 'changeBlade' | 'cutApart'
>

/** What a miscut was to be, and the steel that it was cut from. */
interface Spoilt {
  readonly meant: Bodies['cut']
  readonly section: Section
  /** Length that it was to have, mm. */
  readonly length: Mm
  readonly nest: Nest
  readonly copy?: number
}

/** Section and length of what a stick of this nest gives. */
function onStick(
  nest: Nest,
  id: string | undefined,
  { mark, key, label }: Pick<Bodies['cut'], 'mark' | 'key' | 'label'>,
): Pick<Spoilt, 'section' | 'length'> {
  for (const section of nest.sections) {
    const stick = section.sticks.find((one) => one.id === id)
    const length = stick && pieceLength(section, stick, mark, key)
    if (length !== undefined) return { section: section.section, length }
  }
  throw new Refusal(`${label}: it is not known how long it was, so nothing can be said of what is left.`)
}

export function sawActions(desk: Desk): SawActions {
  const { store } = desk

  const nestOf = (id: string): Nest => {
    const nest = store.getState().views[id]?.nest
    if (!nest) throw new Refusal('There is no nest to work by yet.')
    return nest
  }

  /** What must be true before something is said of a stick: its nest is accepted, and it is on the saw. */
  const onSaw = (id: string, nest: Nest, stick: string): readonly FactDraft[] => [
    ...acceptance(desk, nest),
    ...openingsOf(desk, id, nest, [stick]),
  ]

  const write = (id: string, nest: Nest, drafts: readonly FactDraft[]): Promise<unknown> =>
    record(desk, drafts, store.getState().progress.accepted[id] === nest.id ? [] : [nest])

  /** The spoilt piece as it stands in the plan or in the log. */
  const spoiltBy = (id: string, { of }: Wrong): Spoilt => {
    const { views, progress } = store.getState()
    const view = views[id]
    if ('cut' in of) {
      const asked = of.cut.product
      const all: readonly (BenchCut | HandCut)[] = view ? [...view.cuts, ...view.byHand] : []
      const cut = all.find(({ product }) => product.id === asked.id && product.key === asked.key)
      if (!view?.nest || !cut || cut.lost !== undefined)
        throw new Refusal(
          `${asked.id} is not in the plan any more, so nothing was written. Look at the set-up again.`,
        )
      if (cut.done === undefined) return openCut(view.nest, cut)
      return spoiltPiece(cut.done)
    }
    return spoiltPiece(of.piece)

    function openCut(nest: Nest, cut: BenchCut | HandCut): Spoilt {
      const { copy } = cut.product
      const meant = desk.planner.cutFact(cut)
      const more = { nest, ...(copy === undefined ? {} : { copy }) }
      if ('setUp' in cut)
        return {
          meant,
          section: cut.setUp.section,
          length: cut.product.length ?? cut.setUp.stop,
          ...more,
        }
      return { meant, ...onStick(nest, cut.stick, meant), ...more }
    }

    function spoiltPiece(piece: string): Spoilt {
      const made = progress.made.find((one) => one.id === piece)
      const nest = desk.nests.get(made?.nest ?? '')
      if (!made || !nest || made.used)
        throw new Refusal('This piece is not there any more: it was cut further, or taken back.')
      const { stage, key, mark, label, copy } = made
      const meant = { stage, key, mark, label, from: { piece } }
      const lay = onStick(nest, made.stick, meant)
      return { meant, ...lay, nest, ...(copy === undefined ? {} : { copy }) }
    }
  }

  return {
    scrap: (id, stick) =>
      attempt(desk, undefined, async () => {
        const nest = nestOf(id)
        if (!(stickName(nest.id, stick) in store.getState().progress.opened))
          throw new Refusal(`Stick ${stick} was not on the saw yet, so nothing is left of it.`)
        await record(desk, [{ kind: 'scrapped', job: id, nest: nest.id, body: { stick } }])
      }),

    load: (id, stick, length, ends) =>
      attempt(desk, undefined, async () => {
        const nest = nestOf(id)
        const body = { stick, length, ends }
        await write(id, nest, [...onSaw(id, nest, stick), { kind: 'loaded', job: id, nest: nest.id, body }])
      }),

    miscut: (id, wrong) =>
      attempt(desk, false, async () => {
        const { shop } = store.getState()
        const { meant, section, length, nest, copy } = spoiltBy(id, wrong)
        const { left, why, ends } = wrong
        if (!(left >= 0 && left <= length + sameLength))
          throw new Refusal(
            `${say(left, shop.reading)} cannot be left of ${meant.label}: it was to be ${say(length, shop.reading)} long.`,
          )
        const body = { ...meant, why, section, took: length, left, ends }
        const opens = 'stick' in meant.from ? onSaw(id, nest, meant.from.stick) : []
        await write(id, nest, [
          ...opens,
          { kind: 'miscut', job: id, nest: nest.id, ...(copy === undefined ? {} : { copy }), body },
        ])
        return true
      }),

    measure: (id, body) =>
      attempt(desk, undefined, async () => {
        await record(desk, [{ kind: 'measured', job: id, body }])
      }),

    moveStop: (id, setUp, by) =>
      attempt(desk, undefined, async () => {
        const nest = nestOf(id)
        await write(id, nest, [
          ...acceptance(desk, nest),
          { kind: 'stopMoved', job: id, nest: nest.id, body: { setUp, by } },
        ])
      }),

    changeBlade: (id, saw, blade) =>
      attempt(desk, undefined, async () => {
        const known = store.getState().shop.saws.find((one) => one.id === saw)
        const on = known?.blades.find((one) => one.id === blade)
        if (!on) throw new Refusal('This blade is not in the shop. Put it into Shop first, with its kerf.')
        await record(desk, [{ kind: 'bladeChanged', job: id, body: { saw, blade, kerf: on.kerf } }])
      }),

    cutApart: (id, copy) =>
      attempt(desk, undefined, async () => {
        await record(desk, [{ kind: 'cutApart', job: id, copy, body: { why: 'cut apart at the bench' } }])
      }),
  }
}
