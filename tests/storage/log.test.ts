import { afterEach, describe, expect, test, vi } from 'vitest'
import type { FactDraft } from '../../src/core/facts.ts'
import { sampleFacts, sampleNest } from '../door/sample.ts'
import { type Break, breakWrite, closeTabs, cut, dump, freshName, openTab, plant } from './faulty.ts'

afterEach(closeTabs)

const draftsOfThree: readonly FactDraft[] = [
  { kind: 'accepted', job: 'job-1', nest: sampleNest.id, body: { nest: sampleNest.id } },
  { kind: 'opened', job: 'job-1', nest: sampleNest.id, body: { stick: 'S1' } },
  cut('A1'),
]

describe('append', () => {
  test('gives ids, sequences and lamports 1, 2, 3, then 4', async () => {
    const name = freshName()
    const disk = openTab(name)
    const first = await disk.append(draftsOfThree, [sampleNest])
    expect(first.map(({ id, v, seq, lamport }) => [id, v, seq, lamport])).toEqual([
      ['device1:1', 1, 1, 1],
      ['device1:2', 1, 2, 2],
      ['device1:3', 1, 3, 3],
    ])
    const [next] = await disk.append([cut('A2')])
    expect(next).toEqual({
      id: 'device1:4',
      v: 1,
      device: 'device1',
      seq: 4,
      lamport: 4,
      at: '2030-01-01T08:00:00.000Z',
      ...cut('A2'),
    })
    const kept = await openTab(name).readAll()
    expect(kept.facts).toEqual([...first, next])
    expect(kept.nests).toEqual([sampleNest])
    expect(kept.device).toBe('device1')
  })

  test('is one transaction over log and nests that asks for strict durability', async () => {
    const disk = openTab(freshName())
    await disk.readAll()
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction')
    await disk.append(draftsOfThree, [sampleNest])
    expect(transaction.mock.calls).toEqual([
      [['meta', 'facts', 'nests'], 'readwrite', { durability: 'strict' }],
    ])
    transaction.mockRestore()
  })

  test('resolves only when the transaction is complete', async () => {
    const disk = openTab(freshName())
    await disk.readAll()
    let complete = false
    const transaction = IDBDatabase.prototype.transaction
    const spy = vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (
      this: IDBDatabase,
      ...given: Parameters<typeof transaction>
    ) {
      const tx = transaction.apply(this, given)
      tx.addEventListener('complete', () => {
        complete = true
      })
      return tx
    })
    await disk.append([cut('A1')])
    expect(complete).toBe(true)
    spy.mockRestore()
  })

  test('ten at once from two tabs: ten facts, sequences 1 to 10', async () => {
    const name = freshName()
    const tabs = [openTab(name), openTab(name)]
    await Promise.all(Array.from({ length: 10 }, (_, at) => tabs[at % 2]!.append([cut(`A${at}`)])))
    const { facts } = await openTab(name).readAll()
    expect(facts.map(({ seq }) => seq).sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
    expect(new Set(facts.map(({ device }) => device)).size).toBe(1)
  })

  test.each<Break>(['throw', 'abort', 'no room'])(
    'broken (%s) at each of its writes, nothing of it is on disk, and doing it again works',
    async (how) => {
      let broken = 0
      for (let at = 0; ; at++) {
        const name = freshName()
        const disk = openTab(name)
        const [before] = await disk.append([cut('A0')])
        const fault = breakWrite(at, how)
        const done = await disk.append(draftsOfThree, [sampleNest]).then(
          () => true,
          (error: Error) => error,
        )
        const { writes } = { writes: fault.writes() }
        fault.fixed()
        if (done === true) {
          expect(writes).toBeLessThanOrEqual(at)
          break
        }
        broken += 1
        expect((done as Error).message).toContain(how === 'no room' ? 'no room left' : 'nothing was saved')
        const after = await openTab(name).readAll()
        expect(after).toMatchObject({ facts: [before], nests: [], unread: [] })
        const again = await disk.append(draftsOfThree, [sampleNest])
        expect(again.map(({ seq }) => seq)).toEqual([2, 3, 4])
      }
      // Three facts, one nest, the head of the log, the count of writes.
      expect(broken).toBe(6)
    },
  )

  test('a fact that is there is never written over: a head that counts from the start again is refused', async () => {
    const name = freshName()
    const disk = openTab(name)
    const [first] = await disk.append([cut('A1')])
    await plant(name, 'meta', { device: 'device1', seq: 0, lamport: 0 }, 'log')
    await expect(disk.append([cut('A9')])).rejects.toThrow('nothing was saved')
    expect((await disk.readAll()).facts).toEqual([first])
  })

  test('with a damaged head the device becomes a new one', async () => {
    const name = freshName()
    await openTab(name).append([cut('A1')])
    await plant(name, 'meta', { device: 'device1', seq: 'one' }, 'log')
    const [next] = await openTab(name, { makeId: () => 'second' }).append([cut('A2')])
    expect(next?.id).toBe('second:1')
  })
})

describe('merge', () => {
  test('is a union: twice the same, and the lamport goes on above all that was seen', async () => {
    const disk = openTab(freshName())
    await disk.append([cut('A1')])
    await disk.merge(sampleFacts, [sampleNest])
    await disk.merge(sampleFacts, [sampleNest])
    const kept = await disk.readAll()
    expect(kept.facts).toHaveLength(1 + sampleFacts.length)
    expect(kept.facts).toEqual(expect.arrayContaining([...sampleFacts]))
    expect(kept.unread).toEqual([])
    const [next] = await disk.append([cut('A2')])
    expect(next).toMatchObject({
      seq: 2,
      lamport: 1 + Math.max(...sampleFacts.map(({ lamport }) => lamport)),
    })
  })

  test('facts of this very device (an older copy of the disk came back): the sequence goes on behind them', async () => {
    const disk = openTab(freshName(), { makeId: () => 'tablet' })
    await disk.merge(sampleFacts, [])
    const [next] = await disk.append([cut('A2')])
    expect(next?.seq).toBe(1 + Math.max(...sampleFacts.map(({ seq }) => seq)))
  })

  test('one id with two contents: the one that is here stays, the other is kept aside and told', async () => {
    const name = freshName()
    const disk = openTab(name)
    const fact = sampleFacts[0]!
    await disk.merge([fact], [])
    await disk.merge([{ ...fact, body: { ...(fact.body as object), count: 7 } }], [])
    const kept = await disk.readAll()
    expect(kept.facts).toEqual([fact])
    expect(kept.unread).toEqual([
      { store: 'facts', key: fact.id, why: 'another fact of this name is here already; both are kept' },
    ])
    expect((await dump(name)).strays).toHaveLength(1)
  })

  test('a lamport of 2^50 is taken, one more is refused as damage', async () => {
    const disk = openTab(freshName())
    const fact = sampleFacts[0]!
    await expect(disk.merge([{ ...fact, lamport: 2 ** 50 + 1 }], [])).rejects.toThrow(
      'counts to 1125899906842625',
    )
    expect((await disk.readAll()).facts).toEqual([])
    await disk.merge([{ ...fact, lamport: 2 ** 50 }], [])
    expect((await disk.append([cut('A1')]))[0]?.lamport).toBe(2 ** 50 + 1)
  })
})

describe('tabs', () => {
  test('the other tab is told once it is on disk, and only then', async () => {
    const name = freshName()
    const [one, two] = [openTab(name), openTab(name)]
    const told = new Promise<number>((resolve) => {
      two.onOther(() => void two.readAll().then(({ facts }) => resolve(facts.length)))
    })
    const own = vi.fn()
    one.onOther(own)
    const fault = breakWrite(0, 'throw')
    await expect(one.append([cut('A1')])).rejects.toThrow()
    fault.fixed()
    await one.append([cut('A1'), cut('A2')])
    expect(await told).toBe(2)
    expect(own).not.toHaveBeenCalled()
  })
})
