import { expect, test } from 'vitest'
import { importRounds } from '../app/imports.ts'
import { carriedRound, fileRound, jobRound, logRound, typedRound } from '../door/fuzz/rounds.ts'
import { closeTabs } from '../storage/faulty.ts'
import { dice, seed } from './seed.ts'

// `npm run fuzz`: ten thousand spoiled things at every door of the program.

test(`2000 spoiled job files, every tenth planned when taken (seed ${seed})`, async () => {
  const roll = dice('fuzz jobs')
  let taken = 0
  for (let round = 0; round < 2000; round++) taken += (await jobRound(roll, round % 10 === 0)) ? 1 : 0
  console.log(`fuzz, seed ${seed}: ${taken} of 2000 job files taken`)
  expect(taken).toBeGreaterThan(100)
})

test(`1000 spoiled logs, folded in every order (seed ${seed})`, async () => {
  const roll = dice('fuzz logs')
  let taken = 0
  for (let round = 0; round < 1000; round++) taken += await logRound(roll)
  console.log(`fuzz, seed ${seed}: ${taken} facts of 1000 logs taken`)
  expect(taken).toBeGreaterThan(1000)
})

test(`300 spoiled files opened on a device at work: whole or not at all (seed ${seed})`, async () => {
  const taken = await importRounds(dice('fuzz imports'), 300)
  await closeTabs()
  console.log(`fuzz, seed ${seed}: ${taken} of 300 files opened`)
  expect(taken).toBeGreaterThan(10)
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
