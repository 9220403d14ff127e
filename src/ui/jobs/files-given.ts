import { useEffect, useRef } from 'react'

/** How a browser hands over files that were opened with the installed app. Not in the DOM's standard types yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files: readonly { getFile(): Promise<File> }[] }) => void): void
}

type Take = (text: string, name: string) => Promise<void>

/** Files that are dropped on the page, or opened with the installed app from the device's own list of files. */
export function useFilesGiven(take: Take): void {
  const latest = useRef(take)
  latest.current = take
  useEffect(() => {
    const give = async (files: Iterable<File>) => {
      for (const file of files) await latest.current(await file.text(), file.name)
    }
    const isFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true
    const over = (event: DragEvent) => {
      if (isFile(event)) event.preventDefault()
    }
    const drop = (event: DragEvent) => {
      if (!isFile(event)) return
      // Else the browser would leave the app and show the file.
      event.preventDefault()
      void give(event.dataTransfer?.files ?? [])
    }
    window.addEventListener('dragover', over)
    window.addEventListener('drop', drop)
    const queue = (window as { readonly launchQueue?: LaunchQueue }).launchQueue
    queue?.setConsumer(({ files }) => {
      void Promise.all(files.map((file) => file.getFile())).then(give)
    })
    return () => {
      window.removeEventListener('dragover', over)
      window.removeEventListener('drop', drop)
    }
  }, [])
}
