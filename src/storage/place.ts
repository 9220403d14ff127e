/** Somewhere beside the database where texts can be laid under names. Every promise may reject. */
export interface Place {
  names(): Promise<readonly string[]>
  /** Undefined where nothing of this name lies. */
  read(name: string): Promise<string | undefined>
  write(name: string, text: string): Promise<void>
  remove(name: string): Promise<void>
}

/**
 * The browser's cache storage: plain files of its own, which share nothing with the database but the disk and the
 * browser's word. Undefined where the browser has none: it gives it to safe addresses only (https, or this machine).
 */
export function cachePlace(name: string): Place | undefined {
  if (typeof caches === 'undefined') return undefined
  // Nobody asks the network for these addresses: they are names.
  const root = new URL('/second-copy/', globalThis.location?.origin ?? 'https://second-copy.invalid').href
  const open = () => caches.open(`${name} second copy`)
  return {
    names: async () =>
      (await (await open()).keys()).map(({ url }) => decodeURIComponent(url.slice(root.length))),
    read: async (of) => (await (await open()).match(root + encodeURIComponent(of)))?.text(),
    write: async (of, text) => (await open()).put(root + encodeURIComponent(of), new Response(text)),
    remove: async (of) => {
      await (await open()).delete(root + encodeURIComponent(of))
    },
  }
}
