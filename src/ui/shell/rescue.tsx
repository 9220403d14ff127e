import { useState } from 'react'
import { useActions } from '../app.ts'
import { saveFile } from '../fields/files.ts'

/** A file of every row as it lies on the disk, also of those that nobody can read. */
export function Rescue() {
  const { rescue } = useActions()
  const [said, setSaid] = useState<string | null>(null)
  const save = async () => {
    try {
      saveFile('everything.tube-rescue.json', await rescue())
      setSaid('The rescue file was handed to the browser. Look that it is there, and keep it elsewhere.')
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error))
    }
  }
  return (
    <>
      <p className="keys-row">
        <button type="button" onClick={() => void save()}>
          Save a rescue file
        </button>
      </p>
      {said !== null && <p role="status">{said}</p>}
    </>
  )
}
