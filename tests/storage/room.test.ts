import { afterEach, describe, expect, test, vi } from 'vitest'
import { lookAtRoom } from '../../src/storage/room.ts'
import { closeTabs, freshName, openTab } from './faulty.ts'

afterEach(async () => {
  vi.unstubAllGlobals()
  await closeTabs()
})

describe('what the browser says of its room', () => {
  test('is passed on: 1000 of 5000 bytes, and that it lasts', async () => {
    const storage = { persisted: async () => true, estimate: async () => ({ usage: 1000, quota: 5000 }) }
    vi.stubGlobal('navigator', { storage })
    expect(await lookAtRoom()).toEqual({ lasting: true, used: 1000, most: 5000 })
  })
  test.each([
    ['says nothing', {}],
    ['has no storage to ask', { storage: undefined }],
    [
      'fails',
      { storage: { persisted: () => Promise.reject(new Error('no')), estimate: () => Promise.reject(1) } },
    ],
  ])('is unknown where it %s', async (_, navigator) => {
    vi.stubGlobal('navigator', navigator)
    expect(await lookAtRoom()).toEqual({ lasting: null, used: null, most: null })
  })
})

test('when the person wants it, the browser is asked again after a no', async () => {
  const persist = vi.fn(async () => false)
  vi.stubGlobal('navigator', { storage: { persist, persisted: async () => false } })
  const disk = openTab(freshName())
  await disk.persist()
  expect(await disk.persist(true)).toBe(false)
  expect(persist).toHaveBeenCalledTimes(2)
})

test('the mark of the last backup is there for the next tab, and a damaged one counts as none', async () => {
  const name = freshName()
  const mark = { at: '2030-01-01T08:00:00.000Z', saved: true, facts: 3, documents: ['a d:1'] }
  const disk = openTab(name)
  expect((await disk.readAll()).backup).toBeNull()
  await disk.markBackup(mark)
  expect((await openTab(name).readAll()).backup).toEqual(mark)
  await disk.markBackup({ ...mark, facts: 'three' } as never)
  expect((await openTab(name).readAll()).backup).toBeNull()
})
