import { expect, test } from 'vitest'
import { dice } from '../prove/seed.ts'
import { carriedRound, fileRound, jobRound, logRound, typedRound } from './fuzz/rounds.ts'

// A short run of tests/prove/fuzz.test.ts, the same each time: `npm run fuzz` throws anew and far longer.

test('300 spoiled job files: a document or words, within a second each, and nothing reached that is not theirs', async () => {
  const roll = dice('jobs', 1)
  let taken = 0
  for (let round = 0; round < 300; round++) taken += (await jobRound(roll, round % 3 === 0)) ? 1 : 0
  // Were all refused, nothing behind the door was tried.
  expect(taken).toBeGreaterThan(15)
  expect(taken).toBeLessThan(285)
})

test('80 spoiled logs: what is taken of them folds, the same in every order and doubled', async () => {
  const roll = dice('logs', 1)
  let taken = 0
  for (let round = 0; round < 80; round++) taken += await logRound(roll)
  expect(taken).toBeGreaterThan(80)
})

test('200 spoiled backups, rescue files, shops and nest problems', async () => {
  const roll = dice('files', 1)
  for (let round = 0; round < 200; round++) await fileRound(roll)
})

test('100 spoiled links and rows of codes', async () => {
  const roll = dice('carried', 1)
  for (let round = 0; round < 100; round++) await carriedRound(roll)
})

test('500 spoiled lists and typed lengths, angles, counts and sections', async () => {
  const roll = dice('typed', 1)
  for (let round = 0; round < 500; round++) await typedRound(roll)
})
