import { useApp } from '../app.ts'
import { Rescue } from '../shell/rescue.tsx'
import { count } from '../words.ts'

/** What a row is, as the person knows it. */
const rowWords: Readonly<Record<string, string>> = {
  jobs: 'A job',
  job: 'A job',
  shop: 'The figures of the shop',
  rivals: 'A second version of a job or the shop',
  facts: 'An entry of the log',
  nests: 'A layout of sticks',
}

/** The first reason is enough for a person; the rescue file has the whole row. */
const inShort = (why: string): string => {
  const first = why.split(/(?<=[.)]) /)[0] ?? why
  return first.length > 160 ? `${first.slice(0, 160)}…` : first
}

/** What stands on the disk and cannot be read: it is left as it is, and said. */
export function Unread() {
  const unread = useApp((state) => state.unread)
  if (!unread || unread.length === 0) return null
  return (
    <details className="warning">
      <summary>
        {count(unread.length, 'entry', 'entries')} on this device cannot be read.{' '}
        {unread.length === 1 ? 'It is kept as it is.' : 'They are kept as they are.'}
      </summary>
      <ul className="plain-list">
        {unread.map(({ store, key, why }) => (
          <li key={`${store} ${key}`}>
            {rowWords[store] ?? store} ({key}): {inShort(why)}
          </li>
        ))}
      </ul>
      <p>Everything else works as before. Save a rescue file: it holds these entries too, as they are.</p>
      <Rescue />
    </details>
  )
}
