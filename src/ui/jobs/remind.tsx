import type { Reminder } from '../../app/remind.ts'
import { useActions, useApp } from '../app.ts'
import { useSaveAll } from '../shop/save-all.ts'
import { count } from '../words.ts'

/** `3 jobs changed and 24 entries in the log since.` */
function since({ facts, documents }: Reminder): string {
  const parts = [
    documents > 0 ? `${count(documents, 'job')} changed` : '',
    facts > 0 ? `${count(facts, 'cut or entry', 'cuts and entries')} in the log` : '',
  ].filter((part) => part !== '')
  return `${parts.join(', ')} since.`
}

/** The last backup is old, or there never was one. */
export function Remind() {
  // Asked again whenever something was written.
  useApp((state) => state.facts)
  useApp((state) => state.jobs)
  useApp((state) => state.backup)
  useApp((state) => state.room)
  const { reminder } = useActions()
  const saveAll = useSaveAll()
  const due = reminder()
  if (!due) return null
  return (
    <div className="banner" role="status">
      <p>
        {due.days === null
          ? 'There is no backup yet: '
          : `The last backup is ${count(due.days, 'day')} old: `}
        {since(due)}
        {!due.lasting && ' This browser may clear what it keeps when the device runs short of room.'}
      </p>
      <button type="button" onClick={() => void saveAll()}>
        Save everything to a file
      </button>
    </div>
  )
}
