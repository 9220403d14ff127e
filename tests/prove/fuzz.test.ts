import { expect, test } from 'vitest'
import { carriedRound, fileRound, jobRound, typedRound } from '../door/fuzz/rounds.ts'
import { dice, seed } from './seed.ts'

// `npm run fuzz`: ten thousand spoiled things at every door of the program.

test(`2000 spoiled job files, every tenth planned when taken (seed ${seed})`, async () => {
  const roll = dice('fuzz jobs')
  let taken = 0
  for (let round = 0; round < 2000; round++) taken += (await jobRound(roll, round % 10 === 0)) ? 1 : 0
  console.log(`fuzz, seed ${seed}: ${taken} of 2000 job files taken`)
  expect(taken).toBeGreaterThan(100)
})

test(`1500 spoiled backups, rescue files, shops and nest problems (seed ${seed})`, async () => {
  const roll = dice('fuzz files')
  for (let round = 0; round < 1500; round++) await fileRound(roll)
})

test(`500 spoiled links and rows of codes (seed ${seed})`, async () => {
  const roll = dice('fuzz carried')
  for (let round = 0; round < 500; round++) await carriedRound(roll)
})

test(`6000 spoiled lists, lengths, angles, counts and sections (seed ${seed})`, async () => {
  const roll = dice('fuzz typed')
  for (let round = 0; round < 6000; round++) await typedRound(roll)
})
