import { useSyncExternalStore } from 'react'
import { createRoot } from 'react-dom/client'
import { type Updates, watchUpdates } from './pwa/register.ts'

// Placeholder until the composition root and the stations stand here.
function Placeholder({ updates }: { updates: Updates }) {
  const state = useSyncExternalStore(updates.subscribe, updates.state)
  return (
    <main>
      <h1>Longpoint</h1>
      {state !== 'none' && (
        <p>
          A new version is ready{' '}
          <button type="button" onClick={updates.accept}>
            Use it now
          </button>
        </p>
      )}
    </main>
  )
}

const root = document.getElementById('root')
if (root) createRoot(root).render(<Placeholder updates={watchUpdates()} />)
