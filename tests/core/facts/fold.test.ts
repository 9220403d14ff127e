import { describe, expect, test } from 'vitest'
import { fold } from '../../../src/core/facts/fold.ts'
import type { Fact } from '../../../src/core/facts.ts'
import { blank, piece, tablet, tube } from './log.ts'

const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id)

describe('undo names what it undoes', () => {
  test('of three cuts the second is undone: two are made, and the third is the last', () => {
    const a = tablet('a')
    const [one, two, three] = [1, 2, 3].map(() => a.write('cut', blank('S1'), { nest: 'N' }))
    a.write('undo', { fact: two!.id })
    const progress = fold(a.log)
    expect(ids(progress.made)).toEqual([one!.id, three!.id])
    expect(progress.last).toEqual({ J1: three!.id })
  })

  test('an undo that is undone gives the cut back; a third takes it away again', () => {
    const a = tablet('a')
    const cut = a.write('cut', blank('S1'))
    const first = a.write('undo', { fact: cut.id })
    expect(fold(a.log).made).toEqual([])
    const second = a.write('undo', { fact: first.id })
    expect(ids(fold(a.log).made)).toEqual([cut.id])
    a.write('undo', { fact: second.id })
    expect(fold(a.log).made).toEqual([])
  })

  test('two undos of one cut: undoing one of them leaves it undone, undoing both gives it back', () => {
    const a = tablet('a')
    const cut = a.write('cut', blank('S1'))
    const [first, second] = [a.write('undo', { fact: cut.id }), a.write('undo', { fact: cut.id })]
    a.write('undo', { fact: first.id })
    expect(fold(a.log).made).toEqual([])
    a.write('undo', { fact: second.id })
    expect(ids(fold(a.log).made)).toEqual([cut.id])
  })

  test('an undo of a fact that is in no log here does nothing, until that fact comes', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const cut = a.write('cut', blank('S1'))
    b.see(cut)
    b.write('undo', { fact: cut.id })
    expect(fold(b.log).made).toEqual([])
    expect(fold([...b.log, ...a.log]).made).toEqual([])
    expect(fold(a.log).made).toHaveLength(1)
  })

  test('undos in a ring of one, two and three do not count and do not hang; the cut beside them stays', () => {
    for (const size of [1, 2, 3]) {
      const a = tablet('a')
      const cut = a.write('cut', blank('S1'))
      // a:2 … names the next, the last names a:2; a:2 would also have undone the cut in an honest log.
      for (let at = 0; at < size; at++) a.write('undo', { fact: `a:${2 + ((at + 1) % size)}` })
      expect(ids(fold(a.log).made)).toEqual([cut.id])
    }
  })

  test('a chain of 20,000 undos of undos', () => {
    const a = tablet('a')
    const cut = a.write('cut', blank('S1'))
    let target = cut.id
    for (let at = 0; at < 20_000; at++) target = a.write('undo', { fact: target }).id
    expect(ids(fold(a.log).made)).toEqual([cut.id])
    a.write('undo', { fact: target })
    expect(fold(a.log).made).toEqual([])
  })
})

describe('a piece is named by the fact that cut it', () => {
  test('blank, half, piece: the first two are used, all come from stick S3', () => {
    const a = tablet('a')
    const first = a.write('cut', blank('S3'), { nest: 'N' })
    const half = a.write('cut', { ...piece(first.id), stage: 'half' }, { nest: 'N' })
    const last = a.write('cut', piece(half.id), { nest: 'N' })
    expect(fold(a.log).made.map(({ id, used, stick }) => [id, used, stick])).toEqual([
      [first.id, true, 'S3'],
      [half.id, true, 'S3'],
      [last.id, false, 'S3'],
    ])
  })

  test('two tablets cut the same slot: two pieces', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    a.write('cut', blank('S1'), { nest: 'N' })
    b.write('cut', blank('S1'), { nest: 'N' })
    expect(ids(fold([...a.log, ...b.log]).made)).toEqual(['a:1', 'b:1'])
  })

  test('the blank is undone on one tablet while its piece is cut on the other: the steel stays, as an orphan', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const first = a.write('cut', blank('S1'), { nest: 'N' })
    b.see(first)
    const last = b.write('cut', piece(first.id), { nest: 'N' })
    const undo = a.write('undo', { fact: first.id })
    const made = fold([...a.log, ...b.log]).made
    expect(made).toHaveLength(1)
    expect(made[0]).toMatchObject({ id: last.id, orphan: true, stick: 'S1', used: false })
    a.see(...b.log)
    a.write('undo', { fact: undo.id })
    expect(fold([...a.log, ...b.log]).made.map((one) => [one.id, one.used, one.orphan])).toEqual([
      [first.id, true, undefined],
      [last.id, false, undefined],
    ])
  })

  test('a piece whose blank is in no log here is an orphan of no known stick', () => {
    const a = tablet('a')
    a.write('cut', piece('z:9'))
    expect(fold(a.log).made[0]).toMatchObject({ id: 'a:1', orphan: true })
    expect(fold(a.log).made[0]).not.toHaveProperty('stick')
  })

  test('cuts that name each other as parent do not hang', () => {
    const a = tablet('a')
    a.write('cut', piece('a:2'))
    a.write('cut', piece('a:1'))
    expect(fold(a.log).made).toHaveLength(2)
  })
})

describe('single-valued facts', () => {
  test('accepted: lamport 7 wins over 5, at equal lamport the greater device; the losers are told', () => {
    const accepted = (device: string, lamport: number, nest: string): Fact => ({
      ...tablet(device).write('accepted', { nest }),
      id: `${device}:${lamport}`,
      seq: lamport,
      lamport,
    })
    const facts = [accepted('a', 5, 'N1'), accepted('a', 7, 'N2'), accepted('b', 7, 'N3')]
    for (const log of [facts, facts.toReversed()]) {
      const progress = fold(log)
      expect(progress.accepted).toEqual({ J1: 'N3' })
      expect(progress.losers).toEqual([
        { fact: 'a:5', winner: 'b:7' },
        { fact: 'a:7', winner: 'b:7' },
      ])
    }
  })

  test('a clock that is two years ahead wins nothing', () => {
    const a = tablet('a')
    const found = a.write('found', { section: tube, length: 3000, ends: ['cut', 'cut'] })
    a.write('corrected', { rack: found.id, length: 2990 }, { at: '2032-01-01T00:00:00.000Z' })
    a.write('corrected', { rack: found.id, length: 2980 }, { at: '2030-01-01T00:00:00.000Z' })
    expect(fold(a.log).rack.map(({ length }) => length)).toEqual([2980])
  })

  test('accepted for two jobs: one value each', () => {
    const a = tablet('a')
    a.write('accepted', { nest: 'N1' })
    a.write('accepted', { nest: 'N1' }, { job: 'J2' })
    a.write('accepted', { nest: 'N2' }, { job: 'J2' })
    expect(fold(a.log).accepted).toEqual({ J1: 'N1', J2: 'N2' })
  })
})

describe('what was measured on the bench', () => {
  test('a side measured 404 and then 403.5 is 403.5; undone, it is 404 again; each copy has its own', () => {
    const a = tablet('a')
    const of = 'length:top/side-1'
    a.write('gauged', { of, value: 404 }, { copy: 1 })
    const again = a.write('gauged', { of, value: 403.5 }, { copy: 1 })
    a.write('gauged', { of, value: 405 }, { copy: 2 })
    const { gauged, losers } = fold(a.log)
    expect([gauged[`J1/1/${of}`]?.value, gauged[`J1/2/${of}`]?.value]).toEqual([403.5, 405])
    expect(losers).toEqual([])
    a.write('undo', { fact: again.id })
    expect(fold(a.log).gauged[`J1/1/${of}`]?.value).toBe(404)
  })

  test('two tablets that measured the same side: the greater (lamport, device) wins, the other is told', () => {
    const one = tablet('a').write('gauged', { of: 'length:x', value: 1 })
    const two = tablet('b').write('gauged', { of: 'length:x', value: 2 })
    for (const log of [
      [one, two],
      [two, one, one],
    ]) {
      const { gauged, losers } = fold(log)
      expect(gauged['J1/1/length:x']).toEqual({ value: 2, fact: 'b:1' })
      expect(losers).toEqual([{ fact: 'a:1', winner: 'b:1' }])
    }
  })

  test('a figure that is no number has no effect and is kept as unknown', () => {
    const bad = tablet('a').write('gauged', { of: 'length:x', value: Number.NaN })
    expect([fold([bad]).gauged, fold([bad]).unknown.length]).toEqual([{}, 1])
  })
})

describe('the rack follows from facts', () => {
  test('three of 6000 bought, the second opened: two are left, and S1 is known to be the second', () => {
    const a = tablet('a')
    const bought = a.write('bought', { section: tube, length: 6000, count: 3, price: 4200 })
    a.write('opened', { stick: 'S1', rack: `${bought.id}/2` }, { nest: 'N' })
    const progress = fold(a.log)
    expect(ids(progress.rack)).toEqual([`${bought.id}/1`, `${bought.id}/3`])
    expect(progress.rack[0]).toMatchObject({
      length: 6000,
      ends: ['mill', 'mill'],
      from: 'bought',
      price: 4200,
    })
    expect(progress.opened).toEqual({ 'N/S1': `${bought.id}/2` })
  })

  test('one bought has the id of its fact, with no /1', () => {
    const a = tablet('a')
    a.write('bought', { section: tube, length: 6000, count: 1 })
    expect(ids(fold(a.log).rack)).toEqual(['a:1'])
  })

  test('a stick bought for the nest is opened as null; undoing that leaves nothing opened', () => {
    const a = tablet('a')
    const opened = a.write('opened', { stick: 'S1' }, { nest: 'N' })
    expect(fold(a.log).opened).toEqual({ 'N/S1': null })
    a.write('undo', { fact: opened.id })
    expect(fold(a.log).opened).toEqual({})
  })

  test('a drop of 812 mm is kept, corrected to 810 and discarded', () => {
    const a = tablet('a')
    const kept = a.write(
      'kept',
      { section: tube, stick: 'S1', length: 812, ends: ['cut', 'mill'] },
      { nest: 'N' },
    )
    expect(fold(a.log).rack).toEqual([
      { id: kept.id, section: tube, length: 812, ends: ['cut', 'mill'], from: 'drop' },
    ])
    a.write('corrected', { rack: kept.id, length: 810 })
    expect(fold(a.log).rack[0]?.length).toBe(810)
    const discarded = a.write('discarded', { rack: kept.id })
    expect(fold(a.log).rack).toEqual([])
    a.write('undo', { fact: discarded.id })
    expect(fold(a.log).rack[0]?.length).toBe(810)
    expect(fold(a.log).kept).toEqual(['N/S1'])
  })

  test('two tablets keep the same drop: one piece of steel, and opening either name takes it off the rack', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const drop = { section: tube, stick: 'S1', length: 800, ends: ['cut', 'mill'] } as const
    const one = a.write('kept', drop, { nest: 'N' })
    const two = b.write('kept', { ...drop, length: 801 }, { nest: 'N' })
    const both = [...a.log, ...b.log]
    expect(fold(both).rack.map(({ id, length }) => [id, length])).toEqual([[two.id, 801]])
    expect(fold(both).losers).toEqual([{ fact: one.id, winner: two.id }])
    a.see(...b.log)
    const corrected = a.write('corrected', { rack: one.id, length: 799 })
    expect(fold([...both, corrected]).rack.map(({ length }) => length)).toEqual([799])
    const opened = a.write('opened', { stick: 'S2', rack: one.id }, { nest: 'N2' })
    expect(fold([...both, opened]).rack).toEqual([])
  })

  test('one rack piece opened for two sticks: the later is told that the first took it', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const found = a.write('found', { section: tube, length: 2000, ends: ['cut', 'cut'] })
    b.see(found)
    const first = a.write('opened', { stick: 'S1', rack: found.id }, { nest: 'N1' })
    const second = b.write('opened', { stick: 'S4', rack: found.id }, { nest: 'N2' })
    expect(fold([...a.log, ...b.log]).losers).toEqual([{ fact: second.id, winner: first.id }])
  })
})

describe('rests of sheet', () => {
  test('found 762 × 508, corrected by two tablets: the greater (lamport, device) wins; discarded, and that undone', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const found = a.write('sheetFound', { thickness: 1.519, length: 762, width: 508 })
    b.see(found)
    const one = a.write('sheetCorrected', { sheet: found.id, length: 760, width: 500 })
    const two = b.write('sheetCorrected', { sheet: found.id, length: 490, width: 755 })
    const log = [...b.log, one, two, found]
    expect(fold(log).sheets).toEqual([{ id: found.id, thickness: 1.519, length: 755, width: 490 }])
    expect(fold(log.toReversed()).sheets).toEqual(fold(log).sheets)
    expect(fold(log).losers).toEqual([{ fact: one.id, winner: two.id }])
    b.see(one)
    const gone = b.write('sheetDiscarded', { sheet: found.id })
    expect(fold([...log, gone]).sheets).toEqual([])
    expect(fold([...log, gone, b.write('undo', { fact: gone.id })]).sheets).toHaveLength(1)
  })
})

describe('what this program cannot read is kept and has no effect', () => {
  test.each<[string, Partial<Fact>]>([
    ['a kind of a newer version', { kind: 'bent', body: { angle: 30 } }],
    ['version 2 of a cut', { v: 2 }],
    ['version 0', { v: 0 }],
    ['version 1.5', { v: 1.5 }],
    ['a kind named as a method of every object', { kind: 'constructor' }],
    ['a body that is no object', { body: null }],
    ['a cut from nowhere', { body: { ...blank('S1'), from: {} } }],
    ['a length that is no number', { kind: 'corrected', body: { rack: 'a:1', length: Number.NaN } }],
    ['a count of 2.5', { kind: 'bought', body: { section: tube, length: 6000, count: 2.5 } }],
  ])('%s', (_what, change) => {
    const a = tablet('a')
    const strange = { ...a.write('cut', blank('S1')), ...change }
    const progress = fold([strange])
    expect(progress.unknown).toEqual([strange])
    expect(progress).toMatchObject({ made: [], rack: [], last: {} })
  })
})

test('steps are ticked per copy, and an undone tick is open again', () => {
  const a = tablet('a')
  const one = a.write('tacked', { step: 'top/corner-1/outside' }, { copy: 1 })
  const two = a.write('checked', { step: 'top/square' }, { copy: 2 })
  expect(fold(a.log).ticked).toEqual({
    'J1/1/top/corner-1/outside': one.id,
    'J1/2/top/square': two.id,
  })
  a.write('undo', { fact: one.id })
  expect(Object.keys(fold(a.log).ticked)).toEqual(['J1/2/top/square'])
})

test('accepting a nest and opening a stick are not what Undo names', () => {
  const a = tablet('a')
  a.write('accepted', { nest: 'N' })
  a.write('opened', { stick: 'S1' }, { nest: 'N' })
  expect(fold(a.log).last).toEqual({})
  const cut = a.write('cut', blank('S1'), { nest: 'N' })
  const undo = a.write('undo', { fact: cut.id })
  expect(fold(a.log).last).toEqual({})
  a.write('undo', { fact: undo.id })
  expect(fold(a.log).last).toEqual({ J1: cut.id })
})
