import { useApp } from '../app.ts'
import { Rescue } from '../shell/rescue.tsx'
import { count } from '../words.ts'

/** What stands on the disk and cannot be read: it is left as it is, and said. */
export function Unread() {
  const unread = useApp((state) => state.unread)
  if (!unread || unread.length === 0) return null
  return (
    <details className="warning">
      <summary>
        {count(unread.length, 'entry', 'entries')} on this device cannot be read. They are kept as they are.
      </summary>
      <ul className="plain-list">
        {unread.map(({ store, key, why }) => (
          <li key={`${store} ${key}`}>
            {store}, {key}: {why}
          </li>
        ))}
      </ul>
      <p>Everything else works as before. Save a rescue file: it holds these entries too, as they are.</p>
      <Rescue />
    </details>
  )
}
