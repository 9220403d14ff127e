/** How safe, and how full, the place is where this browser keeps the page's data. Null where it does not say. */
export interface Room {
  /** The browser will not clear it by itself when it runs short of room. */
  readonly lasting: boolean | null
  /** Bytes. */
  readonly used: number | null
  /** Bytes that the browser would give at most. */
  readonly most: number | null
  /** Why no second copy is kept beside the database; null where one is. */
  readonly uncopied: string | null
}

/** Asks the browser. Never rejects: a browser that does not answer knows nothing. */
export async function lookAtRoom(): Promise<Omit<Room, 'uncopied'>> {
  const storage = globalThis.navigator?.storage
  const quiet = async <T>(ask: (() => Promise<T>) | undefined): Promise<T | null> => {
    try {
      return ask ? await ask() : null
    } catch {
      return null
    }
  }
  const lasting = await quiet(storage?.persisted && (() => storage.persisted()))
  const estimate = await quiet(storage?.estimate && (() => storage.estimate()))
  return { lasting, used: estimate?.usage ?? null, most: estimate?.quota ?? null }
}
