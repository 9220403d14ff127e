import type { Fact } from '../core/facts.ts'
import type { Shop } from '../core/shop.ts'
import type { BackupMark, Room } from './ports.ts'

/** Why a backup is asked for now. */
export interface Reminder {
  /** Whole days since the last one; null where there never was one. */
  readonly days: number | null
  /** Check-offs and steel booked since. */
  readonly facts: number
  /** Jobs (and the shop) changed since. */
  readonly documents: number
  /** The browser does not promise to keep what is here. */
  readonly lasting: boolean
}

/** Where the shop has not said: two weeks. */
export const usualBackupDays = 14

const day = 24 * 60 * 60 * 1000

/**
 * Whether the last backup is old: by the shop's choice, or after a day where the browser does not promise to keep what
 * is here. Nothing is said while nothing has changed since, nor where the shop wants no reminder. A clock that was set
 * back tells no age, so the reminder then comes.
 */
export function reminderOf(
  here: {
    readonly backup: BackupMark | null
    readonly room: Room | null
    readonly facts: readonly Fact[]
    readonly shop: Shop
    readonly documents: readonly string[]
  },
  now: string,
): Reminder | null {
  const { backup, room, facts, shop, documents } = here
  const every = shop.backupDays ?? usualBackupDays
  if (backup === null || every === 0) return null
  const known = new Set(backup.saved ? backup.documents : [])
  const since = {
    facts: Math.max(0, facts.length - (backup.saved ? backup.facts : 0)),
    documents: documents.filter((one) => !known.has(one)).length,
  }
  if (since.facts === 0 && since.documents === 0) return null
  const age = (Date.parse(now) - Date.parse(backup.at)) / day
  const lasting = room?.lasting === true
  const old = lasting || room === null ? every : Math.min(every, 1)
  if (age >= 0 && age < old) return null
  return { ...since, lasting, days: backup.saved && age >= 0 ? Math.floor(age) : null }
}
