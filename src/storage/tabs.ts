/** Tells the other tabs of this browser that something was written; they then read again. */
export interface Tabs {
  tell(): void
  listen(listener: () => void): () => void
  close(): void
}

export function openTabs(name: string): Tabs {
  const listeners = new Set<() => void>()
  // Without it two tabs still keep everything: they only see each other's facts at the next start.
  const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(name)
  channel?.addEventListener('message', () => {
    for (const listener of [...listeners]) listener()
  })
  return {
    tell: () => channel?.postMessage('written'),
    listen(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    close() {
      listeners.clear()
      channel?.close()
    },
  }
}
