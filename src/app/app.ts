import { createStore, type StoreApi } from 'zustand/vanilla'
import { fold } from '../core/facts/fold.ts'
import { startShop } from '../core/shop-start.ts'
import { backupActions, markFirst } from './backup.ts'
import { compare } from './compare.ts'
import { attempt, type Desk, inTurn, wordsOf } from './desk.ts'
import { fileActions } from './files.ts'
import { floorActions } from './floor.ts'
import { jobActions } from './jobs.ts'
import { wantNest } from './nesting.ts'
import type { Planner } from './planner.ts'
import type { Ports } from './ports.ts'
import { publish, readDisk } from './publish.ts'
import { acceptRest, dropRest, planRest } from './rest.ts'
import { sawActions } from './saw-facts.ts'
import type { Actions, AppState } from './state.ts'
import { nestTogether } from './together.ts'
import { compareWays } from './ways.ts'

export interface App {
  readonly store: StoreApi<AppState>
  readonly actions: Actions
}

/** Milliseconds that typing must rest before the worker is asked. */
const solverPause = 300

/** Geometry, saw and judges come after the first screen stands. */
const loadPlanner = () => import('./planner.ts').then(({ planner }) => planner)

const tooSoon = (): never => {
  throw new Error('This was asked before the app had been opened.')
}
const notLoaded: Planner = {
  newJob: tooSoon,
  plan: tooSoon,
  benchWork: tooSoon,
  cutFact: tooSoon,
  sparesOf: tooSoon,
  waysFor: tooSoon,
  offerOf: tooSoon,
}

/** The store and what a person can do. Disk first, then the state: what is shown as done is done. */
export function makeApp(
  ports: Ports,
  load: () => Promise<Planner> = loadPlanner,
  pause: number = solverPause,
): App {
  const store = createStore<AppState>()(() => ({
    phase: 'loading',
    trouble: null,
    device: '',
    shop: startShop(ports.units ?? 'in'),
    jobs: [],
    views: {},
    progress: fold([]),
    facts: [],
    rivals: [],
    unread: [],
    samples: ports.samples.map(({ name }) => name),
    backup: null,
    room: null,
    flash: 0,
    compared: {},
    ways: {},
  }))
  const desk: Desk = {
    ports,
    planner: notLoaded,
    store,
    pause,
    jobs: new Map(),
    shop: null,
    nests: new Map(),
    candidates: new Map(),
    offers: new Map(),
    searches: new Map(),
    comparing: null,
    together: new Map(),
    timers: new Map(),
    planned: new Map(),
    dirty: new Set(),
    shown: null,
    lasting: null,
    asides: new Map(),
    own: new Set(),
    queue: Promise.resolve(),
  }
  store.subscribe(({ views }, before) => {
    const id = desk.shown
    if (id !== null && views[id] !== before.views[id]) wantNest(desk, id)
  })
  const actions: Actions = {
    open: once(() => open(desk, load)),
    show: (id) => {
      desk.shown = id
      if (!store.getState().views[id] || desk.dirty.has(id)) publish(desk, {}, [id])
      wantNest(desk, id, true)
    },
    nestTogether: (id, others) => nestTogether(desk, id, others),
    compare: (id) => compare(desk, id),
    compareWays: (id) => compareWays(desk, id),
    stopSolving: (id) => desk.searches.get(id)?.stop(),
    dismiss: () => {
      desk.lasting = null
      for (const [key, aside] of desk.asides) desk.asides.set(key, { ...aside, dismissed: true })
      store.setState({ trouble: null })
    },
    planRest: (id, recut) => planRest(desk, id, recut),
    acceptRest: (id) => acceptRest(desk, id),
    dropRest: (id) => dropRest(desk, id),
    ...jobActions(desk),
    ...floorActions(desk),
    ...sawActions(desk),
    ...fileActions(desk),
    ...backupActions(desk),
  }
  return { store, actions }
}

/** The same promise while the first is under way, a new try after it. */
function once(work: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | undefined
  return () => {
    running ??= work().finally(() => {
      running = undefined
    })
    return running
  }
}

const listening = new WeakSet<Desk>()

async function open(desk: Desk, load: () => Promise<Planner>): Promise<void> {
  const { disk } = desk.ports
  const { store } = desk
  if (!listening.has(desk)) {
    listening.add(desk)
    disk.onTrouble((trouble) => store.setState({ trouble }))
    disk.onOther(() => hear(desk))
  }
  const read = await attempt(desk, false, async () => {
    desk.planner = await load()
    await readDisk(desk)
    return true
  })
  if (!read) {
    if (store.getState().phase === 'loading') store.setState({ phase: 'failed' })
    return
  }
  // One job at a time, so that the first screen does not wait for the plans of all.
  for (const id of [...desk.jobs.keys()]) {
    await new Promise((resolve) => setTimeout(resolve))
    if (desk.jobs.has(id) && (desk.dirty.has(id) || !store.getState().views[id])) publish(desk, {}, [id])
  }
  // Asked once the person has something to lose; a no changes nothing of what the app does.
  if (desk.jobs.size > 0) await disk.persist().catch(() => false)
  store.setState({ room: await disk.room() })
  await markFirst(desk)
}

const heard = new WeakSet<Desk>()

/** Another tab wrote: read again, once for all that it wrote while this tab was busy. Own troubles are not over by that. */
function hear(desk: Desk): void {
  if (heard.has(desk)) return
  heard.add(desk)
  const reading = inTurn(desk, async () => {
    heard.delete(desk)
    await readDisk(desk)
  })
  reading.catch((error: unknown) => desk.store.setState({ trouble: wordsOf(error) }))
}
