import { describe, expect, test } from 'vitest'
import { fold } from '../../../src/core/facts/fold.ts'
import { known } from '../../../src/core/facts/known.ts'
import type { Fact } from '../../../src/core/facts.ts'
import { blank, piece, spoilt, tablet, tube } from './log.ts'

const N = { nest: 'N' }
const marks = (log: readonly Fact[]) => {
  const { made, spoiled } = fold(log)
  return { made: made.map(({ id }) => id), spoiled: spoiled.map(({ id, stick }) => [id, stick]) }
}

describe('a miscut', () => {
  test('on the stick, never checked off: nothing is made, 580 of the 600 that it took lie on the rack', () => {
    const a = tablet('a')
    a.write('opened', { stick: 'S1' }, N)
    const wrong = a.write('miscut', spoilt(blank('S1'), 580), N)
    const { made, spoiled, rack, last } = fold(a.log)
    expect(made).toEqual([])
    expect(spoiled).toMatchObject([{ id: wrong.id, stick: 'S1', nest: 'N', took: 600, left: 580 }])
    expect(rack).toEqual([{ id: wrong.id, section: tube, length: 580, ends: ['cut', 'cut'], from: 'drop' }])
    expect(last).toEqual({ J1: wrong.id })
  })

  test('of a blank that was checked off: the blank is made no more, and stands as spoiled where it stood', () => {
    const a = tablet('a')
    const cut = a.write('cut', blank('S2'), N)
    const wrong = a.write('miscut', spoilt({ ...blank(''), from: { piece: cut.id } }, 0), N)
    expect(marks(a.log)).toEqual({ made: [], spoiled: [[wrong.id, 'S2']] })
    expect(fold(a.log).rack).toEqual([])
    expect(fold(a.log).spoiled[0]?.from).toEqual({ stick: 'S2' })
    a.write('undo', { fact: wrong.id })
    expect(marks(a.log)).toEqual({ made: [cut.id], spoiled: [] })
  })

  test('of the miter on a blank: the blank was made and is used up', () => {
    const a = tablet('a')
    const cut = a.write('cut', blank('S1'), N)
    const wrong = a.write('miscut', spoilt(piece(cut.id), 500, 0), N)
    expect(fold(a.log).made).toMatchObject([{ id: cut.id, used: true }])
    expect(fold(a.log).spoiled).toMatchObject([{ id: wrong.id, from: { piece: cut.id }, stick: 'S1' }])
  })

  test('said of one piece by two tablets is one, with one piece of steel left; the greater stands', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const cut = a.write('cut', blank('S1'), N)
    b.see(cut)
    const of = { ...blank(''), from: { piece: cut.id } }
    const one = a.write('miscut', spoilt(of, 570), N)
    const two = b.write('miscut', spoilt(of, 575), N)
    const both = fold([...a.log, ...b.log])
    expect(both.spoiled.map(({ id }) => id)).toEqual([two.id])
    expect(both.rack.map(({ id, length }) => [id, length])).toEqual([[two.id, 575]])
    expect(both.losers).toEqual([{ fact: one.id, winner: two.id }])
    // What was said of the steel under the other name is said of it.
    const gone = a.write('discarded', { rack: one.id })
    expect(fold([...a.log, ...b.log, gone]).rack).toEqual([])
  })

  test('of steel that is in no log is spoiled all the same, from no stick that is known', () => {
    const a = tablet('a')
    a.write('miscut', spoilt(piece('x:9'), 0), N)
    expect(marks(a.log)).toEqual({ made: [], spoiled: [['a:1', undefined]] })
  })
})

describe('what is true of one stick, one piece, one saw', () => {
  test('a stick is as long as was said last; the rest of it is scrap until that is undone', () => {
    const [a, b] = [tablet('a'), tablet('b')]
    const first = a.write('loaded', { stick: 'S1', length: 6096, ends: ['mill', 'mill'] }, N)
    b.see(first)
    const second = b.write('loaded', { stick: 'S1', length: 6110, ends: ['mill', 'cut'] }, N)
    const scrapped = b.write('scrapped', { stick: 'S1' }, N)
    const log = [...a.log, ...b.log]
    expect(fold(log).loaded).toEqual({ 'N/S1': { length: 6110, ends: ['mill', 'cut'] } })
    expect(fold(log).losers).toEqual([{ fact: first.id, winner: second.id }])
    expect(fold(log).scrapped).toEqual(['N/S1'])
    const undo = b.write('undo', { fact: scrapped.id })
    expect(fold([...log, undo]).scrapped).toEqual([])
  })

  test('a piece is measured once for each thing that is measured on it', () => {
    const a = tablet('a')
    a.write('measured', { piece: 'a:9', what: 'long point', got: 404.9, wanted: 404 })
    a.write('measured', { piece: 'a:9', what: 'long point', got: 404.8, wanted: 404 })
    a.write('measured', { piece: 'a:9', what: 'short point', got: 357 })
    expect(fold(a.log).measured).toEqual({
      'a:9/long point': { got: 404.8, wanted: 404 },
      'a:9/short point': { got: 357 },
    })
  })

  test('the newest correction of a stop and the newest blade stand, and those before did not lose', () => {
    const a = tablet('a')
    a.write('stopMoved', { setUp: 'A/blank/1', by: -0.8 }, N)
    const stop = a.write('stopMoved', { setUp: 'A/blank/1', by: -0.5 }, N)
    a.write('bladeChanged', { saw: 'saw-1', blade: 'coarse', kerf: 3.2 })
    a.write('bladeChanged', { saw: 'saw-1', blade: 'fine', kerf: 2 })
    const { stops, blades, losers } = fold(a.log)
    expect(stops).toEqual({ 'N/A/blank/1': { fact: stop.id, by: -0.5 } })
    expect(blades).toEqual({ 'saw-1': { blade: 'fine', kerf: 2 } })
    expect(losers).toEqual([])
  })

  test('a copy that was cut apart has no tick from before, its next ticks count, the other copy keeps its own', () => {
    const a = tablet('a')
    a.write('tacked', { step: 'one' }, { copy: 1 })
    const other = a.write('tacked', { step: 'one' }, { copy: 2 })
    const apart = a.write('cutApart', { why: 'out of square' }, { copy: 1 })
    expect(fold(a.log).ticked).toEqual({ 'J1/2/one': other.id })
    const again = a.write('tacked', { step: 'one' }, { copy: 1 })
    expect(fold(a.log).ticked).toEqual({ 'J1/1/one': again.id, 'J1/2/one': other.id })
    a.write('undo', { fact: apart.id })
    expect(Object.keys(fold(a.log).ticked)).toEqual(['J1/1/one', 'J1/2/one'])
  })
})

test.each<[string, Partial<Fact>]>([
  ['a miscut with less than nothing left', { kind: 'miscut', body: spoilt(blank('S1'), -1) }],
  ['a miscut that was nothing', { kind: 'miscut', body: { from: { stick: 'S1' } } }],
  ['a stick of no length', { kind: 'loaded', body: { stick: 'S1', length: 0, ends: ['cut', 'cut'] } }],
  ['a correction that is no number', { kind: 'stopMoved', body: { setUp: 'A', by: Number.NaN } }],
  ['a blade with a kerf below 0', { kind: 'bladeChanged', body: { saw: 's', blade: 'b', kerf: -1 } }],
  ['a measure of nothing', { kind: 'measured', body: { piece: 'a:1', what: 'long point', got: 0 } }],
])('%s is kept unread', (_what, change) => {
  const strange = { ...tablet('a').write('cut', blank('S1')), ...change }
  expect(known(strange)).toBeUndefined()
  expect(fold([strange])).toMatchObject({ unknown: [strange], made: [], spoiled: [], rack: [] })
})
