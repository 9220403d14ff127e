import { expect } from 'vitest'
import { readBackupFile } from '../../src/door/backup-file.ts'
import { bent, spoiled } from '../door/fuzz/nasty.ts'
import type { Dice } from '../prove/seed.ts'
import { dump, freshName } from '../storage/faulty.ts'
import { cutListJob, handShop, type Tablet, tabletOn } from './tablet.ts'

async function opened(name = freshName()): Promise<Tablet> {
  const tablet = tabletOn(name)
  await tablet.actions.open()
  return tablet
}

/** Texts of a job with two of three pieces cut: its file, the backup and the rescue file of its device. */
async function worked(): Promise<readonly string[]> {
  const tablet = await opened()
  await tablet.actions.saveShop(handShop)
  const id = await cutListJob(tablet, 3, 600)
  for (const at of [0, 1]) await tablet.actions.cut(id, tablet.view(id).cuts[at]!)
  await tablet.actions.undo(id)
  return [tablet.actions.fileOf(id), tablet.actions.backup(), await tablet.actions.rescue()]
}

/** What is seen: nothing of it may change by a file that is refused. */
const seen = ({ state }: Tablet) => {
  const { jobs, facts, rivals, shop, progress } = state()
  return { jobs, facts, rivals, shop, progress }
}

/**
 * Spoiled files opened one after the other on a device with work of its own: taken whole, so that all that is in them is
 * then here, or refused in words with disk and screen to the last field as they were. Counts those that were taken.
 */
export async function importRounds(roll: Dice, many: number): Promise<number> {
  const texts = await worked()
  const name = freshName()
  const tablet = await opened(name)
  const own = await cutListJob(tablet, 2, 444)
  let taken = 0
  for (let round = 0; round < many; round++) {
    const whole = roll.pick(texts)
    const text = roll() < 0.4 ? spoiled(whole, roll) : JSON.stringify(bent(JSON.parse(whole), roll))
    const before = [seen(tablet), await dump(name)]
    const read = readBackupFile(text)
    const { problems } = await tablet.actions.openBackup(text)
    if (problems.length > 0) {
      expect(problems.every(({ text: said }) => /[a-z]{2}/.test(said) && said.length < 1500)).toBe(true)
      expect([seen(tablet), await dump(name)], text.slice(0, 2000)).toEqual(before)
      continue
    }
    taken += 1
    if (!read.ok) throw new Error(`taken, though the door refuses it: ${text.slice(0, 2000)}`)
    const { jobs, rivals, facts } = tablet.state()
    const here = new Set([...jobs, ...rivals.map(({ body }) => body)].map(({ id }) => id))
    expect(read.value.jobs.filter(({ id }) => !here.has(id))).toEqual([])
    const ids = new Set(facts.map(({ id }) => id))
    expect(read.value.facts.filter(({ id }) => !ids.has(id))).toEqual([])
  }
  // The work that was here first can still be gone on with, and all of it is read from the disk again.
  await tablet.actions.cut(own, tablet.view(own).cuts[0]!)
  expect(tablet.state().trouble).toBeNull()
  const again = await opened(name)
  expect(new Set(again.state().jobs)).toEqual(new Set(tablet.state().jobs))
  expect(again.state().facts).toEqual(tablet.state().facts)
  return taken
}
