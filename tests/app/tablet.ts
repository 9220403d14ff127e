import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { type App, makeApp } from '../../src/app/app.ts'
import { type Planner, planner } from '../../src/app/planner.ts'
import type { Ports, Solver } from '../../src/app/ports.ts'
import type { AppState, JobView } from '../../src/app/state.ts'
import type { Shop } from '../../src/core/shop.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { solve } from '../../src/nest/solve.ts'
import type { Disk } from '../../src/storage/disk.ts'
import { openTab } from '../storage/faulty.ts'

// The app as it runs, with the real disk (on fake-indexeddb), door, planner, judges and nest; only the worker is
// missing: the nest is solved in the same thread, a moment later.

export const sampleText = (name: string): string =>
  readFileSync(new URL(`../../demo-data/${name}.json`, import.meta.url), 'utf8')

export const inline: Solver = {
  name: 'inline 1',
  solve(problem, better) {
    let dropped = false
    const done = new Promise<void>((resolve) => setTimeout(resolve)).then(() => {
      if (dropped) throw new Error('stopped before anything was found')
      const solved = solve(problem, { steps: 300_000, better })
      if (!solved.ok) throw new Error(solved.problems.map(({ text }) => text).join(' '))
      return solved.value.nest
    })
    // A solver that was told to stop may end in a rejection that nobody waits for.
    done.catch(() => undefined)
    return {
      done,
      stop: () => {
        dropped = true
      },
    }
  },
}

let made = 0
/** Never the same twice, and in the order of making: what a seed did once, it does again. */
const fresh = (): string => String(++made).padStart(6, '0')

export interface Tablet extends App {
  readonly disk: Disk
  readonly state: () => AppState
  readonly view: (id: string) => JobView
}

/** One tab on this database. Not opened yet. */
export function tabletOn(name: string, given: Partial<Ports> = {}, plans: Planner = planner): Tablet {
  const disk = openTab(name, { makeId: () => `device-${fresh()}` })
  const ports: Ports = {
    disk,
    solver: inline,
    clock: { now: () => '2030-01-01T08:00:00.000Z' },
    ids: { make: () => `job-${fresh()}` },
    hash: async (text) => createHash('sha256').update(text).digest('hex'),
    units: 'mm',
    samples: [
      { name: 'Hexagon', text: sampleText('hexagon-top') },
      { name: 'Pedestal', text: sampleText('ten-sided-pedestal') },
    ],
    ...given,
  }
  const app = makeApp(ports, async () => plans, 0)
  return {
    ...app,
    disk,
    state: app.store.getState,
    view: (id) => {
      const view = app.store.getState().views[id]
      if (!view) throw new Error(`no view of ${id}`)
      return view
    },
  }
}

/** Resolves when the state is so; fails with what it was instead. */
export async function until(
  tablet: Tablet,
  holds: (state: AppState) => boolean,
  what: string,
): Promise<void> {
  if (holds(tablet.state())) return
  await new Promise<void>((resolve, reject) => {
    const end = setTimeout(() => {
      stop()
      const { trouble, views } = tablet.state()
      const nestings = Object.values(views).map(({ id, nesting, problems }) => ({ id, nesting, problems }))
      reject(new Error(`${what}: not within 15 s; ${JSON.stringify({ trouble, nestings })}`))
    }, 15_000)
    const stop = tablet.store.subscribe((state) => {
      if (!holds(state)) return
      clearTimeout(end)
      stop()
      resolve()
    })
  })
}

export const hasRun = (tablet: Tablet, id: string): Promise<void> =>
  until(tablet, ({ views }) => (views[id]?.cuts.length ?? 0) > 0, `a run for ${id}`)

/** A shop with one length to buy, so that figures can be worked out by hand: 6000 mm, kerf 2.5, clean-up 10. */
export const handShop: Shop = { ...startShop('mm'), usualLengths: [6000], leastDrop: 300 }

/** A new cut list: `count` square pieces of `length` from 40 × 40 × 3 tube. Shown, with a run. */
export async function cutListJob(tablet: Tablet, count: number, length: number): Promise<string> {
  const id = await tablet.actions.newJob('cut-list')
  await tablet.actions.editParams(id, { rows: rows([count, length]) })
  tablet.actions.show(id)
  await hasRun(tablet, id)
  return id
}

const section = { kind: 'square-tube', width: 40, wall: 3 } as const

/** Rows of a cut list, square at both ends unless told. */
export const rows = (
  ...given: readonly (readonly [count: number, length: number, a?: number, b?: number])[]
) => given.map(([count, length, a = 0, b = 0]) => ({ count, length, a, b, section }))
