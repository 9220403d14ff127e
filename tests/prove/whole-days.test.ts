import { afterEach, expect, test } from 'vitest'
import type { CuttingWay } from '../../src/core/nest.ts'
import { type Day, wholeDay } from '../app/whole-day.ts'
import { closeTabs } from '../storage/faulty.ts'
import { dice, seed } from './seed.ts'

afterEach(closeTabs)

const days = 60
const ways: readonly CuttingWay[] = ['square first', 'from the stick', 'paired']
const deeds = 50

test(`${days} days of ${deeds} deeds: needed = cut + open + missing, and what is planned on is the steel that is left (seed ${seed})`, async () => {
  const all: Day[] = []
  for (let day = 0; day < days; day++) {
    const roll = dice(`whole day ${day}`)
    await wholeDay(roll, deeds, ways[day % ways.length])
      .then((one) => all.push(one))
      .catch((fault: Error) => {
        fault.message = `day ${day}, ${ways[day % ways.length]}, seed ${seed}: ${fault.message}`
        throw fault
      })
    await closeTabs()
  }
  const sum = (of: (day: Day) => number) => all.reduce((total, day) => total + of(day), 0)
  process.stdout.write(
    `whole days: ${days}, ${sum(({ cuts }) => cuts)} cuts, ${sum(({ spoiled }) => spoiled)} miscuts, ${sum(({ plans }) => plans)} plans of the rest on ${sum(({ remains }) => remains)} remains and ${sum(({ recut }) => recut)} spares, ${sum(({ tacked }) => tacked)} welded, ${sum(({ apart }) => apart)} cut apart, seed ${seed}\n`,
  )
  expect(sum(({ remains }) => remains)).toBeGreaterThan(days)
  expect(sum(({ tacked }) => tacked)).toBeGreaterThan(0)
})
