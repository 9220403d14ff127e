import { useState, useSyncExternalStore } from 'react'
import { useActions, useApp } from '../app.ts'
import { hrefOf } from './route.ts'

/** What main.tsx knows of new versions. */
export interface Updates {
  state(): 'none' | 'waiting' | 'replaced'
  subscribe(listener: () => void): () => void
  accept(): void
}

/** A new version waits until the person lets it in: it never comes in by itself in the middle of a cut. */
export function UpdateBanner({ updates }: { updates: Updates }) {
  const state = useSyncExternalStore(updates.subscribe, updates.state)
  if (state === 'none') return null
  return (
    <div className="banner" role="status">
      <p>A new version is ready</p>
      <button type="button" onClick={updates.accept}>
        Use it now
      </button>
    </div>
  )
}

/** The shop's own figures are damaged: other kerfs and stops stand in, which must not go unsaid at the saw. */
export function StartingShop() {
  const lost = useApp((state) => state.shopLost === true)
  if (!lost) return null
  return (
    <div className="banner trouble" role="alert">
      <p>
        <strong>Do not cut yet: </strong>
        the figures of this shop cannot be read, and those of a new shop stand in for them. Open a backup, or
        put units, saws and kerfs right in the Shop station.
      </p>
      <a className="button" href={hrefOf({ station: 'shop' })}>
        To the Shop
      </a>
    </div>
  )
}

/** More letters than this would push the numbers of a saw below its keys, on a phone. */
const twoLines = 80

/**
 * A save or a read that failed: said until it succeeds or is put away. On a phone at the bench a long one is two lines
 * beside its key, below the keys of the saw, and read with one tap.
 */
export function TroubleBanner() {
  // Where nothing could be read the page itself says why.
  const trouble = useApp((state) => (state.phase === 'failed' ? null : state.trouble))
  const { dismiss } = useActions()
  const [opened, setOpened] = useState<string | null>(null)
  if (trouble === null) return null
  const folded = trouble.length > twoLines && opened !== trouble
  return (
    <div className={folded ? 'banner trouble folded' : 'banner trouble'} role="alert">
      <p>
        <strong>Trouble: </strong>
        {trouble}
      </p>
      {folded && (
        <button type="button" className="unfold" onClick={() => setOpened(trouble)}>
          Read it
        </button>
      )}
      <button type="button" className="put-away" onClick={dismiss}>
        I have read it
      </button>
    </div>
  )
}
