import { expect, test } from 'vitest'
import type { WeldSetting } from '../../../src/core/shop.ts'
import { nearestSetting, startingRange } from '../../../src/core/weld/settings-book.ts'

const record = (wall: number, joint: string, change: Partial<WeldSetting> = {}): WeldSetting => ({
  process: 'wire, short-circuit',
  wall,
  joint,
  wire: '.030',
  gas: '75/25',
  volts: 18,
  wireSpeed: 180,
  result: 'good',
  ...change,
})

// Common practice: 16 gauge, short-circuit, .030 wire, about 18 V and 180 in/min.
test('16 gauge, .030 wire: 18 V and 180 in/min lie inside the ranges shown', () => {
  const range = startingRange(1.52)!
  expect(range.name).toBe('16 ga')
  expect(range.volts[0] <= 18 && 18 <= range.volts[1]).toBe(true)
  expect(range.thin![0] <= 180 && 180 <= range.thin![1]).toBe(true)
})

test('a 3 mm wall begins at 1/8 in; 20 mm is in no row', () => {
  expect(startingRange(3)!.name).toBe('1/8 in')
  expect(startingRange(20)).toBeUndefined()
})

test('the nearest record: same joint before a nearer wall, a bad one last, the newest of equals', () => {
  const book = [record(1.5, 'fillet'), record(1.6, 'outside'), record(3, 'fillet')]
  expect(nearestSetting(book, 1.6, 'fillet')).toBe(book[0])
  expect(nearestSetting([...book, record(1.6, 'fillet', { result: 'bad' })], 1.6, 'fillet')).toBe(book[0])
  const newer = record(1.5, 'fillet', { volts: 17 })
  expect(nearestSetting([...book, newer], 1.6, 'fillet')).toBe(newer)
  expect(nearestSetting([], 1.6, 'fillet')).toBeUndefined()
})
