import { bad, good, type Result } from '../../core/result.ts'

const format = 'tube-backup'
const version = 1

/** One file that holds the job files of a whole device, each with shop, nests and facts. */
export const writeBackup = (files: readonly string[]): string =>
  `${JSON.stringify({ format, version, files: files.map((text) => JSON.parse(text) as unknown) }, null, 1)}\n`

/**
 * The texts of the job files in a backup; a single job file is a backup of one. What is inside is not looked at
 * here: every text still goes through the one door.
 */
export function readBackup(text: string): Result<readonly string[]> {
  let outer: unknown
  try {
    outer = JSON.parse(text)
  } catch {
    return bad('backup-not-json', 'This is no backup: it is not JSON text.')
  }
  const file = outer as { format?: unknown; version?: unknown; files?: unknown } | null
  if (file?.format !== format) return good([text])
  if (file.version !== version)
    return bad(
      'backup-version',
      `This backup is of version ${JSON.stringify(file.version)}; this program reads version ${version}. Nothing was changed.`,
    )
  if (!Array.isArray(file.files)) return bad('backup-files', 'This backup holds no list of files.')
  return good(file.files.map((one) => JSON.stringify(one)))
}
