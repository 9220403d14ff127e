import { Workbox } from 'workbox-window'

/**
 * `none`: this is the newest version that was seen.
 * `waiting`: a newer one is stored and waits to be let in.
 * `replaced`: another tab let it in; this tab still runs the old one until it reloads.
 */
export type UpdateState = 'none' | 'waiting' | 'replaced'

export interface Updates {
  state(): UpdateState
  /** Calls back after each change of state; gives back the function that ends it. */
  subscribe(listener: () => void): () => void
  /** Lets the waiting version in, then reloads this page. Does nothing in state `none`. */
  accept(): void
}

const CHECK_EVERY_MS = 60 * 60 * 1000

/**
 * Registers the service worker and watches for new versions. The page is never reloaded unless `accept`
 * was called. Where there is no service worker (development, an old browser, a page not served from
 * localhost or https) the state stays `none` and the app runs from the server.
 */
export function watchUpdates(): Updates {
  let state: UpdateState = 'none'
  let accepted = false
  const listeners = new Set<() => void>()
  const become = (next: UpdateState) => {
    state = next
    for (const listener of listeners) listener()
  }

  const container = import.meta.env.PROD ? navigator.serviceWorker : undefined
  const workbox = container && new Workbox('./sw.js', { updateViaCache: 'none' })

  if (container && workbox) {
    workbox.addEventListener('waiting', () => become('waiting'))

    // The first worker to take this page over replaces nothing.
    let controlled = container.controller !== null
    container.addEventListener('controllerchange', () => {
      if (accepted) location.reload()
      else if (controlled) become('replaced')
      controlled = true
    })

    // A tablet at the saw stays open for weeks: look again whenever it is woken, and hourly.
    // With no network the look fails, which is the normal case here and no error.
    const look = () => workbox.update().catch(() => undefined)
    workbox.register({ immediate: false }).then(
      () => {
        setInterval(look, CHECK_EVERY_MS)
        document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && look())
        addEventListener('online', look)
      },
      (error: unknown) => console.warn('No offline copy could be kept:', error),
    )
  }

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    accept() {
      if (state === 'none') return
      if (state === 'replaced') return location.reload()
      accepted = true
      workbox?.messageSkipWaiting()
    },
  }
}
