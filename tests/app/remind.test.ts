import { afterEach, describe, expect, test } from 'vitest'
import { type Reminder, reminderOf } from '../../src/app/remind.ts'
import type { Fact } from '../../src/core/facts.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { tabletOn } from './tablet.ts'

afterEach(closeTabs)

const fact = (seq: number): Fact => ({
  id: `t:${seq}`,
  v: 1,
  kind: 'undo',
  device: 't',
  seq,
  lamport: seq,
  at: '',
  body: { fact: 't:0' },
})
const lasting = { lasting: true, used: 1, most: 2, uncopied: null }
const backup = { at: '2030-06-01T08:00:00.000Z', saved: true, facts: 2, documents: ['a d:1', 'shop d:1'] }
const facts = [fact(1), fact(2), fact(3)]
const documents = ['a d:2', 'shop d:1']

function due(now: string, change: Partial<Parameters<typeof reminderOf>[0]> = {}): Reminder | null {
  return reminderOf({ backup, room: lasting, facts, documents, shop: startShop('mm'), ...change }, now)
}

describe('a reminder of the backup', () => {
  test('comes after 14 days where the shop has said nothing, not a second before', () => {
    expect(due('2030-06-15T07:59:59.000Z')).toBeNull()
    expect(due('2030-06-15T08:00:00.000Z')).toEqual({ days: 14, facts: 1, documents: 1, lasting: true })
  })
  test('comes after the days that the shop chose, and never at 0', () => {
    const shop = { ...startShop('mm'), backupDays: 30 }
    expect(due('2030-06-30T00:00:00.000Z', { shop })).toBeNull()
    expect(due('2030-07-01T08:00:00.000Z', { shop })?.days).toBe(30)
    expect(due('2039-01-01T00:00:00.000Z', { shop: { ...shop, backupDays: 0 } })).toBeNull()
  })
  test('comes after a day where the browser does not promise to keep what is here', () => {
    for (const promise of [false, null]) {
      const room = { lasting: promise, used: null, most: null, uncopied: null }
      expect(due('2030-06-02T07:00:00.000Z', { room })).toBeNull()
      expect(due('2030-06-02T08:00:00.000Z', { room })).toMatchObject({ days: 1, lasting: false })
    }
  })
  test('does not come where nothing has changed since', () => {
    const same = { facts: facts.slice(0, 2), documents: backup.documents }
    expect(due('2035-01-01T00:00:00.000Z', same)).toBeNull()
    expect(due('2035-01-01T00:00:00.000Z', { backup: null })).toBeNull()
  })
  test('counts all where nothing was ever saved', () => {
    const never = { ...backup, saved: false }
    expect(due('2030-06-15T08:00:00.000Z', { backup: never })).toEqual({
      days: null,
      facts: 3,
      documents: 2,
      lasting: true,
    })
  })
  test('comes at once where the clock was set back, or the date cannot be read, and tells no age', () => {
    expect(due('2029-01-01T00:00:00.000Z')).toMatchObject({ days: null, facts: 1 })
    expect(due('2030-06-02T08:00:00.000Z', { backup: { ...backup, at: 'noon' } })).toMatchObject({
      days: null,
    })
  })
})

test('on a tablet: quiet at first, due two weeks after the first job, quiet again after a backup and a restart', async () => {
  const name = freshName()
  let now = '2030-06-01T08:00:00.000Z'
  const clock = { now: () => now }
  const first = tabletOn(name, { clock })
  await first.actions.open()
  expect(first.actions.reminder()).toBeNull()
  await first.actions.newJob('cut-list')
  const tablet = tabletOn(name, { clock })
  await tablet.actions.open()
  expect(tablet.actions.reminder()).toBeNull()
  now = '2030-06-15T08:00:00.000Z'
  expect(tablet.actions.reminder()).toMatchObject({ days: null, documents: 1 })
  await tablet.actions.backedUp(tablet.actions.backup())
  now = '2030-08-15T08:00:00.000Z'
  const again = tabletOn(name, { clock })
  await again.actions.open()
  expect(again.actions.reminder()).toBeNull()
  await again.actions.newJob('cut-list')
  expect(again.actions.reminder()).toMatchObject({ days: 61, documents: 1 })
})

test('a file that is too large to be opened again is no backup: it is said, and nothing counts as saved', async () => {
  const tablet = tabletOn(freshName())
  await tablet.actions.open()
  await tablet.actions.newJob('cut-list')
  await tablet.actions.backedUp(' '.repeat(64_000_001))
  expect(tablet.state().trouble).toMatch(
    /^The file that was saved cannot be opened again.* at most 64000000\.$/,
  )
  expect(tablet.state().backup?.saved).not.toBe(true)
  await tablet.actions.backedUp(tablet.actions.backup())
  expect(tablet.state()).toMatchObject({ trouble: null, backup: { saved: true } })
})
