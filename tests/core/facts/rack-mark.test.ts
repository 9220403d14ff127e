import { expect, test } from 'vitest'
import { dropSign, rackMarks } from '../../../src/core/facts/rack-mark.ts'

const rack = (count: number) => Array.from({ length: count }, (_, at) => ({ id: `tablet-a:${at}` }))

test('a piece is marked with three signs, none of them 0 O 1 I 2 Z 5 S 8 B', () => {
  for (const mark of rackMarks(rack(40)).values()) expect(mark).toMatch(/^[ACDEFGHJKLMNPRTWXY34679]{3,4}$/)
})

test('of 2000 pieces no two are marked alike, and a mark only ever grows at its end', () => {
  const many = rackMarks(rack(2000))
  expect(new Set(many.values()).size).toBe(2000)
  const few = rackMarks(rack(1))
  for (const [id, mark] of few) expect(many.get(id)!.startsWith(mark)).toBe(true)
  // 23³ = 12167 marks of three signs: of 2000 pieces some must have got a fourth.
  expect([...many.values()].some((mark) => mark.length > 3)).toBe(true)
})

test('the mark follows from the id alone: another order, or other steel beside it, changes nothing', () => {
  const alone = rackMarks([{ id: 'tablet-b:7/2' }]).get('tablet-b:7/2')
  const among = rackMarks([...rack(5), { id: 'tablet-b:7/2' }].reverse()).get('tablet-b:7/2')
  expect(among).toBe(alone)
})

test('a drop with a sign of its own is marked by that, whatever its id; one without by its id, as ever', () => {
  const sign = dropSign('nest-1', 'S2')
  const marks = rackMarks([
    { id: 'tablet-a:7', sign },
    { id: 'tablet-b:9', sign: dropSign('nest-1', 'S3') },
    { id: 'tablet-a:1' },
  ])
  expect(marks.get('tablet-a:7')).toBe(sign.slice(0, 3))
  expect(marks.get('tablet-b:9')).not.toBe(marks.get('tablet-a:7'))
  expect(marks.get('tablet-a:1')).toBe(rackMarks([{ id: 'tablet-a:1' }]).get('tablet-a:1'))
})
