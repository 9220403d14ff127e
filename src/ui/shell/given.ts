import { useEffect, useRef } from 'react'
import { go } from './route.ts'

/** How a browser hands over files that were opened with the installed app. Not in the DOM's standard types yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files: readonly { getFile(): Promise<File> }[] }) => void): void
}

type Take = (files: readonly File[]) => void

// Files dropped on the page, or opened with the installed app from the device's own list of files. They come whatever
// station is open: they wait here, and Jobs takes them.
let waiting: readonly File[] = []
let taker: Take | null = null

function give(files: readonly File[]): void {
  if (files.length === 0) return
  if (taker) taker(files)
  else {
    waiting = [...waiting, ...files]
    go({ station: 'jobs' })
  }
}

const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') === true

if (typeof window !== 'undefined') {
  window.addEventListener('dragover', (event) => {
    if (holdsFiles(event)) event.preventDefault()
  })
  window.addEventListener('drop', (event) => {
    if (!holdsFiles(event)) return
    // Else the browser would leave the app and show the file.
    event.preventDefault()
    give([...(event.dataTransfer?.files ?? [])])
  })
  const queue = (window as { readonly launchQueue?: LaunchQueue }).launchQueue
  queue?.setConsumer(({ files }) => {
    // A file that was moved meanwhile cannot be had: the others can.
    void Promise.allSettled(files.map((file) => file.getFile())).then((got) =>
      give(got.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))),
    )
  })
}

/** Takes all files that are given while this is on the screen, and those that wait. */
export function useFilesGiven(take: Take): void {
  const latest = useRef(take)
  latest.current = take
  useEffect(() => {
    const mine: Take = (files) => latest.current(files)
    taker = mine
    if (waiting.length > 0) {
      const files = waiting
      waiting = []
      mine(files)
    }
    return () => {
      if (taker === mine) taker = null
    }
  }, [])
}
