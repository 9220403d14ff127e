import { useActions } from '../app.ts'
import { saveFile } from '../fields/files.ts'

/** Hands the person one file with everything, and remembers when. */
export function useSaveAll(): () => Promise<void> {
  const { backup, backedUp } = useActions()
  return async () => {
    const text = backup()
    saveFile('shop-and-all-jobs.tube-backup.json', text)
    await backedUp(text)
  }
}
