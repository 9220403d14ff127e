import { useActions } from '../app.ts'
import { saveFile } from '../fields/files.ts'

/** Hands the person one file with everything, and remembers when. */
export function useSaveAll(): () => Promise<void> {
  const { backup, backedUp } = useActions()
  return async () => {
    saveFile('shop-and-all-jobs.tube-backup.json', backup())
    await backedUp()
  }
}
