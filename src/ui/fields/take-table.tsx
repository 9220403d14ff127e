import { useState } from 'react'
import { fileName, saveFile } from './files.ts'
import { csvOf, plainOf, type TableOut } from './table-text.ts'

/** Buttons that hand out a table: as CSV for a spreadsheet, or as text to paste. `name` of the job, `what` of the table. */
export function TakeTable({
  name,
  what,
  table,
}: {
  readonly name: string
  readonly what: string
  readonly table: TableOut
}) {
  const [said, setSaid] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(plainOf(table))
      setSaid('Copied.')
    } catch {
      setSaid('This browser does not let the page copy: save the CSV instead.')
    }
  }
  return (
    <p className="keys-row">
      <button type="button" aria-label={`Copy as text: the ${what}`} onClick={() => void copy()}>
        Copy as text
      </button>
      <button
        type="button"
        aria-label={`Save as CSV: the ${what}`}
        onClick={() => saveFile(fileName(`${name} ${what}`, 'csv'), csvOf(table), 'text/csv')}
      >
        Save as CSV
      </button>
      {said !== '' && <span role="status">{said}</span>}
    </p>
  )
}
