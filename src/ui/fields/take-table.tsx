import './take-table.css'
import { useState } from 'react'
import { fileName, saveFile } from './files.ts'
import { csvOf, plainOf, type TableOut } from './table-text.ts'

/**
 * Hands out a table that stands here: as text to paste, or as CSV for a spreadsheet. Closed until it is wanted. `name` of
 * the job, `what` of the table; the table is made when it is asked for.
 */
export function TakeTable({
  name,
  what,
  table,
}: {
  readonly name: string
  readonly what: string
  readonly table: () => TableOut
}) {
  const [open, setOpen] = useState(false)
  const [said, setSaid] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(plainOf(table()))
      setSaid('Copied.')
    } catch {
      setSaid('This browser does not let the page copy: save the CSV instead.')
    }
  }
  // The mark in front tells spreadsheets that it is UTF-8: without it they spoil ×, ½ and names.
  const save = () => saveFile(fileName(`${name} ${what}`, 'csv'), `\uFEFF${csvOf(table())}`, 'text/csv')
  return (
    <details className="take" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary className="take-key">Copy or save the {what}</summary>
      {open && (
        <div>
          <button type="button" aria-label={`Copy as text: the ${what}`} onClick={() => void copy()}>
            Copy as text
          </button>
          <button type="button" aria-label={`Save as CSV: the ${what}`} onClick={save}>
            Save as CSV
          </button>
          <span role="status">{said}</span>
        </div>
      )}
    </details>
  )
}
