import type { Opened } from '../../app/state.ts'
import { count } from '../words.ts'

/** What came of a backup, in lines for the person. `name` of its file. */
export function backupWords(name: string, opened: Opened): readonly string[] {
  const { jobs, ownShop, rivals, left, problems } = opened
  if (problems.length > 0) return problems.map(({ text }) => `${name}: ${text}`)
  return [
    `${count(jobs.length, 'job')} opened from ${name}.`,
    ...(ownShop ? ['The shop in it is another one; the shop on this device stays as it is.'] : []),
    ...(rivals.length > 0
      ? [`Two versions are now here of: ${rivals.join(', ')}. Choose under Jobs which one stands.`]
      : []),
    ...(left.length > 0
      ? [`${count(left.length, 'row')} of it cannot be read and stayed in the file: ${left[0]}`]
      : []),
  ]
}
