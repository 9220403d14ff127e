// A store as the app gives it, without a disk: the plan is the real one, so that numbers on the screen can be checked.
import { configure, render } from '@testing-library/react'
import type { ReactNode } from 'react'
import { vi } from 'vitest'
import { createStore } from 'zustand/vanilla'
import type { Reminder } from '../../../src/app/remind.ts'
import type { Actions, AppState, Carried, JobView, Looked } from '../../../src/app/state.ts'
import { buildOf } from '../../../src/core/builds/index.ts'
import { newJob } from '../../../src/core/builds/start.ts'
import { fold } from '../../../src/core/facts/fold.ts'
import type { Job, Params } from '../../../src/core/job.ts'
import { plan } from '../../../src/core/plan.ts'
import { bad, good, type Problem, type Result } from '../../../src/core/result.ts'
import type { Shop } from '../../../src/core/shop.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { withCode } from '../../../src/door/carried.ts'
import { AppContext } from '../../../src/ui/app.ts'

// happy-dom does no layout, so looking up what is hidden costs much and finds nothing.
configure({ defaultHidden: true })

export function viewOf(job: Job, shop: Shop, before?: JobView): JobView {
  const planned = plan(job, shop)
  return {
    id: job.id,
    job,
    problems: planned.ok ? [] : planned.problems,
    plan: planned.ok ? planned.value : (before?.plan ?? null),
    stale: !planned.ok && Boolean(before?.plan),
    nesting: { state: 'none' },
    nest: null,
    cuts: [],
    byHand: [],
    refused: [],
    spares: [],
    spareSteel: [],
    missing: [],
    short: [],
    stops: {},
  }
}

/** A job of a build with some parameters changed. */
export function jobOf(kind: string, params: Params = {}, units: 'in' | 'mm' = 'mm', id = 'job-1'): Job {
  const build = buildOf(kind)
  if (!build) throw new Error(`no build ${kind}`)
  const job = newJob(build, units, id)
  return { ...job, build: { kind, params: { ...job.build.params, ...params } } }
}

export function fakeApp(
  jobs: readonly Job[] = [],
  shop: Shop = startShop('mm'),
  more: Partial<AppState> = {},
) {
  const store = createStore<AppState>()(() => ({
    phase: 'ready',
    trouble: null,
    device: 'tablet',
    shop,
    jobs,
    views: Object.fromEntries(jobs.map((job) => [job.id, viewOf(job, shop)])),
    progress: fold([]),
    facts: [],
    rivals: [],
    samples: [],
    backup: null,
    room: null,
    flash: 0,
    ...more,
  }))
  const find = (id: string) => {
    const job = store.getState().jobs.find((one) => one.id === id)
    if (!job) throw new Error(`no job ${id}`)
    return job
  }
  const put = (job: Job) =>
    store.setState((state) => ({
      jobs: state.jobs.some(({ id }) => id === job.id)
        ? state.jobs.map((old) => (old.id === job.id ? job : old))
        : [...state.jobs, job],
      views: { ...state.views, [job.id]: viewOf(job, state.shop, state.views[job.id]) },
    }))
  const done = async () => undefined
  const actions = {
    open: vi.fn(done),
    newJob: vi.fn(async (kind: string) => {
      put(jobOf(kind, {}, 'mm', 'new'))
      return 'new'
    }),
    copyJob: vi.fn(async (id: string) => {
      put({ ...find(id), id: 'copy' })
      return 'copy'
    }),
    removeJob: vi.fn(async (id: string) =>
      store.setState((state) => ({ jobs: state.jobs.filter((job) => job.id !== id) })),
    ),
    editJob: vi.fn(async (id: string, change: Partial<Job>) => put({ ...find(id), ...change })),
    editParams: vi.fn(async (id: string, change: Params) => {
      const job = find(id)
      put({ ...job, build: { ...job.build, params: { ...job.build.params, ...change } } })
    }),
    saveShop: vi.fn(async (next: Shop) => {
      store.setState({ shop: next })
      return []
    }),
    openFile: vi.fn(async (text: string) => {
      const file = JSON.parse(text) as { job?: Job }
      if (!file.job) return { problems: [{ code: 'format', text: 'This is no job file.' }] }
      put(file.job)
      return { job: file.job.id, problems: [] }
    }),
    openSample: vi.fn(async () => {
      put(jobOf('polygon-frame', {}, 'mm', 'sample'))
      return 'sample'
    }),
    fileOf: vi.fn((id: string) => JSON.stringify({ format: 'tube-job', version: 1, job: find(id) })),
    linkOf: vi.fn(async () => good('1.x')),
    codesOf: vi.fn(async () => good(['TUBE1:00000000:1:1:AB'])),
    lookAtLink: vi.fn(async (_: string): Promise<Result<Carried>> => bad('no', 'This link carries no job.')),
    withCode,
    lookAtCodes: vi.fn(
      async (_: unknown): Promise<Result<Carried>> => bad('no', 'These codes carry no job.'),
    ),
    lookAtGiven: vi.fn(async (_: string): Promise<Result<Looked>> => bad('no', 'This is no job file.')),
    sharedFiles: vi.fn(async (): Promise<readonly File[]> => []),
    forgetShared: vi.fn(done),
    openBackup: vi.fn(async (_: string) => ({
      jobs: [] as readonly string[],
      ownShop: false,
      rivals: [] as readonly string[],
      left: [] as readonly string[],
      problems: [] as readonly Problem[],
    })),
    backup: vi.fn(() => ''),
    backedUp: vi.fn(done),
    reminder: vi.fn((): Reminder | null => null),
    rescue: vi.fn(async () => ''),
    askToKeep: vi.fn(done),
    show: vi.fn(),
    stopSolving: vi.fn(),
    accept: vi.fn(async () => true),
    planRest: vi.fn(done),
    acceptRest: vi.fn(done),
    dropRest: vi.fn(),
    scrap: vi.fn(done),
    load: vi.fn(done),
    miscut: vi.fn(async () => true),
    measure: vi.fn(done),
    moveStop: vi.fn(done),
    changeBlade: vi.fn(done),
    cutApart: vi.fn(done),
    cut: vi.fn(done),
    cutByHand: vi.fn(done),
    undo: vi.fn(done),
    compare: vi.fn(done),
    compareWays: vi.fn(done),
    nestTogether: vi.fn(done),
    undoRack: vi.fn(done),
    keepDrop: vi.fn(done),
    bought: vi.fn(done),
    found: vi.fn(done),
    sheetFound: vi.fn(done),
    sheetCorrected: vi.fn(done),
    sheetDiscarded: vi.fn(done),
    discard: vi.fn(done),
    correct: vi.fn(done),
    gauge: vi.fn(done),
    note: vi.fn(done),
    setMachine: vi.fn(done),
    tick: vi.fn(done),
    settle: vi.fn(done),
    settleApart: vi.fn(done),
    dismiss: vi.fn(() => store.setState({ trouble: null })),
  } satisfies Actions
  return { store, actions }
}

export function show(app: ReturnType<typeof fakeApp>, children: ReactNode) {
  return render(<AppContext value={app}>{children}</AppContext>)
}

export const noUpdates = {
  state: () => 'none' as const,
  subscribe: () => () => undefined,
  accept: () => undefined,
}
