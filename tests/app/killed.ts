import { expect } from 'vitest'
import type { AppState } from '../../src/app/state.ts'
import type { Bodies, Fact } from '../../src/core/facts.ts'
import { type Break, breakWrite, dump } from '../storage/faulty.ts'
import { type Tablet, tabletOn } from './tablet.ts'

/**
 * How a tab dies: the disk throws or the browser aborts at one write; or everything is written and the tab is gone
 * before it heard of it.
 */
export type Death = { readonly at: number; readonly how: Break } | 'unheard'

/** Runs one action with a fault in it, then throws the tab away. Says what the screen showed at the end. */
export async function dying(tablet: Tablet, death: Death, action: () => Promise<unknown>): Promise<AppState> {
  if (death === 'unheard') {
    const { append, merge, saveAside, saveJob, saveShop } = tablet.disk
    const never = () => new Promise<never>(() => undefined)
    let written: (() => void) | undefined
    const heard = new Promise<void>((resolve) => {
      written = resolve
    })
    const unheard =
      <G extends unknown[]>(write: (...given: G) => Promise<unknown>) =>
      async (...given: G) => {
        await write(...given).finally(written)
        return never()
      }
    Object.assign(tablet.disk, {
      append: unheard(append),
      merge: unheard(merge),
      saveJob: unheard(saveJob),
      saveAside: unheard(saveAside),
      saveShop: unheard(saveShop),
    })
    const ended = action()
    await Promise.race([heard, ended])
  } else {
    const fault = breakWrite(death.at, death.how)
    try {
      await action()
    } finally {
      fault.fixed()
    }
  }
  const shown = tablet.state()
  await tablet.disk.close()
  return shown
}

/** Opens the database once more and holds it against what was shown: nothing is missing, nothing is half there. */
export async function reopened(name: string, shown: AppState, say: string): Promise<Tablet> {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  const state = tablet.state()
  expect(state.phase, say).toBe('ready')
  expect(state.unread, say).toEqual([])
  const here = new Map(state.facts.map((fact) => [fact.id, fact]))
  for (const fact of shown.facts) expect(here.get(fact.id), say).toEqual(fact)
  const jobs = new Set(state.jobs.map(({ id }) => id))
  for (const job of shown.jobs) expect(jobs.has(job.id), `${say}: job ${job.name}`).toBe(true)
  await whole(name, state, say)
  return tablet
}

/** What one write puts there together is there together. */
async function whole(name: string, { facts }: AppState, say: string): Promise<void> {
  const stores = await dump(name)
  expect(stores.facts?.map(({ key }) => key).sort(), say).toEqual(facts.map(({ id }) => id).sort())
  const nests = new Set(stores.nests?.map(({ key }) => key))
  for (const fact of facts)
    if (fact.nest !== undefined) expect(nests.has(fact.nest), `${say}: nest of ${fact.id}`).toBe(true)
  // A write that failed uses no number: the sequences of a device have no gap, and the head stands at the last.
  for (const [device, own] of byDevice(facts))
    expect(
      own.map(({ seq }) => seq).sort((a, b) => a - b),
      `${say}: ${device}`,
    ).toEqual(own.map((_, at) => at + 1))
  const head = stores.meta?.find(({ key }) => key === 'log')?.value as {
    seq: number
    lamport: number
    device: string
  }
  expect(head.seq, say).toBe(facts.filter(({ device }) => device === head.device).length)
  expect(head.lamport, say).toBe(Math.max(0, ...facts.map(({ lamport }) => lamport)))
  // A cut from a stick never stands without the opening of that stick and the acceptance of its nest.
  for (const fact of facts.filter(({ kind }) => kind === 'cut')) {
    const { from } = fact.body as Bodies['cut']
    const before = facts.filter(({ nest, lamport }) => nest === fact.nest && lamport < fact.lamport)
    expect(
      before.some(({ kind }) => kind === 'accepted'),
      `${say}: ${fact.id}`,
    ).toBe(true)
    if ('stick' in from)
      expect(
        before.some(({ kind, body }) => kind === 'opened' && (body as Bodies['opened']).stick === from.stick),
        `${say}: ${fact.id}`,
      ).toBe(true)
  }
}

function byDevice(facts: readonly Fact[]): Map<string, Fact[]> {
  const by = new Map<string, Fact[]>()
  for (const fact of facts) by.set(fact.device, [...(by.get(fact.device) ?? []), fact])
  return by
}
