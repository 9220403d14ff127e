import { revisionName } from '../core/revision.ts'
import type { Shop } from '../core/shop.ts'
import { type BackupFile, readBackupFile, writeBackupFile } from '../door/backup-file.ts'
import { attempt, type Desk, Refusal } from './desk.ts'
import type { BackupMark } from './ports.ts'
import { reminderOf } from './remind.ts'
import type { Actions } from './state.ts'

export function backupActions(
  desk: Desk,
): Pick<Actions, 'backup' | 'backedUp' | 'reminder' | 'rescue' | 'askToKeep'> {
  return {
    backup: () => writeBackupFile(backupOf(desk)),
    backedUp: (text) =>
      attempt(desk, undefined, async () => {
        const read = readBackupFile(text)
        if (!read.ok) throw new Refusal(`${noBackup} ${read.problems[0]!.text}`)
        await mark(desk, true)
      }),
    reminder: () =>
      reminderOf({ ...desk.store.getState(), documents: documentsOf(desk) }, desk.ports.clock.now()),
    rescue: () => desk.ports.disk.rescue(),
    askToKeep: async () => {
      const { disk } = desk.ports
      await disk.persist(true).catch(() => false)
      desk.store.setState({ room: await disk.room() })
    },
  }
}

const noBackup =
  'The file that was saved cannot be opened again, so it is no backup. Save each job to a file of its own as well, with “Save a file” in Jobs.'

/** All that is kept here, also both versions of a job or the shop between which nobody has chosen yet. */
function backupOf(desk: Desk): BackupFile {
  const { facts, rivals } = desk.store.getState()
  const jobs = [...desk.jobs.values()].map(({ body }) => body)
  const otherShops: Shop[] = []
  for (const { body } of rivals)
    if ('build' in body) jobs.push(body)
    else otherShops.push(body)
  const shop = desk.shop?.body
  return {
    ...(shop && { shop }),
    ...(otherShops.length > 0 && { otherShops }),
    jobs,
    nests: [...desk.nests.values()],
    facts,
  }
}

/** Where every document of this device stands now. */
const documentsOf = (desk: Desk): readonly string[] =>
  [...desk.jobs.values(), ...(desk.shop ? [desk.shop] : [])].map((one) => `${one.id} ${revisionName(one)}`)

async function mark(desk: Desk, saved: boolean): Promise<void> {
  const { facts } = desk.store.getState()
  const backup: BackupMark = {
    at: desk.ports.clock.now(),
    saved,
    facts: facts.length,
    documents: documentsOf(desk),
  }
  await desk.ports.disk.markBackup(backup)
  desk.store.setState({ backup })
}

/** The days of a reminder are counted from when there was first something to lose. Failing that, later: no trouble. */
export async function markFirst(desk: Desk): Promise<void> {
  const { backup, facts, jobs } = desk.store.getState()
  if (backup !== null || (jobs.length === 0 && facts.length === 0)) return
  await mark(desk, false).catch(() => undefined)
}
