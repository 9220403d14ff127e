import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fold } from '../../../src/core/facts/fold.ts'
import { sameFact, union } from '../../../src/core/facts/order.ts'
import type { Fact } from '../../../src/core/facts.ts'
import { dice } from '../../prove/seed.ts'
import { blank, tablet } from './log.ts'
import { randomLog, shuffled } from './random-log.ts'

const logs = fc.nat().map((start) => {
  const roll = dice('merge', start)
  return { facts: randomLog(roll, 40), roll }
})

test('any order, doubled, with wrong clocks: the same progress', () => {
  fc.assert(
    fc.property(logs, ({ facts, roll }) => {
      const once = fold(facts)
      expect(fold(shuffled(roll, facts))).toEqual(once)
      expect(fold(shuffled(roll, [...facts, ...facts.slice(0, 20)]))).toEqual(once)
      const wrongClock = (fact: Fact): Fact => ({
        ...fact,
        at: `19${roll.whole(10, 99)}-01-01T00:00:00.000Z`,
      })
      const wrong = fold(facts.map(wrongClock))
      // Clocks show only in the facts that are passed on as they are.
      expect({ ...wrong, unknown: wrong.unknown.map(({ id }) => id) }).toEqual({
        ...once,
        unknown: once.unknown.map(({ id }) => id),
      })
    }),
  )
})

test('merging in two halves, either way round, is merging at once', () => {
  fc.assert(
    fc.property(logs, ({ facts, roll }) => {
      const left = facts.filter(() => roll() < 0.6)
      const right = facts.filter((fact) => !left.includes(fact) || roll() < 0.5)
      expect(union(left, right)).toEqual(union(right, left))
      expect(fold(union(left, right))).toEqual(fold(facts))
    }),
  )
})

test('undoing everything, then undoing those undos, gives the same steel back', () => {
  fc.assert(
    fc.property(logs, ({ facts }) => {
      const later = tablet('zz')
      later.see(...facts)
      const undos = facts.map((fact) => later.write('undo', { fact: fact.id }))
      expect(fold([...facts, ...undos]).made).toEqual([])
      const redone = fold([
        ...facts,
        ...undos,
        ...undos.map((undo) => later.write('undo', { fact: undo.id })),
      ])
      // None of the later undos counts any more, so the log stands as it stood.
      const { unknown: _unknown, ...before } = fold(facts)
      expect(redone).toMatchObject(before)
    }),
  )
})

test('the fold gives an answer for whatever body a fact has', () => {
  const kinds = [
    'cut',
    'undo',
    'accepted',
    'bought',
    'found',
    'opened',
    'kept',
    'discarded',
    'corrected',
    'tacked',
    'gauged',
    'scrapped',
    'loaded',
    'miscut',
    'measured',
    'stopMoved',
    'bladeChanged',
    'cutApart',
  ]
  const fact = fc.record({
    id: fc.constantFrom('a:1', 'a:2', 'b:1', '__proto__'),
    v: fc.integer({ min: -1, max: 2 }),
    kind: fc.oneof(fc.constantFrom(...kinds), fc.string()),
    device: fc.constantFrom('a', 'b'),
    seq: fc.nat(5),
    lamport: fc.nat(5),
    at: fc.string(),
    job: fc.option(fc.constantFrom('J', '__proto__'), { nil: undefined }),
    body: fc.oneof(
      fc.jsonValue(),
      fc.record({ fact: fc.constantFrom('a:1', 'a:2', 'b:1'), stick: fc.string(), rack: fc.constant('a:1') }),
    ),
  })
  fc.assert(
    fc.property(fc.array(fact, { maxLength: 12 }), (facts) => {
      const progress = fold(facts as Fact[])
      expect(fold(facts.toReversed() as Fact[])).toEqual(progress)
    }),
  )
})

test('one id with two contents (a copied device): the same one is taken whatever comes first', () => {
  const fact = tablet('a').write('cut', blank('S1'))
  const other = { ...fact, body: blank('S2') }
  expect(union([fact], [other])).toEqual(union([other], [fact]))
  expect(union([fact], [other])).toHaveLength(1)
  expect(sameFact(fact, other)).toBe(false)
  expect(sameFact(fact, { ...Object.fromEntries(Object.entries(fact).reverse()) } as unknown as Fact)).toBe(
    true,
  )
})
