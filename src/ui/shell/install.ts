import { useSyncExternalStore } from 'react'

/** The event by which some browsers let a page offer its own installing. Not in the DOM's standard types. */
interface InstallEvent extends Event {
  prompt(): Promise<unknown>
}

export interface Install {
  readonly installed: boolean
  /** `button`: the page can ask; `menu`: only the browser's own menu can; `none`: nothing to do. */
  readonly how: 'button' | 'menu' | 'none'
  install(): Promise<void>
}

let offered: InstallEvent | null = null
const listeners = new Set<() => void>()

// The offer comes once, soon after the page has loaded, long before anybody looks at the Shop station.
if (typeof window !== 'undefined') {
  const tell = (event: InstallEvent | null) => {
    offered = event
    for (const listener of listeners) listener()
  }
  window.addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault()
    tell(event as InstallEvent)
  })
  window.addEventListener('appinstalled', () => tell(null))
}

const subscribe = (listener: () => void) => {
  listeners.add(listener)
  return () => void listeners.delete(listener)
}

const isInstalled = (): boolean =>
  matchMedia('(display-mode: standalone)').matches ||
  (navigator as { readonly standalone?: boolean }).standalone === true

/** Whether the app is installed here, and how it can be. */
export function useInstall(): Install {
  const event = useSyncExternalStore(subscribe, () => offered)
  const installed = isInstalled()
  return {
    installed,
    how: installed ? 'none' : event ? 'button' : 'menu',
    async install() {
      await event?.prompt()
      offered = null
      for (const listener of listeners) listener()
    },
  }
}
