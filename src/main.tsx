import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import fiveSided from '../demo-data/five-sided-frame.json?raw'
import hexagon from '../demo-data/hexagon-top.json?raw'
import pedestal from '../demo-data/ten-sided-pedestal.json?raw'
import { makeApp } from './app/app.ts'
import { watchUpdates } from './pwa/register.ts'
import { openDisk } from './storage/disk.ts'
import { AppContext } from './ui/app.ts'
import { Shell } from './ui/shell/shell.tsx'
import { browserSolver } from './worker/client.ts'

// The composition root: the only file that sees every folder. What the app needs from outside is given here.

const jobName = (text: string): string => (JSON.parse(text) as { job: { name: string } }).job.name

/** SHA-256, hex. */
async function hash(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text))
  return [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}

const makeId = () => crypto.randomUUID().replaceAll('-', '').slice(0, 16)

const app = makeApp({
  disk: openDisk(),
  solver: browserSolver(),
  clock: { now: () => new Date().toISOString() },
  ids: { make: makeId },
  hash,
  // Until the shop says otherwise; the Shop station asks for it first.
  units: navigator.language === 'en-US' ? 'in' : 'mm',
  samples: [hexagon, pedestal, fiveSided].map((text) => ({ name: jobName(text), text })),
})

const root = document.getElementById('root')
if (root)
  createRoot(root).render(
    <StrictMode>
      <AppContext value={app}>
        <Shell updates={watchUpdates()} />
      </AppContext>
    </StrictMode>,
  )
void app.actions.open()
