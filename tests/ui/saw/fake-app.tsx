import { act, cleanup, render } from '@testing-library/react'
import type { ReactNode } from 'react'
import { afterEach, vi } from 'vitest'
import { createStore } from 'zustand/vanilla'
import type { Actions, AppState, JobView } from '../../../src/app/state.ts'
import { fold } from '../../../src/core/facts/fold.ts'
import type { Progress } from '../../../src/core/facts.ts'
import type { BenchCut } from '../../../src/core/plan-shapes.ts'
import { type App, AppContext, useApp } from '../../../src/ui/app.ts'
import { cutsWith, nest, plan, shop } from './bench-run.ts'

afterEach(cleanup)

export const noProgress: Progress = fold([])

export const viewWith = (change: Partial<JobView> = {}): JobView => ({
  id: 'job-1',
  job: { id: 'job-1', name: plan.name, build: { kind: 'polygon-frame', params: {} }, quantity: 1 },
  problems: [],
  plan,
  stale: false,
  nesting: { state: 'accepted' },
  nest,
  cuts: cutsWith([]),
  byHand: [],
  refused: [],
  spares: [],
  spareSteel: [],
  missing: [],
  short: [],
  stops: {},
  ...change,
})

type Element = (view: JobView) => ReactNode

/** The station as the shell shows it: again for every change of its view. */
function Live({ id, element }: { id: string; element: Element }) {
  return <>{element(useApp((state) => state.views[id]!))}</>
}

/** An app in memory: what a fact does to the state is done at once unless `slow` keeps it back. */
export function fakeApp(view: JobView, state: Partial<AppState> = {}) {
  const done: string[] = view.cuts.filter((cut) => cut.done).map((cut) => cut.product.id)
  const waiting: (() => void)[] = []
  const store = createStore<AppState>(() => ({
    phase: 'ready',
    trouble: null,
    device: 'dev',
    shop,
    jobs: [view.job],
    views: { [view.id]: view },
    progress: noProgress,
    facts: [],
    rivals: [],
    samples: [],
    backup: null,
    room: null,
    flash: 0,
    ...state,
  }))
  const show = () =>
    store.setState((old) => ({
      flash: old.flash + 1,
      progress: { ...old.progress, last: done.length > 0 ? { [view.id]: `dev:${done.at(-1)}` } : {} },
      views: { [view.id]: { ...old.views[view.id]!, cuts: cutsWith(done) } },
    }))
  const control = { slow: false, fails: false }
  const actions = new Proxy(
    {
      cut: vi.fn(async (_: string, ...cuts: BenchCut[]) => {
        if (control.slow) await new Promise<void>((go) => waiting.push(go))
        if (control.fails) {
          store.setState({ trouble: 'The disk is full.' })
          return
        }
        done.push(...cuts.map(({ product }) => product.id))
        show()
      }),
      undo: vi.fn(async () => {
        done.pop()
        show()
      }),
    } as Record<string, unknown>,
    {
      get: (own, name: string) => {
        own[name] ??= vi.fn(async () => undefined)
        return own[name]
      },
    },
  ) as unknown as Actions & Record<string, ReturnType<typeof vi.fn>>
  const app: App = { store, actions }
  const put = (element: Element) =>
    render(
      <AppContext value={app}>
        <Live id={view.id} element={element} />
      </AppContext>,
    )
  return {
    store,
    actions,
    control,
    put,
    /** Lets what waits for the disk go on. */
    release: () =>
      act(async () => {
        for (const go of waiting.splice(0)) go()
      }),
    /** Another tab cut this. */
    otherTab: (id: string) =>
      act(async () => {
        done.push(id)
        show()
      }),
  }
}
